"""How a command imports the modules of this program: each from its compiled file, where that is as old as the source
says. The library asks everyone who may know a module, looks for it in five forms and works out twice where its compiled
file lies, which was a fifteenth of what a short answer took. What isn't plainly as usual is left to it: what was never
compiled or changed since, what lies in an archive, what is checked by more than its age."""

from __future__ import annotations

import marshal
import os
import sys
from _frozen_importlib import ModuleSpec
from _frozen_importlib_external import MAGIC_NUMBER, SourceFileLoader, cache_from_source
from io import FileIO

from crib.light.hints import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Sequence
    from types import CodeType

_BY_AGE = MAGIC_NUMBER + bytes(4)
"""How a compiled file begins that is checked by its source's age and size, which follow."""

_INIT = "__init__"


class Loader(SourceFileLoader):
    """Loads a module of which the source was seen just now, by its compiled file."""

    def __init__(self, name: str, source: str, seen: os.stat_result, compiled: str) -> None:
        super().__init__(name, source)
        age, size = int(seen.st_mtime) & 0xFFFF_FFFF, seen.st_size & 0xFFFF_FFFF
        self._compiled, self._begins = compiled, _BY_AGE + age.to_bytes(4, "little") + size.to_bytes(4, "little")

    def get_code(self, fullname: str) -> CodeType | None:
        """What was compiled of it, or is now."""
        try:
            with FileIO(self._compiled) as file:
                data = file.readall()
        except OSError:
            return super().get_code(fullname)
        if not data.startswith(self._begins):
            return super().get_code(fullname)
        code: CodeType = marshal.loads(memoryview(data)[len(self._begins):])
        return code


class Finder:
    """Finds what lies in the packages of this program."""

    def find_spec(self, name: str, path: Sequence[str] | None = None, target: object = None) -> ModuleSpec | None:
        """Where a module is and what loads it; None where others are to look for it."""
        package, _, last = name.rpartition(".")
        its = sys.modules[package].__spec__ if path and name.startswith("crib.") else None
        if its is None or not path or not its.cached:
            return None
        before, _, behind = its.cached.rpartition(_INIT)  # its package was compiled into the same folder
        folder = f"{path[0]}{os.sep}{last}"
        return _spec(name, f"{folder}.py", f"{before}{last}{behind}") or _spec(
            name, source := f"{folder}{os.sep}{_INIT}.py", cache_from_source(source), folder)


def _spec(name: str, source: str, compiled: str, folder: str | None = None) -> ModuleSpec | None:
    """What a module is loaded by, or a package whose modules lie in a folder; None where there is no such source."""
    try:
        seen = os.stat(source)
    except OSError:
        return None
    spec = ModuleSpec(name, Loader(name, source, seen, compiled), origin=source, is_package=folder is not None)
    spec.has_location, spec.cached = True, compiled
    if folder is not None:
        spec.submodule_search_locations = [folder]
    return spec


def directly() -> None:
    """From now on the modules of this program are imported so."""
    sys.meta_path.insert(0, Finder())

"""This program's own modules, found where they lie: the library looks through each folder for every sort of file that a
module could be, which takes a quarter as long as to load and run them all.

What is found is what the library finds: a module or a package with its source in the package's folder. Compiled code is
read where it is that of this very source; all else, to compile it too, is left to the library.
"""

from __future__ import annotations

import os
import sys
from _frozen_importlib import ModuleSpec
from _frozen_importlib_external import MAGIC_NUMBER, SourceFileLoader, cache_from_source
from _imp import _fix_co_filename  # type: ignore[attr-defined]
from collections.abc import Sequence
from marshal import loads

from crib.light.hints import Any

_HEAD = MAGIC_NUMBER + bytes(4)
"""Compiled code begins so that says of which source it is by when that was written, and how long it is."""

_MOST = 1 << 16
"""No more of a file is read at once [bytes]."""

_OURS = f"{__name__.partition('.')[0]}."

_compiled: dict[str, tuple[str, str]] = {}
"""Of a folder what stands before the names of its modules, and after them, where their compiled code is kept."""


class _Loader(SourceFileLoader):
    """As the library's, with the code of a module that was read already."""

    code: Any = None

    def get_code(self, fullname: str) -> Any:
        """What the module's source is compiled to."""
        code, self.code = self.code, None
        return code or super().get_code(fullname)


class _Finder:
    """Where modules of this program are."""

    @staticmethod
    def find_spec(name: str, path: Sequence[str] | None = None, target: object = None) -> ModuleSpec | None:
        """Where a module is and what loads it; None where the library is to look for it."""
        if path is None or not name.startswith(_OURS):
            return None
        folder, module, within = path[0], name[name.rindex(".") + 1:], None
        source = f"{folder}{os.sep}{module}.py"
        try:
            its = os.stat(source)
        except OSError:
            folder = within = f"{folder}{os.sep}{module}"
            module, source = "__init__", f"{within}{os.sep}__init__.py"
            try:
                its = os.stat(source)
            except OSError:
                return None
        before, after = _compiled.get(folder) or _kept(folder)
        loader = _Loader(name, source)
        spec = ModuleSpec(name, loader, origin=source)
        spec.cached = f"{before}{module}{after}"
        spec.has_location = True
        if within is not None:
            spec.submodule_search_locations = [within]
        loader.code = _read(spec.cached, source, its)
        return spec


def _kept(folder: str) -> tuple[str, str]:
    """What stands before and after the name of a module of a folder where its compiled code is kept."""
    before, _, after = cache_from_source(f"{folder}{os.sep}?.py").rpartition("?")
    _compiled[folder] = before, after
    return before, after


def _read(place: str, source: str, its: os.stat_result) -> Any:
    """The compiled code that is kept at a place; None where it isn't surely that of the source as it is."""
    try:
        file = os.open(place, os.O_RDONLY | getattr(os, "O_BINARY", 0))
        try:
            kept = os.read(file, _MOST)
        finally:
            os.close(file)
        of = (int(its.st_mtime) & 0xFFFFFFFF).to_bytes(4, "little") + (its.st_size & 0xFFFFFFFF).to_bytes(4, "little")
        if kept[:8] != _HEAD or kept[8:16] != of:
            return None
        code = loads(memoryview(kept)[16:])
    except (OSError, EOFError, ValueError, TypeError):
        return None
    _fix_co_filename(code, source)
    return code


def find_our_own() -> None:
    """From now on this program's modules are looked for here first."""
    if _Finder not in sys.meta_path:
        sys.meta_path.insert(0, _Finder)

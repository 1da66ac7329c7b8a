"""Modules of this program, found and loaded at two thirds of the price: a quick answer loads three hundred of them,
which is a third of its time.

Where a module's code is compiled, and its source is as it was then, told as the library tells it, the code is read at
once. Whatever else is left to the library: what isn't compiled yet, and what isn't files in folders.
"""

from __future__ import annotations

import _imp
import os
import sys
from _frozen_importlib import ModuleSpec
from _frozen_importlib_external import MAGIC_NUMBER, SourceFileLoader
from collections.abc import Sequence
from marshal import loads
from types import CodeType

from crib.light.hints import Any

_fix: Any = vars(_imp)["_fix_co_filename"]

_MOST = 1 << 16
"""Bytes that are read of a file; a longer one is left to the library."""

_HEAD = MAGIC_NUMBER + bytes(4)
"""What code begins with that is as good as its source's time and length are."""


class _Loader(SourceFileLoader):
    """The library's, which is told the code."""

    told: CodeType | None = None

    def get_code(self, fullname: str) -> CodeType | None:
        """The code of a module; the first time as it was told."""
        code, self.told = self.told, None
        return code or super().get_code(fullname)


class _Finder:
    """Finds the program's modules in the folder of the package that they are in."""

    @staticmethod
    def find_spec(name: str, path: Sequence[str] | None, _: object = None) -> ModuleSpec | None:
        """Where a module is and who loads it; None: whoever is asked next may know."""
        if path is None or not name.startswith("crib."):
            return None
        folder = path[0] + os.sep + name[name.rindex(".") + 1:]
        source, is_package = folder + ".py", False
        try:
            made = os.stat(source)
        except OSError:
            source, is_package = f"{folder}{os.sep}__init__.py", True
            try:
                made = os.stat(source)
            except OSError:
                return None
        loader = _Loader(name, source)
        spec = ModuleSpec(name, loader, origin=source, is_package=is_package)
        spec.has_location = True
        if is_package:
            spec.submodule_search_locations = [folder]
        loader.told = _compiled(spec.cached, made, source)
        return spec if loader.told else None


def _compiled(file: str | None, made: os.stat_result, source: str) -> CodeType | None:
    """The code in a file of compiled code, if it is of the source that was made then."""
    if file is None:
        return None
    try:
        number = os.open(file, os.O_RDONLY | getattr(os, "O_BINARY", 0))
    except OSError:
        return None
    try:
        read = os.read(number, _MOST)
    finally:
        os.close(number)
    of_it = int(made.st_mtime).to_bytes(8, "little")[:4] + made.st_size.to_bytes(8, "little")[:4]
    if len(read) == _MOST or read[:16] != _HEAD + of_it:
        return None
    code: CodeType = loads(memoryview(read)[16:])
    if code.co_filename != source:
        _fix(code, source)
    return code


def install() -> None:
    """Have the program's modules found so from here on."""
    sys.meta_path.insert(0, _Finder)

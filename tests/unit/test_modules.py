"""The program's own way of finding its modules finds what the library's does, or nothing; what must hold is the
library's documentation of cached bytecode: https://docs.python.org/3/reference/import.html#cached-bytecode-invalidation
(from memory)."""

from __future__ import annotations

import os
import py_compile
import subprocess
import sys
from importlib.machinery import ModuleSpec, PathFinder
from importlib.util import module_from_spec
from pathlib import Path

import pytest

from crib.light.modules import _Finder

WAYS = {"_initializing", "_cached", "_uninitialized_submodules", "loader"}


@pytest.fixture
def source(tmp_path: Path) -> Path:
    """A module that is compiled."""
    file = tmp_path / "gear.py"
    file.write_text("TEETH = 32\n\ndef mesh():\n    return __name__\n", encoding="utf-8")
    py_compile.compile(str(file), doraise=True)
    return file


def found(folder: Path, name: str = "crib.gear") -> ModuleSpec | None:
    """What is found of a module there."""
    return _Finder.find_spec(name, [str(folder)])


def test_what_is_compiled_is_found_as_the_library_finds_it(source: Path) -> None:
    spec, usual = found(source.parent), PathFinder.find_spec("crib.gear", [str(source.parent)])
    assert spec is not None and usual is not None and spec.loader is not None
    assert spec == usual or {key: value for key, value in vars(spec).items() if key not in WAYS} == {
        key: value for key, value in vars(usual).items() if key not in WAYS}
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    assert (module.TEETH, module.mesh(), module.__file__) == (32, "crib.gear", str(source))
    assert module.__cached__ == usual.cached
    py_compile.compile(str(source), dfile="elsewhere.py", doraise=True)
    moved = found(source.parent)
    assert moved is not None and moved.loader is not None
    moved.loader.exec_module(module)
    assert module.mesh.__code__.co_filename == str(source)
    source.write_text("TEETH = 40\n\ndef mesh():\n    return __name__ + '!'\n", encoding="utf-8")
    spec.loader.exec_module(module)  # as when it is loaded anew: by the library, which sees that it is another
    assert (module.TEETH, module.mesh()) == (40, "crib.gear!")


def test_what_was_changed_since_is_left_to_the_library(source: Path) -> None:
    made = source.stat()
    source.write_text("TEETH = 33\n\ndef mesh():\n    return __name__\n", encoding="utf-8")
    os.utime(source, (made.st_atime, made.st_mtime + 2))
    assert found(source.parent) is None
    source.write_text("TEETH = 320\n\ndef mesh():\n    return __name__\n", encoding="utf-8")
    os.utime(source, (made.st_atime, made.st_mtime))
    assert found(source.parent) is None


def test_what_is_not_compiled_so_is_left_to_the_library(source: Path, tmp_path: Path) -> None:
    assert found(tmp_path, "crib.none") is None and found(tmp_path, "cribs.gear") is None
    assert _Finder.find_spec("crib.gear", None) is None
    (tmp_path / "plain.py").write_text("TEETH = 1\n", encoding="utf-8")
    (tmp_path / "bare").mkdir()
    assert found(tmp_path, "crib.plain") is None and found(tmp_path, "crib.bare") is None
    py_compile.compile(str(source), doraise=True, invalidation_mode=py_compile.PycInvalidationMode.CHECKED_HASH)
    assert found(tmp_path) is None
    compiled = Path(py_compile.compile(str(source), doraise=True) or "")
    compiled.write_bytes(b"\0\0\0\0" + compiled.read_bytes()[4:])
    assert found(tmp_path) is None
    compiled.write_bytes(b"")
    assert found(tmp_path) is None
    long = tmp_path / "long.py"
    long.write_text(f"WORDS = {'x' * 70_000!r}\n", encoding="utf-8")
    py_compile.compile(str(long), doraise=True)
    assert found(tmp_path, "crib.long") is None


def test_a_package_is_found_with_where_its_modules_are(tmp_path: Path) -> None:
    (tmp_path / "box").mkdir()
    file = tmp_path / "box" / "__init__.py"
    file.write_text("", encoding="utf-8")
    py_compile.compile(str(file), doraise=True)
    spec = found(tmp_path, "crib.box")
    assert spec is not None and spec.submodule_search_locations == [str(tmp_path / "box")]
    assert spec.origin == str(file) and spec.parent == "crib.box"


def test_no_module_has_the_name_of_a_package_beside_it() -> None:
    """The library takes the package, this finder the module."""
    root = Path(__file__).parents[2] / "crib"
    assert [one for one in root.rglob("*.py") if one.with_suffix("").is_dir()] == []


@pytest.mark.parametrize("prefix", [False, True])
def test_a_command_loads_its_modules_so(prefix: bool, tmp_path: Path) -> None:
    """Compiled once, they are read from where compiled code is kept; the answer is the same."""
    environment = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    environment |= {"PYTHONPATH": str(Path(__file__).parents[2])}
    if prefix:
        environment["PYTHONPYCACHEPREFIX"] = str(tmp_path / "compiled")
    code = ("import atexit, sys; from crib.light import modules\n"
            "atexit.register(lambda: print(sum(isinstance(one.__loader__, modules._Loader) for name, one in "
            "sys.modules.items() if name.startswith('crib.')) > 20, file=sys.stderr))\n"
            "sys.argv = ['crib', 'demo', '--into', sys.argv[1]]; from crib.cli import main; main()")
    done = [subprocess.run([sys.executable, "-c", code, str(tmp_path / one)], env=environment, capture_output=True,
                           text=True, timeout=60) for one in ("1.db", "2.db")]
    assert done[0].stdout.replace("1.db", "2.db") == done[1].stdout != "" and done[1].stderr.endswith("True\n")
    assert done[0].returncode == done[1].returncode

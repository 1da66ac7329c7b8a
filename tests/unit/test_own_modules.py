"""Modules that the program looks for itself are what the library would have found; compiled code that isn't that of
the source as it is now is never run."""

from __future__ import annotations

import os
import py_compile
import subprocess
import sys
from collections.abc import Callable
from importlib.machinery import ModuleSpec, PathFinder, SourceFileLoader
from importlib.util import cache_from_source
from pathlib import Path

import pytest

from crib.light import own_modules

ROOT = Path(__file__).parents[2]
FILES = sorted((ROOT / "crib").rglob("*.py"))
NAMES = [".".join(path.relative_to(ROOT).with_suffix("").parts).removesuffix(".__init__") for path in FILES
         if path.parent != ROOT / "crib" or path.stem != "__init__"]
NOW = "SAID = 'as it is now'\n"


def _found(name: str, folder: Path) -> ModuleSpec:
    spec = own_modules._Finder.find_spec(name, [str(folder)])
    assert spec is not None
    return spec


def _said(spec: ModuleSpec) -> str:
    """What the code that is loaded says."""
    told: dict[str, str] = {}
    assert isinstance(spec.loader, SourceFileLoader)
    code = spec.loader.get_code(spec.name)
    assert code is not None and code.co_filename == spec.origin
    exec(code, told)
    return told["SAID"]


@pytest.mark.parametrize("name", NAMES)
def test_a_module_is_found_where_the_library_finds_it(name: str) -> None:
    folder = ROOT.joinpath(*name.split(".")[:-1])
    ours, theirs = _found(name, folder), PathFinder.find_spec(name, [str(folder)])
    assert theirs is not None and isinstance(theirs.loader, SourceFileLoader)
    assert isinstance(ours.loader, SourceFileLoader)
    told = [(spec.name, spec.origin, spec.cached, spec.has_location, spec.submodule_search_locations, spec.parent)
            for spec in (ours, theirs)]
    assert told[0] == told[1]
    assert ours.loader.path == theirs.loader.path
    assert ours.loader.get_code(name) == theirs.loader.get_code(name)


def test_no_module_is_a_package_too() -> None:
    """The library would take the package, the program's own finder the module."""
    assert [path for path in FILES if path.with_suffix("").is_dir()] == []


@pytest.mark.parametrize("name", ["crib", "json.decoder", "crib.planning", "crib.no_such", "cribs.cutters"])
def test_all_else_is_left_to_the_library(name: str) -> None:
    assert own_modules._Finder.find_spec(name, [str(ROOT / "crib")]) is None
    assert own_modules._Finder.find_spec(name) is None


def _as_it_is(source: Path) -> None:
    """Its compiled code is kept."""


def _written_later(source: Path) -> None:
    os.utime(source, (source.stat().st_atime, source.stat().st_mtime + 2))


def _grown(source: Path) -> None:
    before = source.stat()
    source.write_text(f"{source.read_text(encoding='utf-8')}# more\n", encoding="utf-8")
    os.utime(source, (before.st_atime, before.st_mtime))


def _of_another_python(source: Path) -> None:
    kept = _kept(source)
    kept.write_bytes(b"\0\0\r\n" + kept.read_bytes()[4:])


def _by_its_contents(source: Path) -> None:
    py_compile.compile(str(source), invalidation_mode=py_compile.PycInvalidationMode.CHECKED_HASH)


def _of_another_file(source: Path) -> None:
    py_compile.compile(str(source), dfile="elsewhere.py")


def _long(source: Path) -> None:
    source.write_text(f"{NOW}REST = {'x' * own_modules._MOST!r}\n", encoding="utf-8")
    py_compile.compile(str(source))


def _not_kept(source: Path) -> None:
    _kept(source).unlink()


def _kept(source: Path) -> Path:
    return Path(cache_from_source(str(source)))


@pytest.mark.parametrize("happens", [_as_it_is, _written_later, _grown, _of_another_python, _by_its_contents,
                                     _of_another_file, _long, _not_kept])
def test_what_is_run_is_the_source_as_it_is(happens: Callable[[Path], None], tmp_path: Path) -> None:
    source = tmp_path / "told.py"
    source.write_text(NOW, encoding="utf-8")
    py_compile.compile(str(source))
    happens(source)
    spec = _found("crib.told", tmp_path)
    assert _said(spec) == "as it is now"
    assert _said(spec) == "as it is now", "asked again"


def test_compiled_code_of_an_older_source_is_not_run(tmp_path: Path) -> None:
    source = tmp_path / "told.py"
    source.write_text(NOW.replace("is now", "was before"), encoding="utf-8")
    py_compile.compile(str(source))
    source.write_text(NOW, encoding="utf-8")
    assert _said(_found("crib.told", tmp_path)) == "as it is now"


@pytest.mark.parametrize("options", [(), ("-O",), ("-OO",), ("-B",)])
def test_a_command_answers_however_python_is_called(options: tuple[str, ...], tmp_path: Path) -> None:
    """Its compiled code lies elsewhere for each, and none is there at first."""
    def told() -> str:
        return subprocess.run([sys.executable, *options, "-m", "crib", "demo"], capture_output=True, text=True,
                              check=True, cwd=ROOT, env=os.environ | {"PYTHONPYCACHEPREFIX": str(tmp_path)}).stdout

    first = told()
    assert "will do" in first and told() == first

"""How a command imports the program's modules: as the library does, which is the source of what is expected here."""

from __future__ import annotations

import os
import py_compile
import shutil
import subprocess
import sys
from importlib import import_module
from importlib.machinery import PathFinder, SourceFileLoader
from pathlib import Path

import pytest

from crib.light.imports import Finder, Loader
from tests.docs.console import ROOT
from tests.unit.test_every_module_loads import names


def test_every_module_is_found_and_read_as_the_library_does() -> None:
    for name in sorted(names() - {"crib"}):
        path = import_module(name.rpartition(".")[0]).__path__
        mine, its = Finder().find_spec(name, path), PathFinder.find_spec(name, path)
        assert mine and its and isinstance(mine.loader, Loader) and isinstance(its.loader, SourceFileLoader)
        assert [mine.name, mine.origin, mine.cached, mine.has_location, mine.submodule_search_locations] == [
            its.name, its.origin, its.cached, its.has_location, its.submodule_search_locations]
        assert mine.loader.get_code(name) == its.loader.get_code(name)


def test_no_module_is_called_as_a_package_beside_it() -> None:
    """Of the two the library takes the package."""
    assert not [path for path in (ROOT / "crib").rglob("*.py") if path.with_suffix("").is_dir()]


@pytest.mark.parametrize("name", ["crib", "json.decoder", "cribs.probe", "crib.no_such_file"])
def test_of_others_it_knows_nothing(name: str) -> None:
    assert Finder().find_spec(name, None if "." not in name else [str(ROOT / "crib")]) is None


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """A copy of what imports, with a module to be imported."""
    shutil.copytree(ROOT / "crib" / "light", tmp_path / "crib" / "light", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "crib" / "__init__.py", tmp_path / "crib")
    (tmp_path / "crib" / "probe.py").write_text("SAID = 'first'\n")
    return tmp_path


def said(copy: Path, **environment: str) -> list[str]:
    """What the module says, where it was compiled, and what loaded it."""
    code = ("from crib.light.imports import directly; directly(); from crib import probe; "
            "print(probe.SAID, probe.__cached__, type(probe.__loader__).__name__)")
    plain = {key: value for key, value in os.environ.items() if not key.startswith("PYTHON")}
    done = subprocess.run([sys.executable, "-c", code], cwd=copy, env=plain | environment, capture_output=True,
                          check=True, text=True, timeout=30)
    return done.stdout.split()


def test_what_was_never_compiled_is_compiled_and_kept(copy: Path) -> None:
    text, compiled, loader = said(copy)
    assert (text, loader) == ("first", "Loader") and Path(compiled).exists()


def test_nothing_is_kept_where_nothing_is_to_be(copy: Path) -> None:
    text, compiled, _ = said(copy, PYTHONDONTWRITEBYTECODE="1")
    assert text == "first" and not Path(compiled).exists()


@pytest.mark.parametrize("optimized", ["", "1"])
def test_compiled_files_may_lie_elsewhere(optimized: str, copy: Path) -> None:
    for _ in range(2):
        text, compiled, _ = said(copy, PYTHONPYCACHEPREFIX=str(copy / "elsewhere"), PYTHONOPTIMIZE=optimized)
        assert text == "first" and Path(compiled).is_relative_to(copy / "elsewhere") and Path(compiled).exists()
        assert (".opt-1." in compiled) == bool(optimized)


def test_what_changed_since_is_compiled_anew(copy: Path) -> None:
    """By its age where it is as long, by its length where it is as old."""
    said(copy)
    probe = copy / "crib" / "probe.py"
    probe.write_text("SAID = 'other'\n")
    os.utime(probe, (1_000_000_000, 1_000_000_000))
    assert said(copy)[0] == "other"
    probe.write_text("SAID = 'longer'\n")
    os.utime(probe, (1_000_000_000, 1_000_000_000))
    assert said(copy)[0] == "longer"


def test_what_is_checked_by_its_text_is_left_to_the_library(copy: Path) -> None:
    probe = copy / "crib" / "probe.py"
    for mode, expected in ((py_compile.PycInvalidationMode.CHECKED_HASH, "other"),
                           (py_compile.PycInvalidationMode.UNCHECKED_HASH, "first")):
        probe.write_text("SAID = 'first'\n")
        py_compile.compile(str(probe), invalidation_mode=mode, doraise=True)
        probe.write_text("SAID = 'other'\n")
        assert said(copy, PYTHONDONTWRITEBYTECODE="1")[0] == expected


def test_what_is_damaged_is_compiled_anew(copy: Path) -> None:
    compiled = Path(said(copy)[1])
    compiled.write_bytes(compiled.read_bytes()[:7])
    assert said(copy)[0] == "first"


def test_a_whole_command_imports_so() -> None:
    code = ("import sys, crib.cli; crib.cli._leave = lambda status: sys.exit(type(crib.cli.app.__loader__).__name__); "
            "sys.argv[1:] = ['--help']; crib.cli.main()")
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, timeout=30)
    assert done.stderr.strip() == "Loader"

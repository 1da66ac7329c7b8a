"""The wheel by itself: built, put into an empty environment with what it says that it needs to run and nothing for
tests, and asked from a folder that has nothing to do with the checkout. What it needs is lent by the environment of the
tests: to unpack it once more takes longer than all the rest."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import venv
import zipfile
from importlib.metadata import Distribution, PathDistribution, distribution, distributions
from pathlib import Path

import pytest
from packaging.requirements import Requirement

from tests.docs.console import ROOT

PIP = ("-m", "pip", "--disable-pip-version-check", "--quiet")


def run(*words: str | Path, folder: Path) -> str:
    """Run a program in a folder, with nothing of the checkout in its way; what it prints."""
    away = ("PYTHONPATH", "PYTHONHOME", "CRIB_DB", "CRIB_UNITS", "VIRTUAL_ENV")
    environment = {key: value for key, value in os.environ.items() if key not in away}
    environment |= {"XDG_DATA_HOME": str(folder / "data"), "COLUMNS": "100", "PYTHONIOENCODING": "utf-8"}
    done = subprocess.run([str(word) for word in words], cwd=folder, env=environment, capture_output=True, text=True,
                          encoding="utf-8", stdin=subprocess.DEVNULL, check=False)
    assert done.returncode == 0, f"{words}\n{done.stdout}{done.stderr}"
    return done.stdout


def needed(wheel: Distribution) -> set[str]:
    """The names of what a package says that it needs to run, and of what that needs in turn."""
    found: set[str] = set()
    waiting: list[tuple[Distribution, set[str]]] = [(wheel, set())]
    while waiting:
        one, extras = waiting.pop()
        for asked in map(Requirement, one.requires or ()):
            if asked.name not in found and (not asked.marker or any(
                    asked.marker.evaluate({"extra": extra}) for extra in ("", *extras))):
                found.add(asked.name)
                waiting.append((distribution(asked.name), asked.extras))
    return found


def lend(name: str, packages: Path) -> None:
    """Put what the tests run with into another environment, as it is."""
    own = distribution(name)
    for part in {file.parts[0] for file in own.files or () if file.parts[0] not in ("..", "__pycache__")}:
        if not (packages / part).exists():
            (packages / part).symlink_to(Path(str(own.locate_file(part))))


@pytest.mark.slow
def test_the_wheel_answers_by_itself(tmp_path: Path) -> None:
    source, elsewhere = tmp_path / "source", tmp_path / "elsewhere"
    elsewhere.mkdir()
    source.mkdir()
    for name in ("crib", "migrations", "sample_crib"):
        shutil.copytree(ROOT / name, source / name, ignore=shutil.ignore_patterns("__pycache__"))
    for name in ("pyproject.toml", "README.md", "LICENSE"):
        shutil.copy(ROOT / name, source)
    run(sys.executable, *PIP, "wheel", "--no-deps", "--wheel-dir", tmp_path, source, folder=elsewhere)
    [wheel] = tmp_path.glob("crib_advisor-*.whl")
    names = zipfile.ZipFile(wheel).namelist()
    assert {"crib/_migrations/env.py", "crib/_migrations/versions/0001_the_crib.py", "crib/_sample_crib/cutters.json"
            } <= set(names)
    assert {f"crib/web/{name}" for name in ("pages/base.html", "pages/answer.html", "static/bench.css",
                                            "static/bench.js")} <= set(names)
    assert not [name for name in names if name.startswith("tests")]
    venv.create(tmp_path / "venv")
    programs = tmp_path / "venv" / ("Scripts" if os.name == "nt" else "bin")
    inside = (sys.executable, *PIP, "--python", programs / "python")
    run(*inside, "install", "--no-compile", "--no-deps", wheel, folder=elsewhere)
    [packages] = (tmp_path / "venv").rglob("site-packages")
    for name in needed(PathDistribution(next(packages.glob("crib_advisor-*.dist-info")))):
        lend(name, packages)
    run(*inside, "check", folder=elsewhere)
    shown = run(programs / "crib", "demo", folder=elsewhere)
    assert "Answer: will do" in shown and "Proved: nothing left standing" in shown
    assert (elsewhere / "data" / "crib" / "demo.db").exists()
    found = run(programs / "crib", "--crib", "data/crib/demo.db", "find", "keyseat", folder=elsewhere)
    assert "keyseat cutter" in found
    installed = {one.name.lower() for one in distributions(path=[str(packages)])}
    assert "crib-advisor" in installed and not [name for name in installed if "pytest" in name or "numpy" in name]
    checked = tmp_path / "typed.py"
    checked.write_text(PROGRAM, encoding="utf-8")
    (elsewhere / "mypy.ini").write_text(OURS_ALONE, encoding="utf-8")
    run(sys.executable, "-m", "mypy", "--strict", "--no-incremental", "--python-executable", programs / "python",
        checked, folder=elsewhere)
    assert "1/4-20 UNC tap" in run(programs / "python", checked, folder=elsewhere)


PROGRAM = """\
from crib import gauge, open_crib

names: list[str] = [str(one.label) for one in gauge("tap", diameter=".25", tpi="20").candidates]
with open_crib("typed.db", create=True) as crib:
    print(names, crib.units)
"""
"""A program of somebody else, whom the package tells its types."""

OURS_ALONE = """\
[mypy]
[mypy-sqlalchemy.*,sqlmodel.*,pydantic.*,pydantic_core.*,alembic.*,typer.*,rich.*,starlette.*,jinja2.*]
follow_imports = skip
"""
"""What the package stands on needn't be looked through for what the package itself tells."""

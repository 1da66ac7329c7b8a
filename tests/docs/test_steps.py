"""The three lists of DEVELOPERS.md, followed to the letter in a copy of the program: one file and one line each."""

from __future__ import annotations

import json
import os
import re
import shutil
import subprocess
import sys
import textwrap
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

from crib.sample import questions
from tests.docs.console import ROOT

PAGE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")


def pieces(heading: str) -> list[tuple[str, str]]:
    """The code of a list: the file it is for, and what goes there."""
    section = PAGE.split(f"\n## {heading}\n")[1].split("\n## ")[0]
    found = re.findall(r"^ *```python\n(.*?)^ *```$", section, re.MULTILINE | re.DOTALL)
    parts = [textwrap.dedent(block).partition("\n") for block in found]
    return [(first.removeprefix("# "), rest) for first, _, rest in parts]


def put(copy: Path, path: str, code: str) -> None:
    """Write a new file, or add code to one; `NAME = (..., x)` adds x to the NAME that is there."""
    line = re.search(r"^(\w+) = \(\.\.\., (.+)\)$", code, re.MULTILINE)
    if line is None:
        assert not (copy / path).exists(), f"{path} is there already: the page needs another example"
        (copy / path).write_text(code, encoding="utf-8")
        return
    text = (copy / path).read_text(encoding="utf-8")
    there = re.search(rf"^({line[1]}\b[^\n]*?) = \((.*?),?\s*\)$", text, re.MULTILINE | re.DOTALL)
    assert there, f"{path} has no {line[1]}"
    now = f"{code[: line.start()]}{there[1]} = ({there[2]}, {line[2]})"
    (copy / path).write_text(text[: there.start()] + now + text[there.end() :], encoding="utf-8")


class Copy:
    """A copy of the program that can be changed, and a crib of one's own; what was compiled comes along."""

    def __init__(self, folder: Path, headings: tuple[str, ...] = ()) -> None:
        self.folder, self.own = folder, folder / "own.db"
        ignore = shutil.ignore_patterns("*.pyc.*")  # what another run is just writing
        for name in ("crib", "migrations", "sample_crib", "tests"):
            shutil.copytree(ROOT / name, folder / name, ignore=ignore)
        for heading in headings:
            self.follow(heading)

    def follow(self, heading: str) -> None:
        """Do what a list says."""
        for path, code in pieces(heading):
            put(self.folder, path, code)

    def crib(self, *words: str, status: int = 0) -> str:
        """What the copy prints."""
        return self._run("-m", "crib", *words, status=status)

    def tests(self, *words: str) -> str:
        """What the copy's own tests say."""
        return self._run("-m", "pytest", "-q", "-n", "0", "-p", "no:cacheprovider", *words)

    def python(self, code: str) -> str:
        """What a line of code prints in the copy."""
        return self._run("-c", code)

    def _run(self, *words: str, status: int = 0) -> str:
        environment = os.environ | {"PYTHONPATH": str(self.folder), "CRIB_DB": str(self.own),
                                    "COLUMNS": "100", "PYTHONIOENCODING": "utf-8"}
        done = subprocess.run([sys.executable, *words], cwd=self.folder, env=environment,
                              capture_output=True, text=True, encoding="utf-8", check=False)
        assert done.returncode == status, done.stdout + done.stderr
        return done.stdout


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Callable[..., Copy]:
    """A copy in which some lists were followed, made once for all who ask the same of it."""
    return cache(lambda *headings: Copy(tmp_path_factory.mktemp("copy"), headings))


@pytest.fixture
def followed(made: Callable[..., Copy], tmp_path: Path) -> Callable[..., Copy]:
    """A copy in which some lists were followed, with a crib of one's own."""
    def copy(*headings: str) -> Copy:
        one = made(*headings)
        one.own = tmp_path / "own.db"
        return one

    return copy


def test_a_list_is_one_file_and_one_line() -> None:
    for heading in ("Add a cutter kind", "Add a feature kind"):
        (file, _), (registry, line) = pieces(heading)
        assert file.endswith(".py") and registry.endswith("__init__.py")
        assert line.count("\n") == 1


def test_a_cutter_kind(followed: Callable[..., Copy]) -> None:
    """Taken in by words, it was a face mill; now it is itself, and whatever asks a kind finds it."""
    copy = followed("Add a cutter kind")
    said = copy.crib("take-in", "1-1/2 shell mill 3/4 face 1/2 bore")
    assert all("1-1/2 x 3/4 shell mill, 1/2 bore" in page for page in (said, copy.crib("find", "shell")))
    assert json.loads(copy.crib("find", "shell mill", "--json"))["cutters"][0]["kind"] == "shell-mill"
    plan = copy.crib("make", "step", "--width", "3/4", "--depth", "1/4", "--material", "mild steel")
    assert "no. 1, 1-1/2 x 3/4 shell mill" in plan and "Proved: nothing left standing" in " ".join(plan.split())
    assert "tand clear of a wide cutter's chips" in plan
    slot = copy.crib("make", "slot", "--width", "1/2", "--depth", "1/4", "--material", "mild steel", status=1)
    assert "1.500 across is more than the slot may be" in " ".join(slot.split())
    assert "1-1/2 shell mill" in copy.crib("gauge", "--diameter", "1.499")
    assert "shell-mill" in copy.crib("take-in", "--help")


def test_a_cutter_kind_is_drawn_and_offered(followed: Callable[..., Copy]) -> None:
    """Its outline is on its card, and it is offered where what it stands in for is called for."""
    copy = followed("Add a cutter kind")
    copy.crib("take-in", "1-1/2 shell mill 3/4 face 1/2 bore")
    drawn = copy.python("from crib.cutters import KINDS; from crib.pages.silhouette import silhouette; "
                        "print(silhouette(KINDS['shell-mill'].example).width)")
    assert drawn.strip() == "38.1"
    copy.crib("undo")
    offers = copy.crib("worth", "step", "--width", "3/4", "--depth", "1/4", "--material", "mild steel", "--price", "30",
                       "--json")
    assert "shell mill" in offers


def test_the_tests_take_a_new_kind_in(followed: Callable[..., Copy]) -> None:
    """What is tried on every kind is tried on it without another line."""
    copy = followed("Add a cutter kind", "Add a feature kind")
    assert "passed" in copy.tests("tests/unit/test_registry.py", "-k", "shell-mill or stepped-slot")
    assert "passed" in copy.tests("tests/property/test_every_kind.py", "-k", "stepped-slot")
    assert "shell-mill" in copy.python("from tests.kind_strategies import CUTTERS; print(*CUTTERS)")


def test_a_cutter_kind_whose_size_is_not_known(followed: Callable[..., Copy]) -> None:
    copy = followed("Add a cutter kind")
    copy.crib("take-in", "--kind", "shell-mill", "--diameter", "1-1/2", "--bore", "1/2")
    assert "mic the face" in copy.crib("find", "shell")
    assert "mic the face" in copy.crib("make", "step", "--width", "3/4", "--depth", "1", status=1)


def test_a_feature_kind(followed: Callable[..., Copy]) -> None:
    copy = followed("Add a feature kind")
    assert "--upper-width" in copy.crib("make", "stepped-slot", "--help")
    copy.crib("take-in", "--kind", "end-mill", "--diameter", "1/2", "--flutes", "2", "--shank", "1/2")
    sizes = ("--width", "1/2+.002-.002", "--depth", "1/2", "--upper-width", "3/4", "--upper-depth", "1/4")
    plan = copy.crib("make", "stepped-slot", *sizes, "--material", "mild steel")
    assert "Proved: nothing left standing, no gouge" in plan and "upper" in plan
    copy.crib("make", "stepped-slot", *sizes[:4], "--upper-width", "3/8", "--upper-depth", "1/4", status=2)


def test_a_craft_rule(followed: Callable[..., Copy]) -> None:
    """It speaks among all that is said of the sample's slide, and stands in both lists of what can be said."""
    copy = followed()
    copy.crib("demo", "--into", "bench.db")
    words = ("make", *questions()[0].make, "--all", "--crib", "bench.db")
    assert "look at its edges halfway" not in copy.crib(*words)
    copy.follow("Add a craft rule")
    assert "passes with 5/8 x 3/16 keyseat cutter: look at its edges halfway" in " ".join(copy.crib(*words).split())
    copy.python("import runpy; runpy.run_module('tests.docs.findings', run_name='__main__')")
    assert "passes with {cutter}: look at its edges halfway" in (
        copy.folder / "crib" / "findings" / "CATALOGUE.md").read_text(encoding="utf-8")

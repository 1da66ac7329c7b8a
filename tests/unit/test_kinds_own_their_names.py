"""A kind's name stands in its own file: whoever asks about a kind asks the kind. Counted in the source, as strings that
are equal to a name. `python -m tests.unit.test_kinds_own_their_names` shows what is left, place by place."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from collections import Counter
from collections.abc import Iterator
from pathlib import Path
from typing import NamedTuple

import pytest

from crib import cutters, features
from crib.cutters import KINDS, STAND_INS, told_apart
from crib.intake.shorthand import kinds as shorthand

CRIB = Path(cutters.__file__).parents[1]
OWN = {f"{folder}/{name.replace('-', '_')}.py": name for folder, kinds in (("cutters", KINDS),
                                                                           ("features", features.KINDS))
       for name in kinds}
NAMES = {*KINDS, *features.KINDS}

OTHER_THINGS = {
    ("__init__.py", "tap"): "what a program calls",
    ("app/gauge.py", "hole"): "the option --hole: what enters a thread",
    ("app/results.py", "hole"): "a note of what a hole measured",
    ("app/tap.py", "drill"): "the option --drill",
    ("buying/needs.py", "hole"): "a size: the hole that a counterbore goes on",
    ("cli/commands.py", "tap"): "a command",
    ("cli/meant.py", "tap"): "a command",
    ("cli/result.py", "hole"): "a command, and a note of what a hole measured",
    ("cutters/tap.py", "chamfer"): "a part of a tap",
    ("door.py", "tap"): "what a program calls",
    ("features/counterbore.py", "hole"): "a size: the hole that is there",
    ("features/down.py", "hole"): "a room",
    ("handbook/bands.py", "drill"): "a way to a hole",
    ("handbook/mates.py", "tap"): "a fit that is tapped home",
    ("handbook/threads/tables.py", "drill"): "a column of the table",
    ("handbook/threads/words.py", "drill"): "a word that says nothing of a thread",
    ("handbook/threads/words.py", "tap"): "a word that says nothing of a thread",
    ("intake/questions/values.py", "drill"): "what stands behind a drill's letter or number",
    ("intake/questions/vocabulary.py", "hole"): "a size: the hole that is there",
    ("intake/results.py", "drill"): "the option --drill",
    ("intake/results.py", "hole"): "the option --hole",
    ("intake/shop_settings.py", "facing"): "what a boring head does that feeds out by itself",
    ("intake/shorthand/labelled.py", "hole"): "a cutter's bore, as it is said",
    ("machining/words.py", "broach"): "a role",
    ("machining/words.py", "counterbore"): "a role",
    ("machining/words.py", "countersink"): "a role",
    ("machining/words.py", "drill"): "a role, and a way to a hole",
    ("machining/words.py", "hole"): "a way down",
    ("machining/words.py", "slot"): "a role",
    ("machining/words.py", "spotface"): "a role",
    ("machining/words.py", "tap"): "a role",
    ("machining/words.py", "undercut"): "a role",
    ("planning/parts/lacking.py", "tap"): "a sort of thing that a part lacks",
    ("render/json/part.py", "blank"): "the piece that a part is sawn as",
    ("pages/tap_page.py", "drill"): "the head of a column",
    ("pages/tap_page.py", "hole"): "the head of a column",
    ("render/html/setup_sheet.py", "step"): "one step of the set-up",
    ("rules/catalogue.py", "counterbore"): "a subject of the trade",
    ("rules/catalogue.py", "countersink"): "a subject of the trade",
    ("rules/catalogue.py", "facing"): "a subject of the trade",
    ("rules/catalogue.py", "pocket"): "a subject of the trade",
    ("rules/catalogue.py", "slit"): "a subject of the trade",
    ("rules/catalogue.py", "undercut"): "a subject of the trade",
    ("planning/gauging/dovetails.py", "dovetail"): "what it gauges: a slot that is there",
    ("planning/gauging/dovetails.py", "dovetail-slide"): "what it gauges: a slide that is there",
    ("web/tools.py", "drill"): "a field of the page",
    ("web/tools.py", "hole"): "a field of the page: what enters a thread",
    ("store/columns.py", "hole"): "a note of what a hole measured",
    ("store/notes.py", "hole"): "a note of what a hole measured",
}
"""Strings that happen to be a kind's name and mean something else."""

MAY = ("cutters", "features")
"""The folders whose files may name another kind: what is registered, and what a feature's rooms call for."""


class Place(NamedTuple):
    """Where a kind is named."""

    file: str
    line: int
    name: str


def places() -> Iterator[Place]:
    """Every string in the program that is equal to a kind's name, the kind's own file aside."""
    for path in sorted(CRIB.rglob("*.py")):
        file = path.relative_to(CRIB).as_posix()
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Constant) or not isinstance(node.value, str) or node.value not in NAMES:
                continue
            if OWN.get(file) != node.value and (file, node.value) not in OTHER_THINGS:
                yield Place(file, node.lineno, node.value)


def test_nothing_but_a_kind_names_a_kind() -> None:
    assert [place for place in places() if not place.file.startswith(tuple(f"{folder}/" for folder in MAY))] == []


def test_what_is_left_out_is_there() -> None:
    """A reason for a string that is gone would hide the next one."""
    for file, name in OTHER_THINGS:
        assert re.search(rf"['\"]{name}\b", (CRIB / file).read_text(encoding="utf-8")), (file, name)


def test_a_kind_is_in_the_file_of_its_name() -> None:
    assert all((CRIB / file).is_file() for file in OWN)


def test_every_file_with_a_kind_is_named_and_has_the_kind_of_its_name() -> None:
    """Kinds are loaded by their names when they are asked for: one that isn't named would never be found."""
    for folder, kinds in (("cutters", KINDS), ("features", features.KINDS)):
        written = {path.stem.replace("_", "-") for path in (CRIB / folder).glob("*.py")
                   if re.search(r"^KIND\b", path.read_text(encoding="utf-8"), re.MULTILINE)}
        assert written == {*kinds} and len(kinds) == len(written)
        assert all(kinds[name].name == name for name in kinds)
        assert "no-such-kind" not in kinds and kinds.get("no-such-kind") is None
    assert {*STAND_INS} >= {name for name, kind in KINDS.items() if kind.in_place_of}


def test_a_short_answer_loads_only_the_kinds_that_it_is_about(tmp_path: Path) -> None:
    """All of them take as long to load as half of the rest of a short answer."""
    asked = ("import sys\nfrom crib.store import open_crib\nfrom crib.cutters.base import Cutter\n"
             f"with open_crib({str(tmp_path / 'crib.db')!r}, create=True) as crib:\n"
             "    crib.take_in([Cutter(0, 'reamer', diameter_mm=6.35)])\n"
             "    print(crib.find(()).cutters[0].label, *(name for name in sys.modules if name in sys.argv))")
    files = [f"crib.{folder}.{name.replace('-', '_')}" for folder, kinds in (("cutters", KINDS),
                                                                            ("features", features.KINDS))
             for name in kinds]
    told = subprocess.run([sys.executable, "-c", asked, *files], capture_output=True, text=True, check=True).stdout
    assert told.split() == ["1/4", "reamer", "crib.cutters.reamer"]


@pytest.mark.parametrize("change", ["name", "words", "plural"])
def test_a_kind_that_is_registered_twice_is_an_error_that_names_both_files(change: str) -> None:
    """The later of two used to win without a word."""
    one, other = KINDS["face-mill"], KINDS["fly-cutter"]
    twin = type(one)(**{**vars(other), change: getattr(one, change)})
    with pytest.raises(ValueError, match=r"a\.py.* b\.py"):
        told_apart([("a.py", one), ("b.py", twin)])


def test_words_that_are_another_kinds_own_are_an_error_that_names_both(monkeypatch: pytest.MonkeyPatch) -> None:
    one, other = KINDS["reamer"], KINDS["fly-cutter"]
    grabbing = type(other)(**{**vars(other), "speech": type(other.speech)(names=(shorthand.Name("reamers?"),))})
    monkeypatch.setattr(shorthand, "KINDS", {"reamer": one, "fly-cutter": grabbing})
    with pytest.raises(ValueError, match=r"fly_cutter\.py.*reamer\.py"):
        shorthand.names.__wrapped__()


def main() -> None:
    """Print what is left, by folder and by place."""
    found = list(places())
    for folder, count in sorted(Counter(place.file.partition("/")[0] for place in found).items()):
        print(f"{count:4} {folder}")
    for place in found:
        print(f"{place.file}:{place.line} {place.name}")


if __name__ == "__main__":
    main()

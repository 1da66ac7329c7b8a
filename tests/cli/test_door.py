"""Programs ask by name and get what the command line prints."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

import crib as door
from crib.app.demo import texts_of
from crib.door import AskAnswer, WorthAnswer
from crib.sample import questions
from tests.cli.conftest import Crib

ASKED = [one.make for one in questions()]
TERMS = {"uses": "4", "hours": "6"}


@pytest.mark.parametrize("words", ASKED, ids=lambda words: f"{words[0]} {words[2]}")
def test_a_program_is_answered_as_the_command_line_is(crib: Crib, bench: Path, words: tuple[str, ...]) -> None:
    printed = crib("make", *words, "--json").json
    with door.open_crib(str(bench)) as there:
        answer = door.ask(there, words[0], **texts_of(words[1:]))
    assert answer.as_json() == printed and answer.answer == printed["answer"]


@pytest.mark.parametrize("units", ["in", "mm"])
def test_units_are_those_that_the_crib_was_opened_in(crib: Crib, bench: Path, units: str) -> None:
    size = {"in": ("1/2", "1/4"), "mm": ("12.7", "6.35")}[units]
    printed = crib("make", "slot", "--width", size[0], "--depth", size[1], "--units", units, "--json").json
    with door.open_crib(str(bench), units=units) as there:
        assert door.ask(there, "slot", width=size[0], depth=size[1]).as_json() == printed


def test_worth_answers_as_the_command_line_does(crib: Crib, bench: Path) -> None:
    words = ASKED[0]
    printed = crib("worth", *words, "--uses", "4", "--hours", "6", "--json").json
    with door.open_crib(str(bench)) as there:
        answer = door.worth(there, words[0], **(texts_of(words[1:]) | TERMS))
    assert isinstance(answer, WorthAnswer) and answer.as_json() == printed


def test_a_part_that_is_referred_is_not_weighed(crib: Crib, bench: Path) -> None:
    said = ("slot", "--width", "1/2", "--depth", "1/4", "--use", "lifting eye")
    printed = crib("worth", *said, "--json").json
    with door.open_crib(str(bench)) as there:
        answer = door.worth(there, "slot", width="1/2", depth="1/4", use="lifting eye")
    assert isinstance(answer, AskAnswer) and answer.answer == "refer" and answer.as_json() == printed


def test_tap_and_gauge_answer_as_the_command_line_does(crib: Crib, bench: Path) -> None:
    printed = crib("tap", "1/4-20", "--depth", "1/2", "--through", "--class", "2B", "--json").json
    with door.open_crib(str(bench)) as there:
        assert door.tap(there, "1/4-20", depth="1/2", through=True, class_name="2B").as_json() == printed
    printed = crib("gauge", "--kind", "tap", "--diameter", ".250", "--tpi", "20", "--json").json
    assert door.gauge("tap", diameter=".250", tpi="20").as_json() == printed


def test_questions_are_remembered_where_that_is_wanted(crib: Crib, bench: Path) -> None:
    """A program may ask a thousand times; what the owner asked isn't buried under that."""
    with door.open_crib(str(bench)) as there:
        door.ask(there, "slot", width="1/2", depth="1/4")
        assert crib("asked", "--json").json["questions"] == []
        door.ask(there, "slot", width="1/2", depth="1/4", remember=True)
    [question] = crib("asked", "--json").json["questions"]
    assert question["texts"] == {"width": "1/2", "depth": "1/4"}


@pytest.mark.parametrize("kind, texts, what", [
    ("slott", {}, "'slott' is not a kind of feature"),
    ("taper-hole", {}, "a taper-hole can't be asked yet"),
    ("slot", {"widht": "1/2", "depth": "1/4"}, "a slot isn't asked with 'widht'"),
    ("slot", {"width": 0.5, "depth": "1/4"}, "width 0.5 isn't a text"),
    ("slot", {"width": "1/2/3", "depth": "1/4"}, "width '1/2/3' is not a length"),
    ("slot", {"depth": "1/4"}, "needs its width"),
])
def test_what_cannot_be_asked_says_why(bench: Path, kind: str, texts: dict[str, Any], what: str) -> None:
    """A name that no option has was passed over in silence by what reads questions."""
    with door.open_crib(str(bench)) as there, pytest.raises(door.CribError) as raised:
        door.ask(there, kind, **texts)
    assert what in raised.value.finding.says and raised.value.finding.fix


def test_a_crib_that_is_not_there_says_so(tmp_path: Path) -> None:
    with pytest.raises(door.CribError, match="there is no crib"):
        door.open_crib(str(tmp_path / "none.db"))
    with pytest.raises(door.CribError, match="neither in nor mm"):
        door.open_crib(str(tmp_path / "none.db"), units="cm")
    with door.open_crib(str(tmp_path / "new.db"), create=True) as there:
        assert there.cutters() == []


def test_the_door_is_opened_by_who_goes_through_it() -> None:
    """Importing the package alone imports nothing of it, and the door is there for who looks."""
    code = ("import sys; before = set(sys.modules); import crib; "
            "loaded = {name for name in set(sys.modules) - before if name.startswith('crib')}; "
            "assert loaded == {'crib'}, loaded; assert set(crib.__all__) <= set(dir(crib)); "
            "assert not hasattr(crib, 'no_such_thing'); assert callable(crib.ask)")
    subprocess.run([sys.executable, "-c", code], check=True)

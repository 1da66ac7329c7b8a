"""What people say at the prompt to put a line right, as a newcomer's hour heard it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from crib.cli.first_page import first_page
from crib.cli.prompt import _WELCOME
from crib.intake.session import Session
from crib.intake.shorthand import Shop
from crib.store import Crib, open_crib


@pytest.fixture
def crib(tmp_path: Path) -> Iterator[Crib]:
    with open_crib(str(tmp_path / "crib.db"), create=True) as crib:
        yield crib


@pytest.fixture
def session(crib: Crib) -> Session:
    return Session(crib, Shop(), joins=True)


@pytest.mark.parametrize("said", ["forget that one", "forget it", "scratch that one", "take that one back",
                                  "never mind", "delete the last one", "no, scratch that",
                                  "take out the last", "cancel that."])
def test_a_line_is_taken_back_as_people_say_it(session: Session, crib: Crib, said: str) -> None:
    """`forget that one` was held back as a cutter without a kind, and what should go stayed in the crib."""
    session.say("1/4 reamer")
    assert session.say(said).says.startswith("taken back")
    assert not crib.cutters() and not crib.held_back()


def test_several_lines_are_taken_back_as_people_say_it(session: Session, crib: Crib) -> None:
    """`take out the last two` was held back, where `undo the last two` was understood."""
    for line in ("1/4 reamer", "3/8 reamer", "1/2 reamer"):
        session.say(line)
    session.say("take out the last two")
    assert [cutter.diameter_mm for cutter in crib.cutters()] == [6.35]


@pytest.mark.parametrize("right", ["no, drawer 3", "make that drawer 3", "I meant drawer 3", "oops, drawer 3"])
def test_the_drawer_put_right_holds_for_what_follows(session: Session, crib: Crib, right: str) -> None:
    """`drawer 2`, then `no, drawer 3`: only the cutter before moved, and all that followed still went into 2."""
    for line in ("#7 drill", "drawer 2", right, "3/8 reamer"):
        session.say(line)
    assert [cutter.drawer for cutter in crib.cutters()] == ["3", "3"]


def test_the_drawer_put_right_leaves_a_cutter_that_has_its_own(session: Session, crib: Crib) -> None:
    """What the running drawer didn't touch isn't touched by putting it right; undo brings the first one back."""
    for line in ("#7 drill drawer 1", "drawer 2", "no, drawer 3", "3/8 reamer", "undo", "undo", "1/4 reamer"):
        session.say(line)
    assert [cutter.drawer for cutter in crib.cutters()] == ["1", "2"]


def test_a_correction_after_a_cutter_is_the_cutters_own(session: Session, crib: Crib) -> None:
    """`no, drawer 3` behind a cutter speaks of that cutter, whatever drawer holds for all."""
    for line in ("drawer 2", "#7 drill", "no, drawer 3", "3/8 reamer"):
        session.say(line)
    assert [cutter.drawer for cutter in crib.cutters()] == ["3", "2"]


@pytest.mark.parametrize(("before", "said"), [
    ("3/4 dovetail cutter 60 degrees", "wrong, it's 45 degree"), ("1/2 end mill 2 flute", "another one but 1/4")])
def test_little_words_are_no_note(session: Session, crib: Crib, before: str, said: str) -> None:
    """`it's` and `but` were noted on the cutter."""
    session.say(before)
    session.say(said)
    assert not crib.cutters()[-1].note


def test_the_first_screens_fit_80_columns_and_say_where_to_begin() -> None:
    """The prompt's help ran over the edge of a terminal; the list of commands, longer than a screen, ended without a
    word on which of thirty comes first."""
    assert all(len(line.format(units="inches")) <= 80 for line in _WELCOME)
    end = first_page(80).splitlines()[-4:]
    assert all(len(line) <= 80 for line in end) and "crib take-in" in " ".join(end) and "crib demo" in " ".join(end)

"""What people say at the prompt to put a line right, as a newcomer's hour heard it."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from crib.cli.first_page import first_page
from crib.cli.prompt import _WELCOME
from crib.intake.shorthand import Shop
from crib.intake.talk.session import Session
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


@pytest.mark.parametrize("said", ["tapered reamer 1/4 ft", "taper reamer 1/4 in/ft", "taper reamer .250 tpf",
                                  "reamer 1/4 inch to the foot", "taper reamer taper per foot 1/4"])
def test_a_taper_to_the_foot_is_no_diameter(session: Session, crib: Crib, said: str) -> None:
    """`1/4 ft` was a reamer 1/4 across, and `ft` not used; the size that is said next is its diameter."""
    assert "to the foot" in session.say(said).says and not crib.cutters()
    session.say("1/2 dia")
    [reamer] = crib.cutters()
    assert reamer.diameter_mm == 12.7 and "to the foot" in (reamer.note or "")


def test_a_taper_to_the_foot_beside_a_size(session: Session, crib: Crib) -> None:
    """The other size is the diameter, in whatever order; a pin's number gives it too (1/4: ASME B18.8.2)."""
    for line in ("taper reamer 1/2 x 1/4 ft", "1/4 per foot taper reamer 1/2", "taper pin reamer #4 1/4 per foot"):
        session.say(line)
    assert [cutter.diameter_mm for cutter in crib.cutters()] == [12.7, 12.7, 6.35]


@pytest.mark.parametrize(("said", "condition"), [
    ("that saw is dull", "dull"), ("the saw is bent", "bent"), ("no, this slitting saw is chipped", "chipped")])
def test_the_cutter_before_by_its_kind(session: Session, crib: Crib, said: str, condition: str) -> None:
    """`that saw is dull` was held back as a saw without a size."""
    session.say("3 x 1/32 x 1 saw")
    session.say(said)
    assert [cutter.condition for cutter in crib.cutters()] == [condition] and not crib.held_back()


@pytest.mark.parametrize("before", [("1/2 drill",), ("3 x 1/32 x 1 saw", "blah 3/8"), ()])
def test_another_kind_than_the_cutter_before_is_asked(session: Session, crib: Crib, before: tuple[str, ...]) -> None:
    """Nothing changes where the cutter before is no saw, or was held back."""
    for line in before:
        session.say(line)
    assert "which slitting saw?" in session.say("that saw is dull").says
    assert all(cutter.condition == "unknown" for cutter in crib.cutters())


@pytest.mark.parametrize("said", ["no not cobalt, high speed steel", "no, hss, not cobalt", "it's hss not cobalt"])
def test_what_it_is_instead_leaves_no_question(session: Session, crib: Crib, said: str) -> None:
    """`not cobalt, high speed steel` was hss and asked all the same which it was."""
    session.say("1/2 cobalt drill")
    session.say(said)
    [drill] = crib.cutters()
    assert drill.material == "hss" and not drill.questions


@pytest.mark.parametrize(("said", "many"), [
    ("actually just the one", 1), ("just the one", 1), ("no, only two", 2), ("make that three", 3),
    ("there's just the one", 1), ("no just one of them", 1)])
def test_how_many_there_are(session: Session, crib: Crib, said: str, many: int) -> None:
    """`just the one` was the number 1: of a Woodruff, or the drill #1."""
    session.say("1/2 drill x4")
    session.say(said)
    assert [(cutter.count, cutter.diameter_mm) for cutter in crib.cutters()] == [(many, 12.7)]


@pytest.mark.parametrize("said", ["what have I got", "what drills have I got?", "how many end mills do I have",
                                  "where is the 1/2 drill", "what's in drawer 3?", "have I got a 1/2 drill"])
def test_a_question_is_no_cutter(session: Session, crib: Crib, said: str) -> None:
    """`what drills have I got` was a letter I drill, `what have I got` a line held back."""
    assert "crib find" in session.say(said).says and not crib.cutters() and not crib.held_back()


def test_broken_is_a_word_of_its_own(session: Session) -> None:
    """It was told as read as `broke`."""
    assert "read as" not in session.say("5/16 drill broken").says


@pytest.mark.parametrize("said", ["same again for half inch", "same but 1/2", "another one", "just the one"])
def test_what_speaks_of_a_line_that_was_held_back(session: Session, crib: Crib, said: str) -> None:
    """It spoke of the cutter before that line, in silence."""
    for line in ("1/4 drill x2", "blah 3/8"):
        session.say(line)
    assert "the line before it was held back" in session.say(said).says
    assert [cutter.count for cutter in crib.cutters()] == [2]


def test_what_was_said_in_vain_of_a_cutter_is_no_cutter(session: Session, crib: Crib) -> None:
    """A correction that can't be read stands between nothing: the cutter is still the one before."""
    for line in ("1/4 drill x2", "no, blah", "just the one", "another one"):
        session.say(line)
    assert [cutter.count for cutter in crib.cutters()] == [1, 1]


def test_the_first_screens_fit_80_columns_and_say_where_to_begin() -> None:
    """The prompt's help ran over the edge of a terminal; the list of commands, longer than a screen, ended without a
    word on which of thirty comes first."""
    assert all(len(line.format(units="inches")) <= 80 for line in _WELCOME)
    end = first_page(80).splitlines()[-4:]
    assert all(len(line) <= 80 for line in end) and "crib take-in" in " ".join(end) and "crib demo" in " ".join(end)


@pytest.mark.parametrize(("said", "sizes"), [
    ("1 quarter inch drill", ("1/4", "1-1/4")), ("3 quarter drill", ("3/4", "3-1/4", "3 of 1/4")),
    ("5 sixteenth reamer", ("5/16", "5-1/16", "5 of 1/16"))])
def test_a_figure_before_one_part_is_asked_about(session: Session, crib: Crib, said: str,
                                                 sizes: tuple[str, ...]) -> None:
    """As programs that take dictation write a fraction: `1 quarter inch drill` was 1-1/4 in silence."""
    says = session.say(said).says
    assert all(one in says for one in sizes) and not crib.cutters()


def test_a_figure_with_its_parts_is_the_fraction(session: Session, crib: Crib) -> None:
    for line in ("3 eighths drill", "drawer 3", "5 sixteenths drill", "quarter inch drill"):
        session.say(line)
    assert [cutter.diameter_mm for cutter in crib.cutters()] == [9.525, 7.9375, 6.35]

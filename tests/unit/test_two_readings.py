"""Lines of shorthand that could be read in two ways: what is said twice, what a mark contradicts, what was measured."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.intake.shorthand import Line, Shop, read_line

INCH = 25.4


def read(text: str) -> Line:
    return read_line(text, Shop())


def one(text: str) -> Cutter:
    [taken] = read(text).taken
    return taken.cutter


@pytest.mark.parametrize(
    "text",
    ["1/2 end mill 3/4 end mill", "1/2 em 3/4 em", "3/8 drill, 1/2 drill", "end mill 1/2, end mill 3/4",
     "1/2 and 3/4 end mill", "#7 drill and #8 drill"],
)
def test_two_cutters_in_a_line_are_not_one(text: str) -> None:
    """The second cutter's diameter was taken for the shank of the first, without a question."""
    line = read(text)
    assert not line.taken and "two cutters" in line.why and "a line for each" in line.help


@pytest.mark.parametrize(
    "text",
    ["1/2 end mill, 4 flute, 1/2 shank, hss end mill", "1/2 rougher, corncob end mill", "1-1/4 and 4 flute end mill",
     "1/2 x 1/2 x 1 x 3 end mill", "double ended 1/2 and 3/8 end mill"],
)
def test_a_kind_named_twice_is_still_one_cutter(text: str) -> None:
    assert len(read(text).taken) == 1


@pytest.mark.parametrize(("text", "key"), [("3/8 end mill 1/2 shank 3/4 shank", "shank_mm"),
                                           ("end mill 1/2 dia 3/4 dia", "diameter_mm")])
def test_a_size_that_is_said_twice_is_asked_about(text: str, key: str) -> None:
    """The second one was dropped, and nothing said so."""
    assert key in (read(text).asks or {})


def test_a_mark_and_the_sizes_that_it_stands_for() -> None:
    """`606 1/2` was read as a shank of 606-1/2, and the face was asked about though the mark has it.

    606: six eighths across, six 32nds wide (ANSI B17.2, Woodruff key numbers).
    """
    line = read("3/4 x 3/16 woodruff 606 1/2 shk")
    [taken] = line.taken
    cutter = taken.cutter
    assert (cutter.diameter_mm, cutter.face_mm, cutter.shank_mm) == (19.05, 4.7625, 12.7)
    assert cutter.marking == "606" and not line.asks
    assert {"diameter_mm", "face_mm"} <= set(cutter.stamped)


def test_a_mark_that_contradicts_the_sizes_is_asked_about() -> None:
    """A disc of 5/8 marked 606, which is 3/4, was said to measure 5/8, though nobody had measured it."""
    line = read("5/8 x 3/16 woodruff 606")
    assert "606 stands for 3/4 across, but 5/8 is said" in (line.asks or {})["diameter_mm"]
    assert "measures" not in label(line.taken[0].cutter, "in")
    assert "measures .745" in label(one("606 woodruff .745 measured"), "in")


def test_a_half_behind_a_mark_may_belong_to_it() -> None:
    """202-1/2 is a mark of its own (ANSI B17.2), 606 with a shank of 1/2 another."""
    assert "202-1/2" in read("202 1/2 woodruff").why
    assert one("202-1/2 woodruff").diameter_mm == pytest.approx(0.3125 * INCH)


@pytest.mark.parametrize("text", ["1/2 4fl endmill .498 actual reground", "1/2 4fl em reground, actual .498",
                                  "reground 1/2 em 4fl .498 actually", ".498 actual 1/2 em reground"])
def test_what_is_actual_was_measured(text: str) -> None:
    """`.498 actual` was asked about as a length of cut, and `actual` noted as a misspelt word."""
    line = read(text)
    [taken] = line.taken
    cutter = taken.cutter
    assert (cutter.nominal_mm, cutter.diameter_mm) == (12.7, pytest.approx(0.498 * INCH))
    assert cutter.measured == ("diameter_mm",) and cutter.reground
    assert cutter.note is None and not line.read_as and not line.asks


def test_a_size_a_hair_off_the_first_is_no_length_of_cut() -> None:
    """No end mill is as long as it is wide but for two thou; it is likelier what somebody measured."""
    line = read("1/2 2fl em .498")
    assert line.taken[0].cutter.length_of_cut_mm is None
    assert "measures across" in (line.asks or {})["diameter_mm"]


def test_what_was_said_is_not_typical() -> None:
    """Flutes that were said of a slot drill were recorded as typical of its kind."""
    assert one("1/4 2 flute slot drill centre cutting 5/8 loc").assumed == ()
    assert set(one("1/4 slot drill 5/8 loc").assumed) == {"flutes", "centre_cutting"}


@pytest.mark.parametrize("text", ["1/2 t slot cutter / 7/8 dia", "T slot cutter 7/8 dia, 1/2"])
def test_a_bolt_is_not_taken_for_a_face(text: str) -> None:
    """1/2 was held back as the name of a bolt, and became the face as soon as the diameter was said."""
    line = read(text)
    assert line.taken[0].cutter.face_mm is None and "bolt" in (line.asks or {})["face_mm"]
    assert one("T slot cutter 7/8 dia 1/4").face_mm == 6.35

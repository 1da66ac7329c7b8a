"""A place in words reads back as the same place, and leaves the rest of the line as it was."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.findings.errors import CribError
from crib.intake.place_in_words import in_words, read_lying
from crib.parts.part import Face, Part, Place, Runs, Stock
from crib.parts.placing import places_of

STOCK = Stock(200.0, 150.0, 120.0)
WIDE = {"left": 200.0, "right": 200.0, "front": 150.0, "back": 150.0, "top": 120.0, "bottom": 120.0}
"""From each side to the one opposite [mm]."""

ALONG = {face: ("front", "back") if face in ("left", "right") else ("left", "right") for face in Face}
ACROSS = {face: ("front", "back") if face in ("top", "bottom") else ("top", "bottom") for face in Face}
SIZES = {"in": [("1/4", 6.35), ("2-1/2", 63.5), (".75", 19.05), ("1", 25.4), ("12.5mm", 12.5), ("1 inch", 25.4)],
         "mm": [("25", 25.0), ("12.5", 12.5), ("7mm", 7.0), ("1/2 inch", 12.7)]}


@settings(max_examples=150, deadline=None)
@given(st.data(), st.sampled_from(["in", "mm"]), st.sampled_from([*Face]))
def test_a_place_in_words_is_that_place(data: st.DataObject, units: str, face: Face) -> None:
    """Counted by hand: from a far side it is what is left of the stock."""
    ways = data.draw(st.sampled_from([(0,), (1,), (0, 1), (1, 0)]))
    runs = data.draw(st.sampled_from([*Runs])) if len(ways) == 2 else (Runs.ALONG if ways == (1,) else Runs.ACROSS)
    at, words = [0.0, 0.0], []
    for way in ways:
        text, mm = data.draw(st.sampled_from(SIZES[units]))
        sides = (ALONG, ACROSS)[way][face]
        side = data.draw(st.sampled_from(sides))
        at[way] = mm if side == sides[0] else WIDE[side] - mm
        words.append(f"{text} from {data.draw(st.sampled_from(['the ', '']))}{side}")
    if face is not Face.TOP or data.draw(st.booleans()):
        words.append(f"{data.draw(st.sampled_from(['in', 'on']))} the {face}"
                     + (" end" if face in ("left", "right") else ""))
    if (len(ways) == 2 and runs is Runs.ACROSS) or data.draw(st.booleans()):
        words.append(f"{runs} it")
    line = ", ".join(["3/8 slot 1/4 deep", *data.draw(st.permutations(words))])
    found = read_lying(line, units)
    assert found.rest == "3/8 slot 1/4 deep"
    part = Part("p", STOCK, units=units, datum="back right")
    [place] = places_of(found.said, {}, part, units)
    assert place == Place(face, pytest.approx(at[0]), pytest.approx(at[1]), runs)
    assert read_lying(found.echo, units).said == found.said and read_lying(found.echo, units).rest == ""
    assert in_words(found.said) == found.echo


@pytest.mark.parametrize("line", [
    "1/2 slot 1/4 deep", "tapped hole 1/4-20 in left-hand thread", "1/2 in bottom radius", "chamfer on the front edge",
    "1/2 step on the left", "3/8 slot 1/8 deep across the flats"])
def test_what_is_no_place_stays(line: str) -> None:
    found = read_lying(line, "in")
    assert (found.rest, found.said, found.echo) == (line, {}, "")


@pytest.mark.parametrize(("line", "rest", "at"), [
    ("tapped hole 1/4-20 through at 1/2, 1-1/2", "tapped hole 1/4-20 through", "1/2, 1-1/2"),
    ("hole 1/4 1/2 deep at 12.5mm; 7 mm", "hole 1/4 1/2 deep", "12.5mm, 7 mm"),
    ("slot 3/8 wide at 3/4, 1/4 deep", "slot 3/8 wide at 3/4, 1/4 deep", None),
    ("slot 3/8 wide, 1/4 deep, at .75", "slot 3/8 wide, 1/4 deep", ".75"),
    ("at 2, 1 a hole 1/4", "at 2, 1 a hole 1/4", None),
    ("3 holes 1/4 at 45 degrees", "3 holes 1/4 at 45 degrees", None),
    ("6 holes at 1-1/2 centres", "6 holes at 1-1/2 centres", None)])
def test_a_place_by_sizes_alone_counts_as_the_option_does(line: str, rest: str, at: str | None) -> None:
    """It was asked what the size behind `at` is. What goes on behind it, as with `deep`, is no place."""
    found = read_lying(line, "in")
    assert (found.rest, found.said.get("at")) == (rest, at)
    if at:
        assert read_lying(found.echo, "in") == read_lying(f"{found.echo}, ", "in") != read_lying("", "in")
        assert read_lying(found.echo, "in").said == found.said


def test_both_ways_of_saying_it_are_told_twice() -> None:
    with pytest.raises(CribError, match="told twice"):
        read_lying("hole 1/4 at 1, 1 from the left", "in")

"""A mill with round corners that is told to leave too much at the sides of a floor ends no room there; what may do a
room, by the floor's radius or by its limits, is never told so."""

from __future__ import annotations

from collections import Counter

from hypothesis import given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.machining.methods import is_feasible
from crib.shop import Shop
from tests.property.test_methods import Asked, check, rooms_of
from tests.strategies import around, brief, shops

WIDE, DEEP = (6.0, 8.0, 10.0, 12.7), (1.5, 3.0, 5.0)
BANDS = (0.01, 0.05, 0.2, 0.6)
"""Half of a width's limits and of a depth's: a corner may lie in what needn't go [mm]."""


@st.composite
def rounded(draw: st.DrawFn) -> Asked:
    """A room with a floor, and some mills that are about as wide as it is, with corners of all sorts."""
    kind = draw(st.sampled_from(("slot", "step", "keyseat", "t-slot")))
    width, depth = draw(st.sampled_from(WIDE)), draw(st.sampled_from(DEEP))
    band, deep = draw(st.sampled_from(BANDS)), draw(st.sampled_from(BANDS))
    sizes = {"slot": {"width": around(width, band, band), "depth": around(depth, deep, deep)},
             "step": {"width": around(width, band, band), "depth": around(depth, deep, deep)},
             "keyseat": {"width": around(width, band, band), "depth": around(depth, deep, deep),
                         "shaft": around(30.0, 0.0, 0.0)},
             "t-slot": {"throat": around(width, band, band), "depth": around(depth + 4.0, deep, deep),
                        "head_width": around(width + 8.0, 0.2, 0.2), "head_height": around(4.0, 0.2, 0.2)}}[kind]
    floor = draw(st.sampled_from((0.0, 0.0, 0.2, 0.5, 1.0)))
    request = Request(kind, sizes, "mild steel", units="mm", floor_radius=floor)
    cutters = draw(st.lists(mills(width), min_size=1, max_size=4))
    return request, tuple(one.but(id=number) for number, one in enumerate(cutters, start=1)), draw(shops())


@st.composite
def mills(draw: st.DrawFn, width: float) -> Cutter:
    """An end mill with corners from a hair to a ball."""
    across = width * draw(st.sampled_from((0.5, 0.8, 1.0)))
    corner = draw(st.sampled_from((0.05, 0.2, 0.5, 1.0, across / 4, across / 2)))
    return Cutter(1, "end-mill", diameter_mm=across, corner_radius_mm=min(corner, across / 2), length_of_cut_mm=20.0,
                  shank_mm=12.0, flutes=4, condition="sharp", material="hss")


def test_who_is_told_to_leave_a_round_ends_no_room() -> None:
    seen: Counter[str] = Counter()

    @settings(max_examples=60)
    @given(rounded())
    def hold(asked: Asked) -> None:
        note(brief(*asked))
        for jobs, tool, room, allowed in rooms_of(asked):
            came = check(jobs, tool, room, allowed)
            if len(tool.form.sure) > 1:
                told = is_feasible(tool, jobs.question.outline, room, jobs.before(room), allowed)
                seen["told" if told is False and came == "in the way" else came] += 1

    hold()
    assert seen["told"] >= 20 and seen["done"] >= 20, seen


def test_a_ball_in_a_slot_is_told_without_its_passes() -> None:
    """A ball as wide as a slot leaves half of it at the floor; with a radius of as much there it may do it."""
    ball = Cutter(1, "end-mill", diameter_mm=6.0, corner_radius_mm=3.0, length_of_cut_mm=20.0, shank_mm=12.0, flutes=4,
                  condition="sharp", material="hss")
    sizes = {"width": around(6.0, 0.05, 0.05), "depth": around(5.0, 0.1, 0.1)}
    for floor, told in ((0.0, False), (3.1, None)):
        asked = Request("slot", sizes, "mild steel", units="mm", floor_radius=floor), (ball,), Shop(units="mm")
        assert {is_feasible(tool, jobs.question.outline, room, jobs.before(room), allowed)
                for jobs, tool, room, allowed in rooms_of(asked) if jobs.question.setup.name == "upright"} == {told}

"""One closed end: which way each wall is fed, what a step has beside it, and what slack in the screw forbids.

Conventional is where the wall that is cut is on the left hand of the cutter's travel over the work: geometry of a
right-hand cutter that turns clockwise seen from above."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest

from crib.cutters.base import Cutter
from crib.features.request import Request, Wall
from crib.planning.advise import advise
from crib.planning.told.passes import Pass
from crib.shop import Shop
from tests.spelt import spelt
from tests.unit.test_closed_ends import INCH, SHOP, disc, drill, mill, size, t_slot

SLOT = Request("slot", {"width": size(0.500, 0.002), "depth": size(0.400, 0.005)}, "mild steel", length=2 * INCH,
               ends="one")
STEP = replace(SLOT, kind="step")
T_SLOT = replace(t_slot(), ends="one", length=3 * INCH)
SLACK = Shop(backlash_mm=0.020 * INCH)


def passes(request: Request, *cutters: Cutter, shop: Shop = SLACK) -> tuple[Pass, ...]:
    advice = advise(request, cutters, shop).advice
    assert advice.plans, advice.refused
    return advice.plans[0].passes


def last_leg(one: Pass) -> tuple[tuple[float, float], tuple[float, float]]:
    return list(pairwise(one.path_mm))[-1]


@pytest.mark.parametrize(("request_", "cutters"), [
    (SLOT, (mill(1, 0.375, 0.5),)),
    (T_SLOT, (mill(1, 0.500, 0.6), disc(2, 0.750, 0.1875, 0.300))),
    (STEP, (mill(1, 0.375, 0.5),)),
], ids=["slot", "T-slot", "step"])
def test_no_wall_is_cut_climb(request_: Request, cutters: tuple[Cutter, ...]) -> None:
    """With .020 of slack a slot with one closed end was finished by a climb cut .059 wide. The back wall is on the left
    hand going in (to the right), the front one coming out."""
    walls = [one for one in passes(request_, *cutters) if one.direction != "both"]
    assert walls and {one.direction for one in walls} == {"conventional"}
    for one in walls:
        (begun, _), (ended, across) = last_leg(one)
        at_the_back = across > 0 and request_.kind != "step"
        assert (ended > begun) == at_the_back, one
        assert one.feed == ("right" if at_the_back else "left")
        assert (not at_the_back) == any("in from the open end" in spelt(says) for says in one.way_says)


def test_a_pass_that_cuts_coming_out_goes_in_where_the_cutter_was() -> None:
    """In the middle, which is cut as deep already; over at the stop, and out along the wall."""
    found = passes(SLOT, mill(1, 0.375, 0.5))
    for number, one in enumerate(found):
        if one.feed == "left":
            start, *_ = one.path_mm
            assert start[0] < 0
            assert any(e.path_mm[0][1] == start[1] and e.z_mm <= one.z_mm for e in found[:number])


@pytest.mark.parametrize(("head", "cutter"), [
    (0.900, disc(2, 0.750, 0.1875, 0.300)), (0.900, disc(2, 0.900, 0.1875, 0.300)),
    (0.780, disc(2, 0.600, 0.125, 0.250)), (0.780, disc(2, 0.600, 0.1875, 0.250))])
@pytest.mark.parametrize("ends", ["open", "one", "closed"])
def test_what_ends_under_a_lip_is_told_how_it_comes_up(ends: str, head: float, cutter: Cutter) -> None:
    """Where a disc stands at the end of its last pass it may be too wide for the throat over it: nothing told the way
    out. Geometry: it comes up past an open end, or where all of it lies inside the throat. Common practice for the
    stopped spindle."""
    request = t_slot(0.625, head, 3.0)
    request = request if ends == "closed" else replace(request, ends=ends, length=3 * INCH, sizes={
        key: one for key, one in request.sizes.items() if key != "length"})
    advice = advise(request, (mill(1, 0.500, 0.6), cutter), SHOP).advice
    for plan in advice.plans:
        last, words = plan.passes[-1], spelt(plan.passes[-1].says)
        stop = -99.0 if last.stop_mm is None else last.stop_mm
        along, across = last.path_mm[-1] if last.path_mm else (stop, last.x_mm)
        wide = 0.626 * INCH - 2 * abs(across) >= (cutter.diameter_mm or 0.0)
        if ends == "closed":
            assert words.startswith("back to the middle, then up") and not wide
        else:
            assert ("out the way it came" in words) == (ends == "one" and along > 0)
    assert advice.plans or ends == "closed"


def test_a_step_has_air_beside_its_open_edge() -> None:
    """The layer from above was half as wide as the step and counted that air as metal, so every such step ended in
    "not from this drawer"; one with open ends was found."""
    cutter = mill(1, 0.375, 0.75)
    for width in (0.25, 0.75, 1.5):
        request = replace(STEP, sizes={**STEP.sizes, "width": size(width, 0.005)})
        one, two = (advise(replace(request, ends=ends), (cutter,), SHOP).advice for ends in ("one", "open"))
        assert one.answer == two.answer == "as drawn"
        assert one.plans[0].proof.gouge_mm == one.plans[0].proof.left_mm == 0.0


def test_no_way_in_beside_a_step_leaves_a_climb_cut() -> None:
    """CL1: with much slack and a wide climb cut a stop, with less a caution, with next to none nothing (common
    practice, no source). A wall stands so near the edge that nothing goes in beside it."""
    request = replace(STEP, sizes={**STEP.sizes, "width": size(0.375, 0.005)}, walls=(Wall(INCH, 0.420 * INCH),))
    cutter = mill(1, 0.375, 0.75)
    for slack, severity in ((0.020, None), (0.008, "caution"), (0.002, "")):
        advice = advise(request, (cutter,), Shop(backlash_mm=slack * INCH)).advice
        assert bool(advice.plans) == (severity is not None), slack
        for plan in advice.plans:
            assert "climb" in {one.direction for one in plan.passes}
            assert [w.grade for w in plan.warnings if w.id == "CL1"] == ([severity] if severity else [])
        assert advice.plans or advice.refused


def test_a_fillet_is_come_at_over_the_step_that_was_cut_before() -> None:
    """The body of a fly cutter stands over the step when its bit goes in beside the fillet: that was asked of the step
    before it was cut, so that the wall was told to be cut climb for want of a way in. Geometry: 2.000 across, it is
    clear of the uncut block alone where its bit is within .250 of the surface."""
    fillet = Request("inside-fillet", {"radius": size(0.062, 0.005), "width": size(0.625, 0.005),
                                       "depth": size(0.364, 0.005)}, "mild steel", length=3 * INCH, ends="one")
    fly = Cutter(2, "fly-cutter", diameter_mm=63.5, corner_radius_mm=0.8, shank_mm=12.7, material="hss",
                 condition="sharp", measured=("diameter_mm",))
    [plan, *_] = advise(fillet, (mill(1, 0.75, 1.5), fly), Shop(backlash_mm=0.008 * INCH)).advice.plans
    assert [(cutter.id, one.room) for cutter, one in zip(plan.cutters, (plan.passes[0], plan.passes[-1]), strict=True)
            ] == [(1, "step"), (2, "fillet")]
    assert {one.direction for one in plan.passes} == {"conventional"}
    assert not [one for one in plan.warnings if one.grade == "caution"]


def test_a_drill_too_short_for_a_closed_slot_is_no_way_in() -> None:
    """Its shank has nothing clear round it down there: an infinite distance, which ended in an OverflowError."""
    closed = replace(SLOT, ends="closed", sizes={"width": size(0.63, 0.004), "depth": size(0.87, 0.005),
                                                 "length": size(4.7, 0.01)})
    short = drill(2, 0.1).but(length_of_cut_mm=0.8 * INCH)
    found = advise(closed, (mill(1, 0.625, 1.0), short), SHOP).advice
    assert found.answer == advise(closed, (mill(1, 0.625, 1.0),), SHOP).advice.answer != "cannot"
    barred = advise(closed, (mill(1, 0.625, 1.0, centre_cutting=False), short), SHOP).advice
    assert all(2 not in {cutter.id for cutter in plan.cutters} for plan in barred.plans)


def test_a_wide_closed_end_comes_out_flat() -> None:
    """Geometry: between two strips that end side by side a scallop of r - sqrt(r^2 - (s/2)^2) stands, .061 where a 1/2
    mill is .327 over; the last pass goes through all of the end, from the back wall to the front one. It went through
    a part."""
    wide = replace(SLOT, sizes={"width": size(1.5, 0.005), "depth": size(0.4, 0.005)}, length=2.5 * INCH)
    found, radius = passes(wide, mill(1, 0.5, 0.6), shop=SHOP), 0.25 * INCH
    deepest = min(one.z_mm for one in found)
    ways = [one.path_mm for one in found if one.z_mm == deepest]
    for step in range(-9, 10):
        y = step / 9 * (0.75 * INCH - radius)
        reached = max(x + (radius**2 - min(abs(y - at) for at in _across(a, b, y))**2)**0.5 for way in ways
                      for a, b in pairwise(way) for x in (max(a[0], b[0]),)
                      if min(abs(y - at) for at in _across(a, b, y)) < radius)
        assert reached == pytest.approx(2.5 * INCH, abs=0.02), y


def _across(a: tuple[float, float], b: tuple[float, float], y: float) -> tuple[float, ...]:
    """Where a leg is nearest to a line along, across: at an end, or where it goes over it."""
    low, high = sorted((a[1], b[1]))
    return (min(max(y, low), high),)

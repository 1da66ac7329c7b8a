"""Closed ends: how far a disc runs, what lets it in, what the third view sees that two don't, what is said."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from typing import Any

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.geometry.box_outline import clearance, holds, run
from crib.geometry.operation import Operation, Work
from crib.geometry.prove import prove
from crib.geometry.rounded_box import RoundedBox, joined, oblong
from crib.handbook.closed_ends import ramp_strokes
from crib.handbook.materials import find_material
from crib.machining.tool import ready
from crib.planning.advise import advise
from crib.planning.told.advice import Advice, Refusal
from crib.shop import Shop
from crib.units import Size, nm
from tests.spelt import spelt

INCH = 25.4
SHOP = Shop()


def inch(value: float) -> int:
    return nm(value * INCH)


def size(nominal: float, around: float = 0.0) -> Size:
    return Size(nominal * INCH, (nominal - around) * INCH, (nominal + around) * INCH, f"{nominal}")


def mill(number: int, diameter: float, cut: float, **more: Any) -> Cutter:
    return Cutter(number, "end-mill", f"end mill {diameter}", diameter_mm=diameter * INCH, length_of_cut_mm=cut * INCH,
                  shank_mm=diameter * INCH, flutes=2, corner_radius_mm=0.0, centre_cutting=True, material="hss",
                  condition="sharp", measured=("diameter_mm",)).but(**more)


def disc(number: int, diameter: float, face: float, neck: float, **more: Any) -> Cutter:
    return Cutter(number, "keyseat-cutter", f"disc {diameter}", diameter_mm=diameter * INCH, face_mm=face * INCH,
                  neck_mm=neck * INCH, reach_mm=0.8 * INCH, shank_mm=0.5 * INCH, flutes=8, material="hss",
                  condition="sharp", measured=("diameter_mm",)).but(**more)


def drill(number: int, diameter: float, angle: float = 180.0) -> Cutter:
    return Cutter(number, "drill", f"drill {diameter}", diameter_mm=diameter * INCH, angle_deg=angle,
                  length_of_cut_mm=100.0, shank_mm=diameter * INCH, material="hss", condition="sharp")


def t_slot(throat: float = 0.625, head: float = 0.900, length: float = 2.0, **more: Size) -> Request:
    sizes = {"throat": size(throat, 0.001), "depth": size(0.520, 0.005), "head_width": size(head, 0.010),
             "head_height": size(0.1875, 0.010), "length": size(length, 0.010), **more}
    return Request("t-slot", sizes, "grey iron", ends="closed")


def slot(width: float = 0.5, depth: float = 0.25, length: float = 2.0) -> Request:
    sizes = {"width": size(width, 0.005), "depth": size(depth, 0.005), "length": size(length, 0.010)}
    return Request("slot", sizes, "grey iron", ends="closed")


def asked(request: Request, *cutters: Cutter, shop: Shop = SHOP) -> Advice:
    return advise(request, cutters, shop).advice


def refusal(advice: Advice, number: int) -> Refusal:
    return next(one for one in advice.refused if one.cutter.id == number)


OWN = mill(1, 0.625, 1.0)
DISC = disc(2, 0.600, 0.1875, 0.250)


@pytest.mark.parametrize(("step", "past"), [(0.0, 0.1775), (0.100, 0.1466), (0.150, 0.0949)])
def test_how_far_a_neck_runs_past_the_stops(step: float, past: float) -> None:
    """Throat .625 cut in one width, neck .250, .010 a side: sqrt(.1775^2 - s^2), worked here to four places, rounded
    down; the reach from above comes to the same without that formula."""
    half = inch(1.0)
    throat = frozenset({oblong(-half, half, inch(0.3125), inch(0.3125))})
    left, right = run(throat, inch(step), inch(0.125 + 0.010), 0) or (0, 0)
    assert right / 25.4e6 - (1.0 - 0.3125) == pytest.approx(past, abs=0.0001) and left == -right


@pytest.mark.parametrize("across", [0, 25_400, 10_160_000])
def test_a_neck_that_touches_the_wall_runs_past_where_a_hole_begins(across: int) -> None:
    """A hole of 7.4 through a slot 6.4 wide that ends 5.8 from its middle, and a neck of 4.6 along its wall: it stands
    at the wall's end in the hole without standing in it, and stopped there by the last bit, wherever the middle was
    nought. Past it the wall goes on straight, up to where the end begins to round (geometry)."""
    both = frozenset({RoundedBox(-3_300_000, across - 700_000, 3_300_000, across + 700_000, 2_500_000),
                      RoundedBox(0, across, 0, across, 3_700_000)})
    assert run(both, across + 900_000, 2_300_000, 0) == (-3_300_000, 3_300_000)


def test_two_views_are_not_enough() -> None:
    """A neck .250 in a throat of .625: in the cross-section it may stand .1775 beside the middle, lengthwise .1775 past
    the stop of the cutter that made the throat; both at once it stands in the lip at the round end, where .150 beside
    the middle .0949 is the most (geometry)."""
    request = t_slot()
    feature, material = draw(request), find_material("grey iron")
    tools = [tool for cutter in (OWN, DISC) if (tool := ready(cutter, SHOP, material))]
    throat, head = (tool.form for tool in tools)
    low, stop, step = inch(-0.520), inch(1.0 - 0.3125), inch(0.150)
    assert feature.layers is not None

    def rubs(past: float, beside: int) -> int:
        far = stop + inch(past)
        verdict = prove(Work(layers=feature.layers), [
            Operation.above(throat, ((-stop, 0), (stop, 0)), low, 0),
            Operation.above(head, ((0, 0), (0, beside), (far, beside)), low, inch(0.305)),
        ])
        return len(verdict.rubs)

    section = prove(Work(feature.outline), [Operation.along(throat, 0, low), Operation.along(head, step, low)])
    assert not section.rubs, "clears in the cross-section"
    assert not rubs(0.1774, 0), "clears lengthwise"
    assert rubs(0.1774, step), "and yet stands in the lip at the round end"
    assert not rubs(0.0949, step) and rubs(0.0950, step)


def test_a_disc_just_narrow_enough_is_lowered() -> None:
    """.010 narrower than the throat goes down, a thou more doesn't (common practice, no source); the refusal has both
    numbers, and the hole that it names does let the disc in."""
    fits = asked(t_slot(), OWN, disc(2, 0.615, 0.1875, 0.250))
    assert fits.plans and fits.plans[0].proof.left_mm == 0.0
    wide = disc(2, 0.616, 0.1875, 0.250)
    refused = refusal(asked(t_slot(), OWN, wide), 2)
    assert (refused.id, spelt(refused.fix)) == ("EN2", "an entry hole of .636 would let it in")
    assert refused.has_mm == pytest.approx(0.616 * INCH) and refused.needs_mm == pytest.approx(0.615 * INCH)
    assert asked(t_slot(entry_hole=size(0.636)), OWN, wide).plans
    assert not asked(t_slot(entry_hole=size(0.635)), OWN, wide).plans


def test_a_head_that_must_be_longer_than_the_neck_lets_it() -> None:
    """The head ends at the throat's stop, the run past it and half the disc: 2 (.6875 + .1775 + .300) = 2.33 for a neck
    of .250 at the most, less the ridges between side steps at its round ends (geometry). What it comes out at is
    made, a thou more isn't; the thinner neck that is named does it."""
    refused = refusal(asked(t_slot(head_length=size(2.350, 0.005)), OWN, DISC), 2)
    told = float(spelt(refused.says).split(" long")[0].split()[-1])
    assert 2.320 < told < 2.330
    assert asked(t_slot(head_length=size(told + 0.004, 0.005)), OWN, DISC).plans
    assert not asked(t_slot(head_length=size(told + 0.006, 0.005)), OWN, DISC).plans
    short = asked(t_slot(head_length=size(2.350, 0.005)), OWN, DISC)
    assert not short.plans
    assert refused.id == "EN4" and f"{told:.3f}" in spelt(refused.says) and "2.345" in spelt(refused.says)
    fix = spelt(refused.fix)
    assert fix.endswith("or less would do") and fix.startswith("a neck of .2")
    thinner = float(fix.split()[3])
    assert asked(t_slot(head_length=size(2.350, 0.005)), OWN, DISC.but(neck_mm=thinner * INCH)).plans


def test_the_plan_runs_the_head_to_the_end_of_the_throat() -> None:
    """With the throat's stops kept it would end (.625 - .600) / 2 short (geometry)."""
    plan = asked(t_slot(), OWN, DISC).plans[0]
    figures = {figure.what: figure.mm for figure in plan.figures}
    assert figures["head: length"] == pytest.approx(2.0 * INCH)
    assert figures["head: ends short of the throat with those stops kept"] == pytest.approx(0.0125 * INCH)
    assert figures["head: could run past them in the middle"] == pytest.approx(0.1775 * INCH)
    for one in plan.passes:
        if one.room == "head" and one.feed == "left":
            assert (one.from_mm, one.to_mm) == (pytest.approx(0.300 * INCH), pytest.approx(1.700 * INCH))


def test_round_the_inside_it_goes_clockwise() -> None:
    """The back wall to the right, the front wall to the left: conventional (geometry)."""
    for request in (slot(0.55), t_slot(0.75, 0.95)):
        cutters = (mill(1, 0.500, 1.0), disc(2, 0.600, 0.1875, 0.200))
        plan = asked(request, *cutters).plans[0]
        for one in plan.passes:
            if one.direction == "conventional":
                assert one.feed == ("right" if one.x_mm > 0 else "left")
                alongs = [b[0] - a[0] for a, b in pairwise(one.path_mm) if a[1] == b[1] == one.x_mm]
                assert alongs and all((along > 0) == (one.x_mm > 0) for along in alongs)


def test_a_mill_that_does_not_cut_on_centre_ramps_where_it_is_long_enough() -> None:
    """.450 long it runs .200 with a mill of .250: no ramp (more than its own diameter, common practice). A flat-ground
    drill between its core, .40 D, and .010 less than the slot lets it in."""
    blunt = mill(1, 0.250, 0.75, centre_cutting=False)
    plan = asked(slot(0.250, 0.250, 2.0), blunt).plans[0]
    assert {one.entry for one in plan.passes} == {"ramp"}
    short = asked(slot(0.250, 0.250, 0.450), blunt)
    refused = refusal(short, 1)
    assert (refused.id, spelt(refused.fix)) == ("EN1", "a flat-ground drill of .100 to .240 would let it in")
    for diameter in (0.100, 0.240):
        plan = asked(slot(0.250, 0.250, 0.450), blunt, drill(3, diameter)).plans[0]
        assert plan.passes[0].role == "drill" and plan.passes[0].view == "plan"
        assert (plan.passes[0].x_mm, plan.passes[0].y_mm) == plan.passes[1].path_mm[0]
        assert {one.entry for one in plan.passes[1:]} == {"hole"} and plan.answer == "extra passes"
    for diameter, angle in ((0.098, 180.0), (0.242, 180.0), (0.200, 118.0)):
        assert not asked(slot(0.250, 0.250, 0.450), blunt, drill(3, diameter, angle)).plans


def test_a_pointed_drill_leaves_the_last_of_the_depth_to_a_ramp() -> None:
    """Under the mill's core the point leaves a cone: .050 / tan 59 degrees = .030 over the floor (geometry)."""
    blunt = mill(1, 0.250, 0.75, centre_cutting=False)
    dear = replace(SHOP, cutter_minutes=0.0, touch_minutes=0.0, collet_minutes=0.0)
    plans = asked(slot(0.250, 0.240, 0.800), blunt, drill(3, 0.200, 118.0), shop=dear).plans
    entries = [one.entry for plan in plans for one in plan.passes if plan.passes[0].role == "drill"]
    assert not entries or entries[-1] == "ramp"


def test_strokes_of_a_ramp() -> None:
    """At 3 degrees a stroke of 1.5 goes down .0786, so .170 takes three (geometry)."""
    assert [ramp_strokes(drop, 1.5) for drop in (0.0786, 0.0787, 0.170)] == [1, 2, 3]
    with pytest.raises(CribError):
        ramp_strokes(0.1, 0.0)


def test_shapes_drawn_together_hold_what_they_held() -> None:
    """A frame of ways counts as a whole where its inside is cleared, and not where a core is left standing."""
    def frame(long: int, wide: int) -> frozenset[RoundedBox]:
        return frozenset({RoundedBox(-long, -wide, long, -wide, 10), RoundedBox(-long, wide, long, wide, 10),
                          RoundedBox(-long, -wide, -long, wide, 10), RoundedBox(long, -wide, long, wide, 10)})

    assert joined(frozenset(), frame(50, 9)) == {RoundedBox(-50, -9, 50, 9, 10)}
    hollow = joined(frozenset(), frame(50, 12))
    assert len(hollow) == 4 and not holds(RoundedBox(0, 0, 0, 0, 1), hollow)
    assert joined(hollow, frozenset({RoundedBox(-50, 0, 50, 0, 10)})) == {RoundedBox(-50, -12, 50, 12, 10)}


def test_an_outline_through_a_sharp_shape_is_seen() -> None:
    """A rectangle with sharp corners has no radius: that an outline runs through it isn't the same as along its edge.
    The brute-force block found the slot that was told to be whole."""
    shapes = frozenset({RoundedBox(-100, 0, 0, 0, 50), RoundedBox(0, -10, 100, -10, 50)})
    assert not holds(RoundedBox(-60, -45, 60, 45, 0), shapes)
    assert holds(RoundedBox(-60, -50, -20, 50, 0), shapes) and clearance(RoundedBox(-60, 0, -60, 0, 0), shapes) == 50


@pytest.mark.parametrize(
    ("request_", "says"),
    [
        (slot(0.5, 0.25, 0.45), "less than the slot is wide"),
        (t_slot(length=0.6), "less than the throat is wide"),
        (t_slot(head_length=size(0.7)), "shorter than it is wide"),
        (t_slot(head_length=size(3.0)), "its axis stays in the throat"),
        (t_slot(entry_hole=size(0.6)), "no wider than the throat"),
        (t_slot(entry_hole=size(2.0)), "as wide as the throat is long"),
        (replace(t_slot(entry_hole=size(0.7)), ends="open"), "--entry-hole is for closed ends"),
        (replace(t_slot(head_length=size(2.0)), ends="one"), "--head-length is for closed ends"),
        (Request("slot", {"width": size(0.5), "depth": size(0.25)}, ends="closed"), "needs its length"),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_sizes_that_can_not_be_together(request_: Request, says: str) -> None:
    with pytest.raises(CribError) as failed:
        draw(request_)
    assert says in failed.value.finding.says and failed.value.finding.fix


def test_the_cutter_of_the_size_goes_in_by_a_hole_wider_than_the_head() -> None:
    """A T-slot cutter as wide as its head leaves its own round at the ends: refused before, though a machinist drills a
    hole wider than the disc in the middle and does it. What stands in the corners is what geometry says: the axis of
    the disc stops half its width short of the end, the head must be square under the straight part of the throat."""
    own = disc(2, 0.900, 0.1875, 0.250).but(kind="t-slot-cutter")
    advice = asked(t_slot(entry_hole=size(0.920)), OWN, own)
    assert advice.answer == "compromise"
    [ends] = [one for one in advice.plans[0].deviations if one.id == "EN4"]
    corner = (1.0 - 0.005 - 0.626 / 2, 0.890 / 2)
    stands = ((corner[0] - (1.0 - 0.450)) ** 2 + corner[1] ** 2) ** 0.5 - 0.450
    assert ends.has_mm == pytest.approx(stands * INCH, rel=0.02)
    assert advice.plans[0].proof.left_mm == pytest.approx(stands * INCH, rel=0.02)
    assert any(".010 out of each wall" in spelt(text) for text in advice.plans[0].assumed)
    refused = refusal(asked(t_slot(), OWN, own), 2)
    assert (refused.id, spelt(refused.fix)) == ("EN2", "an entry hole of .920 would let it in")


def test_a_smaller_disc_that_leaves_nothing_goes_before() -> None:
    """To the drawing with another cutter is better than what the owner must wave through."""
    own, small = disc(2, 0.900, 0.1875, 0.250).but(kind="t-slot-cutter"), disc(3, 0.700, 0.1875, 0.250)
    advice = asked(t_slot(entry_hole=size(0.920)), mill(1, 0.5, 1.0), own, small)
    assert advice.answer == "extra passes" and advice.plans[0].cutters[1].id == 3 and not advice.plans[0].deviations

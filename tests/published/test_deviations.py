"""What a way gives away, measured out of a proved plan (or out of what is told of it), against closed formulas. All of
it geometry, worked here from raw numbers, but for run-out and paper, which are common practice with no source."""

from __future__ import annotations

from dataclasses import replace
from math import cos, hypot, pi, radians, sin, sqrt, tan
from typing import Any

import pytest

from crib.cutters.base import Cutter
from crib.handbook import deviations
from crib.machining.methods.down_the_axis.countersinks import stands_proud
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import Shop
from tests.spelt import spelt

IN = 25.4
SHOP = Shop()
SURE: dict[str, Any] = {"material": "hss", "condition": "sharp", "measured": ("diameter_mm",)}


def mill(inches: float, number: int = 1, **more: Any) -> Cutter:
    same = {"flutes": 2, "length_of_cut_mm": 1.25 * IN, "centre_cutting": True, "corner_radius_mm": 0.0,
            "shank_mm": inches * IN}
    return Cutter(number, "end-mill", f"{inches} mill", diameter_mm=inches * IN, **(same | SURE | more))


def asked(kind: str, *cutters: Cutter, **texts: str) -> Any:
    return advise(read_request(kind, {"material": "6061"} | texts, SHOP, "in"), cutters, SHOP).advice


@pytest.mark.parametrize(("value", "by_hand", "check"), [
    (deviations.walked_corner_left(0.15625, 0.1875, 3), 0.0028, "DV2"),
    (deviations.plunged_round_left(0.750, 0.500, 12), 0.0064, "DV5"),
    (deviations.flats_proud(0.125, 1), 0.0103, "DV6, one flat"),
    (deviations.flats_proud(0.125, 2), 0.0044, "DV6, two"),
    (deviations.flats_proud(0.125, 3), 0.0024, "DV6, three"),
    (stands_proud(0.385, 0.201, 82, 90), 0.0138, "DV13"),
    (deviations.cusp(0.375, 0.125), 0.0052, "DV19"),
])
def test_closed_formulas(value: float, by_hand: float, check: str) -> None:
    assert round(value, 4) == by_hand, check


def test_dv1_a_corner_of_three_sixteenths_one_and_a_tenth_deep() -> None:
    """A 3/8 mill that reaches makes it; a 1/2 mill leaves (.250 - .1875)(sqrt 2 - 1) = .0259 on the diagonal."""
    texts = {"width": "1.5", "length": "2", "depth": "1.10", "corner_radius": ".1875+.002-.002"}
    right = asked("pocket", mill(0.375), **texts)
    assert right.plans and not right.plans[0].deviations
    big = asked("pocket", mill(0.5), **texts)
    left = [one for plan in big.plans for one in plan.deviations if "corner" in spelt(one.says)]
    assert left and left[0].has_mm / IN == pytest.approx((0.25 - 0.1875) * (sqrt(2) - 1), abs=5e-5)
    assert left[0].has_mm / IN == pytest.approx(0.0259, abs=5e-5)


@pytest.mark.parametrize("angle, wanted, height", [(45.0, 60.0, 0.3), (55.0, 60.0, 0.25)])
def test_dv7_a_flank_at_another_angle(angle: float, wanted: float, height: float) -> None:
    """h |1 / tan a - 1 / tan b|: .1268 for 45 instead of 60 over .300."""
    off = height * abs(1 / tan(radians(angle)) - 1 / tan(radians(wanted)))
    if (angle, height) == (45.0, 0.3):
        assert round(off, 4) == 0.1268
    tail = Cutter(2, "dovetail-cutter", "tail", diameter_mm=0.75 * IN, face_mm=0.32 * IN, angle_deg=angle,
                  neck_mm=0.2 * IN, reach_mm=IN, shank_mm=12.7, flutes=6, corner_radius_mm=0.0, **SURE)
    advice = asked("dovetail", mill(0.5), tail, width="1.25", depth=f"{height}", angle=f"{wanted:g}", length="3")
    told = [one.has_mm for plan in advice.plans for one in plan.deviations if one.id == "AN1"]
    refused = [one for one in advice.refused if one.cutter.id == 2]
    assert told or refused
    for mm in told:
        assert mm / IN == pytest.approx(off, abs=1e-4)


@pytest.mark.parametrize("radius", [0.125, 0.25])
def test_dv6_a_round_cut_in_flats_stands_proud(radius: float) -> None:
    """R (1 / cos 22.5 - 1) with one flat at 45 degrees: .0103 of 1/8; measured as far as the corner of the flat and
    the wall stands over the arc, by Pythagoras."""
    point = Cutter(3, "chamfer-cutter", "90 point", diameter_mm=0.75 * IN, angle_deg=90.0, tip_mm=0.0, flutes=4,
                   shank_mm=12.7, **SURE)
    plan = asked("corner-round", point, radius=f"{radius}+.003-.003", length="3").plans[0]
    corner = radius * tan(radians(22.5))
    assert hypot(radius, corner) - radius == pytest.approx(radius * (1 / cos(pi / 8) - 1))
    left = [one.has_mm / IN for one in plan.deviations if one.id == "LF1"]
    assert left and left[0] == pytest.approx(radius * (1 / cos(pi / 8) - 1), abs=5e-4)


def test_dv9_a_face_by_a_cutter_out_of_square() -> None:
    """(1.5 - sqrt(1.5^2 - 1.25^2)) sin .05 degrees: .0006, told of a 3 in cutter over 2-1/2."""
    fly = Cutter(4, "fly-cutter", "fly", diameter_mm=3 * IN, shank_mm=12.7, **SURE)
    by_hand = (1.5 - sqrt(1.5**2 - 1.25**2)) * sin(radians(0.05))
    assert round(by_hand, 4) == 0.0006
    plan = asked("facing", fly, width="2.5", depth=".03", length="4").plans[0]
    assert any(one.id == "TM1" for one in plan.warnings)


@pytest.mark.parametrize("hole, goes", [(".300+.002-.002", True), (".180+.002-.002", False)])
def test_a_counterbore_by_a_mill_whose_middle_does_not_cut(hole: str, goes: bool) -> None:
    """.4 of 1/2 is .200 (common practice, to be measured), with .010 of room: a hole of .300 lets it in, .180 not."""
    flat = mill(0.5, flutes=4, centre_cutting=False)
    advice = asked("counterbore", flat, diameter="1/2+.005-0", depth="1/4", hole=hole)
    assert bool(advice.plans) is goes
    if not goes:
        assert advice.refused[0].id == "EN1" and advice.refused[0].has_mm / IN == pytest.approx(0.2, abs=1e-6)


@pytest.mark.parametrize(("runs_out", "fits"), [(None, True), (0.0, True), (0.0005, True), (0.001, False)])
def test_a_mill_that_runs_out_is_no_mill_of_that_width(runs_out: float | None, fits: bool) -> None:
    """D + .0005 to D + .002 with care (common practice); where an indicator reads more at its edges it begins at D + e
    and goes as far: a 1/2 mill makes .500 to .502 in one pass, and not where it runs out a thou."""
    shop = replace(SHOP, mill_runout_mm=None if runs_out is None else runs_out * IN)
    advice = advise(read_request("slot", {"width": "1/2+.002-0", "depth": "1/4", "length": "3", "material": "6061"},
                                 shop, "in"), (mill(0.5),), shop).advice
    best = advice.plans[0]
    assert ("as wide as the cutter" in spelt(best.way)) is fits
    assert ("SZ2" in {one.id for one in best.warnings}) is not fits  # what is left of the walls is a hair, and rubs


def test_dv20_paper_counts_in_a_touch_off() -> None:
    """Paper of .003 under the cutter is .003 over the face; a reading without it is that much too deep."""
    plan = asked("slot", mill(0.5), width="1/2+.004-0", depth="1/4", length="3").plans[0]
    assert any(step.reading_mm == pytest.approx(0.003 * IN) for step in plan.touch_off)

"""A keyseat with one closed end by a cutter from the side: full depth as far as its length, then the cutter's
radius."""

from __future__ import annotations

from math import sqrt
from typing import Any

import pytest

from crib.cutters.base import Cutter
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Arbor, Shop
from tests.spelt import spelt

INCH = 25.4
SHOP = Shop(arbors=(Arbor(25.4, 38.1),))
SIDE = Cutter(1, "side-cutter", "side cutter", diameter_mm=4 * INCH, face_mm=0.25 * INCH, bore_mm=25.4, flutes=18,
              material="hss", condition="sharp", measured=("diameter_mm",))
DISC = Cutter(2, "keyseat-cutter", "disc", diameter_mm=1.5 * INCH, face_mm=0.25 * INCH, neck_mm=9.5, reach_mm=40.0,
              shank_mm=12.7, flutes=10, material="hss", condition="sharp", measured=("diameter_mm",))
MILL = Cutter(3, "end-mill", "end mill", diameter_mm=4.7625, length_of_cut_mm=12.0, shank_mm=9.5, flutes=2,
              centre_cutting=True, material="hss", condition="sharp", measured=("diameter_mm",))
ASKED = {"width": "1/4+.002-0", "depth": "1/8+.015-0", "shaft": "1.25", "length": "2", "ends": "one",
         "material": "1018"}


def asked(*cutters: Cutter, **more: str) -> Advice:
    return advise(read_request("keyseat", ASKED | more, SHOP, "in"), cutters, SHOP).advice


def depth() -> float:
    """From the crown: the middle of its limits, .1325, and r - sqrt(r^2 - (w/2)^2) of a shaft of 1.25 (geometry)."""
    return 0.1325 + 0.625 - sqrt(0.625**2 - (0.251 / 2) ** 2)


@pytest.mark.parametrize("cutter", [SIDE, DISC], ids=["side cutter", "keyseat cutter"])
def test_the_radius_at_the_closed_end_is_told(cutter: Cutter) -> None:
    """It ran nowhere before: a closed end was only for end mills. Beyond the length it rises with the cutter's radius
    for sqrt(2 R d - d^2) (geometry of a segment); the owner waves it through, or says that it may be so."""
    radius = (cutter.diameter_mm or 0.0) / 2 / INCH
    run = sqrt(2 * radius * depth() - depth() ** 2)
    given = asked(cutter)
    assert given.answer == "compromise"
    [out] = given.plans[0].deviations
    assert out.id == "EN6" and out.has_mm == pytest.approx(run * INCH, abs=0.02 * INCH)
    said: dict[str, Any] = {"run_out": "yes"}
    free = asked(cutter, **said)
    assert free.answer == "extra passes" and not free.plans[0].deviations
    [told] = [spelt(one.says) for one in free.plans[0].warnings if one.id == "EN6"]
    assert f"radius of {cutter.label}, {radius:.3f}".replace(" 0.", " .") in told


def test_every_pass_stops_with_its_axis_where_it_is_full_depth() -> None:
    plan = asked(SIDE).plans[0]
    for one in plan.passes:
        assert one.stop_mm == pytest.approx(2 * INCH)
        assert max(x for x, _ in one.path_mm) == pytest.approx(2 * INCH) and one.path_mm[-1][0] < 0
    assert plan.proof.gouge_mm == 0.0 and plan.proof.left_mm == 0.0 and "vee blocks" in spelt(plan.setup)


def test_an_end_mill_that_keeps_the_drawing_goes_before() -> None:
    assert asked(SIDE, MILL).plans[0].cutters[0].id == 3
    assert {plan.cutters[0].id for plan in asked(SIDE, MILL, run_out="yes").plans} == {1, 3}


def test_a_shaft_is_round_where_it_lies_on_its_side_too() -> None:
    """It was drawn as a flat there: the cutter's arbor stood in metal that isn't. A flange .250 narrower than the disc
    clears a round shaft where it couldn't a wall (geometry)."""
    shop = Shop(arbors=(Arbor(25.4, 3.55 * INCH),))
    open_ = ASKED | {"ends": "open", "width": ".253+.002-.002"}
    request = read_request("keyseat", open_, shop, "in")
    plan = advise(request, [SIDE], shop).advice.plans
    assert plan and plan[0].proof.neck_gap_mm is not None and plan[0].proof.neck_gap_mm > 0

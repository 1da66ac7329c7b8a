"""What stands beside the work: on both sides, too near for a cutter, too near for the feature itself."""

from __future__ import annotations

from dataclasses import replace

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.features.request import Request, Wall
from crib.findings.errors import CribError
from crib.geometry.region import box
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Plan
from crib.shop import Shop
from tests.spelt import spelt
from tests.strategies import around

MILL = Cutter(1, "end-mill", "mill", diameter_mm=10.0, length_of_cut_mm=20.0, shank_mm=10.0, corner_radius_mm=0.0,
              overall_length_mm=60.0, flutes=4, material="hss", condition="sharp", measured=("diameter_mm",))
STEP = {"width": around(8.0, 0.1, 0.1), "depth": around(6.0, 0.1, 0.1)}
SLOT = {"width": around(12.0, 0.1, 0.1), "depth": around(6.0, 0.1, 0.1)}


def step(*walls: Wall) -> Request:
    return Request("step", STEP, "grey iron", walls=walls)


def test_one_on_each_side_is_read() -> None:
    """`-` is the front, the left of the picture; more stand after commas."""
    request = read_request("slot", {"width": "12mm", "depth": "6mm", "wall": "1@2, 1/2@-20mm"}, Shop(), "in")
    assert request.walls == (Wall(25.4, 50.8), Wall(12.7, -20.0))
    beside = draw(request).outline.obstacles
    assert beside & box(-30_000_000, 0, 60_000_000, 30_000_000) == (
        box(-30_000_000, 0, -20_000_000, 12_700_000) | box(50_800_000, 0, 60_000_000, 25_400_000))


@pytest.mark.parametrize(("wall", "says"), [
    ("1@-.2", "a wall at -.200 stands over the slot, which opens to -.2"),
    ("1@.2", "a wall at .200 stands over the slot, which opens to .2"),
])
def test_none_stands_over_the_feature(wall: str, says: str) -> None:
    with pytest.raises(CribError) as found:
        draw(read_request("slot", {"width": "12mm", "depth": "6mm", "wall": wall}, Shop(), "in"))
    assert spelt(found.value.finding.says).startswith(says)


@pytest.mark.parametrize("side", [1, -1])
def test_both_sides_are_reckoned(side: int) -> None:
    """A spindle nose 50.8 across, 34.6 over the lower face of a cutter that is 6 down, comes down on a wall 40 high
    that stands nearer than its radius, and clears one that is lower, or farther off (geometry)."""
    def answer(height: float, distance: float) -> str:
        request = Request("slot", SLOT, "grey iron", walls=(Wall(height, side * distance),))
        return advise(request, (MILL,), Shop()).advice.answer

    assert answer(40.0, 20.0) == "cannot"
    assert answer(40.0, 30.0) == "extra passes" or answer(40.0, 30.0) == "as drawn"
    assert answer(20.0, 20.0) == answer(40.0, 30.0)
    refused = advise(Request("slot", SLOT, "grey iron", walls=(Wall(40.0, side * 20.0),)), (MILL,), Shop()).advice
    assert refused.refused[0].id == "G6" and "what stands beside the work" in spelt(refused.refused[0].says)


def test_it_is_told_how_far_to_stand_out() -> None:
    """Over walls 2 in high beside a slot .375 deep a 1/2 end mill stands 2 + .375 + .030 out of the spindle, 4.8 times
    its diameter (geometry): somebody who chucks it short runs the spindle into the wall. Nothing of the sort is said
    of low walls, or of those that no nose goes over."""
    mill = Cutter(1, "end-mill", "1/2 end mill", diameter_mm=12.7, flutes=2, material="hss")

    def said(height: float, distance: float) -> list[str]:
        walls = (Wall(height * 25.4, distance * 25.4), Wall(height * 25.4, -distance * 25.4))
        request = read_request("slot", {"width": "5/8", "depth": "3/8", "material": "grey iron"}, Shop(), "in")
        plan = advise(replace(request, walls=walls), (mill,), Shop()).advice.plans[0]
        return [spelt(warning.says) for warning in plan.warnings if warning.id == "WA2"]

    assert ["must stand 2.405 out of the spindle, 4.8 times" in one for one in said(2.0, 0.6)] == [True]
    assert not said(2.0, 1.5)


def test_a_cutter_too_big_to_go_between() -> None:
    """A step 8 wide with something 9 from its wall: 10 across doesn't go in, 9 does (geometry)."""
    advice = advise(step(Wall(5.0, 9.0)), (MILL,), Shop(units="mm")).advice
    refusal = advice.refused[0]
    assert (refusal.id, refusal.has_mm, refusal.needs_mm) == ("G6", 10.0, pytest.approx(9.0))
    assert "10.000 across, it meets what stands beside the work" in spelt(refusal.says, "mm")
    assert spelt(refusal.fix, "mm") == "a cutter of 9.000 or less would go in"
    small = MILL.but(diameter_mm=9.0, shank_mm=8.0)
    assert advise(step(Wall(5.0, 9.0)), (small,), Shop(units="mm")).advice.plans


def test_passes_keep_off_where_they_can() -> None:
    """A rough pass out over the edge stays .010 in (.254 mm) off a wall; how near the others come is said."""
    small = MILL.but(diameter_mm=5.0, shank_mm=5.0)

    def plan(wall: float) -> Plan:
        return advise(step(Wall(5.0, wall)), (small,), Shop(units="mm")).advice.plans[0]

    assert max(one.x_mm for one in plan(10.0).passes) == pytest.approx(10.0 - 0.254 - 2.5)
    assert not [said for said in plan(10.0).warnings if said.id == "WA1"]
    [said] = [spelt(said.says, "mm") for said in plan(8.1).warnings if said.id == "WA1"]
    assert said.startswith("the teeth come within 0.100 of what stands beside the work")

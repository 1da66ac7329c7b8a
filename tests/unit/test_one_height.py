"""Teeth that are lower than a dovetail's depth but inside its limits make it at one height: the whole of it is aimed
there, its floor by the end mill too."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.planning.advise import advise, jobs_for
from crib.planning.again import with_tools
from crib.planning.best_plans import best_of
from crib.planning.search.set_ups import usable
from crib.planning.told.advice import Plan
from crib.shop import Shop
from crib.units import Size
from crib.units.angles import Angle
from tests.spelt import spelt

INCH = 25.4


def around(nominal: float, band: float) -> Size:
    return Size(nominal * INCH, (nominal - band) * INCH, (nominal + band) * INCH, f"{nominal:g}")


MILL = Cutter(1, "end-mill", "mill", diameter_mm=0.5 * INCH, length_of_cut_mm=INCH, flutes=2, shank_mm=0.5 * INCH,
              corner_radius_mm=0.0, centre_cutting=True, material="hss", condition="sharp", measured=("diameter_mm",))


def teeth(tall: float) -> Cutter:
    """A 60 degree cutter, 1.125 across, whose neck lets it go no further up than its teeth."""
    return Cutter(2, "dovetail-cutter", "60 degree", diameter_mm=1.125 * INCH, angle_deg=60.0, face_mm=tall * INCH,
                  neck_mm=0.3 * INCH, reach_mm=INCH, shank_mm=0.5 * INCH, flutes=8, corner_radius_mm=0.0,
                  material="hss", condition="sharp", measured=("diameter_mm",))


def asked(depth: float, band: float) -> Request:
    return Request("dovetail", {"depth": around(depth, band), "width": around(1.75, 0.005)}, "grey iron",
                   angles={"angle": Angle(60.0, "60")})


def dovetail(tall: float, depth: float, band: float) -> list[Plan]:
    return list(advise(asked(depth, band), (MILL, teeth(tall)), Shop(), 1, 0).advice.plans)


def lowest(plan: Plan) -> dict[str, float]:
    return {room: round(-min(one.dial_z_mm for one in plan.passes if one.room == room) / INCH, 4)
            for room in ("slot", "flanks")}


def test_teeth_inside_the_limits() -> None:
    """.380 +-.005 deep with .375 teeth was made at two heights, in 40 passes and 204 minutes, for a middle that nobody
    had asked for."""
    [plan] = dovetail(0.375, 0.380, 0.005)
    assert lowest(plan) == {"slot": 0.375, "flanks": 0.375}
    assert len({one.z_mm for one in plan.passes if one.room == "flanks"}) == 1
    assert (plan.answer, plan.proof.left_mm, plan.proof.gouge_mm) == ("as drawn", 0.0, 0.0)
    aim = next(spelt(figure.value) for figure in plan.figures if figure.what == "aim")
    assert aim == ("the middle of every tolerance but that of the depth: .375, the height of the teeth, inside .375 to "
                   ".385")


def test_taller_teeth_go_to_the_middle() -> None:
    """Nothing is given away where nothing is won by it."""
    [plan] = dovetail(0.500, 0.380, 0.005)
    assert lowest(plan) == {"slot": 0.38, "flanks": 0.38}
    aim = next(spelt(figure.value) for figure in plan.figures if figure.what == "aim")
    assert aim == "the middle of every tolerance"


def test_teeth_below_the_limits() -> None:
    """They take two heights."""
    [plan] = dovetail(0.370, 0.380, 0.005)
    assert lowest(plan) == {"slot": 0.38, "flanks": 0.38}
    assert len({one.z_mm for one in plan.passes if one.room == "flanks"}) == 2


def test_one_that_is_bought_has_its_aim_too() -> None:
    """What is reckoned with one more cutter is what owning it gives."""
    owned = best_of(jobs_for(asked(0.380, 0.005), (MILL, teeth(0.375)), Shop()))
    alone = jobs_for(asked(0.380, 0.005), (MILL,), Shop())
    bought = best_of(with_tools(alone, [*alone[0].tools, *usable(alone[0].question, (teeth(0.375),))]))
    assert owned and bought
    assert bought.plan == owned.plan


@settings(max_examples=25, deadline=None)
@given(tall=st.integers(340, 420), depth=st.integers(350, 410), band=st.sampled_from([0, 2, 5, 10]))
def test_wherever_it_is_aimed(tall: int, depth: int, band: int) -> None:
    """Floor and flanks end at one depth inside the limits, and at one height if the teeth reach its least."""
    for plan in dovetail(tall / 1000, depth / 1000, band / 1000):
        low = lowest(plan)
        assert low["slot"] == low["flanks"]
        assert (depth - band) / 1000 - 1e-6 <= low["slot"] <= (depth + band) / 1000 + 1e-6
        heights = {one.z_mm for one in plan.passes if one.room == "flanks"}
        assert len(heights) == (1 if tall >= depth - band else 2)
        assert low["slot"] == pytest.approx(min(depth, tall if tall >= depth - band else depth) / 1000)


def test_a_mouth_that_is_given_stays_where_it_is() -> None:
    """The opening at the surface counts, and the corners follow the floor: 1.150 + 2 x .375 / tan 60 (geometry)."""
    request = asked(0.380, 0.005)
    sizes = {"depth": request.sizes["depth"], "opening": around(1.15, 0.005)}
    [plan] = advise(replace(request, sizes=sizes), (MILL, teeth(0.375)), Shop(), 1, 0).advice.plans
    across = next(figure.mm for figure in plan.figures if figure.what == "width across the sharp corners")
    assert lowest(plan)["slot"] == 0.375
    assert across == pytest.approx((1.15 + 2 * 0.375 / 3 ** 0.5) * INCH, abs=1e-3)


def test_teeth_as_high_as_the_depth_are_aimed_at_its_middle() -> None:
    """5/16 teeth for 5/16 +-.002 come to a hair less as they can be set on a readout, and the whole was asked again for
    that."""
    assert len(jobs_for(asked(0.3125, 0.002), (MILL, teeth(0.3125)), Shop())) == 1
    assert len(jobs_for(asked(0.3125, 0.002), (MILL, teeth(0.3120)), Shop())) == 2

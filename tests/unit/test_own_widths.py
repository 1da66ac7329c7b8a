"""Where the own width of a cutter lies inside the limits that is a plan, and cheaper; strips are equal, and there is
one alone where the cutter covers it."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.planning.advise import advise
from crib.planning.told.advice import Plan
from crib.shop import Shop
from crib.units import Size
from crib.units.angles import Angle
from tests.spelt import spelt

INCH = 25.4


def around(nominal: float, band: float) -> Size:
    return Size(nominal * INCH, (nominal - band) * INCH, (nominal + band) * INCH, f"{nominal:g}")


def mill(diameter: float) -> Cutter:
    return Cutter(1, "end-mill", "mill", diameter_mm=diameter * INCH, length_of_cut_mm=25.4, flutes=4, shank_mm=12.7,
                  corner_radius_mm=0.0, material="hss", condition="sharp", measured=("diameter_mm",))


def head(diameter: float, band: float) -> Plan:
    disc = Cutter(2, "t-slot-cutter", "disc", diameter_mm=diameter * INCH, face_mm=6.35, neck_mm=10.0, reach_mm=25.0,
                  shank_mm=9.525, flutes=8, material="hss", condition="sharp", measured=("diameter_mm",))
    sizes = {"throat": around(0.563, 0.002), "depth": around(0.75, 0.005), "head_width": around(0.975, band),
             "head_height": around(0.25, 0.01)}
    return advise(Request("t-slot", sizes, "grey iron"), (mill(0.5), disc), Shop()).advice.plans[0]


def test_a_head_of_the_cutters_own_width() -> None:
    """A .970 cutter in a head of .960 to .990 was given two skims of .0025, for a middle that nobody had asked for."""
    plan = head(0.970, 0.015)
    assert [one.x_mm for one in plan.passes if one.room == "head"] == [0.0]
    aim = next(spelt(figure.value) for figure in plan.figures if figure.what == "aim")
    assert aim == "the nearest to the middle that the cutter allows inside the tolerance"


@pytest.mark.parametrize(("diameter", "band"), [(0.955, 0.015), (0.9748, 0.0012)])
def test_not_where_it_comes_out_otherwise(diameter: float, band: float) -> None:
    """Too narrow by itself; and one that comes out up to .002 over, even with care, past a limit .0012 away (common
    practice, no source)."""
    assert len([one for one in head(diameter, band).passes if one.room == "head"]) > 1


def test_one_width_where_the_cutter_covers_it() -> None:
    """A 1 in cutter on a flank of .707 took five passes of .007 and five of .700."""
    request = Request("v-groove", {"width": around(1.0, 0.005)}, "mild steel", angles={"angle": Angle(90.0, "90")})
    plan = advise(request, (mill(1.0),), Shop()).advice.plans[0]
    rough = [one for one in plan.passes if one.role == "rough"]
    assert len({one.x_mm for one in rough}) == 1
    assert min(one.radial_mm for one in rough) > 0.6 * INCH


@pytest.mark.parametrize("width", [0.9, 1.3, 2.1])
def test_strips_are_equal(width: float) -> None:
    """No strip of a wide step is a sliver beside others of .7 of the cutter."""
    request = Request("step", {"width": around(width, 0.01), "depth": around(0.1, 0.003)}, "mild steel")
    plan = advise(request, (mill(0.5),), Shop()).advice.plans[0]
    strips = [one.radial_mm for one in plan.passes if one.role == "rough"]
    assert max(strips) - min(strips) < 0.02 * INCH
    assert max(strips) <= 0.7 * 0.5 * INCH + 1e-6

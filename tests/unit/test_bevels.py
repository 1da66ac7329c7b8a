"""Bevels: tilted until their face is level, or by a point of their angle; never a staircase."""

from __future__ import annotations

from math import cos, radians, sin

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.findings.errors import CribError
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice, Plan
from crib.shop import Shop
from tests.slant_samples import chamfer_cutter
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 325, 660), collets_mm=(6.35, 9.525, 12.7, 19.05))
MILL = Cutter(1, "end-mill", "3/4 mill", diameter_mm=19.05, flutes=4, shank_mm=19.05, length_of_cut_mm=38.0,
              centre_cutting=True, corner_radius_mm=0.0, material="hss", condition="sharp")


def asked(*cutters: Cutter, **texts: str) -> Advice:
    texts = {"angle": "30", "width": "1/2", "material": "6061"} | texts
    return advise(read_request("bevel", texts, SHOP, "in"), cutters, SHOP).advice


def figures(plan: Plan) -> dict[str, float]:
    return {spelt(one.what): (one.mm or 0.0) / IN for one in plan.figures}


def test_tilted_the_end_of_a_mill_makes_it_and_the_sine_bar_is_told() -> None:
    """Geometry: the face lies w sin a cos a under the edge, .2165 for 1/2 at 30; 2.5 in under a 5 in sine bar."""
    plan = asked(MILL).plans[0]
    assert plan.answer == "as drawn" and "face lies level" in spelt(plan.setup)
    assert plan.passes[-1].z_mm / IN == pytest.approx(-0.5 * sin(radians(30)) * cos(radians(30)), abs=0.001)
    assert plan.proof.left_mm == plan.proof.gouge_mm == 0
    told = figures(plan)
    assert told["under one end of a 5 in sine bar"] == pytest.approx(2.5)
    ridge = next(mm for what, mm in told.items() if what.startswith("ridges"))
    assert ridge == pytest.approx(0.0173, abs=0.00005)  # p cos a, p .020, a 30


def test_flat_in_the_vice_a_point_of_its_angle_makes_it() -> None:
    plan = asked(chamfer_cutter(1, 1.25, 120, 0.0)).plans[0]
    assert plan.answer == "as drawn" and "flat" in spelt(plan.setup)
    (face,) = plan.proof.faces
    assert face.angle_deg == pytest.approx(30.0, abs=0.01)


def test_another_angle_and_a_staircase_are_no_bevel() -> None:
    """A point of 90 degrees is 15 off, and its sides leave both legs; a mill on the flat makes steps."""
    found = asked(chamfer_cutter(1, 1.25, 90, 0.0))
    assert found.answer == "cannot" and found.refused[0].id == "AN1"
    assert all("face lies level" in spelt(plan.setup) for plan in asked(MILL, MILL.but(id=2, flutes=2)).plans)


@pytest.mark.parametrize("angle", ["89.9", "0.1"])
def test_an_angle_that_lies_in_a_face_is_none(angle: str) -> None:
    with pytest.raises(CribError, match="lies in the top or in the wall"):
        draw(read_request("bevel", {"angle": angle, "width": "1/2"}, SHOP, "in"))

"""Rounded corners: by the rounder of the radius, in flats to be filed, and who can't."""

from __future__ import annotations

from math import cos, pi

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.geometry.proud import stands
from crib.geometry.region import Region
from crib.handbook.materials import find_material
from crib.machining.methods import clear
from crib.machining.methods.base import Limits
from crib.machining.tool import ready
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Shop
from tests.slant_samples import chamfer_cutter
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 210, 325, 660), collets_mm=(6.35, 9.525, 12.7, 19.05))


def rounder(radius: float, number: int = 1, tip: float = 0.375, **more: object) -> Cutter:
    same = {"tip_mm": tip * IN, "diameter_mm": (tip + 2 * radius) * IN, "shank_mm": 12.7, "flutes": 4,
            "material": "hss", "condition": "sharp"}
    return Cutter(number, "corner-rounding-cutter", f"{radius} rounder", radius_mm=radius * IN,
                  **{**same, **more})  # type: ignore[arg-type]


def asked(*cutters: Cutter, radius: str = "1/8", **texts: str) -> Advice:
    return advise(read_request("corner-round", {"radius": radius, "material": "6061"} | texts, SHOP, "in"), cutters,
                  SHOP).advice


def test_its_pilot_runs_along_the_wall_and_its_arc_ends_at_the_top() -> None:
    """Geometry: the axis half the pilot outside the wall, the arc's middle a radius below the top."""
    plan = asked(rounder(0.125)).plans[0]
    last = plan.passes[-1]
    assert plan.answer == "as drawn" and last.role == "finish" and last.axial_mm == pytest.approx(0.005 * IN)
    assert (last.x_mm / IN, last.z_mm / IN) == (pytest.approx(0.1875), pytest.approx(-0.125))
    assert plan.proof.left_mm == plan.proof.gouge_mm == 0


@pytest.mark.parametrize(("angles", "proud"), [((90,), 0.0103), ((60, 120), 0.0044)])
def test_flats_stand_proud_by_what_geometry_says(angles: tuple[float, ...], proud: float) -> None:
    """Geometry, R (1/cos(45/(n+1)) - 1): a 1/8 round in one flat stands .0103 in proud, in two .0044; measured on
    what the passes leave. The proof told how far it reaches along the wall to the flat instead, .049: two figures for
    one thing."""
    cutters = [chamfer_cutter(number, 0.75, angle, 0.0) for number, angle in enumerate(angles, 1)]
    plan = asked(*cutters, radius="1/8+0-0").plans[0]
    (told,) = [one for one in plan.deviations if one.id == "LF1"]
    assert plan.answer == "compromise" and (told.has_mm or 0.0) / IN == pytest.approx(proud, abs=0.00005)
    assert (told.has_mm or 0.0) / IN == pytest.approx(0.125 * (1 / cos(pi / 4 / (len(angles) + 1)) - 1), abs=2e-6)
    assert plan.proof.left_mm == pytest.approx(told.has_mm, abs=1e-6)
    assert plan.proof.gouge_mm == 0 and "CR2" in {one.id for one in plan.warnings}


def test_three_flats_stand_proud_by_what_geometry_says() -> None:
    """Geometry, the same with n = 3: .0024. Where one flat does the planner takes that, so it is asked of the passes of
    the three points themselves, one after the other."""
    outline = draw(read_request("corner-round", {"radius": "1/8+0-0"}, SHOP, "in")).outline
    gone = Region()
    for number, angle in enumerate((45, 90, 135), 1):
        tool = ready(chamfer_cutter(number, 0.75, angle, 0.0), SHOP, find_material("6061"))
        assert tool is not None
        (job,) = clear(tool, outline, outline.rooms[0], gone, Limits(4))
        gone = job.removed
    assert stands(outline, outline.left(gone), gone) / 1e6 / IN == pytest.approx(0.0024, abs=0.00005)


def test_the_file_takes_its_time() -> None:
    """From memory: 6 minutes to begin filing and 4 a square inch. A quarter of a 1/8 round 8 in long is 1.57 square
    inches. Flats cost as if nobody had to file them, and came out cheaper than they are."""
    plan = asked(chamfer_cutter(1, 0.75, 90, 0.0), radius="1/8+0-0", length="8").plans[0]
    (line,) = [one for one in plan.cost_lines if one.what == "filing"]
    assert line.minutes == pytest.approx(6 + 4 * 8 * pi / 2 / 8, abs=0.01)
    alone = asked(rounder(0.125), length="8").plans[0]
    assert not any(one.what == "filing" for one in alone.cost_lines)


@pytest.mark.parametrize("radius", [0.09375, 0.15625])
def test_another_radius_is_refused_with_both_numbers(radius: float) -> None:
    """Common practice: larger or smaller, no rounder does another's radius."""
    found = asked(rounder(radius))
    refused = found.refused[0]
    near = 0.120 if radius < 0.125 else 0.130
    assert found.answer == "cannot" and refused.id == "SZ3"
    assert refused.has_mm == pytest.approx(radius * IN) and refused.needs_mm == pytest.approx(near * IN)


def test_a_pilot_that_nobody_measured_is_asked_for() -> None:
    assert asked(rounder(0.125, tip_mm=None)).answer == "measure first"


def test_a_point_too_blunt_for_one_flat_leaves_too_much_for_the_file() -> None:
    """82 degrees alone: its flat touches at 41, and beside the top 1/cos(24.5) - 1, a tenth of the radius, stands."""
    found = asked(chamfer_cutter(1, 0.75, 82, 0.0))
    assert found.answer == "cannot" and "reach" in spelt(found.refused[0].says)

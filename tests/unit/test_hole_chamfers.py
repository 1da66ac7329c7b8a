"""A chamfer at a hole: any point between 60 and 120 degrees down to the rim, one of the angle where that is named."""

from __future__ import annotations

from math import radians, tan

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.findings.errors import CribError
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Shop

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 325, 660), collets_mm=(6.35, 9.525, 12.7), chuck_mm=12.7)


def point(angle: float, number: int = 1, inches: float = 0.5, **more: object) -> Cutter:
    same = {"tip_mm": 0.0, "flutes": 3, "shank_mm": 6.35, "material": "hss", "condition": "sharp"}
    return Cutter(number, "countersink", f"{angle:g} countersink", diameter_mm=inches * IN, angle_deg=angle,
                  **{**same, **more})  # type: ignore[arg-type]


def asked(*cutters: Cutter, **texts: str) -> Advice:
    texts = {"diameter": "5/16", "hole": "1/4", "material": "1018"} | texts
    return advise(read_request("hole-chamfer", texts, SHOP, "in"), cutters, SHOP).advice


@pytest.mark.parametrize("angle", [60, 82, 90, 100, 120])
def test_any_point_goes_down_till_its_rim_is_the_one_asked(angle: float) -> None:
    """Geometry: a sharp point goes rim / (2 tan A/2) under the surface, (rim - hole) / (2 tan A/2) of it in metal."""
    plan = asked(point(angle)).plans[0]
    assert plan.answer == "as drawn" and not plan.deviations
    assert -plan.passes[0].z_mm == pytest.approx(0.3125 * IN / (2 * tan(radians(angle / 2))), abs=0.026)
    assert plan.proof.left_mm == plan.proof.gouge_mm == 0


def test_where_an_angle_is_named_another_point_is_refused() -> None:
    assert asked(point(60), angle="60").answer == "as drawn"
    found = asked(point(90), angle="60")
    assert found.answer == "cannot" and found.refused[0].id == "AN2"


@pytest.mark.parametrize(("cutter", "rule"), [
    (point(90, inches=0.25), "SZ3"), (point(90, tip_mm=7.0), "SZ3"), (point(135), "AN2")])
def test_what_does_not_reach_the_rim_is_told_why(cutter: Cutter, rule: str) -> None:
    assert asked(cutter).refused[0].id == rule


@pytest.mark.parametrize(("texts", "says"), [
    ({"diameter": "1/4"}, "no wider than its hole"), ({"angle": "150"}, "between its sides is none")])
def test_what_cannot_be_is_said_in_one_sentence(texts: dict[str, str], says: str) -> None:
    with pytest.raises(CribError, match=says):
        draw(read_request("hole-chamfer", {"diameter": "5/16", "hole": "1/4"} | texts, SHOP, "in"))


@pytest.mark.parametrize(("typed", "angle"), [({}, 90), ({"angle": "90"}, 90), ({"angle": "45"}, 90),
                                              ({"angle": "82"}, 82), ({"angle": "41"}, 82)])
def test_its_leg_gives_its_rim(typed: dict[str, str], angle: float) -> None:
    """Geometry: the rim is two legs wider than the hole, each as much across as its tan of half the angle says. Up to
    50 degrees an angle is one side's, as in `1/32 x 45`: common practice, no source."""
    texts = {"leg": "1/32", "hole": "1/4", "material": "1018"} | typed
    feature = draw(read_request("hole-chamfer", texts, SHOP, "in"))
    [rim] = feature.dimensions
    half = tan(radians(angle / 2))
    assert rim.size.nominal == pytest.approx((0.25 + 2 * half / 32) * IN)
    assert rim.size.hi == pytest.approx(0.25 * IN + 2 * half * feature.request.sizes["leg"].hi)
    assert feature.reckoned["angle_deg"] == angle
    by_rim = {"diameter": f"{rim.size.mid}mm", "hole": "1/4", "material": "1018", "angle": f"{angle}"}
    plans = [advise(read_request("hole-chamfer", one, SHOP, "in"), [point(angle)], SHOP).advice.plans[0]
             for one in (texts, by_rim)]
    assert plans[0].passes[0].z_mm == pytest.approx(plans[1].passes[0].z_mm)


def test_a_rim_and_a_leg_that_contradict_each_other_are_told() -> None:
    with pytest.raises(CribError, match="contradict each other"):
        draw(read_request("hole-chamfer", {"diameter": "3/8", "leg": "1/32", "hole": "1/4"}, SHOP, "in"))

"""Flat-bottomed holes: where the drill stops, what takes its cone out, what can't."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.findings.errors import CribError
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Shop
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 325, 660), collets_mm=(6.35, 9.525, 12.7), chuck_mm=12.7)
MILL = Cutter(1, "end-mill", "3/8 mill", diameter_mm=0.375 * IN, flutes=2, shank_mm=9.525, length_of_cut_mm=IN,
              centre_cutting=True, corner_radius_mm=0.0, material="hss", condition="sharp")


def drill(inches: float, number: int, **more: object) -> Cutter:
    same = {"angle_deg": 118.0, "length_of_cut_mm": 70.0, "shank_mm": inches * IN, "material": "hss",
            "condition": "sharp"}
    return Cutter(number, "drill", f"{inches} drill", diameter_mm=inches * IN, **{**same, **more})  # type: ignore[arg-type]


SMALL, FLAT = drill(0.3125, 2), drill(0.375, 3, angle_deg=180.0)


def asked(*cutters: Cutter, **texts: str) -> Advice:
    texts = {"diameter": "3/8+.006-0", "depth": "1/2", "material": "1018"} | texts
    return advise(read_request("flat-bottomed-hole", texts, SHOP, "in"), cutters, SHOP).advice


def test_the_drills_point_stops_five_to_ten_thou_over_the_floor_and_a_mill_takes_the_cone_out() -> None:
    """Common practice, no source; the drill is the largest that leaves the mill the whole of the wall."""
    plan = asked(MILL, SMALL, drill(0.25, 4), drill(0.4375, 5)).plans[0]
    assert plan.answer == "as drawn" and [one.role for one in plan.passes] == ["drill", "plunge"]
    assert [one.cutter_id for one in plan.passes] == [2, 1]
    assert 0.005 <= 0.5 + plan.passes[0].z_mm / IN <= 0.010
    assert plan.passes[1].z_mm == pytest.approx(-0.5 * IN, abs=0.013)
    assert plan.proof.left_mm == plan.proof.gouge_mm == 0


def test_a_drill_ground_flat_follows_an_ordinary_one_and_its_floor_is_true_to_three_thou() -> None:
    """Common practice, no source: it wanders without a start."""
    plan = asked(SMALL, FLAT, diameter="3/8+.010-0", depth="1/2+.002-.002").plans[0]
    assert plan.answer == "extra passes" and [one.cutter_id for one in plan.passes] == [2, 3]
    assert "FB1" in {one.id for one in plan.warnings}
    alone = asked(FLAT, diameter="3/8+.010-0")
    assert alone.answer == "cannot" and alone.refused[0].id == "HO2"


@pytest.mark.parametrize(("cutter", "rule", "says"), [
    (MILL.but(centre_cutting=False), "EN1", "a pip would stand"),
    (MILL.but(centre_cutting=None), "EN1", "isn't on record"),
    (MILL.but(corner_radius_mm=0.5), "G11", "radius of"),
    (MILL.but(diameter_mm=0.3125 * IN), "SZ3", "walked round by the handwheels"),
    (drill(0.375, 1), "KD1", "its point leaves a cone")])
def test_what_cannot_make_a_flat_floor_is_told_why(cutter: Cutter, rule: str, says: str) -> None:
    found = asked(cutter, drill(0.25, 9))
    refused = next(one for one in found.refused if one.cutter.id == 1)
    assert found.answer != "as drawn" and refused.id == rule and says in spelt(refused.says)


@pytest.mark.parametrize(("texts", "says"), [
    ({"depth": "6"}, "more than 12 diameters"), ({"floor_radius": ".25"}, "more than half of the diameter")])
def test_what_cannot_be_is_said_in_one_sentence(texts: dict[str, str], says: str) -> None:
    with pytest.raises(CribError, match=says):
        draw(read_request("flat-bottomed-hole", {"diameter": "3/8", "depth": "1/2"} | texts, SHOP, "in"))


def test_a_radius_that_the_floor_may_have_lets_a_rounded_mill_do_it() -> None:
    plan = asked(MILL.but(corner_radius_mm=0.5), SMALL, floor_radius=".02").plans[0]
    assert plan.answer == "as drawn" and plan.proof.left_mm == 0

"""What is to be measured first would do if it turned out well, and what a refusal says would do, would: a ball end mill
was to be looked at for a flat floor. Common practice, no source."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.findings.finding import NO_CHANGE
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import Shop

SHOP = Shop(chuck_mm=13.0)
ODD = [Cutter(1, "end-mill", label="ball", diameter_mm=12.7, corner_radius_mm=6.35, shank_mm=12.7),
       Cutter(2, "end-mill", label="bull nose", diameter_mm=12.7, corner_radius_mm=1.5, shank_mm=12.7),
       Cutter(3, "end-mill", label="rougher", diameter_mm=12.7, note="roughing", shank_mm=12.7),
       Cutter(4, "end-mill", label="chipped", diameter_mm=12.7, condition="chipped", shank_mm=12.7),
       Cutter(5, "drill", label="pilot", diameter_mm=3.0, condition="sharp")]
FLAT = [("flat-bottomed-hole", {"diameter": "1/2", "depth": "3/4"}),
        ("counterbore", {"diameter": "1/2", "depth": "3/8", "hole": "1/16"}),
        ("spotface", {"diameter": "1/2", "hole": "1/16"}),
        ("flat-bottomed-hole", {"diameter": "5/8", "depth": "3/4"}),
        ("counterbore", {"diameter": "5/8", "depth": "3/8", "hole": "1/16"})]


@pytest.mark.parametrize(("kind", "texts"), FLAT)
def test_no_flat_floor_waits_for_a_ball_a_rougher_or_a_chipped_mill(kind: str, texts: dict[str, str]) -> None:
    found = advise(read_request(kind, texts, SHOP, "in"), ODD, SHOP).advice
    told = {int(one.cutter.id): one for one in found.refused}
    assert not found.plans and {1, 2, 3, 4} <= told.keys()
    for number, rule in ((1, "G11"), (2, "G11"), (3, "CD1"), (4, "CD1")):
        one = told[number]
        assert one.id == rule and not one.unsure, (kind, one.cutter.label, one.id)
        assert one.fix == NO_CHANGE or "floor radius" in str(one.fix)


@pytest.mark.parametrize(("kind", "texts"), FLAT)
def test_what_may_do_once_looked_at_does_where_its_teeth_reach_the_middle(kind: str, texts: dict[str, str]) -> None:
    size = read_request(kind, texts, SHOP, "in").sizes["diameter"].mid
    mill = Cutter(9, "end-mill", label="a mill", diameter_mm=size, shank_mm=12.7, condition="sharp", flutes=4,
                  length_of_cut_mm=30.0)
    asked = advise(read_request(kind, texts, SHOP, "in"), [mill, ODD[4]], SHOP).advice
    sure = advise(read_request(kind, texts, SHOP, "in"), [mill.but(centre_cutting=True), ODD[4]], SHOP).advice
    assert kind in KINDS and sure.plans and not any(one.unsure for one in sure.refused)
    assert asked.plans or any(one.unsure and int(one.cutter.id) == 9 for one in asked.refused)

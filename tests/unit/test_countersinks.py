"""Countersinks: the head's own angle, another one with what the head then does, and what is refused."""

from __future__ import annotations

from dataclasses import replace

import pytest

from crib.cutters.base import Cutter
from crib.features import draw
from crib.findings.errors import CribError
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Shop
from crib.units.words import words
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 325, 660), collets_mm=(6.35, 9.525, 12.7))
SINK = Cutter(1, "countersink", "countersink", diameter_mm=12.7, angle_deg=82.0, tip_mm=0.0, flutes=3, shank_mm=6.35,
              material="hss", condition="sharp")
HEAD = {"diameter": ".385", "angle": "82", "hole": ".201+.0001-.0001"}


def asked(*cutters: Cutter, **texts: str) -> Advice:
    return advise(read_request("countersink", {**HEAD, "material": "6061"} | texts, SHOP, "in"), cutters, SHOP).advice


def test_depth_by_its_point() -> None:
    """Geometry: R / tan(41 degrees) for the rim .385: .2214 in down from where a sharp point touches the surface."""
    plan = asked(SINK).plans[0]
    assert plan.answer == "as drawn" and plan.passes[0].z_mm == pytest.approx(-0.2214 * IN, abs=0.0006 * IN)
    blunt = asked(SINK.but(tip_mm=0.05 * IN)).plans[0]
    assert blunt.passes[0].z_mm == pytest.approx(-(0.2214 - 0.025 / 0.86929) * IN, abs=0.0006 * IN)


@pytest.mark.parametrize(("units", "dro", "z", "rim", "down"), [
    ("in", False, "-.2680", ".536", ".136"), ("mm", False, "-6.790", "13.580", "3.435"),
    ("mm", True, "-6.785", "13.570", "3.430")])
def test_the_rim_that_is_said_is_the_one_that_the_depth_makes(units: str, dro: bool, z: str, rim: str, down: str
                                                              ) -> None:
    """Geometry, by hand: a sharp point of 90 degrees is twice as wide at the surface as it stands deep, and from a hole
    of 6.71 mm it goes down half of what the rim is wider. The aim, 13.567 mm, is set on whole steps of the readout:
    what was said of it and what was dialled were two sizes."""
    shop = replace(SHOP, units=units, dro=dro, chuck_mm=12.7)
    question = read_request("countersink", {"screw": "M6"}, shop, units)
    wide = SINK.but(angle_deg=90.0, diameter_mm=20.0, shank_mm=10.0, tip_mm=None)
    only = advise(question, (wide,), shop).advice.plans[0].passes[0]
    assert only.dial_z_mm == pytest.approx(float(z) * (IN if units == "in" else 1.0), abs=1e-6)
    said = words(only.says, units)
    assert f"down to {rim} across" in said and f"{down} down from where it touches the hole" in said


def test_a_blunter_seat_leaves_the_head_proud_and_a_sharper_one_off_at_the_hole() -> None:
    """Geometry, worked by hand: R .1925, r .1005, an 82 degree head in a 90 degree seat stands .0138 proud."""
    blunt = asked(SINK.but(angle_deg=90.0)).plans[0]
    assert blunt.answer == "compromise"
    assert blunt.deviations[0].has_mm == pytest.approx(0.0138 * IN, abs=0.00006 * IN)
    assert "ring" in spelt(blunt.deviations[0].says)
    sharp = asked(SINK, angle="90").plans[0]
    assert sharp.answer == "compromise" and "rim alone" in spelt(sharp.deviations[0].says)


@pytest.mark.parametrize(("change", "rule"), [
    ({"angle_deg": 60.0}, "AN2"), ({"angle_deg": 118.0}, "AN2"), ({"diameter_mm": 8.0}, "SZ3"),
    ({"tip_mm": 6.0}, "SZ3"), ({"condition": "chipped"}, "CD1")])
def test_what_sinks_no_such_head(change: dict[str, object], rule: str) -> None:
    advice = asked(SINK.but(**change))
    assert (advice.answer, advice.refused[0].id) == ("cannot", rule)


def test_an_angle_that_is_not_known_is_measured_first() -> None:
    assert asked(SINK.but(angle_deg=None)).answer == "measure first"


def test_under_load_the_head_bears_all_over() -> None:
    """Common practice: a joint under load gets the head's own angle or none."""
    assert asked(SINK.but(angle_deg=90.0), use="load").answer == "cannot"
    assert asked(SINK, use="load").answer == "as drawn"


def test_a_spot_drill_does_it_though_it_is_none() -> None:
    spot = SINK.but(kind="spot-drill", angle_deg=90.0, flutes=2, shank_mm=12.7)
    assert asked(spot, angle="90").answer == "extra passes"


@pytest.mark.parametrize(("texts", "says"), [
    ({"diameter": ".2"}, "no wider than its hole"), ({"angle": "30"}, "is none")])
def test_what_cannot_be_is_said_in_one_sentence(texts: dict[str, str], says: str) -> None:
    with pytest.raises(CribError, match=says):
        draw(read_request("countersink", HEAD | texts, SHOP, "in"))


@pytest.mark.parametrize(("units", "bit"), [("in", "a thou at a time"), ("mm", "0.02 at a time")])
def test_the_last_of_it_is_told_in_the_units_of_the_shop(units: str, bit: str) -> None:
    """A slide that reads in millimetres has no thou on it; 0.02 mm is the nearest round step."""
    says = asked(SINK.but(tip_mm=None)).plans[0].passes[0].says
    assert bit in words(says, units)

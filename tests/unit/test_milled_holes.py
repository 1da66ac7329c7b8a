"""A hole by an end mill of its size: after a drill, whose hole lets its middle through, before one from solid."""

from __future__ import annotations

from typing import Any

import pytest

from crib.buying.hint import hint
from crib.cutters.base import Cutter
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Shop
from tests.spelt import spelt

INCH = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 325, 660, 1115), collets_mm=(6.35, 9.525, 12.7), chuck_mm=12.7)
SAME: dict[str, Any] = {"material": "hss", "condition": "sharp", "measured": ("diameter_mm",)}
MILL = Cutter(1, "end-mill", "1/4 mill", diameter_mm=6.35, flutes=4, shank_mm=9.525, length_of_cut_mm=20.0,
              corner_radius_mm=0.0, centre_cutting=True, **SAME)


def drill(number: int, inches: float, flutes_mm: float = 70.0) -> Cutter:
    return Cutter(number, "drill", f"drill {inches}", diameter_mm=inches * INCH, length_of_cut_mm=flutes_mm,
                  angle_deg=118.0, shank_mm=inches * INCH, **SAME)


def asked(*cutters: Cutter, kind: str = "hole", **texts: str) -> Advice:
    texts = {"diameter": "1/4", "depth": "3/8", "through": "yes", "material": "1018"} | texts
    return advise(read_request(kind, texts, SHOP, "in"), cutters, SHOP).advice


@pytest.mark.parametrize("more", [{}, {"kind": "bolt-circle", "diameter": "3", "hole": "1/4", "number": "6"}])
def test_a_drill_under_size_goes_before_the_mill(more: dict[str, str]) -> None:
    """Common practice, no source: the next thing when no drill is right is to step it out from under by an end mill.
    It was plunged from solid steel instead, over a drill that was there."""
    found = asked(MILL, drill(2, 0.213), drill(3, 0.257), **more)
    plan = found.plans[0]
    assert found.answer == "extra passes" and [one.role for one in plan.passes] == ["drill", "plunge"]
    assert [one.cutter_id for one in plan.passes] == [2, 1] and "HO7" not in {one.id for one in plan.warnings}
    assert plan.proof.left_mm == plan.proof.gouge_mm == 0


@pytest.mark.parametrize("under", [[], [drill(2, 0.089)], [drill(2, 0.213, 6.0)]])
def test_from_solid_is_cautioned_where_no_drill_opens_its_middle(under: list[Cutter]) -> None:
    """Of its diameter two fifths is core (common practice, no source): .100 here. A drill that is less, or too short,
    doesn't go first; the mill is pecked."""
    plan = asked(MILL, *under).plans[0]
    assert [one.cutter_id for one in plan.passes] == [1] and "HO7" in {one.id for one in plan.warnings}
    assert "clear it every half diameter" in spelt(plan.passes[0].says)


def test_a_drill_inside_the_limits_goes_before_both() -> None:
    found = asked(MILL, drill(2, 0.213), drill(3, 0.248))
    assert found.answer == "as drawn" and [one.cutter_id for one in found.plans[0].passes] == [3]


@pytest.mark.parametrize("known", [False, None])
def test_that_it_cuts_on_centre_is_known_and_not_assumed(known: bool | None) -> None:
    """Two flutes mostly do; only what is on record counts for a hole."""
    found = asked(MILL.but(centre_cutting=known, flutes=2))
    assert not found.plans and {one.id for one in found.refused} == {"EN1"}


def test_a_drill_that_only_goes_first_leaves_the_right_one_worth_a_look() -> None:
    """What a drill of the size would save was told only while no drill was at work at all."""
    cutters = (MILL, drill(2, 0.213))
    texts = {"diameter": "1/4", "depth": "3/8", "through": "yes", "material": "1018"}
    request = read_request("hole", texts, SHOP, "in")
    told = hint(request, advise(request, cutters, SHOP).advice, cutters, SHOP)
    assert told is not None and "drill" in told["label"]

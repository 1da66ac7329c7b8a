"""Reamers that a hand turns, adjustable ones among them: what they take, how they are held, what they can't."""

from __future__ import annotations

from math import ceil
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.cutters.reamer import by_hand, sizes
from crib.handbook.bands import drill_mean
from crib.intake.shorthand import Shop as Spoken
from crib.intake.shorthand import read_line
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import BoringHead, Shop
from crib.units.words import words as spelt

INCH = 25.4
SHOP = Shop(boring_heads=(BoringHead(12.7, 9.0, 90.0),))
SAME: dict[str, Any] = {"material": "hss", "condition": "sharp", "measured": ("diameter_mm",)}


def drill(number: int, inches: float) -> Cutter:
    return Cutter(number, "drill", f"drill {inches}", diameter_mm=inches * INCH, length_of_cut_mm=120.0, shank_mm=12.0,
                  **SAME)


def reamer(inches: float, note: str, least: float | None = None) -> Cutter:
    return Cutter(1, "reamer", f"{inches} reamer", diameter_mm=inches * INCH, note=note,
                  min_hole_mm=least * INCH if least else None, **SAME)


def asked(*cutters: Cutter, diameter: str = "1/2+.001-0", through: str = "yes") -> Any:
    texts = {"diameter": diameter, "depth": "3/4", "finish": "reamed", "through": through, "material": "1018"}
    return advise(read_request("hole", texts, SHOP, "in"), cutters, SHOP).advice


@pytest.mark.parametrize("said, hand, least, most", [
    ("hand reamer 1/2", True, 0.5, 0.5),
    ("adjustable hand reamer 15/32 to 17/32", True, 15 / 32, 17 / 32),
    ("adjustable reamer 15/32-17/32", True, 15 / 32, 17 / 32),
    ("1/2 expansion reamer", True, 0.5, 0.5),
    ("1/2 chucking reamer", False, 0.5, 0.5),
    ("1/2 reamer", False, 0.5, 0.5),
])
def test_which_are_turned_by_hand_is_read_off_the_line(said: str, hand: bool, least: float, most: float) -> None:
    taken = read_line(said, Spoken("in")).taken
    (one,) = [each.cutter for each in taken]
    assert by_hand(one) is hand and sizes(one) == pytest.approx((least * INCH, most * INCH))


def test_it_is_turned_in_a_tap_wrench_and_no_spindle_turns_it() -> None:
    """Under power a hand reamer's long lead grabs (common practice, no source): no speed and no feed are told."""
    plan = asked(drill(2, 12.5 / INCH), reamer(0.5, "hand")).plans[0]
    last = plan.passes[-1]
    assert last.role == "ream" and last.rpm is None and last.mm_per_min == 0.0
    assert "tap wrench" in spelt(last.says, "in") and any(one.id == "HO9" for one in plan.warnings)
    assert plan.proof.left_mm == 0.0 and not any(one.id == "HO1" for one in plan.warnings)
    by_power = asked(drill(2, 12.5 / INCH), reamer(0.5, "chucking")).plans[0]
    assert by_power.passes[-1].rpm is not None or by_power.passes[-1].wanted_rpm > 0
    assert not any(one.id == "HO9" for one in by_power.warnings)


def test_its_long_lead_leaves_the_bottom_of_a_blind_hole_narrow() -> None:
    """The lead of a hand reamer is about as long as it is thick (common practice, no source)."""
    advice = asked(drill(2, 12.5 / INCH), reamer(0.5, "hand"), through="no")
    assert not any("ream" in {one.role for one in plan.passes} for plan in advice.plans)
    assert any(one.cutter.id == 1 and one.id == "HO9" for one in advice.refused)


def test_too_much_for_a_hand_is_bored_first() -> None:
    """A 31/64 leaves .011: by hand .002 to .006 are taken (common practice), so a bore comes in between."""
    bar = Cutter(3, "boring-bar", "3/8 bar", diameter_mm=7.0, min_hole_mm=9.0, shank_mm=12.7, **SAME)
    plans = asked(drill(2, 15 / 32), bar, reamer(0.5, "hand")).plans
    bored = next(plan for plan in plans if "bore" in {one.role for one in plan.passes}
                 and plan.passes[-1].role == "ream")
    last = [one.diameter_mm for one in bored.passes if one.role == "bore"][-1]
    assert last is not None and 0.002 <= 0.5 - last / INCH <= 0.006


@given(thou=st.integers(470, 530))
def test_an_adjustable_one_makes_every_size_of_its_range_and_no_other(thou: int) -> None:
    """Of its range, .469 to .531, after a drill whose hole leaves it no more than it is set out to."""
    low = thou / 1000
    size = f".{thou}+.001-0"
    drills = [drill(2, (thou - 12) / 1000), drill(3, 0.460)]
    plans = asked(*drills, reamer(17 / 32, "hand; adjustable", 15 / 32), diameter=size).plans
    reamed = [plan for plan in plans if plan.passes[-1].role == "ream"]
    fits = low + 0.001 >= 15 / 32 + 0.0003 and low <= 17 / 32 + 0.0003
    assert bool(reamed) is fits
    for plan in reamed:
        turned = [one for one in plan.passes if one.role == "ream"]
        assert len(turned) == 1 and "set it out" in spelt(turned[0].says, "in")


def test_it_is_set_out_a_few_thou_at_a_time() -> None:
    """Four thou a setting (from memory): from the drilled hole to .5082 at last, and the hole is .0003 more."""
    hole = 12.5 + drill_mean(12.5)
    times = ceil((0.5085 * INCH - 0.0003 * INCH - hole) / (0.004 * INCH))
    plan = asked(drill(2, 12.5 / INCH), reamer(17 / 32, "adjustable", 15 / 32), diameter=".508+.001-0").plans[0]
    says = spelt(plan.passes[-1].says, "in")
    assert f"in {times} settings" in says and ".5082" in says

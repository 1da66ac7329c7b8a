"""Cutters of a form that go on an arbor: a rounder as a disc with a bore, a convex one where a face is straight."""

from __future__ import annotations

from math import cos, pi, sin, sqrt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.intake.shorthand import Shop as Words
from crib.intake.shorthand import read_line
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Arbor, Shop
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(arbors=(Arbor(IN, 1.75 * IN),))
SURE: dict[str, Any] = {"material": "hss", "condition": "sharp", "measured": ("diameter_mm",)}


def rounder(across: float | None = 2.5, radius: float = 0.125, **more: Any) -> Cutter:
    return Cutter(1, "corner-rounding-cutter", "bored rounder", diameter_mm=across and across * IN,
                  radius_mm=radius * IN, bore_mm=IN, flutes=12, **(SURE | more))


def convex(radius: float) -> Cutter:
    return Cutter(2, "form-cutter", "convex", diameter_mm=3 * IN, radius_mm=radius * IN, face_mm=2 * radius * IN,
                  bore_mm=IN, flutes=12, note="convex", **SURE)


def asked(kind: str, cutter: Cutter, **texts: str) -> Advice:
    return advise(read_request(kind, {"material": "6061", "length": "3"} | texts, SHOP, "in"), (cutter,), SHOP).advice


@given(st.sampled_from([0.0625, 0.125, 0.1875, 0.25]), st.floats(2.5, 4.0), st.booleans())
def test_a_rounder_on_an_arbor_stands_its_small_side_off_the_wall(radius: float, across: float, tall: bool) -> None:
    """Its small end is its diameter less its radius on both sides (geometry): so far from the wall the axis stands, and
    the arbor's flange hangs below, inside of that. A disc with a bore was planned on a half inch shank."""
    cutter = rounder(round(across, 3), radius, **({"face_mm": (radius + 0.125) * IN} if tall else {}))
    plan = asked("corner-round", cutter, radius=f"{radius}+.003-.003").plans[0]
    small = round(across, 3) / 2 - radius
    assert plan.answer == "as drawn" and plan.proof.left_mm == plan.proof.gouge_mm == 0.0
    assert plan.passes[-1].x_mm / IN == pytest.approx(small, abs=0.0006)
    assert not any("shank" in spelt(one) for one in plan.assumed)
    assert plan.proof.tight is not None and plan.proof.tight.part == "arbor flange"
    assert plan.proof.tight.gap_mm / IN == pytest.approx(small - 0.875, abs=0.0006)


def test_a_flange_wider_than_its_small_side_meets_the_wall() -> None:
    """1.9 less .125 on both sides is 1.65 across, and the flange is 1.75."""
    [no] = asked("corner-round", rounder(1.9), radius=".125+.003-.003").refused
    assert no.id == "HD3" and "flange" in spelt(no.says)


def test_without_its_diameter_it_is_asked_for() -> None:
    [no] = asked("corner-round", rounder(None), radius=".125+.003-.003").refused
    assert no.id == "G7" and "mic the diameter" in spelt(no.says)


def take(line: str) -> Cutter:
    [taken] = read_line(line, Words("in")).taken
    return taken.cutter


def test_what_the_line_says_is_enough() -> None:
    """Neither a pilot nor a shank is asked for where diameter and bore are said; without a bore the pilot is."""
    read = take("1/8 r corner rounding cutter 2-1/2 dia 1 bore hss")
    assert read.bore_mm == IN and read.shank_mm is None and not read.questions
    assert any("pilot" in one for one in take("1/8 r corner rounding cutter 1/2 shank hss").questions)


@pytest.mark.parametrize(("kind", "texts"), [
    ("slot", {"width": ".75", "depth": ".25"}), ("step", {"width": ".75", "depth": ".25"}),
    ("slot", {"width": "1", "depth": ".4", "floor_radius": ".25"}),
])
def test_a_convex_rim_is_no_rim_for_a_straight_face(kind: str, texts: dict[str, str]) -> None:
    """Stepped every fifth of its radius it leaves r - sqrt(r^2 - (s/2)^2): .0013 with 1/4 (geometry). It was told that
    the spindle's nose stands in the way, or that it doesn't reach."""
    [no] = asked(kind, convex(0.25), **texts).refused
    ridge = 0.25 - sqrt(0.25**2 - 0.025**2)
    assert no.id == "KD1" and "its rim is round" in spelt(no.says) and f"{ridge:.4f}".lstrip("0") in spelt(no.says)
    assert "round groove" in spelt(no.fix)


def test_its_own_work_is_no_ridge() -> None:
    for kind, texts in (("round-groove", {"radius": ".25+.003-.003"}), ("inside-fillet", {"radius": ".25+.003-.003"})):
        advice = asked(kind, convex(0.25), **texts)
        assert advice.plans or not any("its rim is round" in spelt(one.says) for one in advice.refused)


@pytest.mark.parametrize("cutter", [convex(0.125), Cutter(3, "end-mill", "ball", diameter_mm=0.25 * IN, flutes=2,
                                                          corner_radius_mm=0.125 * IN, length_of_cut_mm=IN,
                                                          centre_cutting=True, shank_mm=0.25 * IN, **SURE)],
                         ids=["convex", "ball"])
def test_a_sharper_round_leaves_ridges_in_a_round_floor(cutter: Cutter) -> None:
    """R - (rho cos a/2 + sqrt(r^2 - (rho sin a/2)^2)), settings 22.5 degrees apart: .0048 for 1/8 in a floor of 1/4
    (geometry). It was told that half an inch is left where it can't get."""
    [no] = asked("round-groove", cutter, radius=".25+.003-.003").refused
    ridge = 0.25 - (0.125 * cos(pi / 16) + sqrt(0.125**2 - (0.125 * sin(pi / 16)) ** 2))
    assert no.id == "SZ3" and f"ridges {ridge:.4f}".replace("0.", ".") in spelt(no.says)
    assert "one of .250 radius would do" in spelt(no.fix)


def test_square_corners_make_no_round_floor() -> None:
    square = Cutter(4, "end-mill", "square", diameter_mm=0.25 * IN, flutes=2, corner_radius_mm=0.0,
                    length_of_cut_mm=IN, centre_cutting=True, shank_mm=0.25 * IN, **SURE)
    [no] = asked("round-groove", square, radius=".25+.003-.003").refused
    assert "its corners are sharper than the floor" in spelt(no.says) and "a ball or a convex cutter" in spelt(no.fix)

"""Spotfaces, faces, round grooves, and cutters that were only on record before: fly cutters, rounded form cutters."""

from __future__ import annotations

from itertools import pairwise

import pytest

from crib.cutters.base import Cutter
from crib.features import KINDS, draw
from crib.findings.errors import CribError
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice
from crib.shop import Arbor, Shop
from tests.spelt import spelt

IN = 25.4
SHOP = Shop(spindle_rpm=(80, 135, 325, 660), collets_mm=(9.525, 12.7, 19.05), arbors=(Arbor(25.4, 38.1),))
MILL = Cutter(1, "end-mill", "mill", diameter_mm=0.75 * IN, flutes=4, shank_mm=12.7, length_of_cut_mm=1.5 * IN,
              material="hss", condition="sharp", corner_radius_mm=0.0, centre_cutting=False)
FLY = Cutter(2, "fly-cutter", "fly cutter", diameter_mm=3 * IN, shank_mm=12.7, material="hss", condition="sharp")
BALL = MILL.but(id=3, diameter_mm=0.25 * IN, corner_radius_mm=0.125 * IN, shank_mm=9.525, length_of_cut_mm=0.75 * IN,
                flutes=2, centre_cutting=True)
CONVEX = Cutter(4, "form-cutter", "form cutter", radius_mm=0.125 * IN, diameter_mm=2.25 * IN, bore_mm=25.4,
                face_mm=0.25 * IN, material="hss", condition="sharp", note="convex")
ROUND = {"radius": "1/8+.003-.003", "depth": ".1"}


def asked(kind: str, *cutters: Cutter, **texts: str) -> Advice:
    return advise(read_request(kind, {"material": "grey iron"} | texts, SHOP, "in"), cutters, SHOP).advice


def test_a_seat_may_be_wider_than_the_head_and_no_narrower() -> None:
    """Common practice, no source: a bolt's head sits as well on a wider seat; limits that are typed are kept."""
    wider = asked("spotface", MILL, diameter="5/8", hole="3/8")
    assert wider.answer == "as drawn" and [one.role for one in wider.plans[0].passes] == ["spotface"]
    assert asked("spotface", MILL, diameter="5/8+.015-.015", hole="3/8").answer == "cannot"
    assert asked("spotface", MILL, diameter="13/16", hole="3/8").answer == "cannot"


@pytest.mark.parametrize(("hole", "answer"), [("3/8", "as drawn"), ("1/4", "cannot"), (None, "cannot")])
def test_a_middle_that_does_not_cut_wants_a_hole_under_it(hole: str | None, answer: str) -> None:
    """Common practice: the core of an end mill that isn't centre-cutting is .4 of its diameter, .300 of 3/4."""
    advice = asked("spotface", MILL, diameter="5/8", **({"hole": hole} if hole else {}))
    assert advice.answer == answer
    assert answer == "as drawn" or advice.refused[0].id == "EN1"
    whole = MILL.but(centre_cutting=True)
    assert asked("spotface", whole, diameter="5/8", **({"hole": hole} if hole else {})).answer == "as drawn"


@pytest.mark.parametrize(("texts", "far"), [({}, "till it is clean all round"), ({"depth": "1/8"}, "plunge slowly")])
def test_a_seat_of_no_depth_is_taken_till_it_is_clean(texts: dict[str, str], far: str) -> None:
    """Common practice: where none is drawn the Z that is told is a guess, and its line says by what it is stopped; in
    cast iron nothing that is said of it is said with oil."""
    says = [spelt(one.says) for one in asked("spotface", MILL, diameter="5/8", hole="3/8", **texts).plans[0].passes]
    assert [far in one and "oil" not in one for one in says] == [True]


def test_a_pilot_wants_its_hole() -> None:
    bore = Cutter(5, "counterbore", "counterbore", diameter_mm=0.64 * IN, pilot_mm=0.262 * IN, shank_mm=9.525,
                  material="hss", condition="sharp")
    assert asked("spotface", bore, diameter="5/8", hole="17/64").answer == "as drawn"
    refused = asked("spotface", bore, diameter="5/8").refused[0]
    assert (refused.id, refused.answer) == ("CB1", "cannot") and "none is there" in spelt(refused.says)


def test_a_spotface_is_found_by_its_hole_and_cleans_up_only() -> None:
    plan = asked("spotface", MILL, diameter="5/8", hole="3/8").plans[0]
    assert "over the hole" in spelt(plan.touch_off[0].says)
    assert plan.passes[0].z_mm == pytest.approx(-IN / 16)
    deeper = asked("spotface", MILL, diameter="5/8", hole="3/8", depth=".1").plans[0]
    assert deeper.passes[0].z_mm == pytest.approx(-0.1 * IN)


def test_a_face_takes_one_pass_where_the_cutter_is_wide_enough() -> None:
    """Geometry, D 3 in, a face 2.5 in wide, the head .05 degrees out: hollow by .0006 in."""
    plan = asked("facing", FLY, width="2.5", depth=".04", length="4").plans[0]
    assert plan.answer == "as drawn" and [(one.x_mm, one.direction) for one in plan.passes] == [(0.0, "both")]
    assert any(one.id == "TM1" and ".0006 hollow" in spelt(one.says) for one in plan.warnings)


def test_strips_overlap_and_hang_over_the_sides() -> None:
    """Common practice: the strips of an end mill overlap by a fifth or more, the outer ones run over the edge."""
    plan = asked("facing", MILL, width="2", depth=".04", length="4").plans[0]
    across = sorted(one.x_mm for one in plan.passes)
    assert plan.answer == "extra passes" and plan.proof.left_mm == 0
    assert max(b - a for a, b in pairwise(across)) <= 0.8 * 0.75 * IN
    assert across[0] - 0.375 * IN < -IN and across[-1] + 0.375 * IN > IN


def test_a_bit_leaves_its_nose_in_a_corner() -> None:
    """A fly cutter's bit is rounded: faces don't mind, a step's corner does."""
    assert asked("step", FLY, width="3/4", depth=".05").answer == "cannot"
    assert asked("step", FLY, width="3/4", depth=".05", floor_radius=".05").plans
    waived = asked("step", FLY, width="3/4", depth=".2")
    assert waived.answer == "compromise", "an owner may let a fillet of a quarter of the depth stand"


def test_a_fly_cutter_without_its_swing_is_measured_first() -> None:
    advice = asked("facing", FLY.but(diameter_mm=None), width="2.5", depth=".04")
    assert advice.answer == "measure first" and "swing" in spelt(advice.refused[0].says)


@pytest.mark.parametrize("cutter", [BALL, CONVEX], ids=["ball", "convex"])
def test_a_round_groove_is_made_from_above_or_from_the_side(cutter: Cutter) -> None:
    """By the ball of its radius as it lies, by the convex cutter with the work on its side."""
    plan = asked("round-groove", cutter, **ROUND).plans[0]
    assert plan.answer == "as drawn" and plan.proof.left_mm == plan.proof.gouge_mm == 0
    assert {one.view for one in plan.passes} == {"cross"}


def test_which_way_a_form_cutter_is_round_its_note_says() -> None:
    assert asked("round-groove", CONVEX.but(note="concave"), **ROUND).answer == "cannot"
    silent = asked("round-groove", CONVEX.but(note=None), **ROUND)
    assert silent.answer == "measure first" and "convex or concave" in spelt(silent.refused[0].says)


def test_a_ball_of_another_radius_is_no_ball_for_it() -> None:
    assert asked("round-groove", BALL.but(diameter_mm=0.3 * IN, corner_radius_mm=0.15 * IN), **ROUND).answer == "cannot"


@pytest.mark.parametrize(("kind", "texts", "says"), [
    ("round-groove", {"radius": "1/8", "depth": "1/4"}, "deeper than its radius"),
    ("spotface", {"diameter": "1/4", "hole": "3/8"}, "no wider than its hole"),
])
def test_what_cannot_be_is_said_in_one_sentence(kind: str, texts: dict[str, str], says: str) -> None:
    with pytest.raises(CribError, match=says):
        draw(read_request(kind, texts, SHOP, "in"))
    assert kind in KINDS


def test_a_seat_is_measured_as_wide_as_what_makes_it() -> None:
    """A 3/4 mill made a seat of .751, and the micrometer was to read .5625, the least that it may be. Common practice,
    no source: what a cutter makes by its own size reads as that."""
    plan = asked("spotface", MILL.but(centre_cutting=True), diameter="9/16", hole="1/4").plans[0]
    [across] = [one for one in plan.checks if "diameter" in spelt(one.what)]
    assert across.reads_mm == pytest.approx(0.751 * IN, abs=0.002 * IN)

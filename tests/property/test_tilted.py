"""A right-angled V with the work tilted: a wall and a floor, made at once. Geometry: a groove W wide is W / 2 deep,
each flank W / sqrt(2) long."""

from __future__ import annotations

from dataclasses import replace
from math import sqrt

import pytest
from hypothesis import event, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.search.set_ups import usable
from crib.setups import tilted
from crib.shop import Shop
from tests.property.test_completeness import bounds_hold
from tests.spelt import spelt
from tests.strategies import any_of, brief, mm
from tests.unpruned import every_way, first_found, questions_of, shown

SHOP = Shop(units="mm")


def mill(number: int, diameter: float, cut: float, shank: float) -> Cutter:
    return Cutter(number, "end-mill", f"mill {number}", diameter_mm=diameter, length_of_cut_mm=cut, shank_mm=shank,
                  corner_radius_mm=0.0, flutes=2, centre_cutting=True, material="hss", condition="sharp",
                  measured=("diameter_mm",))


def groove(width: str, angle: str = "90") -> Request:
    return read_request("v-groove", {"angle": angle, "width": width, "material": "6061"}, SHOP, "mm")


def pointed(number: int, diameter: float) -> Cutter:
    return Cutter(number, "chamfer-cutter", f"point {number}", diameter_mm=diameter, angle_deg=90.0, tip_mm=0.0,
                  shank_mm=6.0, flutes=4, material="hss", condition="sharp", measured=("diameter_mm", "angle_deg"))


def test_both_flanks_at_once() -> None:
    """W 10: depth 5, flanks 7.071; the last pass has the axis D / 2 off the wall and the end on the floor."""
    plan = advise(groove("10mm"), (mill(1, 12.0, 20.0, 12.0),), SHOP).advice.plans[0]
    assert plan.answer == "extra passes" and spelt(plan.setup).startswith("work tilted 45 degrees")
    last = plan.passes[-1]
    assert last.x_mm == pytest.approx(6.0, abs=1e-5) and last.z_mm == pytest.approx(-10 / sqrt(2), abs=1e-5)
    assert plan.proof.left_mm == 0 and plan.proof.gouge_mm == 0
    assert next(line for line in plan.cost_lines if line.what == "setting up").minutes == 2 * SHOP.setup_minutes
    assert "SU1" in {warning.id for warning in plan.warnings}


def test_what_is_made_for_it_goes_first() -> None:
    """A 90 degree point does it without tilting; the mill is a runner-up at the most."""
    plans = advise(groove("6mm"), (mill(1, 12.0, 20.0, 12.0), pointed(2, 12.0)), SHOP).advice.plans
    assert plans[0].answer == "as drawn" and [cutter.id for cutter in plans[0].cutters] == [2]


@pytest.mark.parametrize("angle", ["60", "89", "120"])
def test_no_other_angle(angle: str) -> None:
    """An inside corner under 90 degrees takes no square cutter; another than 90 isn't asked for tilted."""
    assert len(questions_of(groove("10mm", angle), SHOP, ())) == 1
    assert not advise(groove("10mm", angle), (mill(1, 12.0, 20.0, 12.0),), SHOP).advice.plans


@given(mm(1, 20))
def test_nothing_is_lost_in_turning(width: float) -> None:
    """Areas as before but for what rounding to the nanometre moves, least within aim within most, the room a square of
    W / sqrt(2)."""
    was = draw_feature(groove(f"{width}mm")).outline
    now = tilted.turn(was)
    for before, after in ((was.least, now.least), (was.aim, now.aim), (was.most, now.most)):
        assert after.area == pytest.approx(before.area, rel=1e-5)
    assert not (now.least - now.aim) and not (now.aim - now.most)
    room = now.rooms[0].aim
    assert abs(room.width - width * 1e6 / sqrt(2)) <= 2 and abs(room.height - room.width) <= 2
    assert (room.left, room.high) == (0, 0)


@st.composite
def asked(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...]]:
    width = draw(mm(2, 14))
    some = [draw(st.one_of(
        st.builds(mill, st.just(number), mm(2, 16), mm(2, 20), st.sampled_from([6.0, 12.0, 20.0])),
        st.builds(pointed, st.just(number), mm(2, 16)),
    )) for number in range(1, draw(st.integers(1, 3)) + 1)]
    return replace(groove(f"{width}mm"), hours=draw(any_of(0.0, 6.0))), tuple(some)


@settings(max_examples=60)
@given(asked())
def test_nothing_is_missed(question: tuple[Request, tuple[Cutter, ...]]) -> None:
    request, cutters = question
    note(brief(request, cutters))
    advice = advise(request, cutters, SHOP).advice
    questions = questions_of(request, SHOP, cutters)
    tools = usable(questions[0], cutters)
    best = every_way(questions, tools)
    event(f"{best.draft.question.setup.name if best else 'none'}")
    assert bool(best) == bool(advice.plans)
    if best:
        plan = first_found(advice.plans, best)
        assert (plan.answer, round(plan.cost, 6), tuple(c.id for c in plan.cutters)) == shown(best)
    for one in questions:
        bounds_hold(one, tools)

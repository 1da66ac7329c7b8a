"""What changes an answer and what doesn't: the order of the cutters, one that is of no use, one more, a worse neck."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import fields, is_dataclass
from typing import Any

from hypothesis import assume, event, example, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.findings.verdicts import ANSWERS, Verdict
from crib.planning.advise import advise
from crib.planning.told.advice import Advice
from crib.shop import Shop
from tests.strategies import (
    REQUESTS,
    STEP,
    around,
    brief,
    cribs,
    discs,
    end_mills,
    renumbered,
    right_for,
    shops,
    t_slots,
)
from tests.unpruned import missed

Asked = tuple[Request, tuple[Cutter, ...], Shop]

USELESS = Cutter(90, "tap", thread="1/4-20", label="tap")
TOO_BIG = Cutter(91, "end-mill", label="too big", diameter_mm=60.0, length_of_cut_mm=80.0, shank_mm=25.4, flutes=4,
                 corner_radius_mm=0.0, centre_cutting=True, measured=("diameter_mm",))


@st.composite
def questions(draw: st.DrawFn, request: st.SearchStrategy[Request] = REQUESTS, most: int = 4) -> Asked:
    asked = draw(request)
    try:
        draw_feature(asked)
    except CribError:
        assume(False)
    right = draw(right_for(asked, 1)) if draw(st.integers(0, 3)) else ()
    return asked, renumbered((*right, *draw(cribs(asked, most)))), draw(shops())


def rank(advice: Advice) -> tuple[Any, ...]:
    """What an answer ranks by first: verdict, and whether a rule cautions; then its plan. Where none keeps to the
    drawing the one that misses the least stands before what the search comes to first, which is the cheapest."""
    if not advice.plans:
        return (ANSWERS.index(advice.answer),)
    plan = min(advice.plans, key=lambda one: one.cost) if advice.answer == Verdict.COMPROMISE else advice.plans[0]
    assert plan is advice.plans[0] or missed(advice.plans[0]) < missed(plan)
    cautioned = any(warning.grade == "caution" for warning in plan.warnings)
    return ANSWERS.index(plan.answer), cautioned, plan


def no_worse(one: Advice, other: Advice, hours: float) -> bool:
    """Whether one answer is as good as another or better."""
    if not one.plans or not other.plans:
        return ANSWERS.index(one.answer) <= ANSWERS.index(other.answer)
    a, b = rank(one), rank(other)
    if a[:2] != b[:2]:
        return bool(a[:2] < b[:2])
    scrap = [round(plan.scrap_chance / 0.02) if hours >= 4 else 0 for plan in (a[2], b[2])]
    return (scrap[0], a[2].cost) <= (scrap[1], b[2].cost + 1e-6)


def text(advice: Advice) -> str:
    """All of an answer: every field of every record in it."""
    return json.dumps(advice, default=fields_of, sort_keys=True)


def fields_of(one: Any) -> Any:
    """A record by its fields, a set or a row of plans by what is in it, anything else as it is written."""
    if is_dataclass(one):
        return {field.name: getattr(one, field.name) for field in fields(one)}
    if isinstance(one, Sequence):
        return list(one)
    return sorted(map(repr, one)) if isinstance(one, (set, frozenset)) else str(one)


@settings(max_examples=120)
@given(questions(), st.randoms(use_true_random=False))
def test_the_order_of_the_cutters(asked: Asked, random: Any) -> None:
    """The same question of the same crib, in any order, is answered byte for byte the same."""
    request, cutters, shop = asked
    mixed = list(cutters)
    random.shuffle(mixed)
    note(brief(*asked))
    first = text(advise(request, cutters, shop).advice)
    assert first == text(advise(request, cutters, shop).advice) == text(advise(request, mixed, shop).advice)


@settings(max_examples=80)
@given(questions())
def test_a_useless_cutter_changes_nothing(asked: Asked) -> None:
    """A tap and an end mill wider than any slot are refused, and that is all."""
    request, cutters, shop = asked
    assume(request.kind != "step")
    note(brief(*asked))
    plain, more = (advise(request, some, shop).advice for some in (cutters, (*cutters, USELESS, TOO_BIG)))
    assert (more.answer, more.plans) == (plain.answer, plain.plans)
    assert [one for one in more.refused if one.cutter.id < 90] == list(plain.refused)
    assert {one.cutter.id for one in more.refused} >= {90, 91}


@st.composite
def one_more(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Cutter, Shop]:
    request, cutters, shop = draw(questions())
    return request, cutters, draw(st.one_of(end_mills(request, 50), discs(request, 50))), shop


def wider_throat() -> tuple[Request, tuple[Cutter, ...], Cutter, Shop]:
    """The disc's neck goes through the throat only where that is wider than its aim; a smaller disc goes as it is
    aimed, and takes three times as many passes."""
    request = Request("t-slot", {"throat": around(5.42, 0.1, 0.1), "depth": around(6.02, 0.1, 0.1),
                                 "head_width": around(9.14, 0.14, 0.14), "head_height": around(3.8, 0.0, 0.0)},
                      "6061", hours=6.0)
    mill = Cutter(1, "end-mill", diameter_mm=4.32, length_of_cut_mm=8.12, corner_radius_mm=0.0, shank_mm=6.0, flutes=2,
                  centre_cutting=True, material="hss", condition="sharp", measured=("diameter_mm",))
    disc = Cutter(2, "t-slot-cutter", diameter_mm=9.28, face_mm=3.8, neck_mm=5.43, reach_mm=13.0, shank_mm=6.0,
                  flutes=8, material="hss", condition="sharp", measured=("diameter_mm",))
    return (request, (mill, disc), disc.but(id=50, diameter_mm=4.96, face_mm=3.56, neck_mm=1.24, condition="used"),
            Shop(dro=True, neck_clearance_mm=0.0, end_clearance_mm=0.0, collets_mm=(6.0, 6.35, 12.7)))


@settings(max_examples=200)
@given(one_more())
@example(wider_throat())
def test_one_cutter_more_is_never_worse(asked: tuple[Request, tuple[Cutter, ...], Cutter, Shop]) -> None:
    request, cutters, more, shop = asked
    note(brief(request, (*cutters, more), shop))
    before, after = advise(request, cutters, shop).advice, advise(request, (*cutters, more), shop).advice
    event(f"{before.answer} -> {after.answer}")
    assert no_worse(after, before, request.hours)


@settings(max_examples=120)
@given(st.data())
def test_a_worse_neck_never_ranks_higher(data: st.DataObject) -> None:
    """A disc whose neck is fatter, or whose fillet is bigger, or whose reach is shorter, all else alike, makes nothing
    better."""
    request, cutters, shop = data.draw(questions(t_slots(), 3))
    at = data.draw(st.sampled_from([n for n, c in enumerate(cutters) if c.kind != "end-mill"] or [-1]))
    assume(at >= 0)
    one = cutters[at]
    assume(one.neck_mm is not None and one.diameter_mm and one.face_mm and one.reach_mm)
    steps = data.draw(st.integers(1, 20))
    worse = data.draw(st.sampled_from([
        one.but(neck_mm=round(min((one.neck_mm or 0) + steps * STEP, (one.diameter_mm or 0) - 0.1), 6)),
        one.but(neck_fillet_mm=round((one.neck_fillet_mm or 0.0) + steps * STEP, 6)),
        one.but(reach_mm=max(round((one.reach_mm or 0) - steps * STEP, 6), one.face_mm)),
    ]))
    assume((worse.neck_mm or 0) >= (one.neck_mm or 0))
    spoilt = tuple(worse if n == at else c for n, c in enumerate(cutters))
    note(brief(request, (*cutters, worse), shop))
    assert no_worse(advise(request, cutters, shop).advice, advise(request, spoilt, shop).advice, request.hours)

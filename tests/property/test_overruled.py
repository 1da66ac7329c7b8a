"""Whatever the owner overrules, nothing is missed and no bound is too high: the search goes by the same effects."""

from __future__ import annotations

from hypothesis import given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.light.records import replace
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request
from crib.planning.search.set_ups import usable
from crib.rules.overruling import OWNERS
from crib.shop import Shop
from tests.property.test_completeness import bounds_hold, check_bounds, questions
from tests.unit.test_catalogue import SPEAKS
from tests.unpruned import every_way, first_found, questions_of, shown

BY_THE_BOUNDS = ("SZ2", "CL2", "FC2", "BU1", "JN1")
"""What the bounds, or what is looked at at all, go by without asking the rules."""

Asked = tuple[Request, tuple[Cutter, ...], Shop]


@st.composite
def overruled(draw: st.DrawFn, most: int) -> Asked:
    """A question in a shop that overrules some rules, for some of its cutters too."""
    request, cutters, shop = draw(questions(most))
    some = st.lists(st.sampled_from((*BY_THE_BOUNDS * 8, *OWNERS)), max_size=4, unique=True)
    words = [f"{rule} so I do it" for rule in draw(some)]
    mine = [tuple(f"{rule} so it does" for rule in draw(some)) for _ in cutters]
    return (request, tuple(cutter.but(overruled=each) for cutter, each in zip(cutters, mine, strict=True)),
            replace(shop, overruled=tuple(words), spindle_rpm=draw(st.sampled_from([None, (400, 900, 2000)]))))


@settings(max_examples=60)
@given(overruled(6))
def test_nothing_is_missed(asked: Asked) -> None:
    request, cutters, shop = asked
    note(f"{shop.overruled} {[cutter.overruled for cutter in cutters]}")
    advice = advise(request, cutters, shop).advice
    found = questions_of(request, shop, cutters)
    best = every_way(found, usable(found[0], cutters))
    if best is None:
        assert not advice.plans
        return
    plan = first_found(advice.plans, best)
    assert (plan.answer, round(plan.cost, 6), tuple(one.id for one in plan.cutters)) == shown(best)


@settings(max_examples=50)
@given(overruled(4))
def test_bounds_are_never_too_high(asked: Asked) -> None:
    check_bounds(*asked)


@settings(max_examples=10)
@given(st.sampled_from(BY_THE_BOUNDS))
def test_bounds_hold_where_a_rule_speaks_that_is_overruled(rule: str) -> None:
    """The bounds counted a side pass that rubs, a slow middle pass and a third level whatever the owner's word was."""
    ask = SPEAKS[rule][0]
    kind = ask.kind.removeprefix("shared ")
    shop = replace(ask.shop, overruled=(f"{rule} so I do it",), hour_rate=0.5)
    request = replace(read_request(kind, dict(ask.texts), shop, "in"), hours=40.0)
    for jobs in jobs_for(request, ask.cutters, shop):
        if not jobs.down:
            bounds_hold(jobs.question, jobs.tools)

"""Laws that go for every kind that is registered, each kind of feature by itself and any kind of cutter before it."""

from __future__ import annotations

from collections.abc import Sequence

import pytest
from hypothesis import given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import KINDS, draw
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.findings.verdicts import ANSWERS
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.planning.advise import advise, jobs_for
from crib.planning.ask import read_request
from crib.planning.search.set_ups import usable
from crib.planning.search.weighed import Weighed
from crib.shop import Shop
from tests.kind_strategies import SEEN, questions, with_ends
from tests.property.test_closed_completeness import Every
from tests.strategies import brief
from tests.unpruned import every_way, first_found, questions_of, shown

Asked = tuple[Request, tuple[Cutter, ...], Shop]
ALONG = [name for name, kind in KINDS.items() if draw(read_request(name, kind.example, Shop(), "in")).down is None]
"""The kinds that aren't made down an axis."""


def best_of_all(asked: Sequence[Question], tools: Sequence[Tool]) -> Weighed | None:
    """The best without pruning; what has ends of its own with every way in between them."""
    if asked[0].layers is None:
        return every_way(asked, tools)
    return every_way(asked[:1], tools, Every)


@pytest.mark.parametrize("kind", KINDS)
def test_whoever_asks_is_told(kind: str) -> None:
    """There is an answer; plans are of cutters that are there; the order of the crib says nothing; a cutter that nobody
    needs is told why not."""

    @settings(max_examples=10)
    @given(st.data())
    def ask(data: st.DataObject) -> None:
        request, cutters, shop = data.draw(questions(kind))
        note(brief(request, cutters, shop))
        advice = advise(request, cutters, shop).advice
        again = advise(request, tuple(reversed(cutters)), shop).advice
        assert advice.answer in ANSWERS and advice.answer == again.answer
        assert [plan.cost for plan in advice.plans] == [plan.cost for plan in again.plans]
        for plan in advice.plans:
            assert {one.id for one in plan.cutters} <= {one.id for one in cutters} and plan.passes
        assert all(one.id and one.says for one in advice.refused)

    ask()


@pytest.mark.parametrize("kind", ALONG)
def test_nothing_is_missed(kind: str) -> None:
    """The best plan is that of every set of cutters in every order, without pruning."""

    @settings(max_examples=12)
    @given(st.data())
    def compare(data: st.DataObject) -> None:
        request, cutters, shop = data.draw(questions(kind, 3))
        note(brief(request, cutters, shop))
        plans = advise(request, cutters, shop).advice.plans
        asked = questions_of(request, shop, cutters)
        best = best_of_all(asked, usable(asked[0], cutters))
        assert bool(plans) == bool(best)
        if best:
            first = first_found(plans, best)
            assert (first.answer, round(first.cost, 6), tuple(c.id for c in first.cutters)) == shown(best)

    compare()


@pytest.mark.parametrize(("kind", "ends"), [(kind, ends) for kind, ends in SEEN if ends != "open"])
def test_nothing_is_missed_between_ends(kind: str, ends: str) -> None:
    """The same where an end is closed, every way in tried by itself."""

    @settings(max_examples=5)
    @given(st.data())
    def compare(data: st.DataObject) -> None:
        request, cutters, shop = data.draw(questions(kind, 2))
        request = with_ends(request, ends)
        note(brief(request, cutters, shop))
        try:
            plans = advise(request, cutters, shop).advice.plans
        except CribError:
            return
        asked = [jobs.question for jobs in jobs_for(request, cutters, shop)]
        best = best_of_all(asked, usable(asked[0], cutters))
        assert bool(plans) == bool(best)
        if best:
            first = first_found(plans, best)
            assert (first.answer, round(first.cost, 6)) == shown(best)[:2]

    compare()

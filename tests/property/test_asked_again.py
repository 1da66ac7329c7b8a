"""What was worked out once stands: a question asked again, with cutters more, at another worth of an hour or with one
more collet, is answered as if nobody had asked before."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import assume, event, given, note, settings
from hypothesis import strategies as st

from crib.buying.bench import Bench, Extra
from crib.buying.compare import Offer, Way
from crib.buying.hint import hint
from crib.buying.needs import FIRST_ID
from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.light.records import fields
from crib.planning.advise import advise, best_plan
from crib.planning.out_of_reach import would_do
from crib.planning.told.advice import AnyPlan, Gist
from crib.shop import Shop
from tests.kind_strategies import SEEN, cutters, questions, with_ends
from tests.property.test_every_kind import ALONG
from tests.strategies import brief

FIELDS = [one.name for one in fields(Gist)]
COLLETS = (9.525, 12.7, 19.05)


def gist(plan: AnyPlan | None) -> Gist | None:
    """What a plan comes to, read off it."""
    return None if plan is None else Gist(**{name: getattr(plan, name) for name in FIELDS})


def with_cutters(some: tuple[Cutter, ...]) -> Extra:
    return Extra(Offer(Way.BUY, "some", tuple(one.id for one in some)), some)


def answers_as_anew(data: st.DataObject, request: Request, owned: tuple[Cutter, ...], shop: Shop) -> None:
    """A bench that is asked again and again, beside each question asked from nothing."""
    feature = draw_feature(request)
    more = [data.draw(cutters(feature, FIRST_ID + place)) for place in range(2)]
    priced = more[0].but(price=data.draw(st.sampled_from([None, 5.0, 60.0])))
    lacks = replace(shop, collets_mm=data.draw(st.sampled_from([None, COLLETS[:1], COLLETS[:2]])))
    there = Bench(owned, lacks)
    for hour in (lacks.hour_rate, data.draw(st.sampled_from([0.0, 4.0, 90.0]))):
        bench = replace(there, shop=replace(lacks, hour_rate=hour))
        before = best_plan(request, owned, bench.shop)
        assert bench.plan(request) == before
        assert gist(bench.best(request)) == gist(before)
        for some in ((more[0],), (priced,), (more[1],), tuple(more)):
            after = best_plan(request, (*owned, *some), bench.shop)
            event("better" if after != before else "as before")
            assert gist(bench.best(request, with_cutters(some))) == gist(after)
        collet = Extra(Offer(Way.HOLDER, "collet", collet_mm=COLLETS[2]))
        assert gist(bench.best(request, collet)) == gist(best_plan(request, owned, collet.shop(bench)))


@pytest.mark.parametrize("kind", KINDS)
def test_every_kind_is_answered_as_anew(kind: str) -> None:
    @settings(max_examples=2)
    @given(st.data())
    def ask(data: st.DataObject) -> None:
        request, owned, shop = data.draw(questions(kind, 3))
        note(brief(request, owned, shop))
        answers_as_anew(data, request, owned, shop)

    ask()


@pytest.mark.parametrize(("kind", "ends"), [(kind, ends) for kind, ends in SEEN if ends != "open"])
def test_so_it_is_between_ends(kind: str, ends: str) -> None:
    @settings(max_examples=1)
    @given(st.data())
    def ask(data: st.DataObject) -> None:
        request, owned, shop = data.draw(questions(kind, 2))
        request = with_ends(request, ends)
        note(brief(request, owned, shop))
        try:
            best_plan(request, owned, shop)
        except CribError:
            assume(False)
        answers_as_anew(data, request, owned, shop)

    ask()


@pytest.mark.parametrize("kind", ALONG)
def test_what_is_said_beside_an_answer_is_as_from_nothing(kind: str) -> None:
    """What a friend would lend, what is lent, and the line about money go on from what the answer worked out."""
    @settings(max_examples=2)
    @given(st.data())
    def ask(data: st.DataObject) -> None:
        request, owned, shop = data.draw(questions(kind, 4))
        note(brief(request, owned, shop))
        more = data.draw(cutters(draw_feature(request), FIRST_ID))
        found = advise(request, owned, shop)
        advice, lent = found.advice, (("Joe", more),)
        assert hint(request, advice, owned, shop, (), lent, found.asked) == hint(request, advice, owned, shop, (), lent)
        away = [more.but(away=("1 lent to Joe since 2026-11-02",))]
        answer = advice.answer
        assert would_do(request, answer, owned, away, shop, found.asked) == would_do(request, answer, owned, away, shop)

    ask()

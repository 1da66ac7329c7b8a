"""What is told before any draft was made never hides a plan: who gets down in a fillet, whose corners come out."""

from __future__ import annotations

import pytest
from hypothesis import event, given, note, settings

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.planning.advise import advise
from crib.planning.ask import read_request, texts_of
from crib.planning.bounds import least_of_sizes
from crib.planning.search.set_ups import usable
from crib.planning.search.watch import Watch
from crib.shop import Shop
from tests.benchmarks.questions import sample
from tests.kind_strategies import questions
from tests.property.test_completeness import bounds_hold
from tests.strategies import brief
from tests.unpruned import question_of

POCKETS = (
    "--width 1.5156±.003 --length 3.4312+.02-0 --depth 0.3281+.002-0 --corner-radius 0.6719+.001-0 --hours 10",
    "--width 1.2188+.001-0 --length 2.4062±.0005 --depth 0.2813+.005-0 --corner-radius 0.1322",
    "--width 1.5 --length 2.5 --depth 1/4 --corner-radius 1/4",
)


@settings(max_examples=25)
@given(questions("inside-fillet", 4))
def test_who_gets_down_in_a_fillet(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
    """A cutter that is told not to get down in the fillet ends no plan, and whoever does is passed over in none."""
    request, cutters, shop = asked
    note(brief(*asked))
    question = question_of(request, shop, cutters)
    tools = usable(question, cutters)
    event(f"tools: {len(tools)}")
    bounds_hold(question, tools)


@pytest.mark.parametrize("typed", POCKETS)
def test_whose_corners_come_out(typed: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """Where every mill leaves a pocket's corners outside the drawing the plans are those of a search that isn't told,
    and found with fewer drafts."""
    cutters, shop = sample()
    request = read_request("pocket", texts_of(typed.split()), shop, "in")
    told, watch = [], [Watch(), Watch()]
    for one in watch:
        told.append(advise(request, cutters, shop, most=2, most_refused=0, watch=one).advice)
        monkeypatch.setattr(least_of_sizes, "_misses_corners", lambda abilities, room: False)
    assert [(plan.answer, plan.cost, plan.cutters) for plan in told[0].plans] == [
        (plan.answer, plan.cost, plan.cutters) for plan in told[1].plans]
    assert watch[0].tried <= watch[1].tried

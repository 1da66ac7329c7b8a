"""Plans that are told beside each other are other ways: none differs from another in the drill alone that opens the way
for the same mill, or in the height of several that it is aimed at."""

from __future__ import annotations

from collections import Counter

import pytest
from hypothesis import event, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import KINDS
from crib.features.request import Request
from crib.planning.advise import advise
from crib.planning.ask import read_request, texts_of
from crib.planning.told.advice import Plan
from crib.render.words import words
from crib.shop import Shop
from tests.benchmarks.questions import sample
from tests.kind_strategies import questions
from tests.strategies import brief

BEFORE_A_MILL = (
    ("hole", "--diameter .5+.002-0 --depth 1"),
    ("hole", "--diameter 3/4+.002-0 --depth 1/2"),
    ("flat-bottomed-hole", "--diameter 1/2+.006-.004 --depth 1/2"),
    ("pocket", "--width 1 --length 2 --depth 3/8 --corner-radius 1/4"),
)
"""Questions of which the sample has a mill that goes in after either of two drills."""


def way(plan: Plan) -> tuple[str, str, tuple[int, ...]]:
    """A plan without which drill it is that goes before a mill or a boring bar: how the work lies, what is done, with
    which cutters."""
    drills = {cutter.id: cutter for cutter in plan.cutters if cutter.kind == "drill"}
    if plan.cutters[-1].kind not in ("end-mill", "boring-bar"):
        drills = {}
    told = plan.way
    for drill in drills.values():
        told = told.replace(drill.label, "a drill")
    return words(plan.setup, "in"), told, tuple(0 if one.id in drills else one.id for one in plan.cutters)


def apart(request: Request, cutters: tuple[Cutter, ...], shop: Shop) -> int:
    """Hold the law; how many plans there are."""
    plans = advise(request, cutters, shop, most_refused=0).advice.plans
    assert max(Counter(map(way, plans)).values(), default=1) == 1
    return len(plans)


@pytest.mark.parametrize("kind", KINDS)
def test_of_every_kind(kind: str) -> None:
    """Each kind's example on the sample crib: a slide was told twice, aimed at the middle and at its teeth's height."""
    cutters, shop = sample()
    apart(read_request(kind, dict(KINDS[kind].example), shop, "in"), tuple(cutters), shop)


@pytest.mark.parametrize(("kind", "typed"), BEFORE_A_MILL)
def test_after_either_of_two_drills(kind: str, typed: str) -> None:
    """A 3/4 hole was told with its mill after a 7/16 drill and after a 31/64 one, to the cent as dear; other ways are
    there in their stead."""
    cutters, shop = sample()
    assert apart(read_request(kind, texts_of(typed.split()), shop, "in"), tuple(cutters), shop) > 1


@pytest.mark.parametrize("kind", ["hole", "flat-bottomed-hole", "elongated-hole"])
@settings(max_examples=8)
@given(st.data())
def test_of_invented_cribs(kind: str, data: st.DataObject) -> None:
    asked = data.draw(questions(kind, 8))
    note(brief(*asked))
    event(f"plans: {apart(*asked)}")

"""Between closed ends nothing owned is missed either: the best answer is that of planning every set of up to three,
with every drill for every way in, without any bound."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import product
from typing import Any

from hypothesis import Phase, event, given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.handbook.materials import find_material
from crib.machining.draft import Draft
from crib.machining.ends.fit import with_courses
from crib.machining.methods.cuts import Job
from crib.machining.question import Question
from crib.planning.advise import advise
from crib.planning.closed.drills import drills, in_order
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import opened, usable
from crib.setups.upright import SETUP
from crib.shop import Shop
from tests.closed_strategies import closed_cribs, closed_slots, closed_t_slots, deep_slots
from tests.strategies import brief
from tests.unpruned import Unpruned, every_way, first_found

Best = tuple[str, float] | None


class Every(Unpruned):
    """Every plan there is, each way in by itself."""

    def grown(self, so_far: Draft, jobs: tuple[Job, ...], used: set[int]) -> Iterator[Draft]:
        """The ways in, one drill and one mill that roughs at a time."""
        for ways_in, roughers in product(_one_each(self.question.drills), _one_each(self.question.roughers)):
            asked = replace(self.question, drills=ways_in, roughers=roughers)
            yield from (Draft(self.question, one.jobs) for one in with_courses(Draft(asked, so_far.jobs), jobs))


def _one_each(some: Sequence[Any]) -> Iterator[tuple[Any, ...]]:
    yield from ((), *((one,) for one in some))


@settings(max_examples=80, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_nothing_is_missed(data: st.DataObject) -> None:
    """Answer and cost of the best plan."""
    request = data.draw(st.one_of(closed_slots(), closed_t_slots()))
    cutters = data.draw(closed_cribs(request))
    note(brief(request, cutters))
    told, best = told_and_best(request, cutters)
    assert told == best


@settings(max_examples=15, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_nothing_is_missed_where_a_chain_may_be_drilled(data: st.DataObject) -> None:
    """The same with every drill for a row of holes."""
    request, cutters = data.draw(deep_slots())
    note(brief(request, cutters))
    told, best = told_and_best(request, cutters)
    assert told == best


def told_and_best(request: Request, cutters: tuple[Cutter, ...]) -> tuple[Best, Best]:
    """Answer and cost of the best plan, and of the best of every plan there is."""
    shop, material = Shop(), find_material(request.material)
    try:
        feature = draw_feature(replace(request, material=material.name))
    except CribError:
        event("sizes that can't be together")
        return None, None
    assert feature.layers is not None
    depth = -min(layer.low for layer in feature.layers.least) / 1e6
    owned = in_order(drills(cutters, shop, material), shop, material, depth)
    question = Question(feature, shop, material, SETUP, drills=owned)
    jobs = Jobs(question, usable(question, cutters))
    question = opened(jobs).question
    tools = usable(question, cutters)
    best = every_way((question,), tools, Every)
    plans = advise(request, cutters, shop).advice.plans
    event(f"{request.kind}: {plans[0].answer if plans else 'no plan'}")
    for manner, words in (("drilled", "a hole drilled first"), ("roughed", "roughed by another"),
                          ("drilled in the corners", "its corners drilled"), ("drilled in a row", "chain drilled")):
        if best is not None and any(job.manner == manner for job in best.draft.jobs):
            event(words)
    first = first_found(plans, best) if plans and best else plans[0] if plans else None
    told = (first.answer, round(first.cost, 6)) if first else None
    return told, None if best is None else (best.answer, round(best.reckoning.cost, 6))

"""Plans that come out as drawn, looked for first where there are many cutters: each of their cutters is one that its
room calls for, so that of thousands a few are enough."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.base import Cutter
from crib.light.records import replace
from crib.machining.tool import Tool
from crib.machining.tools import owned_of, some_of
from crib.planning.bounds.each_tool import DRAWN, EXTRA
from crib.planning.bounds.least_of_sizes import surely_given_away
from crib.planning.dialled.finish import Proved, distinct, is_proved
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import Asked, best
from crib.planning.search.shortlist import Shortlist
from crib.planning.search.watch import OutOfPatience, Watch
from crib.planning.told.verdict import calls_for

MANY = 300
"""From so many tools on."""


def as_drawn(every: Asked, most: int, watch: Watch) -> tuple[Proved, ...]:
    """What the whole search tells where its best plan is as drawn; nothing where it isn't, or where a proof refuses
    one. What isn't as drawn isn't told beside one that is, and nothing that isn't is as good in everything, so that the
    other tools change nothing of it."""
    if every[0].down or len(every[0].tools) < MANY or all(surely_given_away(jobs.question) for jobs in every):
        return ()
    from crib.planning.large_cribs.narrow import narrowly

    found = watch.found
    told = Shortlist(least=EXTRA, holds=is_proved, watch=watch)
    some = called_for(every)
    try:
        few = narrowly(some, most, DRAWN, EXTRA, watch)
        proved, told = few[:2] if few else (tuple(distinct(best(some, told), told, most)), told)
    except OutOfPatience:
        proved = ()
    if not proved or told.unproved:
        watch.found = found
        return ()
    return proved


def not_as_drawn(every: Asked, most: int, watch: Watch) -> tuple[Proved, ...] | None:
    """What the whole search tells, of a few of many cutters, where it is plain that no more count and no plan is as
    drawn, or that there is none; None where it isn't."""
    if every[0].down or len(every[0].tools) < MANY:
        return None
    from crib.planning.large_cribs.narrow import narrowly, none_can

    found = narrowly(every, most, EXTRA, None, watch)
    if found and not found.proved:
        return () if none_can([jobs.widened for jobs in every if jobs.widens]) else None
    return found.proved if found else None


def called_for(every: Asked) -> Asked:
    """The question in each set-up, with those tools alone that some room calls for: what comes out as drawn has no
    others. What is made down an axis knows no rooms."""
    if every[0].question.feature.down:
        return every
    return tuple(replace(jobs, tools=_called_for(jobs), all_discs=jobs.discs) for jobs in every)


def _called_for(jobs: Jobs) -> Sequence[Tool]:
    """Those: of a kind that is called for in any size all, of the others each by itself."""
    question, tools = jobs.question, jobs.tools
    called = [(room.name, question.feature.calls_for[room.name]) for room in question.outline.rooms]
    in_any_size = frozenset(kind for _, calls in called if calls.of_any_size for kind in calls.kinds)
    others = frozenset(kind for _, calls in called for kind in calls.kinds) - in_any_size

    def is_called(place: int, cutter: Cutter) -> bool:
        return any([calls.may_be(cutter.kind, cutter.diameter_mm) for _, calls in called]) and any(
            calls_for(question, name, tools[place]) for name, _ in called)

    return some_of(tools, [place for place, cutter in enumerate(owned_of(tools)) if cutter.kind in in_any_size or (
        cutter.kind in others and is_called(place, cutter))])

"""A question asked again, with a cutter more or at another worth of an hour: what was worked out stands."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crib.cutters.base import Cutter
from crib.machining.tool import Tool
from crib.planning.aims import aimed
from crib.planning.best_plans import Best, find_best, first, proved_best
from crib.planning.finish import Proved
from crib.planning.jobs import Jobs
from crib.planning.set_ups import Asked, opened, usable
from crib.planning.watch import PATIENCE, Watch
from crib.records import replace
from crib.shop import Shop


def at_shop(every: Asked, shop: Shop) -> Asked:
    """The same where an hour is worth something else; what was worked out of the metal stands."""
    shop = replace(shop.at_own_pace(), this_time=every[0].question.shop.this_time)
    return tuple(jobs if jobs.question.shop == shop else
                 replace(jobs, question=replace(jobs.question, shop=shop), grown_from=jobs) for jobs in every)


def with_more(every: Asked, cutters: Sequence[Cutter]) -> Asked:
    """The same with more cutters; what was worked out for the others stands."""
    if every[0].down:
        return tuple(replace(jobs, cutters=(*jobs.cutters, *cutters)) for jobs in every)
    more = usable(every[0].question, cutters)
    again = tuple(_with_tools(jobs, more) for jobs in every)
    known = [jobs.question.feature.request for jobs in every]
    new = [one for one in aimed(every[0].question, more) if one.feature.request not in known]
    return (*again, *(opened(Jobs(replace(one, rooms_an_end_mill_opens=frozenset()), again[0].tools)) for one in new))


def _with_tools(jobs: Jobs, tools: Sequence[Tool]) -> Jobs:
    """What was worked out stands unless one of the tools opens a room that none did before."""
    shut = replace(jobs.question, rooms_an_end_mill_opens=frozenset())
    if Jobs(shut, tools).opened_by_end_mills() <= jobs.question.rooms_an_end_mill_opens:
        return Jobs(jobs.question, [*jobs.tools, *tools], grown_from=jobs)
    return opened(Jobs(shut, [*jobs.tools, *tools]))


def best_with(every: Asked, before: Best | None, cutters: Sequence[Cutter], known: Iterable[Proved] = ()
              ) -> Best | None:
    """The best plan with more cutters, where `before` is the best without them: only what has one of them in it and is
    better is looked for."""
    again = with_more(every, cutters)
    watch = Watch(patience=PATIENCE)
    if not _is_grown(again, every) or (before and not before.holds):
        return find_best(again, known, watch)
    new = frozenset(tool.id for tool in again[0].tools[len(every[0].tools):])
    found = first(again, watch, None, new, before) if new else None
    return proved_best(again, *found, known, watch) if found else before


def _is_grown(again: Asked, every: Asked) -> bool:
    """Whether all that was worked out stands."""
    return len(again) == len(every) and all(one.grown_from is jobs for one, jobs in zip(again, every, strict=True))

"""A question asked again, with other cutters or at another worth of an hour: what was worked out stands, and only what
is new is looked for."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crib.features.base import Request
from crib.findings.verdicts import Verdict
from crib.machining.draft import Draft, Question
from crib.machining.tool import Tool
from crib.planning.aims import aimed
from crib.planning.best_plans import Best, better_of, find_best, first, looked_into
from crib.planning.jobs import Jobs
from crib.planning.set_ups import Asked, opened
from crib.planning.watch import PATIENCE, Watch
from crib.records import replace
from crib.setups.base import Setup
from crib.shop import Shop


def at_shop(every: Asked, shop: Shop, alike: Asked | None = None) -> Asked:
    """The same where an hour is worth something else; what was worked out of the metal stands. `alike`: the same there
    with other tools."""
    shop = replace(shop.at_own_pace(), this_time=every[0].question.shop.this_time)
    is_alike = alike is not None and _is_asked_alike(every, alike)
    others = alike if alike is not None and is_alike else (None,) * len(every)
    return tuple(jobs if jobs.question.shop == shop else _at_shop(jobs, shop, other)
                 for jobs, other in zip(every, others, strict=True))


def _at_shop(jobs: Jobs, shop: Shop, alike: Jobs | None) -> Jobs:
    question = jobs.question.but(shop)
    if question.has_corners:  # what roughs goes by what an hour is worth
        return opened(Jobs(_shut(question), jobs.tools))
    return replace(jobs, question=question, known=jobs, alike=alike)


def with_tools(every: Asked, tools: Sequence[Tool]) -> Asked:
    """The same with other tools, for what is cut along; what was worked out of those that were there stands."""
    usual, asked = every[0].question, [jobs.question.feature.request for jobs in every]
    aims = aimed(usual, tools)
    wanted = [usual.feature.request, *(one.feature.request for one in aims)]
    again = (_with_tools(jobs, tools) for jobs, request in zip(every, asked, strict=True) if request in wanted)
    return (*again, *(opened(Jobs(_shut(one), tools)) for one in aims if one.feature.request not in asked))


def _with_tools(jobs: Jobs, tools: Sequence[Tool]) -> Jobs:
    """What was worked out stands unless other rooms are opened by end mills than before, or one may rough for another.
    """
    if jobs.question.has_corners:
        return opened(Jobs(_shut(jobs.question), tools))
    there = {id(tool) for tool in tools}
    new = [tool for tool in tools if tool not in jobs]
    shut = [room for room in jobs.opening_rooms if room.name not in jobs.openers]
    if not all(id(mill) in there for mill in jobs.openers.values()) or (
            shut and any(map(Jobs(_shut(jobs.question), new).opener, shut))):
        return opened(Jobs(_shut(jobs.question), tools))
    return Jobs(jobs.question, tools, known=jobs, openers=jobs.openers)


def _shut(question: Question) -> Question:
    return question.but(opens=frozenset(), roughers=())


def best_with(every: Asked, before: Best | None, again: Asked, known: Iterable[Draft] = ()) -> Best | None:
    """The best plan with other tools, where `before` is the best of all that were there: where that stands, only what
    has a new one in it and is better is looked for."""
    watch = Watch(patience=PATIENCE)
    stands = before is None or (before.holds and all(
        tool in again[0] for tool in before.weighed.draft.tools if tool in every[0]))
    new = frozenset(tool.id for tool in again[0].tools if tool not in every[0])
    if not stands or not _is_asked_alike(again, every) or _steps_first(again, new):
        return find_best(again, known, watch)
    found = first(again, watch, new=new, before=before) if new else None
    return looked_into(again, *found, known, watch) if found else before


def better_with(every: Asked, known: Asked, tools: Sequence[Tool], than: Verdict) -> Best | None:
    """The best plan with other tools where its verdict is better than this one, which is as good as any
    has without them. `known`: the same with tools of which some may be among these."""
    again = with_tools(known, tools)
    new = frozenset(tool.id for tool in tools if tool not in every[0])
    if not _is_asked_alike(again, every) or _steps_first(again, new):
        return better_of(again, than)
    return better_of(again, than, new) if new else None


def _steps_first(every: Asked, new: frozenset[int]) -> bool:
    """Whether some new tool may go under a flank before another."""
    return any(tool.id in new for jobs in every for tool in jobs.discs.all)


def _is_asked_alike(some: Asked, others: Asked) -> bool:
    """Whether the same is asked, the same rooms are opened, and no mill may rough for another."""
    return not some[0].question.has_corners and [_asked(jobs) for jobs in some] == [_asked(jobs) for jobs in others]


def _asked(jobs: Jobs) -> tuple[Setup, Request, frozenset[str]]:
    question = jobs.question
    return question.setup, question.feature.request, question.rooms_an_end_mill_opens

"""Of thousands of cutters the few that can come into the best plans. A floor of what a plan with a cutter costs is told
of its bare sizes; the search has those of the least floors, and what it finds stands where no other's floor is as low
as what it tells."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest
from math import inf

from crib.machining.tool import Tool
from crib.planning.branch_and_bound import WORTH_TELLING, Key, Shortlist
from crib.planning.cost import scrap_class
from crib.planning.finish import Proved, distinct
from crib.planning.floors import CENT, Floors, UpTo
from crib.planning.jobs import Jobs
from crib.planning.set_ups import merged
from crib.planning.watch import Watch
from crib.records import NamedTuple, replace

FEW = 24
"""So many of the least floors are searched first."""


class Found(NamedTuple):
    """What a search found and told."""

    proved: tuple[Proved, ...]
    told: Shortlist


def narrowly(every: Sequence[Jobs], most: int, verdict: int, least: int | None, watch: Watch) -> Found | None:
    """What the search of all tools tells, where no plan has a better verdict than this; None where the few don't
    settle it."""
    if any(jobs.down or jobs.question.has_corners or jobs.wide for jobs in every):
        return None
    floors = [Floors(jobs) for jobs in every]
    limit = UpTo(*(_at_place(floors, FEW),) * 2)
    some: Sequence[Jobs] = ()
    proved: tuple[Proved, ...] = ()
    told = Shortlist()
    while limit.any < inf:
        before, some = some, _some(every, floors, limit, some)
        if not told.keys or any(one.tools != other.tools for one, other in zip(before, some, strict=True)):
            told = Shortlist(least=least, watch=watch)
            proved = tuple(distinct(merged(some, told, False), told, most))
        if told.unproved or (told.keys and not _is_plain(told.keys[-1], verdict, every)):
            return None
        needed = _up_to(told, most, floors, some) if told.keys else UpTo(limit.any * _WIDER, limit.last * _WIDER)
        if told.keys and needed.any <= limit.any and needed.last <= limit.last:
            return Found(proved, told)
        if not told.keys and all(_are_all(one, limit) for one in floors):
            return None
        limit = UpTo(max(limit.any, needed.any), max(limit.last, needed.last))
        if sum(len(one.within(limit)) for one in floors) > _TOO_MANY * sum(len(jobs.tools) for jobs in every):
            return None
    return None


def _some(every: Sequence[Jobs], floors: Sequence[Floors], limit: UpTo, known: Sequence[Jobs]) -> Sequence[Jobs]:
    """The question in each set-up of those tools alone of which the floor is no higher."""
    return [replace(jobs, tools=one.within(limit), all_discs=jobs.discs, known=before)
            for jobs, one, before in zip_longest(every, floors, known)]


def _are_all(floors: Floors, limit: UpTo) -> bool:
    """Whether no tool that may do anything has a higher floor, so that there are no more to be had."""
    return not any(here.heap for here in floors.in_rooms) and len(floors.within(UpTo(inf, inf))) == len(
        floors.within(limit))


_WIDER, _TOO_MANY = 1.5, 0.5


def _is_plain(key: Key, verdict: int, every: Sequence[Jobs]) -> bool:
    """Whether nothing but money puts a plan behind others."""
    feature = every[0].question.feature
    base = scrap_class(every[0].question.shop.base_chance, feature.request.hours)
    return key[:3] == (verdict, False, False) and key[3] <= base


def _up_to(told: Shortlist, most: int, floors: Sequence[Floors], some: Sequence[Jobs]) -> UpTo:
    """Up to what money another plan would have been told than of `some`. One more is told for another tool as its last:
    where all that may be are told of, the others count only as far as they might better what was told."""
    assert told.best is not None
    worst, worth = told.keys[-1][4] + CENT, WORTH_TELLING * told.best.reckoning.cost + CENT
    if told.count >= most:
        return UpTo(worst, worst)
    are_told = all(one.tool.id in told.last or _never_ends(one.tool, jobs)
                   for floor, jobs in zip(floors, some, strict=True) for one in floor.lasts(worth))
    return UpTo(worst if are_told else worth, worth)


def _never_ends(tool: Tool, jobs: Jobs) -> bool:
    """Whether a tool was looked at and ends no room."""
    found = (jobs.abilities.of(room).get(tool.id) for room in jobs.question.outline.rooms)
    return tool in jobs and not any(able and able.ends for able in found)


def _at_place(floors: Sequence[Floors], place: int) -> float:
    """In the set-up where that is least, a floor over which each room has so many cutters less, or all there are."""
    return min((one.at_place(place) for one in floors), default=inf)

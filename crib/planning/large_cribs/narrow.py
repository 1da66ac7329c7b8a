"""Of thousands of cutters the few that can come into the best plans. A floor of what a plan with a cutter costs is told
of its bare sizes; the search has those of the least floors, and what it finds stands where no other's floor is as low
as what it tells."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest
from math import inf

from crib.findings.finding import Grade
from crib.light.records import replace
from crib.light.tuples import NamedTuple
from crib.machining.tool import Tool
from crib.planning.bounds.abilities import DRAWN, GIVEN_AWAY
from crib.planning.bounds.least_of_sizes import surely_given_away
from crib.planning.dialled.finish import Proved, distinct
from crib.planning.large_cribs.floors import CENT, Floors, UpTo
from crib.planning.reckoning.cost import scrap_class
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import merged
from crib.planning.search.shortlist import WORTH_TELLING, Shortlist
from crib.planning.search.watch import Watch
from crib.planning.search.weighed import Key

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
    if all(one.is_none for one in floors):
        return Found((), Shortlist(least=least, watch=watch))
    many, most_searched = FEW, _TOO_MANY * sum(len(jobs.tools) for jobs in every)
    in_vain = min(most_searched, max(_IN_VAIN, _IN_VAIN_OF * most_searched))
    limit = UpTo(*(_at_place(floors, many),) * 2)
    if limit.any == inf:
        return None
    verdict = max(verdict, min(_least_verdict(one) for one in floors if one.whole < inf or len(one.rooms) > 1))
    some: Sequence[Jobs] = ()
    told, is_plain, usual = Shortlist(), True, _Usual.of(floors, verdict)
    while True:
        few = [one.within(limit) for one in floors]
        if sum(map(len, few)) > (most_searched if is_plain or not told.keys else in_vain):
            return None
        if is_more := [jobs.tools for jobs in some] != few:
            some = _some(every, few, some)
            told = Shortlist(least=least, watch=watch)
            proved = tuple(distinct(merged(some, told, False), told, most))
            is_plain = bool(told.keys) and usual.is_all(told.keys[-1])
        if told.unproved or (limit.any == inf and not is_plain):
            return None
        needed = _up_to(told, most, floors, some) if is_plain else UpTo(inf, inf)
        if is_plain and needed.any <= limit.any and needed.last <= limit.last:
            return Found(proved, told)
        at_once = _at_least(limit, needed)
        if is_plain and _are_few(floors, at_once):
            limit = at_once
            continue
        many = _many_more(floors, many, limit.any, most_searched)
        # what was tried between closed ends isn't kept; and of what brings none, and tells nothing, hardly any is left
        is_dear = not (is_more or told.keys) or (is_plain and every[0].question.layers)
        step = max(_at_place(floors, many), 0.0 if told.keys else _WIDER * limit.any)
        limit = _farther(limit, needed, inf if is_dear else step)


def _many_more(floors: Sequence[Floors], many: int, money: float, most: float) -> int:
    """So many times more, and still more where all of those cost no more than this: of many cutters many cost the same
    at the least. About so many at the `most`."""
    many *= _MORE
    while many < most and _at_place(floors, many) <= money:
        many *= _MORE
    return many


def _are_few(floors: Sequence[Floors], limit: UpTo) -> bool:
    """Whether so few are within a limit that all of them are searched at once."""
    left = _AT_ONCE
    for one in floors:
        left -= one.count(limit, left)
    return left >= 0


def none_can(every: Sequence[Jobs]) -> bool:
    """Whether there surely is no plan, told of bare sizes."""
    return all(Floors(jobs).is_none for jobs in every)


def _least_verdict(floors: Floors) -> int:
    """The verdict that every plan in a set-up comes to at the least. One of a single room that nothing does alone has
    none at all."""
    return GIVEN_AWAY if surely_given_away(floors.jobs.question) else DRAWN


def _at_least(limit: UpTo, needed: UpTo) -> UpTo:
    """As far as is needed, and no less far than before."""
    return UpTo(max(limit.any, needed.any), max(limit.last, needed.last))


def _farther(limit: UpTo, needed: UpTo, step: float) -> UpTo:
    """As far as is needed, or a step on, for what more of them tell may be less by far than what few do; all the way
    where a step is none: all that there are may be within it.

    >>> _farther(UpTo(5.0, 5.0), UpTo(9.0, 12.0), 7.0)
    UpTo(any=7.0, last=7.0)
    >>> _farther(UpTo(6.0, 7.0), UpTo(6.0, 12.0), 7.0), _farther(UpTo(6.0, 7.0), UpTo(6.0, 12.0), 6.0)
    (UpTo(any=6.0, last=12.0), UpTo(any=6.0, last=12.0))
    """
    found = _up_to_step(limit, needed, step)
    return _up_to_step(limit, needed, inf) if step <= limit.any or found == limit else found


def _up_to_step(limit: UpTo, needed: UpTo, step: float) -> UpTo:
    return UpTo(max(limit.any, min(needed.any, step)), max(limit.last, min(needed.last, step)))


def _some(every: Sequence[Jobs], few: Sequence[list[Tool]], known: Sequence[Jobs]) -> Sequence[Jobs]:
    """The question in each set-up of a few tools alone."""
    return [replace(jobs, tools=tools, all_discs=jobs.discs, known=before)
            for jobs, tools, before in zip_longest(every, few, known)]


_AT_ONCE = 300
"""So many are searched at once where it is known how far is needed."""

_MORE, _WIDER, _TOO_MANY, _IN_VAIN, _IN_VAIN_OF = 4, 1.5, 0.5, 300, 0.05
"""So many times more are searched next, and so much dearer ones where nothing was told; of what part of all of them it
isn't worth it any more, and of how many, or what part of these, where nothing came out that only money puts behind
others."""


class _Usual(NamedTuple):
    """What every plan comes to at the least: its verdict, whether a rule cautions, its chance of scrap as it is ranked
    by."""

    verdict: int
    cautioned: bool
    scrap: float

    @classmethod
    def of(cls, floors: Sequence[Floors], verdict: int) -> _Usual:
        """That of a question in some set-ups: where a room is done by nobody alone, cutters share it, which stands
        behind whatever the chance of scrap is."""
        hours = floors[0].jobs.question.feature.request.hours
        cautioned = all(any(said.grade == Grade.CAUTION for said in one.said) for one in floors)
        scrap = min((scrap_class(one.scrap, hours) for one in floors if one.whole < inf), default=0.0)
        return cls(verdict, cautioned, scrap)

    def is_all(self, key: Key) -> bool:
        """Whether nothing but money puts a plan behind others."""
        return key[:3] == (self.verdict, self.cautioned, False) and key[3] <= self.scrap


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

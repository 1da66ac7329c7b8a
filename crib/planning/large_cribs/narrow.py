"""Of thousands of cutters the few that can come into the best plans. A floor of what a plan with a cutter costs is told
of its bare sizes; the search has those of the least floors, and what it finds stands where no other's floor is as low
as what it tells."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest
from math import inf

from crib.findings.finding import Grade
from crib.light.records import dataclass, field, replace
from crib.light.tuples import NamedTuple
from crib.machining.tool import Tool
from crib.machining.tools import places_of
from crib.planning.bounds.each_tool import DRAWN, GIVEN_AWAY
from crib.planning.dialled.finish import Proved, distinct, is_proved
from crib.planning.large_cribs.at_stake import HALF_A_CLASS, AtStake
from crib.planning.large_cribs.floors import CENT, Floors, UpTo
from crib.planning.large_cribs.given_away import is_given_away
from crib.planning.large_cribs.uncautioned import begins_cautioned, uncautioned
from crib.planning.reckoning.cost import scrap_class
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import best
from crib.planning.search.shortlist import WORTH_TELLING, Shortlist
from crib.planning.search.watch import Watch
from crib.planning.search.weighed import Key

_HAIR = 1e-9
"""Sums made in another order differ by less than this."""

FEW = 8
"""So many of the least floors are searched first."""


class Found(NamedTuple):
    """What a search found and told, of which tools in each set-up."""

    proved: tuple[Proved, ...]
    told: Shortlist
    some: Sequence[Jobs] = ()


def narrowly(every: Sequence[Jobs], most: int, verdict: int, least: int | None, watch: Watch, under: Key | None = None
             ) -> Found | None:
    """What the search of all tools tells, where no plan has a better verdict than this, of what is better than `under`
    alone; None where the few don't settle it."""
    if any(jobs.down or jobs.question.has_corners or jobs.wide for jobs in every):
        return None
    floors = [Floors(jobs) for jobs in every]
    live = [one for one in floors if not one.is_none]
    verdicts = [GIVEN_AWAY if is_given_away(one) else DRAWN for one in live]
    if least is not None and least <= GIVEN_AWAY:
        live = [one for one, lowest in zip(live, verdicts, strict=True) if lowest < least]
    if not live:
        return Found((), Shortlist(least=least, watch=watch))
    limit = UpTo(*(_at_place(live, 1 if under else FEW),) * 2)
    if limit.any == inf:
        return None
    usual = _Usual.of(live, max(verdict, min(verdicts)))
    if not usual.cautioned and any(map(begins_cautioned, live)):
        first: Key = (usual.verdict, False, True, 0.0, 0.0, (), ())
        found = narrowly([uncautioned(one) for one in live], most, usual.verdict, least, watch, first)
        if found and found.proved:
            return found
    return _Few([one.jobs for one in live], live, most, usual, least, watch, under, limit).found()


@dataclass
class _Few:
    """A search of few tools, and of more, until what it tells is settled: those within a `limit`, and those that are
    `kept` whatever their floor. `usual`: what every plan comes to at the least but for money; `some`: the question of
    those that were searched; `settled`: what was found, where that is all there is to tell; `is_close`: whether floors
    were told closely of what there is at stake."""

    every: Sequence[Jobs]
    floors: Sequence[Floors]
    most: int
    usual: _Usual
    least: int | None
    watch: Watch
    under: Key | None
    limit: UpTo
    some: Sequence[Jobs] = ()
    kept: Sequence[Jobs] = ()
    told: Shortlist = field(default_factory=Shortlist)
    proved: tuple[Proved, ...] = ()
    settled: Found | None = None
    is_plain: bool = True
    is_close: bool = False

    def found(self) -> Found | None:
        """What is told; None where that can't be settled so."""
        many = FEW
        while True:
            is_more = self._search()
            if is_more is None or self.settled:
                return self.settled
            if self.told.unproved or (self.limit.any == inf and not self.is_plain):
                return None
            needed = _up_to(self.told, self.most, self.floors, self.some) if self.is_plain else UpTo(inf, inf)
            if self.is_plain and needed.any <= self.limit.any and needed.last <= self.limit.last:
                return Found(self.proved, self.told, self.some)
            at_once = _at_least(self.limit, needed)
            if self.is_plain and _are_few(self.floors, at_once):
                self.limit = at_once
            elif self.is_plain and not self.is_close and self._at_stake:
                self._tell_closely()
            else:
                many = _many_more(self.floors, many, self.limit.any, self._most_searched)
                self.limit = _farther(self.limit, needed, self._step(many, is_more))

    def _step(self, many: int, is_more: bool) -> float:
        """The floor up to which is searched next; a step to all there are where what was tried between closed ends
        isn't kept, and of what brings none, and tells nothing, hardly any is left."""
        if not (is_more or self.told.keys) or (self.is_plain and self.every[0].question.layers):
            return inf
        wider = _WIDER * self.limit.any
        if self.told.keys or not _are_few(self.floors, UpTo(wider, wider)):
            wider = 0.0
        return max(_at_place(self.floors, many), wider)

    @property
    def _most_searched(self) -> float:
        """Of more it isn't worth it any more."""
        return _TOO_MANY * sum(len(jobs.tools) for jobs in self.every)

    @property
    def _is_in_vain(self) -> bool:
        """Whether it isn't likely that more of them settle it."""
        if self.told.keys:
            return not self.is_plain or bool(self.under and not self.under[2])
        return self.under is not None

    @property
    def _at_stake(self) -> float:
        """The hours that are in the part."""
        return self.every[0].question.feature.request.hours

    def _search(self) -> bool | None:
        """Search those within the limit; whether they aren't those of before, None where they are too many."""
        few, many = [one.within(self.limit) for one in self.floors], self._most_searched
        if self.kept:
            few = [_with(some, kept.tools, jobs.tools)
                   for some, kept, jobs in zip(few, self.kept, self.every, strict=True)]
        if self._is_in_vain:
            many = min(many, max(_IN_VAIN, _IN_VAIN_OF * many))
        if sum(map(len, few)) > many:
            return None
        if [jobs.tools for jobs in self.some] == few:
            return False
        self.some = _some(self.every, few, self.some)
        self.told = Shortlist(least=self.least, under=self.under, holds=is_proved, watch=self.watch)
        self.proved = tuple(distinct(best(self.some, self.told), self.told, self.most))
        self.is_plain = bool(self.told.keys) and self.usual.is_all(self.told.keys[-1])
        if self.told.keys and not (self.is_plain or self.is_close) and self.usual.is_but_for_scrap(self.told.keys[-1]):
            return self._look_at_scrap()
        return True

    def _look_at_scrap(self) -> bool | None:
        """The same by the chance of scrap told closely. Where a disc in the whole width makes it more, all that is told
        of those without is told first, whatever it costs: by a search of these alone."""
        scrap, stakes = self.told.keys[-1][3], self._tell_closely()
        self.is_plain = self.usual.is_all(self.told.keys[-1])
        loud = min(one.with_the_loud for one in stakes)
        if self.is_plain or scrap > loud or not any(one.loud for one in stakes):
            return True
        under: Key = (*self.usual[:2], False, loud - HALF_A_CLASS, 0.0, (), ())
        quiet = narrowly([one.quiet for one in stakes], self.most, self.usual.verdict, self.least, self.watch, under)
        if quiet is None:
            return True
        self.usual, self.kept, self.is_plain = self.usual._replace(scrap=loud), quiet.some, True
        if quiet.told.count >= self.most:
            self.settled = quiet
        return self._search() if quiet.proved and not self.settled else True

    def _tell_closely(self) -> list[AtStake]:
        """Raise all floors, and the limit with them, by what is surely said of every plan, told closely."""
        self.is_close, stakes = True, [AtStake(one) for one in self.floors]
        rise = min(floors.tell(one.said) for floors, one in zip(self.floors, stakes, strict=True)) + _HAIR
        self.limit = UpTo(self.limit.any + rise, self.limit.last + rise)
        self.usual = self.usual._replace(scrap=min(one.least for one in stakes))
        return stakes


def _with(some: list[Tool], others: Sequence[Tool], every: Sequence[Tool]) -> list[Tool]:
    """Some of all tools and others, in their order."""
    places = places_of(every)
    both = {places[tool.id]: tool for tool in (*some, *others)}
    return [both[place] for place in sorted(both)]


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
    """The question in each set-up of a few tools alone; what drafts of those of before grew into stands."""
    return [replace(jobs, tools=tools, all_discs=jobs.discs, known=before, grown=before.grown if before else {})
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
        return self.is_but_for_scrap(key) and key[3] <= self.scrap

    def is_but_for_scrap(self, key: Key) -> bool:
        """Whether nothing but money and the chance of scrap does."""
        return key[:3] == (self.verdict, self.cautioned, False)


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

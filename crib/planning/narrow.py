"""Of thousands of cutters the few that can come into the best plans. A floor of what a plan with a cutter costs is told
of its bare sizes; the search has those of the least floors, and what it finds stands where no other's floor is as low
as what it tells."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Sequence
from functools import cached_property
from heapq import heapify, heappop, heapreplace
from itertools import zip_longest
from math import inf

from crib.cutters.base import Cutter, Kind
from crib.cutters.edges import edges
from crib.machining.gate import Count, Gate, is_full
from crib.machining.methods import can_try, gate
from crib.machining.methods.base import Site
from crib.machining.sizes import Sizes
from crib.machining.tool import Tool, makes_sizes
from crib.planning.branch_and_bound import WORTH_TELLING, Key, Shortlist
from crib.planning.cost import money_at_stake, scrap_class, wear_share
from crib.planning.finish import Proved, distinct
from crib.planning.jobs import Jobs
from crib.planning.minutes import RUN_OUT_MM
from crib.planning.set_ups import merged
from crib.planning.sieve import alike, is_weak
from crib.planning.watch import Watch
from crib.records import NamedTuple, dataclass, replace

FEW = 24
"""So many of the least floors are searched first."""


class Found(NamedTuple):
    """What a search found and told."""

    proved: tuple[Proved, ...]
    told: Shortlist


class UpTo(NamedTuple):
    """Up to what floor tools are searched: `any` of them, and those that may be a plan's `last`."""

    any: float
    last: float


def narrowly(every: Sequence[Jobs], most: int, verdict: int, least: int | None, watch: Watch) -> Found | None:
    """What the search of all tools tells, where no plan has a better verdict than this; None where the few don't
    settle it."""
    if any(jobs.down or jobs.question.layers or jobs.wide for jobs in every):
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
        limit = UpTo(max(limit.any, needed.any), max(limit.last, needed.last))
        if sum(len(one.within(limit)) for one in floors) > _TOO_MANY * sum(len(jobs.tools) for jobs in every):
            return None
    return None


def _some(every: Sequence[Jobs], floors: Sequence[Floors], limit: UpTo, known: Sequence[Jobs]) -> Sequence[Jobs]:
    """The question in each set-up of those tools alone of which the floor is no higher."""
    return [replace(jobs, tools=one.within(limit), all_discs=jobs.discs, known=before)
            for jobs, one, before in zip_longest(every, floors, known)]


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
    worst, worth = told.keys[-1][4] + _CENT, WORTH_TELLING * told.best.reckoning.cost + _CENT
    if told.count >= most:
        return UpTo(worst, worst)
    are_told = all(one.tool.id in told.last or _never_ends(one.tool, jobs)
                   for floor, jobs in zip(floors, some, strict=True) for one in floor.lasts(worth))
    return UpTo(worst if are_told else worth, worth)


def _never_ends(tool: Tool, jobs: Jobs) -> bool:
    """Whether a tool was looked at and ends no room."""
    found = (jobs.abilities.of(room).get(tool.id) for room in jobs.question.outline.rooms)
    return tool in jobs and not any(able and able.ends for able in found)


_CENT = 1e-4


def _at_place(floors: Sequence[Floors], place: int) -> float:
    """In the set-up where that is least, a floor over which each room has so many cutters less, or all there are."""
    return min((one.at_place(place) for one in floors), default=inf)


class Doer(NamedTuple):
    """A tool as it does a room, `place` in order: what it costs to put it up, and to do the room at the least. `rooms`:
    what it takes at the least for each of all rooms, infinite where it surely doesn't."""

    place: int
    tool: Tool
    up: float
    rooms: tuple[float, ...]


class InRoom:
    """The tools that may do a room, the least money first. It is told of all loosely; `closely` of the least of them
    alone, as far as somebody asks."""

    def __init__(self, room: int, doers: Sequence[Doer], closely: Callable[[Tool, int], float]) -> None:
        self.room, self.closely = room, closely
        self.heap = [(one.rooms[room], one.place, False, one) for one in doers if one.rooms[room] < inf]
        heapify(self.heap)
        self.found: list[tuple[float, Doer]] = []

    def up_to(self, money: float) -> list[tuple[float, Doer]]:
        """Those that take no more."""
        while self.heap and self.heap[0][0] <= money:
            self._look()
        return self.found[:bisect_right(self.found, money, key=lambda one: one[0])]

    def at_place(self, place: int) -> float:
        """What the one at so high a place takes, or the last of them; infinite where there is none."""
        while self.heap and len(self.found) < place:
            self._look()
        return self.found[:place][-1][0] if self.found else inf

    def _look(self) -> None:
        _, place, is_close, one = self.heap[0]
        if is_close:
            self.found.append((heappop(self.heap)[0], one))
            return
        money = max(self.closely(one.tool, self.room), one.rooms[self.room])
        if money < inf:
            heapreplace(self.heap, (money, place, True, one))
        else:
            heappop(self.heap)


@dataclass
class Floors:
    """For each tool in one set-up the least money of a plan with it, in which each tool does its rooms alone."""

    jobs: Jobs

    def __post_init__(self) -> None:
        question = self.jobs.question
        self.sizing = question.sizing
        outline = question.outline
        sites = ((room, gate(Site(outline, room, self.jobs.limits, outline.most))) for room in outline.rooms)
        self.rooms = [(room, None if door and door.upright else door) for room, door in sites]
        self.known: dict[tuple[str, object], float] = {}
        self.start = Jobs(question, ()).bounds().start
        self.wear = {buried: getattr(question.shop, wear_share(buried, question.material)[0])
                     for buried in (False, True)}
        doers = [Doer(place, tool, *self.of(tool)) for place, tool in enumerate(self.jobs.tools)]
        self.in_rooms = [InRoom(place, doers, self.closely) for place in range(len(self.rooms))]
        self.second = min((one.up for one in doers), default=inf)

    @cached_property
    def least(self) -> list[float]:
        """What each room takes at the least."""
        return [one.at_place(1) for one in self.in_rooms]

    @cached_property
    def whole(self) -> float:
        """What a plan comes to before any cutter is put up, each room done for the least."""
        question = self.jobs.question
        at_stake = money_at_stake(question.shop, question.feature.request.hours)
        return sum(self.least) + self.start.money + (1 - self.start.left) * at_stake

    def within(self, limit: UpTo) -> list[Tool]:
        """The tools of which the floor is no higher, in their order."""
        few = {one.place: one.tool for one in (*self._within(limit.any, self.in_rooms), *self.lasts(limit.last))}
        return [few[place] for place in sorted(few)]

    def lasts(self, limit: float) -> list[Doer]:
        """Those of them that may be the last of a plan."""
        return self._within(limit, self.in_rooms[-1:] if self._is_gone_into_last else self.in_rooms)

    @property
    def _is_gone_into_last(self) -> bool:
        """Whether the last room is shut but for the one before, so that nothing gets in there before that is clear: a
        cutter's stem stands over its middle."""
        if len(self.rooms) != 2 or (room := self.rooms[-1][0]).open or room.lean:
            return False
        middle, ceiling, top = room.aim.middle, room.most.high, self.jobs.question.outline.stock.bounds()[3]
        return ceiling < top and is_full(self.jobs.question.outline.stock, middle - 1, ceiling, middle + 1, top)

    def _within(self, limit: float, rooms: Sequence[InRoom]) -> list[Doer]:
        if self.whole == inf:
            return []
        return [one for here in rooms for floor, one in self._floors(here, limit) if floor <= limit]

    def _floors(self, here: InRoom, limit: float) -> list[tuple[float, Doer]]:
        """The floors of those that do a room, as far as they may be no higher."""
        rest = self.whole - self.least[here.room]
        return [(rest + money + one.up + (self.second if inf in one.rooms else 0.0), one)
                for money, one in here.up_to(limit - rest - self.second + _CENT)]

    def at_place(self, place: int) -> float:
        """A floor over which each room has so many of the tools less, or all that may do it."""
        if self.whole == inf:
            return inf
        highest = 0.0
        for here in self.in_rooms:
            money = here.at_place(place)
            few = self._floors(here, money + self.whole - self.least[here.room] + self.second)[:place]
            highest = max([highest, *(floor for floor, _ in few)])
        return highest

    def of(self, tool: Tool) -> tuple[float, tuple[float, ...]]:
        """The least money to put a tool up, and for each room to do it; infinite where it surely doesn't."""
        question, kind, cutter = self.jobs.question, tool.kind, tool.known
        shop, sizes = question.shop, self.sizing.of(cutter)
        up = shop.cutter_minutes + (shop.touch_disc_minutes if kind.buried else shop.touch_minutes)
        money = up / 60 * shop.hour_rate + self.wear[kind.buried] * (cutter.price or 0.0)
        if shop.overruled or shop.this_time or cutter.overruled:
            return money, (0.0,) * len(self.rooms)
        if not makes_sizes(edges(cutter), question.material) or (
                sizes is not None and self.sizing.is_too_fast(cutter, kind)):
            return money, (inf,) * len(self.rooms)
        if cutter.shank_mm is not None and cutter.bore_mm is None and not self.sizing.is_held(cutter):
            return money, (inf,) * len(self.rooms)
        opened = question.rooms_an_end_mill_opens if is_weak(cutter, kind) else ()
        return money, tuple([inf if room.name in opened or not can_try(tool, room) else
                             0.0 if sizes is None or door is None else
                             self._told(door, cutter, kind, sizes) for room, door in self.rooms])

    def closely(self, tool: Tool, place: int) -> float:
        """The least money for a tool to do a room that it may do, told as closely as the bounds of the search tell it:
        of its bare sizes where these tell it, else by them, worked out once for all that are alike."""
        room, door = self.rooms[place]
        shop, cutter = self.jobs.question.shop, tool.known
        if shop.overruled or shop.this_time or cutter.overruled:
            return 0.0
        sizes = self.sizing.of(cutter)
        if sizes is not None and door is not None and door.closely is not None:
            most = self.sizing.as_run(cutter, tool.kind, sizes)
            return self._money(tool.kind, sizes, most.feed, door.closely(sizes, most))
        like = (room.name, alike(tool.owned))
        if like not in self.known:
            share = Jobs(self.jobs.question, (tool,), all_discs=self.jobs.discs).bounds().of(tool, room)
            self.known[like] = min((one.money for one in share.alone), default=inf) if share else inf
        return self.known[like]

    def _told(self, door: Gate, cutter: Cutter, kind: Kind, sizes: Sizes) -> float:
        """The least money that the passes of a cutter take, and measuring once."""
        if door.shortfall(sizes):
            return inf
        most = self.sizing.most(cutter, kind, sizes)
        return self._money(kind, sizes, most.feed, Count(door.passes(sizes, most)))

    def _money(self, kind: Kind, sizes: Sizes, feed: float, count: Count) -> float:
        """What so many passes at a feed take, and measuring."""
        shop = self.jobs.question.shop
        at_feed = (self.jobs.question.feature.length + sizes.diameter + RUN_OUT_MM) / feed
        handling = shop.buried_pass_minutes if kind.buried else shop.pass_minutes
        minutes = count.passes * (at_feed + handling) + count.slow * at_feed + count.checks * shop.measure_minutes
        return minutes / 60 * shop.hour_rate

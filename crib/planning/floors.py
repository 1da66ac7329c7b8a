"""What a plan with a cutter costs at the least, told of its bare sizes: loosely of thousands, closely of the least."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence
from functools import cached_property
from heapq import heapify, heappop, heapreplace
from math import inf

from crib.cutters.alike import alike
from crib.cutters.base import Cutter, Kind
from crib.cutters.edges import edges
from crib.findings.finding import Finding
from crib.geometry.outline import Opening, Room
from crib.handbook.bites import finish_allowance
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple
from crib.machining.batches import Batch
from crib.machining.ends import after_a_chain, chain_minutes, cuts_on_centre, least_run_of
from crib.machining.gate import Count, Gate, is_full
from crib.machining.methods import gate, method_of
from crib.machining.methods.base import Site
from crib.machining.sizes import Sizes
from crib.machining.tool import Tool, makes_sizes
from crib.planning.cost import money_at_stake, scrap_chance, wear_share
from crib.planning.jobs import Jobs
from crib.planning.minutes import RUN_OUT_MM, least_descent, least_way
from crib.planning.sieve import is_weak
from crib.planning.surely_said import surely_said
from crib.units import nm

CENT = 1e-4


class UpTo(NamedTuple):
    """Up to what floor tools are searched: `any` of them, and those that may be a plan's `last`."""

    any: float
    last: float


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
    """For each tool in one set-up the least money of a plan with it, in which each tool does its rooms alone. `doers`:
    those that may do any room; `second`: the least that it takes to put one up of all that there are."""

    jobs: Jobs

    def __post_init__(self) -> None:
        question = self.jobs.question
        self.sizing = question.sizing
        outline = question.outline
        sites = ((room, gate(Site(outline, room, self.jobs.limits, outline.most))) for room in outline.rooms)
        self.rooms = [(room, None if door and door.upright else door) for room, door in sites]
        self.chains = [inf if (least := chain_minutes(question, room)) is None else least for room in outline.rooms]
        self.known: dict[tuple[str, object], float] = {}
        self.start = Jobs(question, ()).bounds().start
        self.wear = {buried: getattr(question.shop, wear_share(buried, question.material)[0])
                     for buried in (False, True)}
        shop = question.shop
        self.is_told = not (shop.overruled or shop.this_time)
        self.doers = [one for batch in self.sizing.batches(self.jobs.tools) for one in self._of(batch)]
        self.in_rooms = [InRoom(place, self.doers, self.closely) for place in range(len(self.rooms))]
        self.second = min((self._up(tool.kind, tool.known) for tool in self.jobs.tools), default=inf)

    @cached_property
    def least(self) -> list[float]:
        """What each room takes at the least."""
        return [one.at_place(1) for one in self.in_rooms]

    @cached_property
    def said(self) -> tuple[Finding, ...]:
        """What the rules surely say of every plan."""
        tools = self.jobs.tools
        if not self.is_told or not tools or any(one.one.overruled for one in self.sizing.batches(tools)):
            return ()
        disc = next(filter(None, map(self._only_discs, range(len(self.rooms)))), None)
        return surely_said(self.jobs.question, disc or tools[0], disc is not None)

    def _only_discs(self, room: int) -> Tool | None:
        """One of those that may do a room, where all of them are discs that are buried in the cut."""
        some: Tool | None = None
        for one in self.doers:
            if one.rooms[room] < inf:
                some = one.tool
                if not some.kind.buried:
                    return None
        return some

    @cached_property
    def scrap(self) -> float:
        """The chance of spoiling the part at the least."""
        return scrap_chance(self.said, shop=self.jobs.question.shop)

    @cached_property
    def whole(self) -> float:
        """What a plan comes to before any cutter is put up, each room done for the least."""
        question = self.jobs.question
        at_stake = money_at_stake(question.shop, question.feature.request.hours)
        return sum(self.least) + self.start.money + self.scrap * at_stake

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
                for money, one in here.up_to(limit - rest - self.second + CENT)]

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

    def _up(self, kind: Kind, cutter: Cutter) -> float:
        """The least money to put a cutter up."""
        shop = self.jobs.question.shop
        minutes = shop.cutter_minutes + (shop.touch_disc_minutes if kind.buried else shop.touch_minutes)
        wear: float = self.wear[kind.buried]
        return minutes / 60 * shop.hour_rate + wear * (cutter.price or 0.0)

    def _of(self, batch: Batch) -> Iterator[Doer]:
        """Those of a batch that may do any room, with what it takes at the least; infinite where one surely doesn't."""
        kind, one, tools = batch.kind, batch.one, self.jobs.tools
        assert kind is not None
        if not self.is_told or one.overruled:
            for place in batch.places:
                yield Doer(place, tools[place], self._up(kind, tools[place].known), (0.0,) * len(self.rooms))
            return
        if not makes_sizes(edges(one), self.jobs.question.material):
            return
        widest = self.sizing.widest(one, kind) if batch.is_bare else inf
        limits = [self._limits(batch, kind, room, door) for room, door in self.rooms]
        for at, limit in enumerate(zip(*limits, strict=True)):
            cutter = batch.cutters[at]
            if 0.0 not in limit or batch.diameters[at] > widest or not self._is_held(cutter):
                continue
            found = self._in_each(cutter, kind, limit, batch.is_bare)
            if min(found) < inf:
                place = batch.places[at]
                yield Doer(place, tools[place], self._up(kind, cutter), found)

    def _limits(self, batch: Batch, kind: Kind, room: Room, door: Gate | None) -> Sequence[float]:
        """By how much each of a batch breaks a limit of a room; 0 where that can't be told either."""
        method = method_of(room)
        if method.motion not in kind.motions and method.also not in kind.motions:
            return [inf] * len(batch.cutters)
        return door.limits(batch) if door is not None and batch.is_bare else [0.0] * len(batch.cutters)

    def _is_held(self, cutter: Cutter) -> bool:
        return cutter.shank_mm is None or cutter.bore_mm is not None or self.sizing.is_held(cutter)

    def _in_each(self, cutter: Cutter, kind: Kind, limit: Sequence[float], is_bare: bool) -> tuple[float, ...]:
        """The least money for a cutter to do each room by itself; `limit`: by how much it breaks a limit there."""
        opened = self.jobs.question.rooms_an_end_mill_opens
        never = opened if opened and is_weak(cutter, kind) else ()
        sizes = self.sizing.of(cutter) if is_bare else None
        return tuple([inf if short or room.name in never else
                      0.0 if sizes is None or door is None else
                      self._told(door, cutter, kind, sizes, chain)
                      for (room, door), chain, short in zip(self.rooms, self.chains, limit, strict=True)])

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
            after = after_a_chain(self.jobs.question, tool, room) if self.chains[place] < inf else None
            count = door.closely(sizes, most)
            besides = self._besides(tool, room, sizes, most.feed, count) if self.jobs.question.layers else 0.0
            return self._money(tool.kind, sizes, most.feed, count, *(after or (inf, 0)), besides)
        like = (room.name, alike(tool.owned))
        if like not in self.known:
            share = Jobs(self.jobs.question, (tool,), all_discs=self.jobs.discs).bounds().of(tool, room)
            self.known[like] = min((one.money for one in share.alone), default=inf) if share else inf
        return self.known[like]

    def _told(self, door: Gate, cutter: Cutter, kind: Kind, sizes: Sizes, chain: float) -> float:
        """The least money that the passes of a cutter take that breaks no limit, and measuring once."""
        if door.in_the_way(sizes):
            return inf
        most = self.sizing.most(cutter, kind, sizes)
        return self._money(kind, sizes, most.feed, Count(door.passes(sizes, most)), chain, 1)

    def _besides(self, tool: Tool, room: Room, sizes: Sizes, feed: float, count: Count) -> float:
        """What its ways between closed ends take at the least besides its passes, and its way down [min]."""
        question, kind = self.jobs.question, tool.kind
        if kind.buried:
            return count.returns * least_run_of(question, self.jobs.limits, room, sizes) / 1e6 / feed
        down = least_descent(question, room, cuts_on_centre(kind, kind.fill(tool.known)), feed)
        return down + (count.returns * self._way(kind, sizes.diameter) / 2 / feed if room.opens(Opening.TOP) else 0.0)

    def _money(self, kind: Kind, sizes: Sizes, feed: float, count: Count, chain: float, levels: int,
               besides: float = 0.0) -> float:
        """What so many passes at a feed take, their ways `besides`, and measuring; or a `chain` of holes that takes so
        many minutes at the least, and a pass in each of so many levels after it."""
        shop = self.jobs.question.shop
        at_feed = self._way(kind, sizes.diameter) / feed
        handling = shop.buried_pass_minutes if kind.buried else shop.pass_minutes
        minutes = count.passes * (at_feed + handling) + count.slow * at_feed + count.checks * shop.measure_minutes
        minutes += besides
        if chain < inf:
            after = min(levels, count.passes) * (at_feed + handling) + shop.measure_minutes
            minutes = min(minutes, shop.cutter_minutes + chain + after)
        return minutes / 60 * shop.hour_rate

    def _way(self, kind: Kind, across: float) -> float:
        """How far a cutter goes in a pass at the least [mm]."""
        question = self.jobs.question
        if question.layers is None:
            return question.feature.length + across + RUN_OUT_MM
        return 0.0 if kind.buried else least_way(question, nm(across / 2) + nm(finish_allowance(across)))

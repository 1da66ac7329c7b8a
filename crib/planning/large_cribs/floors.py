"""What a plan with a cutter costs at the least, told of its bare sizes: loosely of thousands, closely of the least."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property, partial
from math import inf

from crib.cutters.alike import alike
from crib.cutters.base import Cutter, Kind
from crib.cutters.edges import edges
from crib.findings.finding import Finding
from crib.geometry.outline import Opening, Room
from crib.handbook.bites import finish_allowance, level_overlap
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple
from crib.machining.batches import Band, Batch
from crib.machining.columns import in_the_way
from crib.machining.ends import after_a_chain, chain_minutes, cuts_on_centre, least_run_of
from crib.machining.gate import Count, is_full
from crib.machining.methods import gate, method_of
from crib.machining.methods.base import Site, goes_with_the_fillet
from crib.machining.sizes import Sizes
from crib.machining.tool import Tool, makes_sizes
from crib.planning.large_cribs.doers import Doer, Doers, InRoom, Some
from crib.planning.large_cribs.surely_said import surely_said
from crib.planning.reckoning.buried import least_stops
from crib.planning.reckoning.cost import money_at_stake, scrap_chance, wear_share
from crib.planning.reckoning.minutes import RUN_OUT_MM, least_descent, least_way
from crib.planning.search.jobs import Jobs
from crib.units import nm

CENT = 1e-4


class UpTo(NamedTuple):
    """Up to what floor tools are searched: `any` of them, and those that may be a plan's `last`."""

    any: float
    last: float


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
        self.beside = {place for place, room in enumerate(outline.rooms) if goes_with_the_fillet(outline, room)}
        self.known: dict[tuple[str, object], float] = {}
        self.parts: set[int] = set()  # rooms of which somebody may take a part
        self.start = Jobs(question, ()).bounds().start
        self.wear = {buried: getattr(question.shop, wear_share(buried, question.material)[0])
                     for buried in (False, True)}
        shop = question.shop
        self.is_told = not (shop.overruled or shop.this_time)
        self.batches = self.sizing.batches(self.jobs.tools)
        self.doers = Doers([some for batch in self.batches for some in self._bands(batch)])
        self.in_rooms = [InRoom(place, self.doers, self.closely) for place in range(len(self.rooms))]
        self.second = min((self._up(batch.kind, batch.least_price) for batch in self.batches if batch.kind),
                          default=inf)

    @cached_property
    def least(self) -> list[float]:
        """What each room takes at the least."""
        return [0.0 if one.room in self.beside else one.at_place(1) for one in self.in_rooms]

    @cached_property
    def said(self) -> tuple[Finding, ...]:
        """What the rules surely say of every plan."""
        if not self.is_sure:
            return ()
        disc = next(filter(None, map(self._only_discs, range(len(self.rooms)))), None)
        return surely_said(self.jobs.question, disc or self.jobs.tools[0], disc is not None)

    @property
    def is_sure(self) -> bool:
        """Whether no owner's word may go before a rule of any tool."""
        return self.is_told and bool(self.jobs.tools) and not any(one.one.overruled for one in self.batches)

    def _only_discs(self, room: int) -> Tool | None:
        """One of those that may do a room, where all of them are discs that are buried in the cut."""
        some: Tool | None = None
        for number, one in enumerate(self.doers.every):
            if one.rooms[room] < inf:
                first = self.jobs.tools[one.place]
                if not first.kind.buried and any(self._may_do(doer, room) for doer in self.doers.of(number)):
                    return None
                some = first if first.kind.buried else some
        return some

    def _may_do(self, doer: Doer, room: int) -> bool:
        """Whether one may do a room, told closely where its bare sizes don't tell it."""
        return doer.rooms[room] < inf and (
            self.sizing.of(doer.tool.known) is not None or self.closely(doer.tool, room) < inf)

    def tell(self, said: tuple[Finding, ...]) -> float:
        """Reckon with what is surely said of every plan, told more closely; by how much all floors rise [money]."""
        before = self.scrap
        self.said, self.scrap = said, scrap_chance(said, shop=self.jobs.question.shop)
        rise = (self.scrap - before) * self._at_stake
        self.whole += rise
        return rise

    @cached_property
    def scrap(self) -> float:
        """The chance of spoiling the part at the least."""
        return scrap_chance(self.said, shop=self.jobs.question.shop)

    @cached_property
    def whole(self) -> float:
        """What a plan comes to before any cutter is put up, each room done for the least."""
        return sum(self.least) + self.start.money + self.scrap * self._at_stake

    @property
    def _at_stake(self) -> float:
        return money_at_stake(self.jobs.question.shop, self.jobs.question.feature.request.hours)

    @cached_property
    def is_none(self) -> bool:
        """Whether there surely is no plan, told where both ends are open: there is a room out of which everybody takes
        nothing, or in which something above his teeth is in the way of all that stands at its wall, at whatever level,
        so that this stays whoever is there together. One that is open at the top goes only as deep as another room
        leaves it, so that there it is told of one that is alone."""
        return self.is_told and self.jobs.question.layers is None and any(
            here.at_place(1) == inf and here.room not in self.parts and here.room not in self.beside and (
                len(self.rooms) == 1 or not room.opens(Opening.TOP))
            for here, (room, _) in zip(self.in_rooms, self.rooms, strict=True))

    def within(self, limit: UpTo) -> list[Tool]:
        """The tools of which the floor is no higher, in their order."""
        few = {one.place: one.tool for one in (*self._within(limit.any, self.in_rooms), *self.lasts(limit.last))}
        return [few[place] for place in sorted(few)]

    def count(self, limit: UpTo, most: int) -> int:
        """How many they are, where these are no more than so many; else some number that is more."""
        found = set[int]()
        for money, rooms in ((limit.any, self.in_rooms), (limit.last, self._ending)) if self.whole < inf else ():
            for here in rooms:
                few = self._floors(here, money, most)
                if len(few) > most:
                    return len(few)
                found |= {one.place for floor, one in few if floor <= money}
        return len(found)

    def lasts(self, limit: float) -> list[Doer]:
        """Those of them that may be the last of a plan."""
        return self._within(limit, self._ending)

    @property
    def _ending(self) -> Sequence[InRoom]:
        """The rooms of which one may be the last of a plan."""
        return self.in_rooms[-1:] if self._is_gone_into_last else self.in_rooms

    @cached_property
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

    def _floors(self, here: InRoom, limit: float, most: int | None = None) -> list[tuple[float, Doer]]:
        """The floors of those that do a room, as far as they may be no higher; of more than `most` some more."""
        rest = self.whole - self.least[here.room]
        others = [place for place in range(len(self.rooms)) if place not in self.beside]
        return [(rest + money + one.up + (self.second if inf in [one.rooms[place] for place in others] else 0.0), one)
                for money, one in here.up_to(limit - rest - self.second + CENT, most)]

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

    def _up(self, kind: Kind, price: float | None) -> float:
        """The least money to put a cutter up that costs so much."""
        shop = self.jobs.question.shop
        minutes = shop.cutter_minutes + (shop.touch_disc_minutes if kind.buried else shop.touch_minutes)
        wear: float = self.wear[kind.buried]
        return minutes / 60 * shop.hour_rate + wear * (price or 0.0)

    def _bands(self, batch: Batch) -> Iterator[Some]:
        """Those of a batch that may do any room, by bands, with what they take at the least; infinite where they surely
        don't."""
        kind, one = batch.kind, batch.one
        assert kind is not None
        is_told = self.is_told and not one.overruled
        if is_told and not makes_sizes(edges(one), self.jobs.question.material):
            self.parts |= {place for place, (room, _) in enumerate(self.rooms) if room.opens(Opening.TOP)}
            return
        moves = [_moves_so(kind, room) for room, _ in self.rooms]
        if is_told and not any(moves):
            return
        widest = self.sizing.widest(one, kind) if batch.is_bare and is_told else inf
        for band in self.sizing.bands(batch) if batch.is_bare and is_told else [batch.whole]:
            money = tuple([self._in_band(batch, band, place) if is_so else inf for place, is_so in enumerate(moves)])
            if band.narrowest <= widest and (not is_told or min(money) < inf):
                least = money if is_told else (0.0,) * len(self.rooms)
                yield Some(least, batch.places[band.where[0]],
                           partial(self._made if is_told else self._untold, batch, least, band))

    def _in_band(self, batch: Batch, band: Band, place: int) -> float:
        """What those of a band take at the least to do a room alone."""
        kind, door = batch.kind, self.rooms[place][1]
        assert kind is not None
        if door is None or not batch.is_bare or not band.narrowest or place in self.beside:
            return 0.0
        if door.is_broken_by(band):
            return inf
        if level_overlap(band.lowest) >= band.lowest:
            return 0.0
        sizes, most = self.sizing.most_in(batch, band)
        across = band.narrowest if self.jobs.question.layers is None else band.widest
        count = door.fewest(sizes, most, band.lowest - self.sizing.clear.end)
        return self._money(kind, self._way(kind, across), most.feed, count, self.chains[place], 1)

    def _untold(self, batch: Batch, money: tuple[float, ...], band: Band) -> list[Doer]:
        """Those of a band of which nothing is told beforehand."""
        tools = [(batch.places[at], self.jobs.tools[batch.places[at]]) for at in band.where]
        return [Doer(place, tool, self._up(tool.kind, tool.known.price), money) for place, tool in tools]

    def _made(self, batch: Batch, money: tuple[float, ...], band: Band) -> list[Doer]:
        """Those of a band, of which none takes less `money` to do each room by itself, that may do any."""
        kind, made = batch.kind, []
        assert kind is not None
        widest = self.sizing.widest(batch.one, kind) if batch.is_bare else inf
        each = zip(*(self._each(batch, band, place, least) for place, least in enumerate(money)), strict=True)
        for at, rooms in zip(band.where, each, strict=True):
            cutter, place = batch.cutters[at], batch.places[at]
            if min(rooms) < inf and batch.diameters[at] <= widest and self._is_held(cutter):
                made.append(Doer(place, self.jobs.tools[place], self._up(kind, cutter.price), rooms))
        return made

    def _each(self, batch: Batch, band: Band, place: int, least: float) -> Sequence[float]:
        """The least that each of a band takes to do a room, infinite for those that surely don't."""
        (room, door), kind, where = self.rooms[place], batch.kind, band.where
        assert kind is not None
        found = [least] * len(where)
        if least < inf and door is not None and batch.is_bare and band.narrowest:
            ways = in_the_way(door, self.sizing, batch, where)
            found = [inf if short or door.limit_of(batch.diameters[at], batch.heights[at]) else least
                     for at, short in zip(where, ways, strict=True)]
        if room.name not in self.jobs.question.rooms_an_end_mill_opens:
            return found
        return [inf if kind.is_weak(batch.cutters[at]) else one for at, one in zip(where, found, strict=True)]

    def _is_held(self, cutter: Cutter) -> bool:
        return cutter.shank_mm is None or cutter.bore_mm is not None or self.sizing.is_held(cutter)

    def closely(self, tool: Tool, place: int) -> float:
        """The least money for a tool to do a room that it may do, told as closely as the bounds of the search tell it:
        of its bare sizes where these tell it, else by them, worked out once for all that are alike."""
        room, door = self.rooms[place]
        shop, cutter = self.jobs.question.shop, tool.known
        if shop.overruled or shop.this_time or cutter.overruled or place in self.beside:
            return 0.0
        sizes = self.sizing.of(cutter)
        if sizes is not None and door is not None and door.closely is not None:
            most = self.sizing.as_run(cutter, tool.kind, sizes)
            after = after_a_chain(self.jobs.question, tool, room) if self.chains[place] < inf else None
            count = door.closely(sizes, most)
            besides = self._besides(tool, room, sizes, most.feed, count) if self.jobs.question.layers else (
                shop.chip_stop_minutes * least_stops(self.jobs.question, room, count.both))
            way = self._way(tool.kind, sizes.diameter)
            return self._money(tool.kind, way, most.feed, count, *(after or (inf, 0)), besides)
        like = (room.name, alike(tool.owned))
        if like not in self.known:
            share = Jobs(self.jobs.question, (tool,), all_discs=self.jobs.discs).bounds().of(tool, room)
            self.parts |= {place} if share and share.helped and not share.alone else set()
            self.known[like] = min((one.money for one in share.alone), default=inf) if share else inf
        return self.known[like]

    def _besides(self, tool: Tool, room: Room, sizes: Sizes, feed: float, count: Count) -> float:
        """What its ways between closed ends take at the least besides its passes, and its way down [min]."""
        question, kind = self.jobs.question, tool.kind
        if kind.buried:
            return count.returns * least_run_of(question, self.jobs.limits, room, sizes) / 1e6 / feed
        way = self._way(kind, sizes.diameter)
        down = least_descent(question, room, cuts_on_centre(kind, kind.fill(tool.known)), feed, way)
        return down + (count.returns * way / 2 / feed if room.opens(Opening.TOP) else 0.0)

    def _money(self, kind: Kind, way: float, feed: float, count: Count, chain: float, levels: int,
               besides: float = 0.0) -> float:
        """What so many passes along a way at a feed take, ways `besides`, and measuring; or a `chain` of holes that
        takes so many minutes at the least, and a pass in each of so many levels after it."""
        shop = self.jobs.question.shop
        at_feed = way / feed
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


def _moves_so(kind: Kind, room: Room) -> bool:
    """Whether a kind moves as a room's method wants it."""
    method = method_of(room)
    return method.motion in kind.motions or method.also in kind.motions

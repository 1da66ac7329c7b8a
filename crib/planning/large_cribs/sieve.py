"""Which cutters surely clear a room, and which surely don't and by how much they fall short at the least: told of their
bare sizes, before a tool is made of them. What isn't sure is looked at more closely elsewhere."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cached_property
from math import inf

from crib.cutters.base import Cutter, Kind, Motion
from crib.cutters.edges import edges
from crib.geometry.outline import Opening, Room
from crib.handbook.bites import MOST_ALLOWANCE_MM
from crib.light.choices import StrEnum
from crib.light.hints import TYPE_CHECKING, Literal
from crib.light.records import dataclass, field
from crib.light.tuples import NamedTuple
from crib.machining.batches import Batch
from crib.machining.ends import cuts_on_centre, doorway
from crib.machining.gate import Gate
from crib.machining.methods import gate, method_of
from crib.machining.methods.base import Site
from crib.machining.sizes import Sizes, Sizing
from crib.machining.tool import makes_sizes, ready
from crib.planning.search.jobs import Jobs

Least = tuple[bool, int, float]
"""Where the refusal of a cutter stands at the least: whether it is for a room that others do, how many rooms from the
last that is, by how much it falls short [mm]."""

if TYPE_CHECKING:
    from crib.machining.ends.way_down import Doorway

    Told = Least | Literal[False] | None
    """What is told of a cutter: where its refusal stands at the least; False where it surely does a room, None where
    that can't be told."""

NEAREST: Least = (False, 0, 0.0)
_CAN = -1.0
"""In place of a shortfall: it surely does the room."""

_SLACK_MM = 0.001
"""By so much a cutter is smaller than what would do."""


class Out(StrEnum):
    """Whether steel, edges and hand let a cutter do any room, whatever its sizes are: they do; they don't, and it is
    told what its sizes fall short; they never do."""

    IN = "in"
    DULL = "dull"
    NEVER = "never"


class Asked(NamedTuple):
    """A room with its place from the last, whether others do it, what moves in it, what it asks of bare sizes, and what
    lets tools down between its closed ends."""

    spare: bool
    place: int
    room: Room
    motion: Motion
    also: Motion | None
    gate: Gate | None
    doorway: Doorway | None


@dataclass
class Sieve:
    """The rooms of a question in one set-up, those first that nothing does; what hangs on few of a cutter's values is
    kept, and by how much those of the batch that is looked at break each room's limits: `shorts`."""

    jobs: Jobs
    rooms: Sequence[tuple[bool, int, Room]]
    shorts: dict[str, list[float]] = field(default_factory=dict)
    outs: dict[tuple[str, str, str, str], Out] = field(default_factory=dict)

    @cached_property
    def asked(self) -> tuple[Asked, ...]:
        """The rooms with what they ask."""
        outline, jobs = self.jobs.question.outline, self.jobs
        return tuple(Asked(spare, place, room, method_of(room).motion, method_of(room).also,
                           gate(Site(outline, room, jobs.limits, jobs.before(room))), doorway(jobs.question, room))
                     for spare, place, room in self.rooms)

    @cached_property
    def sizing(self) -> Sizing:
        """What is told of bare sizes."""
        return self.jobs.question.sizing

    @cached_property
    def withins(self) -> dict[str, float]:
        """How wide a mill in each room may be at the most that surely gets in between its ends, whatever its teeth are
        like in the middle [mm]. No bound where they are open, negative where that isn't told."""
        return {room.name: inf if self.is_open else self._within(room) for _, _, room in self.rooms}

    def _within(self, room: Room) -> float:
        """The same of one room: it goes down on a ramp, along more than its own width, as far from each end as it may
        be kept off there; in a room with corners it goes between the walls, and is no rounder than these may stay."""
        layers = self.jobs.question.layers
        if layers is None or room.across or not room.opens(Opening.TOP):
            return -inf
        most = layers.ends[room.name].half / 1e6 - MOST_ALLOWANCE_MM
        if corners := layers.corners.get(room.name):
            most = min(most, 2 * min(room.aim.width // 2, corners.waived) / 1e6)
        return most - _SLACK_MM

    @cached_property
    def is_open(self) -> bool:
        """Whether it is open at both ends: else more than the section counts."""
        return self.jobs.question.feature.request.ends == "open"

    @cached_property
    def opened(self) -> frozenset[str]:
        """The rooms that an end mill opens."""
        return self.jobs.question.rooms_an_end_mill_opens

    def by_limits(self, batch: Batch, kind: Kind) -> list[Least | None]:
        """Where the refusals of a batch stand at the least, of those that break a limit of every room that they are
        asked for; None where a closer look is needed."""
        rooms = self._asked_for(kind)
        self.shorts.clear()
        if self.out(batch.one) is not Out.IN or not all(_is_told(batch, kind, asked) for asked in rooms):
            return [None] * len(batch.cutters)
        binds = [kind.buried or asked.motion not in kind.motions for asked in rooms]
        self.shorts.update((asked.room.name, _shorts(batch, kind, asked)) for asked in rooms)
        shorts = zip(*self.shorts.values(), strict=True)
        spare, place = rooms[0][:2]
        if len(rooms) == 1 or not any(binds):
            found = [None if 0.0 in each else (spare, place, each[0]) for each in shorts]
        else:
            found = [None if 0.0 in each else _nearest(rooms, each, binds) for each in shorts]
        for at in self._of_their_own(batch, kind):
            found[at] = None
        return found

    def _asked_for(self, kind: Kind) -> Sequence[Asked]:
        """The rooms that are looked at of a kind of cutter of which the first falls short: none that others do beside
        one that nothing does, none that discs would open in place of an end mill."""
        first, *others = self.asked
        opened = self.opened if kind.buried else ()
        return [first, *(one for one in others if one.room.name not in opened and one.spare == first.spare)]

    def _of_their_own(self, batch: Batch, kind: Kind) -> list[int]:
        """Those of a batch that are asked otherwise than the others: they are too wide for the slowest speed, or too
        weak to open anything where others of their kind do."""
        widest = self.sizing.widest(batch.one, kind) if batch.is_bare else inf
        own = [at for at, across in enumerate(batch.diameters) if across > widest]
        if self.opened and not kind.buried:
            own += [at for at, cutter in enumerate(batch.cutters) if kind.is_weak(cutter)]
        return own

    def least(self, cutter: Cutter, kind: Kind, sizes: Sizes | None, out: Out) -> Told:
        """Where the refusal of a cutter in this set-up stands at the least; False where it surely does a room, None
        where that can't be told. `out`: whether it does any, whatever its sizes are."""
        if out is not Out.IN:
            return self._of_out(kind, sizes, out)
        found: list[tuple[bool, float, int]] = []
        most, opened = inf, self.opened if self.opened and kind.is_weak(cutter) else ()
        for asked in self.asked:
            spare, place, room, motion, also, door, _ = asked
            if found and (room.name in opened or (spare and not found[0][0])):
                continue
            if not self.is_open and (door is None or (sizes is None and motion in kind.motions)) and (
                    self._gets_in(cutter, kind, sizes, asked) is False):
                short = 0.0
            elif door is None:
                return None
            elif motion not in kind.motions:
                if door.upright is None or also in kind.motions:
                    return None
                short = door.upright(kind, cutter.diameter_mm or 0.0)
                most = min(most, short)
            elif sizes is None:
                return None
            elif short := door.limit(sizes):
                most = min(most, short) if kind.buried else most
            elif not (short := door.in_the_way(sizes)):
                told = self._does(cutter, kind, sizes, asked, room.name in opened)
                if told is None or (told == _CAN and not spare):
                    return None if told is None else False
                short = told
            if short != _CAN:
                found.append((spare, short, place))
        if len(found) == 1 and found[0][1] <= most:
            return found[0][0], found[0][2], found[0][1]
        return min([(spare, place, short) for spare, short, place in found if short <= most], default=None)

    def _of_out(self, kind: Kind, sizes: Sizes | None, out: Out) -> Least:
        """The same of one that is refused whatever its sizes are: for these where they surely won't do either."""
        shorts = []
        for spare, place, _, motion, also, door, _ in self.asked:
            if door is None or sizes is None or also in kind.motions:
                return NEAREST
            is_short = motion not in kind.motions or door.shortfall(sizes) > 0
            shorts.append((spare, place, inf if is_short and out is Out.NEVER else 0.0))
        return min(shorts)

    def _does(self, cutter: Cutter, kind: Kind, sizes: Sizes, asked: Asked, never: bool) -> float | None:
        """Whether a cutter that breaks no limit surely does a room, as a shortfall; `never`: whether a rule forbids
        it."""
        told = self._does_across(cutter, kind, sizes, asked.gate, never)
        if self.is_open or told == 0.0:
            return told
        gets_in = self._gets_in(cutter, kind, sizes, asked)
        if gets_in is False and asked.doorway:
            return 0.0 if told is None else asked.doorway.short(kind, sizes.diameter)
        return told if gets_in else None

    def _does_across(self, cutter: Cutter, kind: Kind, sizes: Sizes, door: Gate | None, never: bool) -> float | None:
        """The same as far as only the section counts."""
        assert door
        if cutter.shank_mm is not None and not self.sizing.is_held(cutter):
            return 0.0
        is_fit = self.sizing.is_held_well if never else self.sizing.is_fit
        if not door.does(sizes) or not is_fit(cutter, kind, sizes):
            return None
        if self.sizing.least_bite(cutter, kind, sizes) < door.least_bite:
            return None
        return inf if never else _CAN

    def _gets_in(self, cutter: Cutter, kind: Kind, sizes: Sizes | None, asked: Asked) -> bool | None:
        """Whether a cutter surely gets down in a room between its closed ends; None where that isn't told."""
        if not kind.buried and sizes and sizes.diameter <= self.withins[asked.room.name]:
            return True
        if asked.doorway is None or not (kind.buried or sizes):
            return None
        is_on_centre = cuts_on_centre(kind, kind.fill(cutter))
        return asked.doorway.tells(kind, is_on_centre, sizes.diameter if sizes else cutter.diameter_mm or 0.0)

    def out(self, cutter: Cutter) -> Out:
        """Whether steel, edges and hand let a cutter do any room."""
        place = (cutter.kind, cutter.material, edges(cutter), cutter.hand)
        if place not in self.outs:
            question = self.jobs.question
            tool = ready(cutter, question.shop, question.material)
            is_never = tool is not None and self.jobs.never_here(tool) is not None
            self.outs[place] = Out.NEVER if is_never else (
                Out.IN if makes_sizes(edges(cutter), question.material) else Out.DULL)
        return self.outs[place]


def _is_told(batch: Batch, kind: Kind, asked: Asked) -> bool:
    """Whether limits tell anything of a batch in a room."""
    if asked.gate is None:
        return False
    return batch.is_bare if asked.motion in kind.motions else bool(asked.gate.upright) and (
        asked.also not in kind.motions)


def _shorts(batch: Batch, kind: Kind, asked: Asked) -> list[float]:
    """By how much each of a batch breaks a limit of a room of which that is told; 0 where it breaks none."""
    assert asked.gate
    if asked.motion in kind.motions:
        return asked.gate.limits(batch)
    assert asked.gate.upright
    return [asked.gate.upright(kind, across) for across in batch.diameters]


def _nearest(rooms: Sequence[Asked], shorts: Sequence[float], binds: Sequence[bool]) -> Least:
    """The first of the rooms for which a cutter falls short by no more than for any of those for which it is refused at
    what it breaks there: `binds`."""
    most = min([short for short, bind in zip(shorts, binds, strict=True) if bind], default=inf)
    return next((asked.spare, asked.place, short) for asked, short in zip(rooms, shorts, strict=True) if short <= most)

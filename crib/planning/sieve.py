"""Which cutters surely clear a room, and which surely don't and by how much they fall short at the least: told of their
bare sizes, before a tool is made of them. What isn't sure is looked at more closely elsewhere."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from enum import Enum
from functools import cached_property
from math import inf
from operator import attrgetter

from crib.cutters import KINDS
from crib.cutters.base import CUTTER_KEYS, Cutter, Kind, Motion
from crib.cutters.edges import SERRATED, edges, is_serrated
from crib.geometry.outline import Room
from crib.hints import Literal
from crib.machining.gate import Gate
from crib.machining.methods import gate, method_of
from crib.machining.methods.base import Site
from crib.machining.sizes import Sizes, Sizing
from crib.machining.tool import at_kindest, at_worst, makes_sizes, ready
from crib.planning.jobs import Jobs
from crib.records import NamedTuple, dataclass, field


class Least(NamedTuple):
    """Where the refusal of a cutter stands at the least: whether it is for a room that others do, how many rooms from
    the last that is, by how much it falls short [mm]."""

    spare: bool
    place: int
    short: float


_NEAREST = Least(False, 0, 0.0)
_CAN = -1.0
"""In place of a shortfall: it surely does the room."""


class Out(Enum):
    """Whether steel, edges and hand let a cutter do any room, whatever its sizes are: they do; they don't, and it is
    told what its sizes fall short; they never do."""

    IN, DULL, NEVER = range(3)


class Asked(NamedTuple):
    """A room with its place from the last, whether others do it, what moves in it, and what it asks of bare sizes."""

    spare: bool
    place: int
    room: Room
    motion: Motion
    also: Motion | None
    gate: Gate | None


@dataclass
class Sieve:
    """The rooms of a question in one set-up, those first that nothing does; what hangs on few of a cutter's values is
    kept."""

    jobs: Jobs
    rooms: Sequence[tuple[bool, int, Room]]
    outs: dict[tuple[str, str, str, str], Out] = field(default_factory=dict)

    @cached_property
    def asked(self) -> tuple[Asked, ...]:
        """The rooms with what they ask."""
        outline, jobs = self.jobs.question.outline, self.jobs
        return tuple(Asked(spare, place, room, method_of(room).motion, method_of(room).also,
                           gate(Site(outline, room, jobs.limits, jobs.before(room))))
                     for spare, place, room in self.rooms)

    @cached_property
    def sizing(self) -> Sizing:
        """What is told of bare sizes."""
        return self.jobs.question.sizing

    @cached_property
    def is_open(self) -> bool:
        """Whether it is open at both ends: else more than the section counts."""
        return self.jobs.question.feature.request.ends == "open"

    @cached_property
    def opened(self) -> frozenset[str]:
        """The rooms that an end mill opens."""
        return self.jobs.question.rooms_an_end_mill_opens

    def least(self, cutter: Cutter, kind: Kind, sizes: Sizes | None) -> Least | Literal[False] | None:
        """Where the refusal of a cutter in this set-up stands at the least; False where it surely does a room, None
        where that can't be told."""
        out = self._out(cutter)
        if out is Out.IN and sizes is not None and self.sizing.is_too_fast(cutter, kind):
            out = Out.DULL
        if out is not Out.IN:
            return self._of_out(cutter, kind, sizes, out)
        found: list[tuple[bool, float, int]] = []
        most, opened = inf, self.opened if self.opened and is_weak(cutter, kind) else ()
        for spare, place, room, motion, also, door in self.asked:
            if found and (room.name in opened or (spare and not found[0][0])):
                continue
            if door is None:
                return None
            if motion not in kind.motions:
                if door.upright is None or also in kind.motions:
                    return None
                short = door.upright(kind, cutter.diameter_mm or 0.0)
                most = min(most, short)
            elif sizes is None:
                return None
            elif short := door.limit(sizes):
                most = min(most, short) if kind.buried else most
            elif not (short := door.in_the_way(sizes)):
                told = self._does(cutter, kind, sizes, door, room.name in opened)
                if told is None or (told == _CAN and not spare):
                    return None if told is None else False
                short = told
            if short != _CAN:
                found.append((spare, short, place))
        if len(found) == 1 and found[0][1] <= most:
            return Least(found[0][0], found[0][2], found[0][1])
        return min([Least(spare, place, short) for spare, short, place in found if short <= most], default=None)

    def _of_out(self, cutter: Cutter, kind: Kind, sizes: Sizes | None, out: Out) -> Least:
        """The same of one that is refused whatever its sizes are: for these where they surely won't do either."""
        shorts = []
        for spare, place, _, motion, also, door in self.asked:
            if door is None or sizes is None or also in kind.motions:
                return _NEAREST
            is_short = motion not in kind.motions or door.shortfall(sizes) > 0
            shorts.append(Least(spare, place, inf if is_short and out is Out.NEVER else 0.0))
        return min(shorts)

    def _does(self, cutter: Cutter, kind: Kind, sizes: Sizes, door: Gate, never: bool) -> float | None:
        """Whether a cutter that breaks no limit surely does a room, as a shortfall; `never`: whether a rule forbids
        it."""
        if cutter.shank_mm is not None and not self.sizing.is_held(cutter):
            return 0.0
        is_fit = self.sizing.is_held_well if never else self.sizing.is_fit
        if not self.is_open or not door.does(sizes) or not is_fit(cutter, kind, sizes):
            return None
        if self.sizing.least_bite(cutter, kind, sizes) < door.least_bite:
            return None
        return inf if never else _CAN

    def _out(self, cutter: Cutter) -> Out:
        place = (cutter.kind, cutter.material, edges(cutter), cutter.hand)
        if place not in self.outs:
            question = self.jobs.question
            tool = ready(cutter, question.shop, question.material)
            is_never = tool is not None and self.jobs.never_here(tool) is not None
            self.outs[place] = Out.NEVER if is_never else (
                Out.IN if makes_sizes(edges(cutter), question.material) else Out.DULL)
        return self.outs[place]


_ITS_OWN = frozenset({"id", "label", "count", "drawer", "price", "currency", "marking", "note"})
"""What tells cutters that are alike apart, and changes nothing of what they can make."""

_shared: Callable[[Cutter], tuple[object, ...]] = attrgetter(*(key for key in CUTTER_KEYS if key not in _ITS_OWN))


def alike(cutter: Cutter) -> tuple[object, ...]:
    """All of a cutter that what it can make hangs on."""
    own = _shared(cutter)
    return (*own, SERRATED) if is_serrated(cutter) else own


def is_weak(cutter: Cutter, kind: Kind) -> bool:
    """Whether it isn't made to open anything from solid."""
    return kind.buried or (cutter.neck_mm is not None and cutter.neck_mm < (cutter.diameter_mm or 0.0) / 2)


@dataclass
class Sieves:
    """The sieves of all set-ups. `wants_some`: whether there are rooms that nothing does."""

    all: Sequence[Sieve]
    wants_some: bool
    motions: dict[str, bool] = field(default_factory=dict)

    @cached_property
    def sizing(self) -> Sizing:
        """What is told of bare sizes."""
        return self.all[0].sizing

    @cached_property
    def is_overruled(self) -> bool:
        """Whether the shop's words overrule rules, so that nothing is told beforehand."""
        shop = self.sizing.shop
        return bool(shop.overruled or shop.this_time)

    @cached_property
    def of_another_kind(self) -> Least:
        """Where the refusal of a cutter stands that moves as no room wants it."""
        return Least(self.wants_some, len(self.all[0].rooms), inf)

    def least(self, cutter: Cutter) -> Least | Literal[False] | None:
        """Where the refusal of a cutter stands at the least in whatever set-up; False where it surely does a room in
        one, None where that can't be told."""
        kind = KINDS.get(cutter.kind)
        if kind is None or self.is_overruled or cutter.overruled:
            return None
        if kind.form is None or (cutter.diameter_mm and not self._moves_so(kind)):
            return self.of_another_kind
        if not cutter.diameter_mm and kind.stem is None:
            return None
        return self._of_doubtful(cutter, kind) if kind.unknowns(cutter) else self._of(cutter, kind)

    def _moves_so(self, kind: Kind) -> bool:
        """Whether a kind moves in a way that some room wants, or along, of which it is told why it can't."""
        if kind.name not in self.motions:
            ways = [method_of(room) for sieve in self.all for _, _, room in sieve.rooms]
            self.motions[kind.name] = Motion.ALONG in kind.motions or any(
                way.motion in kind.motions or way.also in kind.motions for way in ways)
        return self.motions[kind.name]

    def _of_doubtful(self, cutter: Cutter, kind: Kind) -> Least | Literal[False] | None:
        """The same of one of which some size isn't known: it is told only where it surely can't, whatever that is."""
        least = self._of(at_kindest(cutter, self.all[0].jobs.question.feature.kindest), kind)
        worst = at_worst(cutter)
        return least if least and (worst is None or self._of(worst, kind)) else None

    def _of(self, cutter: Cutter, kind: Kind) -> Least | Literal[False] | None:
        if not cutter.diameter_mm:
            return None
        sizes = self.sizing.of(cutter)
        found: list[Least] = []
        is_sure = True
        for sieve in self.all:
            least = sieve.least(cutter, kind, sizes)
            if least is False:
                return False
            is_sure = is_sure and least is not None
            if least:
                found.append(least)
        return min(found) if is_sure else None

"""How a cutter gets down between closed ends: into free room, by its own centre teeth, over a hole, on a ramp."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import islice

from crib.geometry.cleared import segments
from crib.geometry.layers import Layers
from crib.geometry.operation import Operation, Path, Point
from crib.geometry.outline import Opening, Room
from crib.geometry.rounded_box import HALF, RoundedBox
from crib.handbook.closed_ends import CORE_SHARE, DRILLED_MM, HOLE_MM, LOWERED_MM, ramp_strokes
from crib.light.records import dataclass, field
from crib.light.tuples import NamedTuple
from crib.machining.ends.way_down import Doorway
from crib.machining.methods.cuts import Course
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Entry
from crib.units import NM, nm

SPARE = nm(LOWERED_MM / 2)
"""Room that is asked for round a cutter that is lowered without cutting."""

_HAIR = 2
"""A round that is wider by no more than this counts as free [nm]."""

FINE = 250
"""What is no more than this isn't counted [nm]: distances are proved to fifty."""


@dataclass
class Opened:
    """What is open so far, shape by shape, each from a height down to another, the highest first; it grows pass by
    pass. A round counts as clear where one shape alone holds it. `over`: of rounds that were asked about, of how many
    of the shapes it is known which hold them, and these."""

    surface: int
    spans: dict[RoundedBox, list[tuple[int, int]]]
    over: dict[tuple[Point, int], tuple[int, tuple[RoundedBox, ...]]] = field(default_factory=dict)

    @staticmethod
    def of(layers: Layers, operations: Iterable[Operation] = ()) -> Opened:
        """What was open before, and what some passes have opened."""
        begun = Opened(layers.top, {})
        for layer in layers.before:
            begun._open(layer.shape, layer.high, layer.low)
        return begun.grown(operations)

    def grown(self, operations: Iterable[Operation]) -> Opened:
        """What is open after some more passes; this one stays what it is."""
        grown = Opened(self.surface, dict(self.spans), dict(self.over))
        for one in operations:
            if one.path:
                grown.take(one)
        return grown

    def take(self, one: Operation) -> None:
        """One more pass is done."""
        for piece in segments(one.path):
            for part in one.form.sure:
                shape = piece.grown(min(part.radius_low, part.radius_high))
                self._open(shape, one.z + part.high, one.z + part.low)

    def _open(self, shape: RoundedBox, high: int, low: int) -> None:
        """A shape is open between two heights too; spans that meet become one."""
        apart: list[tuple[int, int]] = []
        for up, down in self.spans.get(shape, ()):
            if down > high or up < low:
                apart.append((up, down))
            else:
                high, low = max(high, up), min(low, down)
        self.spans[shape] = sorted((*apart, (high, low)), reverse=True)

    def top(self, at: Point, z: int, radius: int) -> int:
        """How far up metal stands in the way of a round: the surface at the most, z at the least."""
        top = self.surface
        found = (span for shape in self._holding(at, radius) for span in self.spans[shape])
        for up, low in sorted(found, reverse=True):
            if top <= z or up < top:
                break
            top = min(top, low)
        return max(z, top)

    def _holding(self, at: Point, radius: int) -> tuple[RoundedBox, ...]:
        """The shapes that hold a round; asked of the same one on every level, only of those that are new."""
        known, over = self.over.get((at, radius), (0, ()))
        if known < len(self.spans):
            x, y = at
            over += tuple(one for one in islice(self.spans, known, None)
                          if one[0] - x <= one[4] - radius + 1 and x - one[2] <= one[4] - radius + 1
                          and one.off(x, y) + radius <= HALF)
            self.over[at, radius] = len(self.spans), over
        return over


    def near(self, at: Point, radius: int) -> Opened:
        """What of it holds a round."""
        return Opened(self.surface, {shape: self.spans[shape] for shape in self._holding(at, radius)})


class Stuck(NamedTuple):
    """Where a pass can't get down, or only on a ramp: what holds there what its end teeth don't reach, and how deep it
    goes."""

    near: Opened
    at: Point
    core: int
    z: int

    def is_helped_by(self, hole: Operation) -> bool:
        """Whether a hole more opens what its end teeth don't reach: it gets down in none that doesn't."""
        return self.near.grown((hole,)).top(self.at, self.z, self.core) == self.z


@dataclass(frozen=True)
class Ways:
    """How one tool may get down; `ramp`: the length that it may ramp along, nought where it may not."""

    tool: Tool
    ramp: int

    @property
    def on_centre(self) -> bool:
        """Whether its teeth cut on centre, so that it may go straight down into metal."""
        return not self.tool.kind.buried and bool(self.tool.cutter.centre_cutting)

    @property
    def are_any(self) -> bool:
        """Whether there is one whatever stands there: straight down or on a ramp."""
        return self.on_centre or (self.ramp > 0 and not self.tool.kind.buried)

    @property
    def core(self) -> int:
        """The radius in the middle that its end teeth don't reach."""
        return round(CORE_SHARE * self.tool.form.radius)

    def stuck(self, opened: Opened, at: Point, z: int) -> Stuck:
        """That it doesn't get down at a point without a ramp."""
        return Stuck(opened.near(at, self.core), at, self.core, z)

    def course(self, opened: Opened, path: Path, z: int) -> Course | None:
        """The way of a pass that comes down at its first corner; None where there is none."""
        radius, at = self.tool.form.radius, path[0]
        if opened.top(at, z, radius + SPARE) == z:
            return Course(path, Entry.FREE, radius + SPARE)
        if self.tool.kind.buried:
            return None
        metal, over_core = opened.top(at, z, 0), opened.top(at, z, self.core)
        if over_core == z:
            return Course(path, Entry.HOLE, self.core)
        if self.on_centre:
            return Course(path, Entry.PLUNGE, 0, drop=metal - z)
        if self.ramp <= 0:
            return None
        return Course(path, Entry.RAMP, 0, ramp_strokes((over_core - z) / NM, self.ramp / NM), over_core - z)


def ways(tool: Tool, run: int) -> Ways:
    """The ways down of a tool that runs so far along: it ramps only along more than its own diameter."""
    return Ways(tool, run if not tool.kind.buried and run > 2 * tool.form.radius else 0)


def goes_on(path: Sequence[Point]) -> Course:
    """A pass that goes on from where the last one stopped."""
    return Course(tuple(path), Entry.ON, None)


def never_in(question: Question, tool: Tool, room: Room) -> bool:
    """Whether a tool never gets into a room between closed ends."""
    layers, radius = question.layers, tool.form.radius
    if layers is None:
        return False
    if room.across:
        return False
    if room.opens(Opening.TOP):
        corners = layers.corners.get(room.name)
        return radius > layers.ends[room.name].half or (corners is not None and radius > corners.waived)
    widest = max((room.most.width for room in question.outline.rooms if room.opens(Opening.TOP)), default=0)
    return max([widest - 2 * SPARE, *(2 * hole.radius - nm(HOLE_MM) for hole in layers.holes)]) < 2 * radius


def let_in_by_a_hole(layers: Layers, radius: int) -> bool:
    """Whether a disc of a radius [nm] can be lowered in a hole."""
    return any(hole.radius >= radius + nm(HOLE_MM / 2) for hole in layers.holes)


def doorway(question: Question, room: Room) -> Doorway | None:
    """What lets tools down in a room; None where that hangs on more than the tool."""
    if room.name not in question.doorways:
        question.doorways[room.name] = _doorway(question, room)
    return question.doorways[room.name]


def _doorway(question: Question, room: Room) -> Doorway | None:
    layers, rooms = question.layers, question.outline.rooms
    if layers is None or layers.before or room is not rooms[0] or room.across or not room.opens(Opening.TOP):
        return None
    if corners := layers.corners.get(room.name):
        return Doorway(layers.ends[room.name].half, 0, corners.most)
    return Doorway(layers.ends[room.name].half, _widest_flat(question))


def _widest_flat(question: Question) -> int:
    """The radius of the widest hole with a flat floor that is drilled as a way in [nm]; nought where there is none."""
    flats = (min(part.radius_low, part.radius_high) for drill in question.drills if goes_in(question, drill)
             for part in drill.form.sure if part.low == 0)
    return max(flats, default=0)


def goes_in(question: Question, drill: Tool) -> bool:
    """Whether a hole that is drilled as a way in stays off the walls."""
    width = min(room.aim.width for room in question.outline.rooms)
    return 2 * drill.form.radius <= width - nm(DRILLED_MM)


def is_shut(question: Question, room: Room, tools: Iterable[Tool]) -> bool:
    """Whether of some tools none that makes a size gets down in a room that is open at the top, for want of another
    that makes sizes and opens it: neither does a plan hold then.

    One whose end doesn't cut comes down at each of its heights where it is free already. So whatever opened the room
    there went as deep, and made that piece of the floor; and a drill goes no deeper than the mill for which it drills.
    """
    layers = question.layers
    if layers is None or room.across or not room.opens(Opening.TOP) or layers.before or question.roughers:
        return False
    return all(tool.kind.buried for tool in tools if tool.can_finish)


def kept_out(question: Question, room: Room, tools: Iterable[Tool], able: Callable[[Room], Iterable[Tool]]
             ) -> frozenset[int]:
    """Of some tools the numbers of those that never get down in a room that is open at the top, whoever of those that
    are able to do anything in such a room opens it before, be it with a drill.

    One whose end doesn't cut comes down where a round is free that is wider than itself. Each piece of a way frees
    rounds no wider than whatever went it, and at the surface nothing did that isn't let in from there too.
    """
    layers = question.layers
    if layers is None or room.across or layers.before or not (discs := [one for one in tools if one.kind.buried]):
        return frozenset()
    opening = [tool for other in question.outline.rooms if other.opens(Opening.TOP) for tool in able(other)]
    opening += [*question.drills, *(rougher.job.tool for rougher in question.roughers)]
    widest = max((part.widest for tool in opening if not tool.kind.buried for part in tool.form.sure), default=0)
    return frozenset(disc.id for disc in discs if disc.form.radius + SPARE > widest + _HAIR)


def rubs_at_an_end(question: Question, tool: Tool, room: Room) -> bool:
    """Whether what makes a size surely rubs at a closed end when it makes the floor of a room that is open at the top.

    Whatever is cut there ends where the end is aimed, at the right one holes too; and its last pass goes as far. So
    what is wider than its teeth, with its clearance, meets metal there unless it stays over the surface.
    """
    layers = question.layers
    if layers is None or len(question.outline.rooms) > 1 or not room.opens(Opening.TOP) or (
            room.across or room.name in layers.corners):
        return False
    return rubs_within(tool, room.least.low, tool.form.radius, layers)


def rubs_within(tool: Tool, low: int, room: int, layers: Layers) -> bool:
    """Whether something over the teeth of a tool, with its clearance, is wider than so much room where metal may stand
    beside it: under the surface, and over what was free before."""
    return any(part.widest + part.side > room + FINE and low + part.low - part.end < layers.top - FINE
               and low + part.high > layers.air + FINE for part in tool.form.clear)

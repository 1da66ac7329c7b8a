"""Every operation of a part proved in what stands when it is its turn: what it wants beyond its own feature must be
air, or gone with features that were made before."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property

from crib.features.base import Feature
from crib.geometry.box_outline import holds
from crib.geometry.cleared import Cleared
from crib.geometry.convex import Convex, Vector
from crib.geometry.layers import Layer
from crib.geometry.rounded_box import RoundedBox
from crib.light.records import dataclass, field
from crib.light.tuples import NamedTuple
from crib.parts.lying import lying_in
from crib.parts.part import Face, Part
from crib.parts.solids import run_of
from crib.planning.parts.above import Above
from crib.planning.parts.abstract import Way
from crib.planning.parts.assemble import Turn
from crib.planning.parts.choices import Sign
from crib.planning.parts.wanted import Room, rooms_of
from crib.units import nm


class Meets(NamedTuple):
    """A go that would meet metal: of which feature and way, and which of its goes; what meets it. `needs`: the features
    with which that metal is gone; None where nothing takes it away. `is_beyond`: whether it stands beyond an end."""

    feature: str
    sign: Sign
    number: int
    what: str
    needs: frozenset[str] | None
    is_beyond: bool = False


_UNTOLD = Room(0, 0, RoundedBox(0, 0, 0, 0, 0), "cutter", True)
"""Where it can't be told how the work lies to what stands beside: as good as metal beyond the end."""


@dataclass
class Standing:
    """A part with what its features take, to be asked again and again."""

    part: Part
    drawn: Mapping[str, Feature]
    known: dict[tuple[Face, frozenset[str]], Cleared] = field(default_factory=dict)
    layers: dict[tuple[Face, str], tuple[Layer, ...]] = field(default_factory=dict)
    rooms: dict[tuple[str, Face, Sign, int], frozenset[Room] | None] = field(default_factory=dict)

    @cached_property
    def bodies(self) -> Mapping[str, tuple[Convex, ...]]:
        """What each feature takes."""
        return {one.name: tuple(piece.body for piece in one.solids) for one in lying_in(self.part, self.drawn)}

    def free(self, face: Face, done: frozenset[str]) -> Cleared:
        """What is free with a face up and some features made."""
        if (face, done) not in self.known:
            gone = (layer for name in sorted(done) for layer in self._gone(face, name))
            self.known[face, done] = Above.of(self.part.stock, face).free(self.part.stock, gone)
        return self.known[face, done]

    def _gone(self, face: Face, name: str) -> tuple[Layer, ...]:
        """What a feature takes with a face up, in layers."""
        if (face, name) not in self.layers:
            above = Above.of(self.part.stock, face)
            self.layers[face, name] = tuple(layer for body in self.bodies.get(name, ()) for layer in above.layers(body))
        return self.layers[face, name]

    def wanted(self, name: str, way: Way, number: int) -> frozenset[Room] | None:
        """What a go wants beyond its feature."""
        place = (name, way.lie.face, way.choice.sign, number)
        if place not in self.rooms:
            self.rooms[place] = rooms_of(self.part, self.part.feature(name), way, number)
        return self.rooms[place]

    def blocked(self, name: str, way: Way, number: int, done: frozenset[str]) -> Room | None:
        """The room in which a cutter or its holder meets metal in a go, with some features made; None where none
        does. What the feature itself takes is none: what a cutter meets in it was proved there, and that may lie over
        its own nought, as a groove in a wall does."""
        rooms = self.wanted(name, way, number)
        if rooms is None:
            return _UNTOLD
        free = self.free(way.lie.face, done | {name})
        return next((room for room in sorted(rooms) if not is_free(free, room)), None)

    def meets(self, turns: Sequence[Turn], after: Mapping[str, frozenset[str]]) -> list[Meets]:
        """The goes of an order that would meet metal. `after`: what must come after each feature."""
        last = {turn.feature: at for at, turn in enumerate(turns)}
        found = []
        for at, turn in enumerate(turns):
            done = frozenset(name for name, end in last.items() if end < at)
            room = None if turn.done else self.blocked(turn.feature, turn.way, turn.number, done)
            if room is None:
                continue
            others = frozenset(last) - after.get(turn.feature, frozenset()) - {turn.feature}
            found.append(Meets(turn.feature, turn.choice.sign, turn.number, room.what, self.needs(turn, others),
                               room.is_beyond))
        return found

    def is_hopeless(self, name: str, others: frozenset[str]) -> bool:
        """Whether no cutter makes a feature where it lies, even with others made: the middle of its section, a
        millimetre beyond an end that is said to be open, stays metal. Whatever is fed along passes there."""
        feature, placed = self.drawn[name], self.part.feature(name)
        if feature.down is not None or feature.request.ends != "open" or not feature.outline.least:
            return False
        slab = feature.outline.least.slabs[-1]
        span, z = slab.spans[0], (slab.low + slab.high) / 2e6
        right = (span.left_low + span.right_low + span.left_high + span.right_high) / 4e6
        above = Above.of(self.part.stock, placed.place.face)
        free = self.free(placed.place.face, others)
        for place in placed.places:
            run = run_of(self.part.stock, place, feature)
            for at in (run.begin - 1.0, run.end + 1.0):
                if not is_free(free, _point(above, run.at(at, right, z))):
                    return True
        return False

    def needs(self, turn: Turn, others: frozenset[str]) -> frozenset[str] | None:
        """The features that must be made before a go, each of them needed; None where it meets metal whatever is."""
        if self.blocked(turn.feature, turn.way, turn.number, others):
            return None
        for name in sorted(others):
            if not self.blocked(turn.feature, turn.way, turn.number, others - {name}):
                others -= {name}
        return others


def _point(above: Above, at: Vector) -> Room:
    """A point of the part, as a room."""
    x, y, z = (nm(value) for value in at)
    layer = above.layer(((x, x), (y, y), (z, z)))
    return Room(layer.low - 500, layer.low + 500, layer.shape, "cutter", True)


def is_free(free: Cleared, room: Room) -> bool:
    """Whether a room is free."""
    if room.low >= min(room.high, free.top):
        return True
    return all(holds(room.shape, shapes) for slab in free.slabs(room.low, min(room.high, free.top))
               for shapes in slab.clear)

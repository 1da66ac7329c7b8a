"""The third view, from above: a feature with ends is a stack of layers, each the plan shape of the room at that height.

A body that stands somewhere has a disc at each height; what it passes over on a straight way is that disc drawn out. A
part that clears in the cross-section and in the lengthwise section can still stand in the metal at a round end: here it
is seen. x runs along the feature and y across, about its middle; all lengths are whole nanometres.
"""

from __future__ import annotations

import heapq
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from math import inf
from typing import NamedTuple

from crib.geometry.arcs import quarter
from crib.geometry.faces import FINE
from crib.geometry.operation import Frame, Operation, Path, Point
from crib.geometry.region import FAR
from crib.geometry.rounded_box import RoundedBox, clearance, holds, joined, nearest_edge
from crib.geometry.silhouette import Part
from crib.geometry.trace import Spot, Stage, View

NOWHERE: int = 2**62
"""Farther than anything: where there is nothing to measure to."""


class Layer(NamedTuple):
    """A room between two heights, seen from above."""

    low: int
    high: int
    shape: RoundedBox


@dataclass(frozen=True)
class Layers:
    """A feature seen from above: what must go, what may go, and what was free before. `fillet`: the radius that the
    floor's edge may have; `waived`: the radius that an owner may let stand there."""

    least: tuple[Layer, ...]
    most: tuple[Layer, ...]
    before: tuple[Layer, ...] = ()
    fillet: int = 0
    waived: int = 0


def segments(path: Path) -> list[RoundedBox]:
    """The straight pieces of a way, as cores without a radius; one point where it doesn't move.

    >>> segments(((0, 0), (0, 5)))
    [RoundedBox(left=0, low=0, right=0, high=5, radius=0)]
    """
    pairs = list(pairwise(path)) or [(path[0], path[0])]
    return [RoundedBox(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]), 0) for a, b in pairs]


class Slab(NamedTuple):
    """What is clear between two heights: at the lower and at the upper one; one of them where they are alike."""

    low: int
    high: int
    clear: tuple[frozenset[RoundedBox], ...]

    def holds(self, at: Point, radius: int) -> bool:
        """Whether a round lies in it."""
        return all(holds(RoundedBox(*at, *at, radius), shapes) for shapes in self.clear)


@dataclass
class Cleared:
    """What is clear at each height below the surface; it grows step by step. `straight`: between two `heights` what
    goes straight up; `slanted`: the heights and both ends of what doesn't."""

    heights: list[int] = field(default_factory=lambda: [-FAR, 0])
    straight: list[frozenset[RoundedBox]] = field(default_factory=lambda: [frozenset()])
    slanted: list[tuple[int, int, RoundedBox, RoundedBox]] = field(default_factory=list)
    known: dict[tuple[int, int], list[Slab]] = field(default_factory=dict)

    @staticmethod
    def of(layers: Layers, operations: Iterable[Operation] = ()) -> Cleared:
        """What was free before, and what some steps have cleared."""
        cleared = Cleared()
        for layer in layers.before:
            cleared._add(frozenset((layer.shape,)), layer.low, layer.high)
        for one in operations:
            if one.path:
                cleared.take(one)
        return cleared

    def take(self, one: Operation) -> None:
        """One more step is done."""
        self.known.clear()
        pieces = segments(one.path)
        for part in one.form.sure:
            low, high = one.z + part.low, one.z + part.high
            if part.radius_low == part.radius_high:
                self._add(frozenset(piece.grown(part.radius_low) for piece in pieces), low, high)
            else:
                self.slanted += [(low, high, piece.grown(part.radius_low), piece.grown(part.radius_high))
                                 for piece in pieces]
        self.slanted = [one for one in self.slanted if not self._is_passed(*one)]

    def _is_passed(self, low: int, high: int, under: RoundedBox, over: RoundedBox) -> bool:
        """Whether something that goes straight up has cleared all that one that slants did."""
        wider = max(under, over, key=lambda one: one.radius)
        places = range(bisect_right(self.heights, low) - 1, bisect_left(self.heights, min(high, 0)))
        return low >= 0 or all(any(one.reaches(wider) <= 0 for one in self.straight[place]) for place in places)

    def _add(self, shapes: frozenset[RoundedBox], low: int, high: int) -> None:
        low, high = min(low, 0), min(high, 0)
        for z in (low, high):
            place = bisect_left(self.heights, z)
            if self.heights[place] != z:
                self.heights.insert(place, z)
                self.straight.insert(place, self.straight[place - 1])
        for place in range(bisect_left(self.heights, low), bisect_left(self.heights, high)):
            self.straight[place] = joined(self.straight[place], shapes)

    def slabs(self, low: int, high: int, also: Iterable[int] = ()) -> list[Slab]:
        """What is clear between two heights below the surface, in slabs between the heights at which anything changes
        (`also`: there too)."""
        low, high, more = min(low, 0), min(high, 0), tuple(also)
        if more:
            return list(self._slabs(low, high, more))
        if (low, high) not in self.known:
            self.known[low, high] = list(self._slabs(low, high, more))
        return self.known[low, high]

    def _slabs(self, low: int, high: int, also: tuple[int, ...]) -> Iterator[Slab]:
        edges = {low, high, *also, *self.heights}
        slanted = [one for one in self.slanted if one[0] < high and one[1] > low]
        for bottom, top, _, _ in slanted:
            edges |= {bottom, top}
        for bottom, top in pairwise(sorted(z for z in edges if low <= z <= high)):
            straight = self.straight[bisect_right(self.heights, bottom) - 1]
            here = [one for one in slanted if one[0] <= bottom and top <= one[1]]
            ends = [joined(straight, frozenset(_slanted_at(z, here))) for z in (bottom, top)] if here else [straight]
            yield Slab(bottom, top, tuple(dict.fromkeys(ends)))

    def just_over(self, z: int) -> frozenset[RoundedBox]:
        """What is clear just over a height."""
        return self.slabs(z, z + 1)[0].clear[0]

    def edge_at(self, at: Point, z: int) -> Point | None:
        """The nearest edge of what is clear just below a height; None where there is no edge."""
        axis = RoundedBox(*at, *at, 0)
        shapes = min(self.slabs(z - 1, z)[-1].clear, key=lambda clear: clearance(axis, clear))
        edge = nearest_edge(*at, shapes)
        return (round(edge[0]), round(edge[1])) if edge else None

    def is_free(self, at: Point, z: int, radius: int) -> bool:
        """Whether a round is clear from a height up to the surface."""
        return all(slab.holds(at, radius) for slab in self.slabs(z, 0))


def _slanted_at(z: int, slanted: Iterable[tuple[int, int, RoundedBox, RoundedBox]]) -> Iterator[RoundedBox]:
    for low, high, under, over in slanted:
        yield under.grown((over.radius - under.radius) * (z - low) // (high - low))


def follow(layers: Layers, operations: Sequence[tuple[int, Operation]]) -> View:
    """Follow the operations in order, and measure what comes of them in every layer."""
    cleared = Cleared.of(layers)
    stages, stuck, gouge = [], [], 0
    last: Operation | None = None
    for number, one in operations:
        if not _comes_down(cleared, one, last):
            stuck.append(number)
        cleared.take(one)
        stages.append(Stage(number, tuple(nearest(cleared, one, number))))
        gouge = max(gouge, _gouge(layers, one))
        last = one
    return View(
        Frame.PLAN, tuple(stages),
        left=_left(layers, cleared, layers.fillet),
        left_kept=_left(layers, cleared, max(layers.fillet, layers.waived)),
        gouge=gouge,
        stuck=tuple(stuck),
    )


def _comes_down(cleared: Cleared, one: Operation, last: Operation | None) -> bool:
    if one.free is None:
        return last is not None and (last.form, last.z, last.path[-1]) == (one.form, one.z, one.path[0])
    return one.free <= 0 or cleared.is_free(one.path[0], one.z, one.free)


def nearest(cleared: Cleared, one: Operation, number: int = 0) -> Iterator[Spot]:
    """How near each part that must not touch comes to what stands, over the whole way."""
    for part in one.form.clear:
        low, high = one.z + part.low, min(0, one.z + part.high)
        if low - part.end >= 0:
            continue
        seen: set[tuple[frozenset[RoundedBox], bool]] = set()
        for slab in cleared.slabs(low - part.end, high + part.end, (low, high)):
            beside = slab.low >= low and slab.high <= high
            for shapes in slab.clear:
                if (shapes, beside) not in seen:
                    seen.add((shapes, beside))
                    yield from _along(part, shapes, one, number, slab.high if beside else None)


def _along(part: Part, shapes: frozenset[RoundedBox], one: Operation, number: int, z: int | None) -> Iterator[Spot]:
    """The nearest of a part at one height; under or over it only whether it has the room that it asks for."""
    radius = part.widest
    room, core = min((clearance(core, shapes), core) for core in segments(one.path))
    room = max(room, -float(NOWHERE))
    slack = round(room) - radius - part.side
    if z is None and slack >= 0:
        return
    ends = [(core.left, core.low), (core.right, core.high)]
    x, y = min(ends, key=lambda end: clearance(RoundedBox(end[0], end[1], end[0], end[1], 0), shapes))
    gap = round(room) - radius if z is not None else 0
    yield Spot(number, Frame.PLAN, part, gap, slack, y, one.z + part.low if z is None else z, x)


def _gouge(layers: Layers, one: Operation) -> int:
    """How far a step touches beyond `most`, in every layer."""
    floor, deepest = min(layer.low for layer in layers.most), 0.0
    edges = sorted({0, *(z for layer in layers.most for z in (layer.low, layer.high))})
    for part in one.form.may:
        low, high = one.z + part.low, min(0, one.z + part.high)
        deepest = max(deepest, floor - low if low < floor else 0)
        for bottom, top in pairwise(sorted({low, high, *(z for z in edges if low < z < high)})):
            rooms = [layer.shape for layer in layers.most if layer.low < top and layer.high > bottom]
            radius = max(part.radius_at(z - one.z) for z in (bottom, top))
            for piece in segments(one.path):
                out = min((room.reaches(piece.grown(radius)) for room in rooms), default=0.0)
                deepest = max(deepest, out)
    return round(deepest)


def _left(layers: Layers, cleared: Cleared, fillet: int) -> int:
    """The greatest distance from what should be gone and isn't to what is."""
    floor, worst = min((layer.low for layer in layers.least), default=0), 0
    round_edge = [floor + up for _, up in quarter(fillet)]
    for layer in layers.least:
        for slab in cleared.slabs(layer.low, layer.high, round_edge):
            for z, shapes in zip((slab.low, slab.high), slab.clear * 2, strict=False):
                wanted = layer.shape.inset(_inset(fillet, z - floor))
                if not holds(wanted, shapes):
                    worst = max(worst, left_over(wanted, shapes))
    return worst


def _inset(fillet: int, up: int) -> int:
    """How far a fillet in a floor's edge stands inwards at a height over the floor."""
    if up >= fillet:
        return 0
    points = quarter(fillet)
    (out, low), (outer, high) = next(pair for pair in pairwise(points) if pair[1][1] > up or pair[1] == points[-1])
    return fillet - (out + (outer - out) * (up - low) // max(1, high - low))


def left_over(shape: RoundedBox, shapes: frozenset[RoundedBox], fine: int = 2 * FINE, most: int = 4000) -> int:
    """The greatest distance from a point of a shape to what others hold, to a hundredth: by halving squares, of which
    the distance at the middle bounds what there can be. At the least what is fine, as something was left."""
    if not shapes:
        return NOWHERE
    side = (max(shape.right - shape.left, shape.high - shape.low) + 2 * shape.radius) / 2
    heap = [(-inf, (shape.left + shape.right) / 2, (shape.low + shape.high) / 2, side)]
    best = float(fine)
    while heap and most and -heap[0][0] > best * 1.01:
        most -= 1
        _, x, y, half = heapq.heappop(heap)
        for dx, dy in ((-1, -1), (-1, 1), (1, -1), (1, 1)):
            at_x, at_y, corner = x + dx * half / 2, y + dy * half / 2, half / 2**0.5
            if shape.off(at_x, at_y) <= corner:
                away = min(one.off(at_x, at_y) for one in shapes)
                best = max(best, away) if shape.off(at_x, at_y) <= 0 else best
                heapq.heappush(heap, (-away - corner, at_x, at_y, half / 2))
    return round(best)

"""The part as it lies, seen from above: the air round it and what its features took, in layers. What isn't upright is
taken in steps that stay inside of it, so that nothing counts as gone that stands."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from crib.geometry.arcs import quarter
from crib.geometry.cleared import Cleared
from crib.geometry.convex import Convex, Disc, Vector
from crib.geometry.layers import Layer, Layers
from crib.geometry.region import FAR
from crib.geometry.rounded_box import RoundedBox
from crib.light.tuples import NamedTuple
from crib.parts.frame import frame_of
from crib.parts.part import Face, Stock
from crib.units import nm

Box = tuple[tuple[int, int], tuple[int, int], tuple[int, int]]
"""From where to where in each direction of the part [nm]."""

_STEPS = 24
_OVER = 100
"""What is gone is drawn larger by so much, so that pieces that touch are one [nm]."""


class Above(NamedTuple):
    """The direction of the part that is up, by its number, and whether it grows upwards; the two others are the plan's
    in their order."""

    up: int
    sign: int

    @staticmethod
    def of(stock: Stock, face: Face) -> Above:
        """With a face up."""
        out = frame_of(stock, face).out
        up = next(number for number, value in enumerate(out) if value)
        return Above(up, 1 if out[up] > 0 else -1)

    @property
    def plan(self) -> tuple[int, int]:
        """The directions that lie level."""
        first, second = (number for number in range(3) if number != self.up)
        return first, second

    def heights(self, low: int, high: int) -> tuple[int, int]:
        """Heights of two places along the direction that is up."""
        return (low, high) if self.sign > 0 else (-high, -low)

    def layer(self, box: Box, radius: int = 0) -> Layer:
        """A box from above, its sides moved out by a radius and rounded with it."""
        (left, right), (low, high) = (box[number] for number in self.plan)
        return Layer(*self.heights(*box[self.up]), RoundedBox(left, low, right, high, radius))

    def free(self, stock: Stock, gone: Iterable[Layer]) -> Cleared:
        """What is free with the stock so: the air round it and over it, and what is gone, in layers."""
        sizes = [(0, nm(size)) for size in (stock.length, stock.width, stock.height)]
        top = self.heights(*sizes[self.up])[1]
        layers = [*self._air(sizes, top), *gone]
        wider = [Layer(low - _OVER, high + _OVER, shape.grown(_OVER)) for low, high, shape in layers]
        return Cleared.of(Layers((), (), tuple(wider), top=top))

    def _air(self, sizes: Sequence[tuple[int, int]], top: int) -> Iterator[Layer]:
        (_, wide), (_, deep) = (sizes[number] for number in self.plan)
        bottom = self.heights(*sizes[self.up])[0]
        for shape in ((-FAR, -FAR, 0, FAR), (wide, -FAR, FAR, FAR), (-FAR, -FAR, FAR, 0), (-FAR, deep, FAR, FAR)):
            yield Layer(-FAR, top, RoundedBox(*shape, 0))
        yield Layer(-FAR, bottom, RoundedBox(-FAR, -FAR, FAR, FAR, 0))

    def layers(self, body: Convex) -> Iterator[Layer]:
        """A convex piece in layers that stay inside of it."""
        rounds = [disc for disc in body.discs if disc.radius]
        if not rounds:
            for box in _boxes(body):
                yield self.layer(box)
            return
        axis = next(number for number, value in enumerate(rounds[0].normal) if abs(value) > 0.5)
        ends = sorted({round(disc.middle[axis], 6) for disc in body.discs})
        for begin, end in pairwise(ends):
            yield from self._round(body.discs, axis, begin, end)

    def _round(self, discs: Sequence[Disc], axis: int, begin: float, end: float) -> Iterator[Layer]:
        """A piece that is round about one axis, between two places along it."""
        first, last = ([disc for disc in discs if abs(disc.middle[axis] - at) < 1e-5] for at in (begin, end))
        radii = [max(disc.radius for disc in some) for some in (first, last)]
        steps = _STEPS if abs(radii[0] - radii[1]) > 1e-6 else 1
        for number in range(steps):
            low, high = (begin + (end - begin) * at / steps for at in (number, number + 1))
            radius = min(radii[0] + (radii[1] - radii[0]) * at / steps for at in (number, number + 1))
            yield from self._slice([disc.middle for disc in first if disc.radius],
                                   [disc.middle for disc in first if not disc.radius], axis, (nm(low), nm(high)),
                                   nm(radius))

    def _slice(self, middles: Sequence[Vector], corners: Sequence[Vector], axis: int, span: tuple[int, int],
               radius: int) -> Iterator[Layer]:
        """All within a radius of some middles, and the square end where there are corners, along an axis."""
        core = _bounds(middles, axis, span)
        if axis == self.up:
            yield self.layer(core, radius)
        else:
            yield from self._lying(core, axis, radius)
        if corners:
            yield self.layer(_bounds([*middles, *corners], axis, span))

    def _lying(self, core: Box, axis: int, radius: int) -> Iterator[Layer]:
        """A round that lies level, in slices."""
        across = next(number for number in self.plan if number != axis)
        low, high = core[self.up]

        def slice_(bottom: int, top: int, out: int) -> Layer:
            spans = {axis: core[axis], self.up: (bottom, top), across: (core[across][0] - out, core[across][1] + out)}
            return self.layer((spans[0], spans[1], spans[2]))

        if high > low:
            yield slice_(low, high, radius)
        for (out, up), (_, over) in pairwise(quarter(radius)):
            yield slice_(low - radius + up, low - radius + over, out)
            yield slice_(high + radius - over, high + radius - up, out)


def _bounds(points: Sequence[Vector], axis: int, span: tuple[int, int]) -> Box:
    spans = [(nm(min(point[at] for point in points)), nm(max(point[at] for point in points))) for at in range(3)]
    spans[axis] = span
    return spans[0], spans[1], spans[2]


def _boxes(body: Convex) -> Iterator[Box]:
    """A prism with square ends in boxes; where its sides slant, in steps."""
    corners = [disc.middle for disc in body.discs]
    for axis in range(3):
        low, high = (find(corner[axis] for corner in corners) for find in (min, max))
        ends = [[corner for corner in corners if abs(corner[axis] - at) < 1e-6] for at in (low, high)]
        if high - low < 1e-9 or sum(map(len, ends)) < len(corners):
            continue
        spans = [[(min(corner[at] for corner in end), max(corner[at] for corner in end)) for at in range(3)]
                 for end in ends]
        if all(len({(round(c[0], 6), round(c[1], 6), round(c[2], 6)) for c in end}) == _filled(span)
               for end, span in zip(ends, spans, strict=True)):
            yield from _steps(spans, axis, low, high)
            return


def _filled(span: Sequence[tuple[float, float]]) -> int:
    """How many corners a rectangle between these has, or the line that it comes to."""
    return 1 << sum(high - low > 1e-6 for low, high in span)


def _steps(spans: Sequence[Sequence[tuple[float, float]]], axis: int, low: float, high: float) -> Iterator[Box]:
    first, last = spans
    slants = any(abs(a[end] - b[end]) > 1e-6 for at, (a, b) in enumerate(zip(first, last, strict=True)) if at != axis
                 for end in (0, 1))
    steps = _STEPS if slants else 1
    for number in range(steps):
        shares = [at / steps for at in (number, number + 1)]
        box = []
        for at, (a, b) in enumerate(zip(first, last, strict=True)):
            begins, ends = ([a[end] + (b[end] - a[end]) * share for share in shares] for end in (0, 1))
            box.append((nm(max(begins)), nm(min(ends))) if at != axis else
                       (nm(low + (high - low) * shares[0]), nm(low + (high - low) * shares[1])))
        if all(begin < end for begin, end in box):
            yield box[0], box[1], box[2]

"""How far one region reaches from another: by branch and bound over convex pieces."""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from itertools import count, pairwise

from crib.geometry.faces import FINE
from crib.geometry.region import Region, Span
from crib.records import dataclass


def farthest(points: Region, reference: Region) -> int:
    """The greatest distance from a point of one region to the nearest point of another, to `FINE` or a thousandth.

    By branch and bound: the distance to one convex piece is greatest at a corner of a convex cell, so the least of
    those over the pieces bounds the distance within the cell. Infinitely far (2**62) where there is nothing to measure
    to.

    >>> from crib.geometry.region import box
    >>> farthest(box(0, 0, 3000, 4000), box(-10, -10, 0, 0))
    5000
    """
    if not points:
        return 0
    if not reference:
        return 2**62
    quads = [_corners(slab.low, slab.high, s) for slab in reference.slabs for s in slab.spans]
    cells = [_Cell.of(slab.low, slab.high, span, quads) for slab in points.slabs for span in slab.spans]
    best = max(cell.reached for cell in cells)
    heap = [(-cell.bound, number, cell) for number, cell in enumerate(cells)]
    heapq.heapify(heap)
    turn = count(len(heap))
    while heap:
        bound, _, cell = heapq.heappop(heap)
        if -bound <= best + max(FINE, best / 1000):
            break
        for half in cell.halves():
            best = max(best, half.reached)
            heapq.heappush(heap, (-half.bound, next(turn), half))
    return round(best)


@dataclass(frozen=True)
class _Cell:
    """A convex piece of points: the pieces that may be nearest, the distance reached at a corner, and the most that
    there can be within."""

    low: int
    high: int
    span: Span
    near: Sequence[Quad]
    reached: float
    bound: float

    @staticmethod
    def of(low: int, high: int, span: Span, quads: Sequence[Quad]) -> _Cell:
        corners = _corners(low, high, span)
        rows = [[_to_quad(quad, *corner) for corner in corners] for quad in quads]
        bound = min(max(row) for row in rows)
        size = max(span.right_low - span.left_low, span.right_high - span.left_high) + high - low
        near = [quad for quad, row in zip(quads, rows, strict=True) if min(row) - size <= bound]
        return _Cell(low, high, span, near, max(min(column) for column in zip(*rows, strict=True)), bound)

    def halves(self) -> list[_Cell]:
        """The cell cut in two, whichever way bounds it closer; across its longer side where both do alike."""
        span = self.span
        wide = max(span.right_low - span.left_low, span.right_high - span.left_high) > self.high - self.low
        cuts = (_across, _level) if wide else (_level, _across)
        ways = [[_Cell.of(*half, self.near) for half in cut(self.low, self.high, span)] for cut in cuts]
        return min(ways, key=lambda way: round(max(half.bound for half in way)))


def _across(low: int, high: int, s: Span) -> tuple[tuple[int, int, Span], ...]:
    at_low, at_high = (s.left_low + s.right_low) // 2, (s.left_high + s.right_high) // 2
    return (low, high, Span(s.left_low, at_low, s.left_high, at_high)), (
        low,
        high,
        Span(at_low, s.right_low, at_high, s.right_high),
    )


def _level(low: int, high: int, s: Span) -> tuple[tuple[int, int, Span], ...]:
    left, right, middle = (s.left_low + s.left_high) // 2, (s.right_low + s.right_high) // 2, (low + high) // 2
    return (low, middle, Span(s.left_low, s.right_low, left, right)), (
        middle,
        high,
        Span(left, right, s.left_high, s.right_high),
    )


Quad = tuple[tuple[float, float], ...]


def _corners(low: int, high: int, s: Span) -> Quad:
    return ((s.left_low, low), (s.right_low, low), (s.right_high, high), (s.left_high, high))


def _to_quad(quad: Quad, x: float, z: float) -> float:
    inside = True
    nearest = float("inf")
    for (x0, z0), (x1, z1) in pairwise((*quad, quad[0])):
        dx, dz = x1 - x0, z1 - z0
        if dx * (z - z0) - dz * (x - x0) < 0:
            inside = False
        length = dx * dx + dz * dz
        t = min(1.0, max(0.0, ((x - x0) * dx + (z - z0) * dz) / length)) if length else 0.0
        nearest = min(nearest, ((x - x0 - t * dx) ** 2 + (z - z0 - t * dz) ** 2) ** 0.5)
    return 0.0 if inside else nearest

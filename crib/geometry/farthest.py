"""How far one region reaches from another: by branch and bound over convex pieces."""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from itertools import count, pairwise
from math import hypot

from crib.geometry.faces import FINE
from crib.geometry.region import Region
from crib.geometry.slabs import Span
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple


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
    pieces = [_Piece.of(slab.low, slab.high, s) for slab in reference.slabs for s in slab.spans]
    cells = [_Cell.of(slab.low, slab.high, span, pieces) for slab in points.slabs for span in slab.spans]
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
    near: Sequence[_Piece]
    reached: float
    bound: float

    @staticmethod
    def of(low: int, high: int, span: Span, pieces: Sequence[_Piece]) -> _Cell:
        """The cell, measured to the pieces that are nearest to it first: from where one is on past what bounds it, none
        is the nearest to any of its points."""
        corners = _corners(low, high, span)
        left, right = min(span.left_low, span.left_high), max(span.right_low, span.right_high)
        away = sorted(((piece.away(left, low, right, high), place) for place, piece in enumerate(pieces)))
        bound, rows, near = float("inf"), [], []
        for least, place in away:
            if least > bound + 1:
                break
            near.append(place)
            rows.append([pieces[place].to(corner) for corner in corners])
            bound = min(bound, max(rows[-1]))
        kept = [pieces[place] for (least, _), place in zip(away, near, strict=False) if least <= bound + 1]
        return _Cell(low, high, span, kept, max(min(column) for column in zip(*rows, strict=True)), bound)

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


def _corners(low: int, high: int, s: Span) -> tuple[tuple[int, int], ...]:
    return ((s.left_low, low), (s.right_low, low), (s.right_high, high), (s.left_high, high))


class _Piece(NamedTuple):
    """A convex piece to measure to: the rectangle round it, its edges (from where, how far, the square of its length),
    and the corners that were measured already, most of which halves share."""

    left: float
    low: float
    right: float
    high: float
    edges: tuple[tuple[float, float, float, float, float], ...]
    known: dict[tuple[int, int], float]

    @staticmethod
    def of(low: int, high: int, s: Span) -> _Piece:
        corners = _corners(low, high, s)
        edges = tuple((x0, z0, x1 - x0, z1 - z0, (x1 - x0) ** 2 + (z1 - z0) ** 2)
                      for (x0, z0), (x1, z1) in pairwise((*corners, corners[0])))
        return _Piece(min(s.left_low, s.left_high), low, max(s.right_low, s.right_high), high, edges, {})

    def away(self, left: float, low: float, right: float, high: float) -> float:
        """How far the rectangle round it is from another at the least."""
        dx, dz = max(self.left - right, left - self.right, 0), max(self.low - high, low - self.high, 0)
        return hypot(dx, dz)

    def to(self, corner: tuple[int, int]) -> float:
        """How far a point is from it; nothing inside."""
        if (found := self.known.get(corner)) is None:
            found = self.known[corner] = self._to(*corner)
        return found

    def _to(self, x: float, z: float) -> float:
        inside, nearest = True, float("inf")
        for x0, z0, dx, dz, length in self.edges:
            off_x, off_z = x - x0, z - z0
            if dx * off_z - dz * off_x < 0:
                inside = False
            along = (off_x * dx + off_z * dz) / length if length else 0.0
            along = 0.0 if along < 0.0 else 1.0 if along > 1.0 else along
            square = (off_x - along * dx) ** 2 + (off_z - along * dz) ** 2
            if square < nearest:
                nearest = square
        return 0.0 if inside else float(nearest**0.5)

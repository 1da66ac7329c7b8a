"""How far a shape seen from above stands out of what others hold together."""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import count
from math import copysign, hypot, inf, sqrt

from crib.geometry.faces import FINE
from crib.geometry.rounded_box import RoundedBox
from crib.light.tuples import NamedTuple

NOWHERE: int = 2**62
"""Farther than anything: where there is nothing to measure to."""


def farthest_left(wanted: Iterable[tuple[RoundedBox, frozenset[RoundedBox]]]) -> int:
    """The greatest of some shapes, each with what is gone where it should be; nought where there are none."""
    worst = 0
    for shape, shapes in dict.fromkeys(wanted):
        worst = left_over(shape, shapes, max(worst, 2 * FINE))
    return worst


class _Box(NamedTuple):
    left: float
    low: float
    right: float
    high: float

    @property
    def corners(self) -> tuple[tuple[float, float], ...]:
        return (self.left, self.low), (self.left, self.high), (self.right, self.low), (self.right, self.high)

    @property
    def halves(self) -> tuple[_Box, _Box]:
        """Parted across its longer side."""
        left, low, right, high = self
        if right - left > high - low:
            middle = (left + right) / 2
            return _Box(left, low, middle, high), _Box(middle, low, right, high)
        middle = (low + high) / 2
        return _Box(left, low, right, middle), _Box(left, middle, right, high)


@lru_cache(maxsize=1024)
def left_over(shape: RoundedBox, shapes: frozenset[RoundedBox], known: int = 2 * FINE) -> int:
    """The greatest distance from a point of a shape to what others hold, to `FINE`; no less than what is `known` of
    others, as no more is asked. By halving boxes, the worst first: how far a point of a box is outside of
    a convex shape is greatest at a corner. Kept: drafts that part higher up leave the same at the floor.

    >>> left_over(RoundedBox(0, 0, 90_000, 0, 9_000), frozenset({RoundedBox(0, 0, 60_000, 0, 9_000)}))
    30000
    """
    if not shapes:
        return NOWHERE
    heap, turn, best = [(-inf, 0, _round(shape), tuple(shapes))], count(1), float(known)
    while heap and -heap[0][0] > best + FINE:
        *_, box, near = heapq.heappop(heap)
        for half in box.halves:
            if (part := _within(half, shape)) is None:
                continue
            ends = tuple(_bevelled(part, shape))
            offs = sorted(_most_outside(ends, near, best + FINE))
            if (most := offs[0][0]) <= best + FINE:
                continue
            for end in ends:
                best = max(best, _least_outside(*_moved_in(*end, shape), near, best))
            across = hypot(part.right - part.left, part.high - part.low)
            nearer = tuple([one for off, one in offs if off - across <= most])
            heapq.heappush(heap, (-most, next(turn), part, nearer))
    return round(best)


def _most_outside(points: Iterable[tuple[float, float]], shapes: Iterable[RoundedBox], enough: float
                  ) -> Iterator[tuple[float, RoundedBox]]:
    """How far outside of each shape that of some points is which is farthest (`RoundedBox.off`, written out), up to
    one of which they all are no farther outside than is `enough`."""
    for one in shapes:
        left, low, right, high, radius = one
        most = -inf
        for x, y in points:
            dx = left - x if left - x > x - right else x - right
            dy = low - y if low - y > y - high else y - high
            off = (hypot(dx, dy) if dx > 0 and dy > 0 else dx if dx > dy else dy) - radius
            if off > most:
                most = off
        yield most, one
        if most <= enough:
            return


def _least_outside(x: float, y: float, shapes: Iterable[RoundedBox], enough: float) -> float:
    """How far outside of all shapes a point is (`RoundedBox.off`, written out); one that is no farther outside than is
    `enough` is as good as any."""
    least = inf
    for left, low, right, high, radius in shapes:
        dx = left - x if left - x > x - right else x - right
        dy = low - y if low - y > y - high else y - high
        off = (hypot(dx, dy) if dx > 0 and dy > 0 else dx if dx > dy else dy) - radius
        if off < least:
            least = off
            if least <= enough:
                break
    return least


def _round(shape: RoundedBox) -> _Box:
    """The box round a shape."""
    left, low, right, high, radius = shape
    return _Box(left - radius, low - radius, right + radius, high + radius)


def _within(box: _Box, shape: RoundedBox) -> _Box | None:
    """The box round what of a shape lies in a box, or a little more; None where nothing does."""
    up = max(shape.low - box.high, box.low - shape.high, 0.0)
    if up > shape.radius:
        return None
    reach = sqrt(shape.radius**2 - up**2)
    left, right = max(box.left, shape.left - reach), min(box.right, shape.right + reach)
    aside = max(shape.left - right, left - shape.right, 0.0)
    if left > right or aside > shape.radius:
        return None
    reach = sqrt(shape.radius**2 - aside**2)
    low, high = max(box.low, shape.low - reach), min(box.high, shape.high + reach)
    return _Box(left, low, right, high) if low <= high else None


def _moved_in(x: float, y: float, shape: RoundedBox) -> tuple[float, float]:
    """The point of a shape that is nearest."""
    core_x, core_y = min(max(x, shape.left), shape.right), min(max(y, shape.low), shape.high)
    away = hypot(x - core_x, y - core_y)
    share = min(1.0, shape.radius / away) if away else 0.0
    return core_x + (x - core_x) * share, core_y + (y - core_y) * share


def _bevelled(box: _Box, shape: RoundedBox) -> Iterator[tuple[float, float]]:
    """The corners of a box; of one outside of a shape's round corner, what the tangent there leaves."""
    wide, high = box.right - box.left, box.high - box.low
    for x, y in box.corners:
        aside = max(shape.left - x, 0.0) or min(shape.right - x, 0.0)
        up = max(shape.low - y, 0.0) or min(shape.high - y, 0.0)
        away = hypot(aside, up)
        if not (aside and up) or away <= shape.radius:
            yield x, y
            continue
        out = (away - shape.radius) * away
        yield x + copysign(min(wide, out / abs(aside)), aside), y
        yield x, y + copysign(min(high, out / abs(up)), up)

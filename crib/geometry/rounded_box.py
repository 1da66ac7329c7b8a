"""A shape of a section seen from above: a rectangle, a line or a point (its core) grown by a radius; and what several
hold together, in as few as are easily found.

A room with rounded corners is one, and so is what a disc passes over on a straight way. Shapes are closed, so touching
is allowed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import lru_cache
from math import hypot, inf

from crib.light.tuples import NamedTuple

HALF = 0.5
"""Half a nanometre: what is nearer than this touches."""


class RoundedBox(NamedTuple):
    """All points within a radius of a rectangle; of a line or a point where its sides are nothing."""

    left: int
    low: int
    right: int
    high: int
    radius: int

    def off(self, x: float, y: float) -> float:
        """How far a point is outside; how deep inside where negative."""
        left, low, right, high, radius = self
        return outside(left - x, x - right, low - y, y - high) - radius

    def reaches_into(self, x: float, y: float, to_x: float, to_y: float) -> bool:
        """Whether the rectangle round it meets the one between two points."""
        left, right, low, high = min(x, to_x), max(x, to_x), min(y, to_y), max(y, to_y)
        return (self.left - self.radius <= right and self.right + self.radius >= left
                and self.low - self.radius <= high and self.high + self.radius >= low)

    def reaches(self, other: RoundedBox) -> float:
        """How far another shape reaches out of this one, at the corner of its core that is farthest both ways; at most
        nothing where it lies inside."""
        left, low, right, high, radius = self
        its_left, its_low, its_right, its_high, its_radius = other
        return outside(left - its_left, its_right - right, low - its_low, its_high - high) - radius + its_radius

    def has_core(self, other: RoundedBox) -> bool:
        """Whether the core of another lies in this one's."""
        return (self.left <= other.left and self.right >= other.right
                and self.low <= other.low and self.high >= other.high)

    @property
    def side_ends(self) -> tuple[tuple[int, int], ...]:
        """Where its straight sides along end.

        >>> RoundedBox(-9, 0, 9, 0, 5).side_ends
        ((-9, -5), (-9, 5), (9, -5), (9, 5))
        """
        return tuple((x, y) for x in (self.left, self.right) for y in (self.low - self.radius, self.high + self.radius))

    def grown(self, by: int) -> RoundedBox:
        """The same core with another radius."""
        left, low, right, high, radius = self
        return RoundedBox(left, low, right, high, radius + by)

    def inset(self, by: int) -> RoundedBox:
        """What is left of it when its edge moves inwards: first the corners get sharper, then the core smaller."""
        less = max(0, by - self.radius)
        left, right = sorted((self.left + less, self.right - less))
        low, high = sorted((self.low + less, self.high - less))
        return RoundedBox(left, low, right, high, max(0, self.radius - by))


def outside(left: float, right: float, low: float, high: float) -> float:
    """How far outside of a rectangle what is so far beyond each of its sides is; how deep inside where negative.
    Written out, for it is asked by the hundred thousand."""
    dx, dy = (left if left > right else right), (low if low > high else high)
    if dx > 0:
        return hypot(dx, dy) if dy > 0 else dx
    return dx if dx > dy else dy


def is_in_one(shape: RoundedBox, shapes: Iterable[RoundedBox]) -> bool:
    """Whether a shape lies in one of some others: whether it reaches out of one by nothing (`reaches`, written out, for
    it is asked by the million).

    >>> is_in_one(RoundedBox(0, 0, 9, 0, 3), [RoundedBox(0, 0, 0, 0, 9), RoundedBox(-1, 0, 9, 0, 3)])
    True
    """
    its_left, its_low, its_right, its_high, its_radius = shape
    for left, low, right, high, radius in shapes:
        dx = left - its_left if left - its_left > its_right - right else its_right - right
        dy = low - its_low if low - its_low > its_high - high else its_high - high
        off = hypot(dx, dy) if dx > 0 and dy > 0 else dx if dx > dy else dy
        if off - radius + its_radius <= 0:
            return True
    return False


def least_out(core: RoundedBox, shapes: Iterable[RoundedBox]) -> float:
    """How far a core reaches out of that of some shapes which it reaches out of the least (`reaches`, written out);
    infinitely where there are none. Grown by a radius it lies in one of them where that and the radius are at most
    nothing.

    >>> least_out(RoundedBox(0, 0, 9, 0, 0), [RoundedBox(0, 0, 0, 0, 9), RoundedBox(-1, 0, 9, 0, 3)])
    -3
    """
    its_left, its_low, its_right, its_high, _ = core
    least = inf
    for left, low, right, high, radius in shapes:
        dx = left - its_left if left - its_left > its_right - right else its_right - right
        dy = low - its_low if low - its_low > its_high - high else its_high - high
        off = (hypot(dx, dy) if dx > 0 and dy > 0 else dx if dx > dy else dy) - radius
        if off < least:
            least = off
    return least


def oblong(left: int, right: int, half: int, corner: int, y: int = 0) -> RoundedBox:
    """A room along a line at y, from left to right and half its width to each side, with rounded corners.

    >>> oblong(-10, 10, 4, 4)
    RoundedBox(left=-6, low=0, right=6, high=0, radius=4)
    """
    return RoundedBox(left + corner, y + corner - half, right - corner, y + half - corner, corner)


@lru_cache(maxsize=16384)
def joined(shapes: frozenset[RoundedBox], more: frozenset[RoundedBox]) -> frozenset[RoundedBox]:
    """What some shapes hold together with more of them, in as few shapes as are easily found: those that another holds
    are left out, those along one line drawn together, and a frame whose inside is filled becomes a whole.

    >>> ring = frozenset(RoundedBox(*core, 3) for core in ((0, 0, 9, 0), (0, 4, 9, 4), (0, 0, 0, 4), (9, 0, 9, 4)))
    >>> joined(frozenset(), ring)
    frozenset({RoundedBox(left=0, low=0, right=9, high=4, radius=3)})
    """
    kept = list(shapes)
    for one in sorted(more - shapes):
        _add(kept, one)
    for one in [one for one in kept if one.high > one.low and one.right == one.left]:
        _fill(kept, one)
    return frozenset(kept)


def _add(kept: list[RoundedBox], one: RoundedBox) -> None:
    """One more shape, drawn together with those along its own line."""
    if is_in_one(one, kept):
        return
    left, low, right, high, radius = one
    level, upright = low == high, left == right
    for other in kept:
        if other[4] != radius:
            continue
        west, south, east, north, _ = other
        along = level and (south == low and north == high) and (left <= east and west <= right)
        across = upright and (west == left and east == right) and (low <= north and south <= high)
        if along or across:
            kept.remove(other)
            _add(kept, RoundedBox(min(left, west), min(low, south), max(right, east), max(high, north), radius))
            return
    kept[:] = [*_reaching_out(one, kept), one]


def _reaching_out(one: RoundedBox, others: Iterable[RoundedBox]) -> Iterator[RoundedBox]:
    """Those of some others that reach out of a shape (`reaches`, written out for those that lie by its side)."""
    left, low, right, high, radius = one
    for other in others:
        out = other[4] - radius
        if (left - other[0] > -out or other[2] - right > -out or low - other[1] > -out or other[3] - high > -out
                or one.reaches(other) > 0):
            yield other


def _fill(kept: list[RoundedBox], side: RoundedBox) -> None:
    """Make a whole of the frame of which a shape is the left side, if it is one and its inside is filled."""
    begins = [one for one in kept if one[4] == side[4] and one[0] <= side[0] < one[2]]
    if not begins or side not in kept or not all(
            any(one.low <= y <= one.high for one in begins) for y in (side.low, side.high)):
        return
    alike = [one for one in kept if one.radius == side.radius]
    for right in {one.right for one in alike if one.low <= side.low and one.high >= side.high and one.left > side.left}:
        whole = RoundedBox(side.left, side.low, right, side.high, side.radius)
        edges = (whole._replace(left=right), whole._replace(high=whole.low), whole._replace(low=whole.high))
        if all(any(one.has_core(edge) for one in alike) for edge in edges) and _is_filled(whole, alike):
            kept[:] = [*_reaching_out(whole, kept), whole]
            return


def _is_filled(whole: RoundedBox, alike: list[RoundedBox]) -> bool:
    """Whether the inside of a frame is filled: from its sides alone, or together with a core inside of it."""
    radius = whole.radius
    if min(whole.high - whole.low, whole.right - whole.left) <= 2 * radius:
        return True
    for one in alike:
        left, low = max(one.left, whole.left), max(one.low, whole.low)
        right, high = min(one.right, whole.right), min(one.high, whole.high)
        across, up = max(left - whole.left, whole.right - right), max(low - whole.low, whole.high - high)
        if left <= right and low <= high and hypot(max(0, across - radius), max(0, up - radius)) <= radius:
            return True
    return False

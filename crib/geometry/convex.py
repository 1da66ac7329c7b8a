"""Convex bodies in space, and how far two of them are apart or how deep one reaches into the other.

A body is the hull of some discs; a disc without a radius is a point. So a box is eight points, a prism with slanted
sides the corners of its two ends, a cylinder or a cone two discs, an oblong four. All that is asked of a
body is how far it reaches in a direction. Lengths are floats in one unit.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from itertools import combinations
from math import hypot, inf, sqrt

from crib.light.records import dataclass
from crib.light.tuples import NamedTuple

Vector = tuple[float, float, float]
TOUCH = 1e-6
"""What is nearer than this touches."""

_ROUNDS = 200


class Disc(NamedTuple):
    """A flat round: its middle, the direction that it is square to, of length one, and its radius."""

    middle: Vector
    normal: Vector
    radius: float = 0.0


@dataclass(frozen=True)
class Convex:
    """The hull of some discs."""

    discs: tuple[Disc, ...]

    def farthest(self, way: Vector) -> Vector:
        """A point of it that lies farthest in a direction."""
        best, found = -inf, (0.0, 0.0, 0.0)
        for middle, normal, radius in self.discs:
            point = _rim(middle, normal, radius, way) if radius else middle
            reach = _dot(point, way)
            if reach > best:
                best, found = reach, point
        return found

    def reach(self, way: Vector) -> float:
        """How far it reaches in a direction."""
        return _dot(self.farthest(way), way)

    @cached_property
    def bounds(self) -> tuple[Vector, Vector]:
        """Its lowest and its highest x, y and z."""
        low = tuple(-self.reach(_minus(axis)) for axis in AXES)
        high = tuple(self.reach(axis) for axis in AXES)
        return low, high  # type: ignore[return-value]


AXES: tuple[Vector, ...] = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def points(corners: Iterable[Vector]) -> Convex:
    """The hull of some points."""
    return Convex(tuple(Disc(corner, AXES[2]) for corner in corners))


def apart(one: Convex, other: Convex, beyond: float = inf) -> float:
    """How far two bodies are apart: nought where they touch or overlap. What is farther than `beyond` need not be
    exact, only beyond it. By the closest point of the difference of the two to nothing: Gilbert, Johnson and Keerthi,
    "A fast procedure for computing the distance between complex objects in three-dimensional space", 1988.

    >>> from itertools import product
    >>> box = points(product((0.0, 1.0), repeat=3))
    >>> apart(box, Convex((Disc((3.0, 0.5, 0.0), (0.0, 0.0, 1.0), 0.5), Disc((3.0, 0.5, 1.0), (0.0, 0.0, 1.0), 0.5))))
    1.5
    """
    gap = boxes_apart(one, other)
    if gap > beyond:
        return gap
    way = _between(one, other)
    simplex = [_difference(one, other, way)]
    near = simplex[0]
    for _ in range(_ROUNDS):
        length = sqrt(_dot(near, near))
        if length < TOUCH:
            return 0.0
        point = _difference(one, other, _minus(near))
        if length - _dot(point, near) / length <= 1e-9 + 1e-10 * length or point in simplex:
            return length
        near, simplex = _nearest([*simplex, point])
    return sqrt(_dot(near, near))


def boxes_apart(one: Convex, other: Convex) -> float:
    """How far the upright boxes round two bodies are apart: no more than the bodies are."""
    (low, high), (down, up) = one.bounds, other.bounds
    gaps = [max(d - h, b - u, 0.0) for b, h, d, u in zip(low, high, down, up, strict=True)]
    return sqrt(sum(gap * gap for gap in gaps))


def overlap(one: Convex, other: Convex) -> float:
    """How far one must at the least be moved for the two to overlap no more; nought where they don't. Along the
    directions in which flat faces and edges could part them, and from the best of these downhill."""
    ways = list(_partings(one, other))
    best = min(ways, key=lambda way: _depth(one, other, way))
    found = _depth(one, other, best)
    step = 0.3
    while step > 1e-5 and found > 0:
        for side in _tilts(best, step):
            if (depth := _depth(one, other, side)) < found - 1e-12:
                best, found = side, depth
                break
        else:
            step /= 2
    return max(0.0, found)


def holds(body: Convex, point: Vector, slack: float = 0.0) -> bool:
    """Whether a body holds a point, or comes as near to it as the slack.

    >>> from itertools import product
    >>> box = points(product((0.0, 1.0), repeat=3))
    >>> holds(box, (0.5, 0.5, 1.0)), holds(box, (0.5, 0.5, 1.1))
    (True, False)
    """
    return apart(body, points([point]), slack) <= slack


def _depth(one: Convex, other: Convex, way: Vector) -> float:
    """How far they overlap in a direction."""
    return one.reach(way) + other.reach(_minus(way))


def _partings(one: Convex, other: Convex) -> Iterator[Vector]:
    """Directions that part bodies of this sort: the axes, what each disc is square to, and what is square to the axes
    of round ones and leads from one to the other; the normals of slanted sides."""
    ways: list[Vector] = [*AXES, *_normals(one), *_normals(other)]
    ways += [_cross(a, b) for a, b in combinations(ways[:12], 2)]
    between = _between(one, other)
    ways.append(between)
    for body in (one, other):
        for disc in body.discs:
            if disc.radius:
                ways.append(_minus(_square_to(between, disc.normal)))
    for way in ways:
        length = sqrt(_dot(way, way))
        if length > 1e-9:
            unit = (way[0] / length, way[1] / length, way[2] / length)
            yield unit
            yield _minus(unit)


def _normals(body: Convex) -> list[Vector]:
    """The ways out of a body's sides: of round ends, and of the faces that its points make with the first of them."""
    found = {disc.normal for disc in body.discs if disc.radius}
    corners = [disc.middle for disc in body.discs if not disc.radius]
    for a, b, c in combinations(corners[:8], 3):
        normal = _cross(_less(b, a), _less(c, a))
        length = sqrt(_dot(normal, normal))
        if length < 1e-9:
            continue
        unit = (round(normal[0] / length, 9), round(normal[1] / length, 9), round(normal[2] / length, 9))
        level = _dot(unit, a)
        sides = [_dot(unit, corner) - level for corner in corners]
        if max(sides) < 1e-6 or min(sides) > -1e-6:
            found.add(unit)
    return sorted(found)


def _tilts(way: Vector, step: float) -> Iterator[Vector]:
    """Directions a step to each side of one."""
    across = _cross(way, min(AXES, key=lambda axis: abs(_dot(axis, way))))
    length = sqrt(_dot(across, across))
    first = (across[0] / length, across[1] / length, across[2] / length)
    second = _cross(way, first)
    for a, b in ((1, 0), (-1, 0), (0, 1), (0, -1), (0.7, 0.7), (-0.7, 0.7), (0.7, -0.7), (-0.7, -0.7)):
        tilted = tuple(w + step * (a * f + b * s) for w, f, s in zip(way, first, second, strict=True))
        size = sqrt(sum(value * value for value in tilted))
        yield (tilted[0] / size, tilted[1] / size, tilted[2] / size)


def _rim(middle: Vector, normal: Vector, radius: float, way: Vector) -> Vector:
    side = _square_to(way, normal)
    length = sqrt(_dot(side, side))
    if length < 1e-12:
        return middle
    by = radius / length
    return middle[0] + by * side[0], middle[1] + by * side[1], middle[2] + by * side[2]


def _between(one: Convex, other: Convex) -> Vector:
    """From the middle of one to that of the other."""
    (low, high), (down, up) = one.bounds, other.bounds
    way = tuple((d + u - b - h) / 2 for b, h, d, u in zip(low, high, down, up, strict=True))
    return way if hypot(*way) > TOUCH else AXES[0]  # type: ignore[return-value]


def _difference(one: Convex, other: Convex, way: Vector) -> Vector:
    """The farthest point in a direction of all differences of a point of one and a point of the other."""
    return _less(one.farthest(way), other.farthest(_minus(way)))


def _nearest(simplex: Sequence[Vector]) -> tuple[Vector, list[Vector]]:
    """The point of a simplex that is nearest to nothing, and the corners that it takes to say it. Of all faces the one
    whose own nearest point lies within it: with four corners at the most that is quick enough and can't go astray."""
    best, kept, least = simplex[-1], [simplex[-1]], inf
    for size in range(1, len(simplex) + 1):
        for some in combinations(simplex, size):
            shares = _shares(some)
            if shares is None or min(shares) < -1e-12:
                continue
            point = tuple(sum(share * corner[at] for share, corner in zip(shares, some, strict=True))
                          for at in range(3))
            far = sum(value * value for value in point)
            if far < least - 1e-18:
                best, kept, least = point, list(some), far  # type: ignore[assignment]
    return best, kept[:4] if len(kept) < 4 or least < TOUCH ** 2 else kept[:3]


def _shares(some: Sequence[Vector]) -> tuple[float, ...] | None:
    """How much of each corner the point of their plane that is nearest to nothing takes; None where they lie in
    less."""
    first, *rest = some
    edges = [_less(corner, first) for corner in rest]
    size = len(edges)
    if not size:
        return (1.0,)
    rows = [[_dot(a, b) for b in edges] + [-_dot(a, first)] for a in edges]
    for at in range(size):
        pivot = max(range(at, size), key=lambda row: abs(rows[row][at]))
        if abs(rows[pivot][at]) < 1e-14:
            return None
        rows[at], rows[pivot] = rows[pivot], rows[at]
        for row in range(size):
            if row != at:
                by = rows[row][at] / rows[at][at]
                rows[row] = [a - by * b for a, b in zip(rows[row], rows[at], strict=True)]
    shares = [rows[at][size] / rows[at][at] for at in range(size)]
    return (1.0 - sum(shares), *shares)


def _square_to(way: Vector, normal: Vector) -> Vector:
    """The part of a direction that is square to another."""
    by = _dot(way, normal)
    return way[0] - by * normal[0], way[1] - by * normal[1], way[2] - by * normal[2]


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


def _less(a: Vector, b: Vector) -> Vector:
    return a[0] - b[0], a[1] - b[1], a[2] - b[2]


def _minus(a: Vector) -> Vector:
    return -a[0], -a[1], -a[2]


def _cross(a: Vector, b: Vector) -> Vector:
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


__all__ = ["AXES", "TOUCH", "Convex", "Disc", "Vector", "apart", "boxes_apart", "holds", "overlap", "points"]

"""The outline of what rounded boxes hold together: how near a core comes to it, and how far a disc can go along a line
inside of it. All of it in closed form."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from math import acos, asin, atan2, ceil, copysign, cos, floor, hypot, inf, pi, sin, sqrt

from crib.geometry.plainly_held import is_held
from crib.geometry.rounded_box import HALF, RoundedBox
from crib.light.tuples import NamedTuple

INSIDE = 1e-3
"""What is no more than this inside of an edge lies on it."""

FINE = 20
"""Nanometres by which a sharp corner may be rounded and counts as sharp."""


class Line(NamedTuple):
    """A straight piece of an outline, along x or along y."""

    left: float
    low: float
    right: float
    high: float


class Arc(NamedTuple):
    """A piece of a circle within one quarter, between two angles."""

    x: float
    y: float
    radius: float
    start: float
    end: float

    def at(self, angle: float) -> tuple[float, float]:
        """The point at an angle."""
        return self.x + self.radius * cos(angle), self.y + self.radius * sin(angle)


@lru_cache(maxsize=8192)
def outline(shapes: frozenset[RoundedBox]) -> tuple[Line | Arc, ...]:
    """The edge of all that some shapes hold together, in pieces."""
    kept = [one for one in shapes if not any(_is_passed(one, other) for other in shapes)]
    pieces: list[Line | Arc] = []
    large = sorted(kept, key=_size, reverse=True)
    for one in sorted(kept):
        others = [other for other in large if other is not one and _meet(one, other)]
        for line in _lines(one):
            pieces += _line_left(line, others)
        for arc in _arcs(one):
            pieces += _arc_left(arc, others)
    return tuple(dict.fromkeys(pieces))


def clearance(core: RoundedBox, shapes: frozenset[RoundedBox]) -> float:
    """How far the core of a shape, its radius left out, is inside what some shapes hold; negative outside of it.

    >>> clearance(RoundedBox(0, 0, 5, 0, 0), frozenset({RoundedBox(-10, 0, 10, 0, 4)}))
    4.0
    """
    if not any(shape.off(core.left, core.low) <= HALF for shape in shapes):
        return -min((shape.off(core.left, core.low) for shape in shapes), default=inf)
    return min((_to_line(core, one) if isinstance(one, Line) else _to_arc(core, one) for one in outline(shapes)),
               default=inf)


def nearest_edge(x: float, y: float, shapes: frozenset[RoundedBox]) -> tuple[float, float] | None:
    """The point of what some shapes hold together that is nearest on its outline; None where there is no outline.

    >>> nearest_edge(3.0, 0.0, frozenset({RoundedBox(0, 0, 0, 0, 5)}))
    (5.0, 0.0)
    """
    points: list[tuple[float, float]] = []
    for one in outline(shapes):
        if isinstance(one, Line):
            points.append((min(max(x, one.left), one.right), min(max(y, one.low), one.high)))
            continue
        angle = atan2(y - one.y, x - one.x)
        points += [one.at(turn) for turn in (one.start, one.end, *([angle] if one.start <= angle <= one.end else []))]
    return min(points, key=lambda point: hypot(point[0] - x, point[1] - y), default=None)


@lru_cache(maxsize=16384)
def holds(shape: RoundedBox, shapes: frozenset[RoundedBox]) -> bool:
    """Whether a shape lies in what some shapes hold together."""
    if any(one.reaches(shape) <= HALF for one in shapes):
        return True
    shape = _rounded(shape)
    if len(shapes) == 1:
        return next(iter(shapes)).reaches(shape) <= HALF
    if all(one.off(shape.left, shape.low) > HALF for one in shapes):
        return False
    if (is_plain := is_held(shape, shapes)) is not None:
        return is_plain
    return clearance(shape, shapes) >= shape.radius - HALF


def _rounded(shape: RoundedBox) -> RoundedBox:
    """A shape with sharp corners as good as the same with corners just rounded, so that an outline through its inside
    can be told from one along its edge."""
    left, low, right, high, radius = shape
    if radius or min(right - left, high - low) < 2 * FINE:
        return shape
    return RoundedBox(left + FINE, low + FINE, right - FINE, high - FINE, FINE)


@lru_cache(maxsize=16384)
def run(shapes: frozenset[RoundedBox], y: int, radius: int, start: int) -> tuple[int, int] | None:
    """How far a disc can go both ways along a line at y from a start on it, inside what some shapes hold; None where it
    doesn't even fit there.

    >>> run(frozenset({RoundedBox(-10, 0, 10, 0, 5)}), 3, 1, 0)
    (-12, 12)
    """
    if not holds(RoundedBox(start, y, start, y, radius), shapes):
        return None
    left, right = -inf, inf
    for piece in outline(shapes):
        for low, high in _blocked(piece, y, radius):
            if low + HALF >= start:
                right = min(right, low)
            elif high - HALF <= start:
                left = max(left, high)
    return ceil(left - INSIDE), floor(right + INSIDE)


def _is_passed(one: RoundedBox, other: RoundedBox) -> bool:
    """Whether another shape holds one; most aren't even as far to each side."""
    out = other[4] - one[4]
    return (other[0] - one[0] <= out and one[2] - other[2] <= out and other[1] - one[1] <= out
            and one[3] - other[3] <= out and other is not one and other != one and other.reaches(one) <= 0)


def _size(one: RoundedBox) -> int:
    left, low, right, high, radius = one
    return (right - left + 2 * radius) * (high - low + 2 * radius)


def _meet(a: RoundedBox, b: RoundedBox) -> bool:
    apart = max(a.left - b.right, b.left - a.right), max(a.low - b.high, b.low - a.high)
    return max(apart) <= a.radius + b.radius


def _lines(one: RoundedBox) -> Iterator[Line]:
    left, low, right, high, radius = one
    if right > left:
        yield Line(left, low - radius, right, low - radius)
        yield Line(left, high + radius, right, high + radius)
    if high > low:
        yield Line(left - radius, low, left - radius, high)
        yield Line(right + radius, low, right + radius, high)


def _arcs(one: RoundedBox) -> Iterator[Arc]:
    left, low, right, high, radius = one
    if radius:
        for x, y, start in ((right, high, 0.0), (left, high, pi / 2), (left, low, -pi), (right, low, -pi / 2)):
            yield Arc(x, y, radius, start, start + pi / 2)


def _line_left(line: Line, others: list[RoundedBox]) -> Iterator[Line]:
    """What of a line no other shape holds in its inside."""
    level = line.low == line.high
    at, begin, end = (line.low, line.left, line.right) if level else (line.left, line.low, line.high)
    for low, high in sorted(filter(None, (_inside(one, at, level) for one in others))):
        if low > begin + HALF:
            yield _piece(at, begin, min(low, end), level)
        begin = max(begin, high)
        if begin >= end - HALF:
            return
    yield _piece(at, begin, end, level)


def _piece(at: float, begin: float, end: float, level: bool) -> Line:
    return Line(begin, at, end, at) if level else Line(at, begin, at, end)


def _inside(one: tuple[float, float, float, float, float], at: float, level: bool) -> tuple[float, float] | None:
    """The open interval of a level (or upright) line that is inside a shape."""
    left, low, right, high, radius = one if level else (one[1], one[0], one[3], one[2], one[4])
    beside = max(low - at, at - high)
    if beside >= radius:
        return None
    reach = sqrt(radius * radius - beside * beside) if beside > 0 else radius
    return left - reach, right + reach


def _arc_left(arc: Arc, others: list[RoundedBox]) -> Iterator[Arc]:
    """What of an arc no other shape holds in its inside. The largest come first, and no other is asked than one that
    reaches to where they leave anything."""
    corner = _corner(arc)
    ends = arc.at(arc.start), arc.at(arc.end), corner
    if any(all(one.off(*at) < -INSIDE for at in ends) for one in others):
        return  # convex, it holds the triangle that the arc lies in
    spans: list[tuple[float, float]] = []
    left, boxes = [arc], [(arc.x, arc.y, *corner)]
    for one in others:
        if any(one.reaches_into(*box) for box in boxes) and (more := [*_within(arc, one)]):
            spans = sorted((*spans, *more))
            if not (left := [*_beside_spans(arc, spans)]):
                return
            boxes = [(*piece.at(piece.start), *piece.at(piece.end)) for piece in left]
    yield from left


def _beside_spans(arc: Arc, spans: list[tuple[float, float]]) -> Iterator[Arc]:
    """What of an arc lies beside some spans of its angles, in order."""
    begin = arc.start
    for low, high in spans:
        if (low - begin) * arc.radius > HALF:
            yield arc._replace(start=begin, end=low)
        begin = max(begin, high)
        if (arc.end - begin) * arc.radius <= HALF:
            return
    yield arc._replace(start=begin)


def _corner(arc: Arc) -> tuple[float, float]:
    """The corner of the square round a quarter that lies beyond its arc."""
    middle = (arc.start + arc.end) / 2
    return arc.x + copysign(arc.radius, cos(middle)), arc.y + copysign(arc.radius, sin(middle))


def _within(arc: Arc, one: RoundedBox) -> Iterator[tuple[float, float]]:
    """The angles of an arc between which it is inside a shape."""
    cuts = sorted({arc.start, arc.end, *(angle for angle in _crossings(arc, one) if arc.start < angle < arc.end)})
    for low, high in pairwise(cuts):
        if one.off(*arc.at((low + high) / 2)) < -INSIDE:
            yield low, high


def _crossings(arc: Arc, one: RoundedBox) -> Iterator[float]:
    """Every angle at which the circle of an arc may cross the edge of a shape."""
    for x in (one.left, one.right):
        for y in (one.low, one.high):
            away = hypot(x - arc.x, y - arc.y)
            if away and abs(arc.radius - one.radius) <= away <= arc.radius + one.radius:
                share = (away * away + arc.radius**2 - one.radius**2) / (2 * away * arc.radius)
                turn, towards = acos(max(-1.0, min(1.0, share))), atan2(y - arc.y, x - arc.x)
                yield from _turned(towards - turn, towards + turn)
    for edge in (one.left - one.radius, one.right + one.radius):
        if abs(edge - arc.x) <= arc.radius:
            turn = acos((edge - arc.x) / arc.radius)
            yield from _turned(turn, -turn)
    for edge in (one.low - one.radius, one.high + one.radius):
        if abs(edge - arc.y) <= arc.radius:
            turn = asin((edge - arc.y) / arc.radius)
            yield from _turned(turn, pi - turn)


def _turned(*angles: float) -> Iterator[float]:
    for angle in angles:
        yield (angle + pi) % (2 * pi) - pi


def _to_line(core: RoundedBox, line: Line) -> float:
    return hypot(max(0.0, line.left - core.right, core.left - line.right),
                 max(0.0, line.low - core.high, core.low - line.high))


def _to_point(core: RoundedBox, x: float, y: float) -> float:
    return hypot(max(0.0, core.left - x, x - core.right), max(0.0, core.low - y, y - core.high))


def _to_arc(core: RoundedBox, arc: Arc) -> float:
    """The distance between a core and an arc: at the arc's ends or the core's corners, as both lie along the axes."""
    nearest = min(_to_point(core, *arc.at(angle)) for angle in (arc.start, (arc.start + arc.end) / 2, arc.end))
    for x in (core.left, core.right):
        for y in (core.low, core.high):
            away = hypot(x - arc.x, y - arc.y)
            if abs(arc.radius - away) < nearest and (
                away < HALF or arc.start <= atan2(y - arc.y, x - arc.x) <= arc.end
            ):
                nearest = abs(arc.radius - away)
    return nearest


def _blocked(piece: Line | Arc, y: float, radius: float) -> Iterator[tuple[float, float]]:
    """Open intervals of x at a height of the view in which a disc would reach over a piece of outline."""
    if isinstance(piece, Line):
        span = _inside((*piece, radius), y, True)
        if span:
            yield span
        return
    for angle in (piece.start, piece.end):
        x, end_y = piece.at(angle)
        if abs(y - end_y) < radius - INSIDE:
            reach = sqrt(radius * radius - (y - end_y) ** 2)
            yield x - reach, x + reach
    yield from _beside_arc(piece, y - piece.y, radius)


def _beside_arc(arc: Arc, up: float, radius: float) -> Iterator[tuple[float, float]]:
    """Where at a height over an arc's centre a point in the arc's own directions is nearer to it than a radius."""
    outer, inner = arc.radius + radius, max(0.0, arc.radius - radius)
    right = arc.start in (0.0, -pi / 2) or cos((arc.start + arc.end) / 2) > 0
    if abs(up) >= outer:
        return
    near = sqrt(inner * inner - up * up) if abs(up) < inner else 0.0
    far = sqrt(outer * outer - up * up)
    cuts = sorted({near, far, *(x for angle in (arc.start, arc.end) for x in _on_ray(angle, up) if near < x < far)})
    for low, high in pairwise(cuts):
        middle = (low + high) / 2 if right else -(low + high) / 2
        if arc.start <= atan2(up, middle) <= arc.end:
            yield (arc.x + low, arc.x + high) if right else (arc.x - high, arc.x - low)


def _on_ray(angle: float, up: float) -> Iterator[float]:
    """How far to the side a ray at an angle stands at a height."""
    if up * sin(angle) > 0:
        yield abs(up * cos(angle) / sin(angle))

"""How near a part of a body comes to metal with slanted edges: exactly, where the edges of the metal run straight."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import combinations
from math import hypot

from crib.geometry.silhouette import Part
from crib.geometry.slabs import Slab, Span

Line = tuple[float, float]
"""A value that runs straight with the height z: at z = 0, and by how much more for each z."""


def room_for(part: Part, slab: Slab, span: Span, x: int, z: int) -> tuple[float, float]:
    """The least room over the clearance that a part asks for, and the height at which it is: negative where metal
    stands in what must be clear.

    A part is taken as straight, at its widest.
    """
    beside = [(at - part.side, by) for at, by in _beside(part, slab, span, x)]
    return _least([*beside, (z + part.low - part.end, -1.0), (-(z + part.high) - part.end, 1.0)], slab)


def distance(part: Part, slab: Slab, span: Span, x: int, z: int) -> float:
    """How far a part is from metal; negative where it stands in it, by how far sideways or up it is the least deep."""
    sides: list[Line] = [*_beside(part, slab, span, x), (z + part.low, -1.0), (-(z + part.high), 1.0)]
    inside, _ = _least(sides, slab)
    if inside < 0:
        return inside
    left, right, low, high = x - part.widest, x + part.widest, z + part.low, z + part.high
    edges = (((span.left_low, slab.low), (span.right_low, slab.low)), ((span.left_high, slab.high),
             (span.right_high, slab.high)), ((span.left_low, slab.low), (span.left_high, slab.high)),
             ((span.right_low, slab.low), (span.right_high, slab.high)))
    found = []
    for one, other in edges:
        aside = max(left - max(one[0], other[0]), min(one[0], other[0]) - right, 0.0)
        up = max(low - other[1], one[1] - high, 0.0)
        if one[0] == other[0] or one[1] == other[1]:
            found.append(hypot(aside, up))
        else:
            found += [_to_edge((at, level), one, other) for at in (left, right) for level in (low, high)]
    return min(found)


def _beside(part: Part, slab: Slab, span: Span, x: int) -> list[Line]:
    """How far metal is to the right and to the left of a part, by height."""
    tall = slab.high - slab.low
    left = (span.left_high - span.left_low) / tall
    right = (span.right_high - span.right_low) / tall
    return [(span.left_low - left * slab.low - x - part.widest, left),
            (x - part.widest - span.right_low + right * slab.low, -right)]


def _least(lines: list[Line], slab: Slab) -> tuple[float, float]:
    """The least over a slab's heights of the greatest of some lines, which is at an end or where two of them cross."""
    return min((max(at + by * here for at, by in lines), here) for here in _heights(lines, slab))


def _heights(lines: list[Line], slab: Slab) -> Iterator[float]:
    yield from (slab.low, slab.high)
    for (one, by), (other, also) in combinations(lines, 2):
        if by != also and slab.low < (here := (other - one) / (by - also)) < slab.high:
            yield here


Point = tuple[float, float]


def _to_edge(point: Point, one: Point, other: Point) -> float:
    along, up = other[0] - one[0], other[1] - one[1]
    length = along * along + up * up
    share = ((point[0] - one[0]) * along + (point[1] - one[1]) * up) / length if length else 0.0
    share = min(1.0, max(0.0, share))
    return float(((point[0] - one[0] - share * along) ** 2 + (point[1] - one[1] - share * up) ** 2) ** 0.5)

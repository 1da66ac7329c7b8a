"""Holes whose drill would have metal on one side only, were something else cut first."""

from __future__ import annotations

from collections.abc import Iterator
from math import cos, pi, sin

from crib.features.down import PlainHole, Thread
from crib.geometry.convex import AXES, Convex, Vector, boxes_apart, holds
from crib.parts.lying import Lying

_ROUND, _WITHIN = 12, 0.9
"""At so many places round the hole it is looked whether there is metal, so much of its radius out."""


def is_half_in_air(hole: Lying, other: Lying) -> bool:
    """Whether a drill or a tap would have the metal that is cut away by the other on one side of it, and what stays on
    the other side; not where it goes into that, or through it, with all of its width. A seat is cut flat, and a row of
    gib screws is marked through the gib: neither is looked at."""
    down = hole.feature.down
    if other.feature.down is not None or not isinstance(down, PlainHole | Thread) or getattr(down, "gib", None):
        return False
    for piece in hole.solids:
        bodies = [its.body for its in other.solids if boxes_apart(piece.body, its.body) == 0]
        for rim in (rim for body in bodies for rim in _rims(piece.body, body)):
            there = [any(holds(body, point) for body in bodies) for point in rim]
            if any(there) and not all(there):
                return True
    return False


def _rims(hole: Convex, body: Convex) -> Iterator[list[Vector]]:
    """Points round a hole at some heights at which a body may meet it."""
    first, *_, last = hole.discs
    way = first.normal
    radius = min(first.radius, last.radius) * _WITHIN
    if not radius:
        return
    at = [sum(a * b for a, b in zip(disc.middle, way, strict=True)) for disc in (first, last)]
    low = max(min(at), -body.reach(tuple(-one for one in way)))  # type: ignore[arg-type]
    high = min(max(at), body.reach(way))
    across = min(AXES, key=lambda axis: abs(sum(a * b for a, b in zip(axis, way, strict=True))))
    beside = (way[1] * across[2] - way[2] * across[1], way[2] * across[0] - way[0] * across[2],
              way[0] * across[1] - way[1] * across[0])
    for share in (0.25, 0.5, 0.75) if high > low else ():
        up = low + share * (high - low) - at[0]
        yield [tuple(m + up * w + radius * (cos(2 * pi * no / _ROUND) * a + sin(2 * pi * no / _ROUND) * b)  # type: ignore[misc]
                     for m, w, a, b in zip(first.middle, way, across, beside, strict=True)) for no in range(_ROUND)]

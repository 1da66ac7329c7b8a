"""Round an axis: a body comes down beside it, goes out to its place and then once round.

What goes round at a distance from the axis is in the half-section what stands there, on both sides of the axis alike.
What a body surely removes it removes all round, at its place; what it may touch, and what must keep clear, it has
everywhere on its way, as if it went round from the moment that it comes down. Metal is open, so touching is allowed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.geometry.axis_view import came_through
from crib.geometry.free_positions import cut
from crib.geometry.gaps import Gap, gaps
from crib.geometry.operation import Operation
from crib.geometry.region import NOTHING, Region
from crib.geometry.silhouette import Part


def taken(parts: Sequence[Part], one: Operation) -> Region:
    """What parts take all round.

    >>> from crib.geometry.silhouette import Silhouette
    >>> disc = (Part("a", 0, 4, 3, 3),)
    >>> taken(disc, Operation.round(Silhouette(disc, disc), 5, -9, 0)).spans_at(-6)
    ((-8, -2), (2, 8))
    """
    return _both_sides(parts, one.x, one.z)


def touched(parts: Sequence[Part], one: Operation) -> Region:
    """What parts pass over on their way down, where they come down, then out and round.

    >>> from crib.geometry.silhouette import Silhouette
    >>> disc = (Part("a", 0, 4, 3, 3),)
    >>> way = touched(disc, Operation.round(Silhouette(disc, disc), 5, -9, 1))
    >>> way.spans_at(-6), way.spans_at(-1)
    (((-8, 8),), ((-4, 4),))
    """
    middle, wide = _on_the_way(parts, one)
    way = _both_sides(wide, middle, one.z)
    return way if one.goes_on else way | _both_sides([came_through(part) for part in parts], _start(one), one.z)


def near(parts: Sequence[Part], one: Operation, before: Region, standing: Region, opens: Sequence[Part] = ()
         ) -> Iterator[Gap]:
    """Where parts come nearest to metal: on the way down to what stands `before` but for what `opens` cut there, then
    on the way out and round to what stands after."""
    start, (middle, wide) = _start(one), _on_the_way(parts, one)
    if not one.goes_on:
        entered = _both_sides([came_through(part) for part in opens], start, one.z) if start == one.x else NOTHING
        yield from gaps([came_through(part) for part in parts], before - entered, start, one.z)
    yield from gaps(wide, standing, middle, one.z)


def _start(one: Operation) -> int:
    return one.x if one.start is None else one.start


def _on_the_way(parts: Sequence[Part], one: Operation) -> tuple[int, list[Part]]:
    """The middle of its way out, and parts as much wider as that is long."""
    low, high = sorted((_start(one), one.x))
    middle = (low + high) // 2
    more = high - middle
    return middle, [part._replace(radius_low=part.radius_low + more, radius_high=part.radius_high + more)
                    for part in parts]


def _both_sides(parts: Sequence[Part], x: int, z: int) -> Region:
    return cut(parts, x, z) | cut(parts, -x, z)

"""Rounds: everything turns about one axis, so a layer of the section is a radius at a height. The second quick case.

A body comes down along the axis from above. What it removes at a height is the widest of all that has passed there; it
can go down as far as the first height at which something would meet metal. Regions are symmetrical about x = 0.
Metal is open, so touching is allowed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from crib.geometry.region import FAR, Region, trapezoid, union
from crib.geometry.silhouette import Part, Silhouette
from crib.geometry.slabs import Slab, Span


def disc(low: int, high: int, radius_low: int, radius_high: int | None = None) -> Region:
    """A round between two heights whose radius runs straight from its lower to its upper end.

    >>> disc(-5, 0, 3).spans_at(-1)
    ((-3, 3),)
    """
    upper = radius_low if radius_high is None else radius_high
    return trapezoid(low, high, -radius_low, radius_low, -upper, upper)


def radius_at(region: Region, z: int) -> int:
    """The radius of a round at a height: nought where there is nothing.

    >>> radius_at(disc(-10, 0, 0, 10), -5)
    5
    """
    return max((right for _, right in region.spans_at(z)), default=0)


def swept(parts: Sequence[Part], z: int) -> Region:
    """What the parts pass over, coming down from above until the lower face is at z.

    >>> swept((Part("a", 0, 4, 2, 2),), -4).spans_at(-1)
    ((-2, 2),)
    """
    pieces = [disc(z + part.low, z + part.high, part.radius_low, part.radius_high) for part in parts]
    pieces += [disc(z + part.high, FAR, part.widest) for part in parts]
    pieces += [disc(z + part.low, z + part.high, part.radius_low)
               for part in parts if part.radius_low > part.radius_high]
    return union(pieces)


def ceiling(metal: Region, radius: int, touching: bool = False) -> int | None:
    """The greatest height at which metal is nearer to the axis than a radius; None where it nowhere is. `touching`:
    nearer or as near.

    >>> from crib.geometry.region import box
    >>> ceiling(box(3, -10, 20, 0), 4), ceiling(box(3, -10, 20, 0), 3), ceiling(box(3, -10, 20, 0), 3, True)
    (0, None, 0)
    """
    found = [top for slab in metal.slabs for span in slab.spans
             if (top := _top_within(slab, span, radius + touching)) is not None]
    return max(found, default=None)


def _top_within(slab: Slab, span: Span, radius: int) -> int | None:
    """The greatest height of one span at which it is nearer to the axis than a radius."""
    low, high = _off_axis(span.left_low, span.right_low), _off_axis(span.left_high, span.right_high)
    if high < radius:
        return slab.high
    if low >= radius:
        return None
    return slab.low + (slab.high - slab.low) * (radius - low) // (high - low)


def _off_axis(left: int, right: int) -> int:
    return 0 if left < 0 < right else max(0, min(abs(left), abs(right)))


def lowest(form: Silhouette, keep: Region, standing: Region) -> int:
    """The lowest that a body's lower face may come: its removing parts meet nothing that must stay, its other parts
    nothing that stands, with their clearances. `-FAR` where nothing stops it."""
    limits = [-FAR]
    for part in form.may:
        limits += _stops(part, keep)
    for part in form.clear:
        top = ceiling(standing, part.widest + part.side)
        if top is not None:
            limits.append(top + part.end - part.low)
    return max(limits)


def _stops(part: Part, metal: Region) -> Iterator[int]:
    """The heights of the lower face at which some point of a part is level with metal that is nearer to the axis.

    Straight pieces meet at their ends, so only a part's ends and the radii at which the metal turns are looked at.
    """
    for height, radius in ((part.low, part.radius_low), (part.high, part.radius_high)):
        if (top := ceiling(metal, radius)) is not None:
            yield top - height
    inner, outer = sorted((part.radius_low, part.radius_high))
    for radius in _radii(metal):
        if inner <= radius < outer and (top := ceiling(metal, radius, touching=True)) is not None:
            share = (radius - part.radius_low) / (part.radius_high - part.radius_low)
            yield top - part.low - ceil(share * (part.high - part.low))


def _radii(metal: Region) -> set[int]:
    ends = (end for slab in metal.slabs for s in slab.spans for end in s)
    return {abs(end) for end in ends if abs(end) < FAR} | {0}


def came_through(part: Part) -> Part:
    """A part with all the room that it has come down through."""
    return part._replace(high=FAR, radius_low=part.widest, radius_high=part.widest)

"""Whether a body can stand anywhere between two heights: told of many heights at once where something is in its way at
all of them."""

from __future__ import annotations

from crib.geometry.drawn_body import cores
from crib.geometry.free_positions import Metal, blocked, free_positions, heights_between, outside
from crib.geometry.silhouette import Part, Silhouette

_LESS = 2
"""So much narrower what is in the way at all of some heights is taken: crossings are rounded [nm]."""


def stands_anywhere(form: Silhouette, metal: Metal, low: int, high: int) -> bool:
    """Whether `reach` has any band, without working it out: heights are halved, and halves passed over in which one
    thing or another is in the way everywhere.

    >>> from crib.geometry.region import FAR, box
    >>> disc = (Part("teeth", 0, 2, 3, 3),)
    >>> keep = box(-FAR, -9, -3, 0) | box(3, -9, FAR, 0)
    >>> [stands_anywhere(Silhouette(disc, disc), Metal(keep | box(-4, -9, 4, top), keep), -9, -3) for top in (-5, -2)]
    [True, False]
    """
    heights = heights_between(form, metal, low, high)
    ranges = [(0, len(heights) - 1)]
    while ranges:
        first, last = ranges.pop()
        if last - first <= 1:
            here, above = heights[first], heights[last]
            if any(free_positions(form, metal, z) for z in dict.fromkeys((here, (here + above) // 2, above))):
                return True
        elif _is_room(form, metal, heights[first], heights[last]):
            middle = (first + last) // 2
            ranges += [(first, middle), (middle, last)]
    return False


def _is_room(form: Silhouette, metal: Metal, low: int, high: int) -> bool:
    """Whether anywhere nothing may be in the way at some height between two: not where one thing is in it at all of
    them."""
    may, clear = (tuple(cores(map(_narrower, parts), high - low)) for parts in (form.may, form.clear))
    return bool(outside([*blocked(may, metal.keep, low), *blocked(clear, metal.standing, low)]))


def _narrower(part: Part) -> Part:
    return part._replace(radius_low=max(0, part.radius_low - _LESS), radius_high=max(0, part.radius_high - _LESS))

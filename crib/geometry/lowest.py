"""How far down a body can go at some places at once: the lowest height from which nothing there is in its way."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Sequence

from crib.geometry.free_positions import Metal, heights_between, meeting
from crib.geometry.region import Region
from crib.geometry.silhouette import Part, Silhouette
from crib.geometry.slabs import Slab, Span
from crib.light.hints import TYPE_CHECKING
from crib.light.tuples import NamedTuple

if TYPE_CHECKING:
    from crib.geometry.meeting_heights import Heights


_ROUNDED = 10
"""Up to so little under where nothing is in the way any more it surely was [nm]: crossings are rounded."""


class _Pair(NamedTuple):
    """A part of the body and a piece of metal that it must not meet."""

    part: Part
    slab: Slab


def lowest(form: Silhouette, metal: Metal, low: int, high: int, places: Sequence[int]) -> int | None:
    """The lowest height of the lower face, between two, at which a body can stand at all of some places; None where at
    none of them. Where all is upright the same as the first band of `reach` that holds them all, without the others;
    in what leans at both sides it is looked for between two heights.

    >>> from crib.geometry.region import NOTHING, box
    >>> parts = (Part("teeth", 0, 9, 2, 2),)
    >>> lowest(Silhouette(parts, parts), Metal(box(1, -9, 5, -4), NOTHING), -8, 0, [0])
    -4
    """
    pairs = [*_pairs(form.may, metal.keep), *_pairs(form.clear, metal.standing)]
    if not _is_met(pairs, low, places):
        return low
    heights = heights_between(form, metal, low, high)
    surely_met = bisect_left(heights, never_below(form, metal, low, high, places) - _ROUNDED)
    heights = heights[max(0, surely_met - 1):]
    for here, above in zip(heights, [*heights[1:], None], strict=True):
        if not _is_met(pairs, here, places):
            return here
        if above is not None and above - here > 1 and not _is_met(pairs, (here + above) // 2, places):
            return _until_free(pairs, here, (here + above) // 2, places)
    return None


def _until_free(pairs: list[_Pair], low: int, high: int, places: Sequence[int]) -> int:
    """A height between one at which something is in the way and one at which nothing is, from which on nothing is: what
    leans on both sides meets lower down and parts before any edge passes another. Found by halving."""
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (middle, high) if _is_met(pairs, middle, places) else (low, middle)
    return high


def never_below(form: Silhouette, metal: Metal, low: int, high: int, places: Sequence[int]) -> int:
    """A height, between two, under which a body can't stand at all of some places, whatever more is in its way: up to
    it, one piece of metal or another is in the way without a break.

    A part and a piece of metal that are both convex meet at all heights between two at which they meet. Whatever order
    they are looked at in, the break is where it is; pieces that a part is rid of highest up are likely to be in the way
    longest.
    """
    here = low
    pairs = [(part, some) for parts, some in ((form.may, metal.keep), (form.clear, metal.standing))
             for part in parts if part.radius_low == part.radius_high or not part.end]
    while here < high:
        before = here
        for part, some in pairs:
            here = _rid_of(part, some, here, high, places)
            if here >= high:
                return high
        if here == before:
            return here
    return high


def _rid_of(part: Part, metal: Region, here: int, high: int, places: Sequence[int]) -> int:
    """Where a part is rid of the pieces of metal that are in its way at a height and from there on, the highest first;
    the part is one with the clearance that it asks for. Not under another height."""
    _, begins, ends, below, above, side, end = part
    out, top = max(below, above) + side, high + ends + end
    for slab in reversed(metal.slabs):
        if slab[1] - begins + end <= here:
            return here
        if slab[0] >= top:
            continue
        for span in slab[2]:
            left, right, up_left, up_right = span
            for x in places:
                if (left if left < up_left else up_left) - out < x < (right if right > up_right else up_right) + out:
                    least, most = _heights(part, slab, span, x)
                    here = most if least < here < most else here
    return here


def _heights(part: Part, slab: Slab, span: Span, x: int) -> Heights:
    from crib.geometry.meeting_heights import meeting_heights

    return meeting_heights(part, slab, span, x)


def _pairs(parts: Sequence[Part], metal: Region) -> list[_Pair]:
    return [_Pair(part, slab) for part in parts for slab in metal.slabs]


def _is_met(pairs: list[_Pair], z: int, places: Sequence[int]) -> bool:
    """Whether at a height anything is in the way at any of the places. What was comes first: a little higher it still
    is, as a rule."""
    for number, (part, slab) in enumerate(pairs):
        if slab.low >= z + part.high + part.end or slab.high <= z + part.low - part.end:
            continue
        for left, right in meeting(part, slab, z):
            if any(left < x < right for x in places):
                if number:
                    pairs.insert(0, pairs.pop(number))
                return True
    return False

"""How far down a body can go at some places at once: the lowest height from which nothing there is in its way."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.geometry.free_positions import Metal, heights_between, meeting
from crib.geometry.region import Region
from crib.geometry.silhouette import Part, Silhouette
from crib.geometry.slabs import Slab, Span
from crib.light.hints import TYPE_CHECKING
from crib.light.tuples import NamedTuple

if TYPE_CHECKING:
    from crib.geometry.meeting_heights import Heights


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
    they are looked at in, the break is where it is; those that are rid of one another highest up are likely to be in
    the way longest.
    """
    here = low
    known: dict[int, Heights] = {}
    both = (form.may, metal.keep), (form.clear, metal.standing)
    near = sorted((one for parts, some in both for one in _near(parts, some, low, high, places)),
                  key=lambda one: one[0], reverse=True)
    while here < high:
        up = here
        for number, (most, part, slab, span, x) in enumerate(near):
            if most <= here:
                break
            if number not in known:
                from crib.geometry.meeting_heights import meeting_heights

                known[number] = meeting_heights(part, slab, span, x)
            below, above = known[number]
            if below < here < above:
                up = above
                break
        if up == here:
            return here
        here = up
    return high


_Near = tuple[int, Part, Slab, Span, int]
"""Up to which height a convex part may meet a piece of metal at the most; the two, and the place."""


def _near(parts: Sequence[Part], metal: Region, low: int, high: int, places: Sequence[int]) -> Iterator[_Near]:
    """Convex parts with the pieces of metal that they may meet at some places at all, between two heights; a part is
    one with the clearance that it asks for where it is upright, or asks for none at its ends."""
    for part in parts:
        if part.radius_low != part.radius_high and part.end:
            continue
        out, under = part.widest + part.side, part.low - part.end
        bottom, top = low + under, high + part.high + part.end
        for slab in metal.slabs:
            begins, ends, spans = slab
            if ends <= bottom or begins >= top:
                continue
            for span in spans:
                left, right = min(span[0], span[2]) - out, max(span[1], span[3]) + out
                for x in places:
                    if left < x < right:
                        yield ends - under, part, slab, span, x


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

"""How near the parts of a body come to metal where it stands."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import floor

from crib.geometry.region import Region
from crib.geometry.silhouette import Part
from crib.geometry.slabs import Slab, Span
from crib.light.tuples import NamedTuple


class Gap(NamedTuple):
    """How near a part comes to a piece of metal: `gap` between them, and `slack` over the clearance asked (negative:
    short of it). x and z: the point of the part that is nearest. `rise`: how much higher it would clear from above."""

    part: Part
    gap: int
    slack: int
    x: int
    z: int
    rise: int = 0


def gaps(parts: Sequence[Part], metal: Region, x: int, z: int) -> list[Gap]:
    """Where each part has the least to spare, and where it comes nearest if that is elsewhere, standing at x with the
    lower face at z."""
    spans = [(slab, span) for slab in metal.slabs for span in slab.spans]
    boxes = [(s[0] if s[0] < s[2] else s[2], s[1] if s[1] > s[3] else s[3], slab[0], slab[1]) for slab, s in spans]
    found: list[Gap] = []
    for part in parts:
        tight: tuple[int, int, int, Gap] | None = None
        near: tuple[int, int, Gap] | None = None
        for slack, away, place in sorted(_at_least(part, boxes, x, z)):
            if tight and near and slack > max(tight[0], 0) and away > max(near[0], 0):
                continue
            here = _gap(part, *spans[place], x, z)
            tight = min(filter(None, (tight, (here.slack, here.gap, place, here))))
            near = min(filter(None, (near, (here.gap, place, here))))
        if tight and near:
            found += dict.fromkeys((tight[-1], near[-1]))
    return found


def are_surely_clear(parts: Sequence[Part], metal: Region, x: int, z: int) -> bool:
    """Whether parts, standing there, surely have all the room that they ask for: told of the rectangle round each piece
    of metal, without looking for the nearest."""
    for part in parts:
        reach, bottom, top = part.widest + part.side, z + part.low - part.end, z + part.high + part.end
        left, right = x - reach, x + reach
        for low, high, spans in metal.slabs:
            if low < top and high > bottom and any(
                    (s[0] < right or s[2] < right) and (s[1] > left or s[3] > left) for s in spans):
                return False
    return True


def _at_least(part: Part, boxes: Sequence[tuple[int, int, int, int]], x: int, z: int) -> Iterator[tuple[int, int, int]]:
    """What a part has to spare, and how far it is, of the rectangle round each piece of metal: of the piece at the
    least as much, where it is more than nothing."""
    widest, side, end, bottom, top = part.widest, part.side, part.end, z + part.low, z + part.high
    for place, (left, right, low, high) in enumerate(boxes):
        beside = (left - x if left - x > x - right else x - right) - widest
        up = bottom - high if bottom - high > low - top else low - top
        spare, over = beside - side, up - end
        yield (spare if spare > over else over), (beside if beside > up else up), place


def _gap(part: Part, slab: Slab, span: Span, x: int, z: int) -> Gap:
    low, high = z + part.low, z + part.high
    if span.left_low != span.left_high or span.right_low != span.right_high:
        from crib.geometry.aslant import distance, room_for

        slack, at = room_for(part, slab, span, x, z)
        reaching = 1 if span.left_low + span.left_high > 2 * x else -1
        gap = round(distance(part, slab, span, x, z))
        return Gap(part, gap, floor(slack), x + reaching * part.widest, round(min(max(at, low), high)),
                   part.end - (low - slab.high))
    up = max(low - slab.high, slab.low - high)
    if up < 0:
        ends = (max(low, slab.low), min(high, slab.high))
    else:
        edge = low if low >= slab.high else high
        ends = (edge, edge)
    radius = max(part.radius_at(end - z) for end in ends)
    beside = max(span.left_low - x, x - span.right_low) - radius
    if up < 0:
        gap = beside
    elif beside < 0:
        gap = up
    else:
        gap = round((beside * beside + up * up) ** 0.5)
    reaching = 1 if span.left_low + span.left_high > 2 * x else -1
    slack = max(beside - part.side, up - part.end)
    return Gap(part, gap, slack, x + reaching * part.widest, ends[0], part.end - (low - slab.high))

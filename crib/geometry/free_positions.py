"""Where a body can stand: height by height, closed intervals. Metal is open, so touching is allowed and a body that
fits exactly has a reach that is a line or a point.

A Minkowski erosion; see Tangelder, Vergeest and Overmars, "Freeform shape machining using Minkowski operations".
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from math import floor
from operator import attrgetter

from crib.geometry.region import FAR, Region, pile, trapezoid, union
from crib.geometry.silhouette import Part, Silhouette
from crib.geometry.slabs import Slab, Span, along
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple

Interval = tuple[int, int]


class Band(NamedTuple):
    """Positions with the lower face from `low` to `high` (a single height where they are equal) and x in `spans`."""

    low: int
    high: int
    spans: tuple[Interval, ...]


@dataclass(frozen=True)
class Metal:
    """What a body meets: metal that its removing parts must leave alone, and metal that its other parts must clear."""

    keep: Region
    standing: Region


def free_positions(form: Silhouette, metal: Metal, z: int) -> tuple[Interval, ...]:
    """The closed intervals of x in which a body can stand with its lower face at z."""
    return outside([*blocked(form.may, metal.keep, z), *blocked(form.clear, metal.standing, z)])


def reach(form: Silhouette, metal: Metal, low: int, high: int) -> tuple[Band, ...]:
    """The whole reach between two heights of the lower face: the heights at which it changes and what lies between.

    Exact where parts and metal are upright; between two heights at which it changes, taken at the middle.
    """
    return tuple(bands(form, metal, low, high))


def bands(form: Silhouette, metal: Metal, low: int, high: int) -> Iterator[Band]:
    """The same one by one from the lowest up, for whoever doesn't want them all."""
    heights = heights_between(form, metal, low, high)
    for here, above in zip(heights, [*heights[1:], None], strict=True):
        if spans := free_positions(form, metal, here):
            yield Band(here, here, spans)
        if above is not None and above - here > 1 and (spans := free_positions(form, metal, (here + above) // 2)):
            yield Band(here, above, spans)


def heights_between(form: Silhouette, metal: Metal, low: int, high: int) -> list[int]:
    """Two heights of the lower face, and those between them at which what is in its way changes."""
    return sorted({low, high} | {z for z in _changes(form, metal) if low < z < high})


def cut(parts: Sequence[Part], x: int, z: int) -> Region:
    """What the parts of a body fill, standing at x with the lower face at z."""
    pieces = [_placed(part, x, x, z) for part in parts]
    if all(a.high <= b.low for a, b in pairwise(parts)):
        return pile(slab for piece in pieces for slab in piece.slabs)
    return union(pieces)


def cut_all(parts: Sequence[Part], places: Iterable[tuple[int, int]]) -> Region:
    """What the parts of a body fill at any of some places (x, z).

    Neighbours at one height that overlap are taken as one sweep, which is what they come to.
    """
    levels: dict[int, list[int]] = {}
    for x, z in dict.fromkeys(places):
        levels.setdefault(z, []).append(x)
    overlap = 2 * min(min(part.radius_low, part.radius_high) for part in parts)
    pieces = []
    for z, xs in levels.items():
        for left, right in _runs(sorted(xs), overlap):
            pieces.append(pile(slab for part in parts for slab in _placed(part, left, right, z).slabs))
    return union(pieces)


def _runs(xs: list[int], overlap: int) -> list[Interval]:
    runs = [(xs[0], xs[0])]
    for x in xs[1:]:
        if x - runs[-1][1] <= overlap:
            runs[-1] = (runs[-1][0], x)
        else:
            runs.append((x, x))
    return runs


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


def _placed(part: Part, left: int, right: int, z: int) -> Region:
    return trapezoid(
        z + part.low,
        z + part.high,
        left - part.radius_low,
        right + part.radius_low,
        left - part.radius_high,
        right + part.radius_high,
    )


def _changes(form: Silhouette, metal: Metal) -> set[int]:
    found = set[int]()
    for parts, region in ((form.may, metal.keep), (form.clear, metal.standing)):
        edges = {z for slab in region.slabs for z in (slab.low, slab.high)}
        for part in parts:
            over, under = part.high + part.end, part.low - part.end
            found.update([z - over for z in edges], [z - under for z in edges])
    return found


def blocked(parts: Sequence[Part], metal: Region, z: int) -> list[Interval]:
    """Open intervals of x in which some part would meet metal."""
    slabs, found = metal.slabs, list[Interval]()
    for part in parts:
        bottom, top = z + part.low - part.end, z + part.high + part.end
        for place in range(bisect_right(slabs, bottom, key=_HIGH) if bottom < top else len(slabs), len(slabs)):
            slab = slabs[place]
            if slab[0] >= top:
                break
            found += _met(part, slab, z, bottom, top)
    return found


_HIGH = attrgetter("high")


def meeting(part: Part, slab: Slab, z: int) -> list[Interval]:
    """The same of one part and one slab of metal."""
    bottom, top = z + part.low - part.end, z + part.high + part.end
    return _met(part, slab, z, bottom, top) if max(slab.low, bottom) < min(slab.high, top) else []


def _beside(reach: int, slab: Slab, bottom: int, top: int) -> list[Interval]:
    """Where an upright part meets a slab: each end of a span is where that is widest as far as the part goes."""
    low, high, spans = slab
    if bottom <= low and top >= high:
        return [((left if left < up_left else up_left) - reach, (right if right > up_right else up_right) + reach)
                for left, right, up_left, up_right in spans]
    begins, ends = max(low, bottom), min(high, top)
    return [(along(left, up_left, low, high, begins if left < up_left else ends) - reach,
             along(right, up_right, low, high, begins if right > up_right else ends) + reach)
            for left, right, up_left, up_right in spans]


def _met(part: Part, slab: Slab, z: int, bottom: int, top: int) -> list[Interval]:
    if part.radius_low == part.radius_high:
        return _beside(part.radius_low + part.side, slab, bottom, top)
    low, high = max(slab.low, bottom), min(slab.high, top)
    at_low = part.radius_at(_within(part, low - z)) + part.side
    at_high = part.radius_at(_within(part, high - z)) + part.side
    found: list[Interval] = []
    for s in slab.spans:
        if s[0] == s[2] and s[1] == s[3]:
            most = max(at_low, at_high)
            found.append((s[0] - most, s[1] + most))
            continue
        found.append((
            min(along(s[0], s[2], slab.low, slab.high, low) - at_low,
                along(s[0], s[2], slab.low, slab.high, high) - at_high),
            max(along(s[1], s[3], slab.low, slab.high, low) + at_low,
                along(s[1], s[3], slab.low, slab.high, high) + at_high),
        ))
    return found


def _within(part: Part, height: int) -> int:
    return min(max(height, part.low), part.high)


def outside(intervals: Iterable[Interval]) -> tuple[Interval, ...]:
    """What open intervals leave free: closed, single points included."""
    free = []
    at = -FAR
    for left, right in sorted(intervals):
        if left >= at:
            free.append((at, left))
        at = max(at, right)
    if at <= FAR:
        free.append((at, FAR))
    return tuple(free)

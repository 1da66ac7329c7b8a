"""Where a body can stand: height by height, closed intervals. Metal is open, so touching is allowed and a body that
fits exactly has a reach that is a line or a point.

A Minkowski erosion; see Tangelder, Vergeest and Overmars, "Freeform shape machining using Minkowski operations".
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise
from operator import attrgetter

from crib.geometry.region import FAR, Region, pile, trapezoid, union
from crib.geometry.silhouette import Part, Silhouette
from crib.geometry.slabs import Slab, along
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
        first = bisect_right(slabs, bottom, key=_HIGH) if bottom < top else len(slabs)
        if len(slabs) - first > _FEW and part.radius_low == part.radius_high:
            found += _beside_many(part, metal, first, bottom, top)
            continue
        for place in range(first, len(slabs)):
            slab = slabs[place]
            if slab[0] >= top:
                break
            found += _met(part, slab, z, bottom, top)
    return found


_FEW = 4
"""Of more slabs than this, as a round is cut into, what an upright part meets is kept."""


def _beside_many(part: Part, metal: Region, first: int, bottom: int, top: int) -> Iterator[Interval]:
    """Where an upright part meets any of many slabs from one on: of those that lie wholly between its ends no interval
    inside of another."""
    slabs, reach = metal.slabs, part.radius_low + part.side
    after = bisect_left(slabs, top, lo=first, key=_LOW)
    begin = first + (first < after and slabs[first].low < bottom)
    end = max(begin, after - (first < after and slabs[after - 1].high > top))
    for place in dict.fromkeys((*range(first, begin), *range(end, after))):
        yield from _beside(reach, slabs[place], bottom, top)
    known = metal.__dict__.setdefault("_widest", {})
    if (begin, end) not in known:
        known[begin, end] = _widest(slabs[begin:end])
    for left, right in known[begin, end]:
        yield left - reach, right + reach


def _widest(slabs: Sequence[Slab]) -> tuple[Interval, ...]:
    """From where to where the spans of some slabs go at their widest, without those that lie within another."""
    found: list[Interval] = []
    for left, right in sorted(((min(s[0], s[2]), max(s[1], s[3])) for slab in slabs for s in slab.spans),
                              key=lambda one: (one[0], -one[1])):
        if not found or right > found[-1][1]:
            found.append((left, right))
    return tuple(found)


_LOW, _HIGH = attrgetter("low"), attrgetter("high")


def widest_gap(metal: Region, z: int) -> int:
    """How wide the widest gap is in which no metal stands at any height over z.

    >>> from crib.geometry.region import box
    >>> widest_gap(box(-FAR, -9, -3, 0) | box(4, -9, FAR, 0) | box(-3, -9, 4, -8), -8)
    7
    """
    known = metal.__dict__.setdefault("_gaps", {})
    if z not in known:
        over = metal.slabs[bisect_right(metal.slabs, z, key=_HIGH):]
        known[z] = max((right - left for left, right in outside(_widest(over))), default=0)
    gap: int = known[z]
    return gap


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

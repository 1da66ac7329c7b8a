"""Plane regions cut into slabs: at each height a set of intervals whose ends run straight from bottom to top.

Boxes stay exact; where edges slant, crossings are rounded to the nanometre.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import cached_property, reduce
from itertools import pairwise

from crib.records import NamedTuple, dataclass

FAR = 1_000_000_000
"""A metre: as far as any region reaches."""

_SLIVER = 8
"""What is nowhere wider than this between slanted edges comes of rounding [nm]."""


class Span(NamedTuple):
    """The interval of a slab: left and right end at its low edge and at its high edge."""

    left_low: int
    right_low: int
    left_high: int
    right_high: int


class Slab(NamedTuple):
    """What a region holds between two heights; spans from left to right, apart from each other."""

    low: int
    high: int
    spans: tuple[Span, ...]


@dataclass(frozen=True)
class Region:
    """Slabs from the lowest up, apart from each other."""

    slabs: tuple[Slab, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.slabs)

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        """Kept, for regions are what is looked up by, again and again."""
        return hash(self.slabs)

    def spans_at(self, z: int) -> tuple[tuple[int, int], ...]:
        """The intervals at a height; at an edge between two slabs those of the slab above."""
        for slab in self.slabs:
            if slab.low <= z < slab.high:
                return tuple(_at(span, slab, z) for span in slab.spans)
        return ()

    def __or__(self, other: Region) -> Region:
        if not (self and other):
            return self or other
        for below, above in ((self, other), (other, self)):
            if below.slabs[-1].high <= above.slabs[0].low:
                return pile((*below.slabs, *above.slabs))
        return _combine(self, other, lambda a, b: a or b)

    def __and__(self, other: Region) -> Region:
        return _combine(self, other, lambda a, b: a and b) if _meet(self, other) else Region()

    def __sub__(self, other: Region) -> Region:
        return _combine(self, other, lambda a, b: a and not b) if _meet(self, other) else self

    @cached_property
    def area(self) -> int:
        """Twice the area, whole."""
        return sum(
            (slab.high - slab.low) * (s.right_low - s.left_low + s.right_high - s.left_high)
            for slab in self.slabs
            for s in slab.spans
        )

    @property
    def mirrored(self) -> Region:
        """The same with left and right changed over."""
        return Region(tuple(
            Slab(slab.low, slab.high, tuple(
                Span(-s.right_low, -s.left_low, -s.right_high, -s.left_high) for s in reversed(slab.spans)
            ))
            for slab in self.slabs
        ))

    def bounds(self) -> tuple[int, int, int, int]:
        """Left, low, right, high. Raises ValueError where it is empty."""
        spans = [s for slab in self.slabs for s in slab.spans]
        return (
            min(min(s.left_low, s.left_high) for s in spans),
            self.slabs[0].low,
            max(max(s.right_low, s.right_high) for s in spans),
            self.slabs[-1].high,
        )


NOTHING = Region()


def box(left: int, low: int, right: int, high: int) -> Region:
    """A rectangle; nothing where it has no width or no height.

    >>> box(-2, -5, 2, 0).spans_at(-1)
    ((-2, 2),)
    """
    return trapezoid(low, high, left, right, left, right)


def trapezoid(low: int, high: int, left_low: int, right_low: int, left_high: int, right_high: int) -> Region:
    """A slab with one span."""
    if high <= low or (right_low <= left_low and right_high <= left_high):
        return Region()
    return Region((Slab(low, high, (Span(left_low, right_low, left_high, right_high),)),))


def union(regions: Iterable[Region]) -> Region:
    """All of them together."""
    some = [region for region in regions if region]
    while len(some) > 2:
        some = [reduce(Region.__or__, some[i : i + 2]) for i in range(0, len(some), 2)]
    return reduce(Region.__or__, some, Region())


def pile(slabs: Iterable[Slab]) -> Region:
    """A region of slabs that are given from the lowest up, apart from each other."""
    done: list[Slab] = []
    for slab in slabs:
        _stack(done, slab)
    return Region(tuple(done))


def _at(span: Span, slab: Slab, z: int) -> tuple[int, int]:
    return (
        along(span.left_low, span.left_high, slab.low, slab.high, z),
        along(span.right_low, span.right_high, slab.low, slab.high, z),
    )


def along(at_low: int, at_high: int, low: int, high: int, z: int) -> int:
    """Where a straight edge between two heights stands at a third, to the nearest nanometre."""
    if at_low == at_high:
        return at_low
    return at_low + (2 * (at_high - at_low) * (z - low) + (high - low)) // (2 * (high - low))


def _meet(a: Region, b: Region) -> bool:
    """Whether two regions share any height."""
    return bool(a and b) and a.slabs[0].low < b.slabs[-1].high and b.slabs[0].low < a.slabs[-1].high


_Edge = tuple[int, int, int, int, bool]
"""Twice the middle x, x at low, x at high, +1 opens or -1 closes, of the second region."""


def _combine(a: Region, b: Region, keep: Callable[[bool, bool], bool]) -> Region:
    heights = _heights(a, b)
    slabs: list[Slab] = []
    i = j = 0
    for low, high in pairwise(heights):
        while i < len(a.slabs) and a.slabs[i].high <= low:
            i += 1
        while j < len(b.slabs) and b.slabs[j].high <= low:
            j += 1
        in_a = _piece(a.slabs[i], low, high) if i < len(a.slabs) and a.slabs[i].low < high else ()
        in_b = _piece(b.slabs[j], low, high) if j < len(b.slabs) and b.slabs[j].low < high else ()
        if in_a and in_b:
            spans = _merge(in_a, in_b, keep)
        else:
            spans = in_a if in_a and keep(True, False) else in_b if in_b and keep(False, True) else ()
        if spans:
            _stack(slabs, Slab(low, high, spans))
    return Region(tuple(slabs))


def _heights(a: Region, b: Region) -> list[int]:
    heights = {z for region in (a, b) for slab in region.slabs for z in (slab.low, slab.high)}
    if _slants(a) or _slants(b):
        for p, q in _pairs(a.slabs, b.slabs):
            low, high = max(p.low, q.low), min(p.high, q.high)
            if _slanted(p.spans) or _slanted(q.spans):
                heights |= _crossings(_piece(p, low, high), _piece(q, low, high), low, high)
    return sorted(heights)


def _pairs(a: tuple[Slab, ...], b: tuple[Slab, ...]) -> Iterator[tuple[Slab, Slab]]:
    """The slabs of two regions that share heights."""
    i = j = 0
    while i < len(a) and j < len(b):
        if max(a[i].low, b[j].low) < min(a[i].high, b[j].high):
            yield a[i], b[j]
        if a[i].high <= b[j].high:
            i += 1
        else:
            j += 1


def _slants(region: Region) -> bool:
    return any(_slanted(slab.spans) for slab in region.slabs)


def _slanted(spans: tuple[Span, ...]) -> bool:
    return any(s[0] != s[2] or s[1] != s[3] for s in spans)


def _crossings(p: tuple[Span, ...], q: tuple[Span, ...], low: int, high: int) -> set[int]:
    """Heights strictly between at which an edge of one crosses an edge of the other."""
    found = set()
    for u_low, u_high in _edges(p):
        for v_low, v_high in _edges(q):
            below, above = u_low - v_low, u_high - v_high
            if below * above < 0:
                z = low + (high - low) * below // (below - above)
                found |= {here for here in (z, z + 1) if low < here < high}
    return found


def _edges(spans: tuple[Span, ...]) -> list[tuple[int, int]]:
    return [(s.left_low, s.left_high) for s in spans] + [(s.right_low, s.right_high) for s in spans]


def _piece(slab: Slab, low: int, high: int) -> tuple[Span, ...]:
    """The spans of a slab between two heights inside it."""
    if (slab.low == low and slab.high == high) or not _slanted(slab.spans):
        return slab.spans
    return tuple(Span(*_at(s, slab, low), *_at(s, slab, high)) for s in slab.spans)


def _merge(a: tuple[Span, ...], b: tuple[Span, ...], keep: Callable[[bool, bool], bool]) -> tuple[Span, ...]:
    if len(a) == 1 == len(b) and not (_slanted(a) or _slanted(b)):
        return _of_two(*a[0][:2], *b[0][:2], keep)
    edges: list[_Edge] = []
    for second, spans in ((False, a), (True, b)):
        for s in spans:
            edges.append((s.left_low + s.left_high, s.left_low, s.left_high, 1, second))
            edges.append((s.right_low + s.right_high, s.right_low, s.right_high, -1, second))
    edges.sort()
    out: list[Span] = []
    depth = [0, 0]
    start: _Edge | None = None
    k = 0
    while k < len(edges):
        here = edges[k]
        there = here[:3]
        while k < len(edges) and edges[k][:3] == there:
            depth[edges[k][4]] += edges[k][3]
            k += 1
        kept = keep(depth[0] > 0, depth[1] > 0)
        if kept and start is None:
            start = here
        elif not kept and start is not None:
            span = Span(start[1], here[1], start[2], here[2])
            if not _is_sliver(span):
                out.append(span)
            start = None
    return tuple(out)


def _of_two(left: int, right: int, other_left: int, other_right: int, keep: Callable[[bool, bool], bool]
            ) -> tuple[Span, ...]:
    """The same of two upright spans, as most are."""
    edges = sorted({left, right, other_left, other_right})
    found: list[Span] = []
    for low, high in pairwise(edges):
        if keep(left <= low < right, other_left <= low < other_right):
            if found and found[-1][1] == low:
                low = found.pop()[0]
            found.append(Span(low, high, low, high))
    return tuple(found)


def _is_sliver(s: Span) -> bool:
    slanted = s.left_low != s.left_high or s.right_low != s.right_high
    return slanted and s.right_low - s.left_low <= _SLIVER and s.right_high - s.left_high <= _SLIVER


def _stack(slabs: list[Slab], top: Slab) -> None:
    """Put a slab on top, joined with the one below where their edges run on straight."""
    if slabs and slabs[-1].high == top.low and (whole := _joined(slabs[-1], top)):
        slabs[-1] = whole
    else:
        slabs.append(top)


def _joined(below: Slab, above: Slab) -> Slab | None:
    """Two slabs as one, where no edge bends between them by more than rounding does."""
    if below.spans == above.spans and not _slanted(above.spans):
        return Slab(below.low, above.high, above.spans)
    if len(below.spans) != len(above.spans) or not _slanted(below.spans) or not _slanted(above.spans):
        return None
    for a, b in zip(below.spans, above.spans, strict=True):
        if abs(a[2] - b[0]) > 1 or abs(a[3] - b[1]) > 1:
            return None
        for side in (0, 1):
            if abs(along(a[side], b[side + 2], below.low, above.high, below.high) - a[side + 2]) > 1:
                return None
    spans = tuple(Span(a[0], a[1], b[2], b[3]) for a, b in zip(below.spans, above.spans, strict=True))
    return Slab(below.low, above.high, spans)

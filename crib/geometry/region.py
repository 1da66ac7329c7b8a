"""Plane regions cut into slabs: at each height a set of intervals whose ends run straight from bottom to top.

Boxes stay exact; where edges slant, crossings are rounded to the nanometre.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cached_property, lru_cache, partial, reduce
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


_span: Callable[[tuple[int, int, int, int]], Span] = partial(tuple.__new__, Span)
_slab: Callable[[tuple[int, int, tuple[Span, ...]]], Slab] = partial(tuple.__new__, Slab)


@dataclass(frozen=True)
class Region:
    """Slabs from the lowest up, apart from each other."""

    slabs: tuple[Slab, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.slabs)

    def __hash__(self) -> int:
        """Kept, for regions are what is looked up by, again and again."""
        known: int | None = self.__dict__.get("_hash")
        if known is None:
            known = self.__dict__["_hash"] = hash(self.slabs)
        return known

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
        return _combine(self, other, _EITHER)

    def __and__(self, other: Region) -> Region:
        return _combine(self, other, _BOTH) if _meet(self, other) else Region()

    def __sub__(self, other: Region) -> Region:
        return _combine(self, other, _FIRST_ALONE) if _meet(self, other) else self

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


def may_meet(a: Region, b: Region) -> bool:
    """Whether two regions may share anything: told of slabs by the rectangles round their spans.

    >>> may_meet(box(0, 0, 2, 2), box(1, 1, 3, 3)), may_meet(box(0, 0, 2, 2), box(2, 0, 3, 3))
    (True, False)
    """
    j = 0
    for p in a.slabs:
        while j < len(b.slabs) and b.slabs[j].high <= p.low:
            j += 1
        for q in b.slabs[j:]:
            if q.low >= p.high:
                break
            if any(min(s[0], s[2]) < max(t[1], t[3]) and min(t[0], t[2]) < max(s[1], s[3])
                   for s in p.spans for t in q.spans):
                return True
    return False


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


_Edge = tuple[int, int, int, int, int]
"""Twice the middle x, x at low, x at high, +1 opens or -1 closes, 2 of the first region or 1 of the second."""

_EITHER, _BOTH, _FIRST_ALONE = (False, True, True, True), (False, False, False, True), (False, False, True, False)
"""What is kept: where neither region is, where the second alone is, where the first alone is, where both are."""

_Kept = tuple[bool, bool, bool, bool]


@lru_cache(maxsize=1024)
def _combine(a: Region, b: Region, keep: _Kept) -> Region:
    """Of two pairs in five the same is asked again within a question."""
    slabs: list[Slab] = []
    i, j, many, more = 0, 0, len(a.slabs), len(b.slabs)
    heights = {slab[0] for slab in a.slabs}
    heights.update([slab[1] for slab in a.slabs], [slab[0] for slab in b.slabs], [slab[1] for slab in b.slabs])
    for low, high in pairwise(sorted(heights)):
        while i < many and a.slabs[i][1] <= low:
            i += 1
        while j < more and b.slabs[j][1] <= low:
            j += 1
        p = a.slabs[i] if i < many and a.slabs[i][0] < high else None
        q = b.slabs[j] if j < more and b.slabs[j][0] < high else None
        if p and q:
            _stack_both(slabs, p, q, low, high, keep)
        elif alone := (p if keep[2] else None) or (q if keep[1] else None):
            _stack(slabs, _slab((low, high, _piece(alone, low, high))))
    return Region(tuple(slabs))


def _stack_both(slabs: list[Slab], p: Slab, q: Slab, low: int, high: int, keep: _Kept) -> None:
    """Put what is kept of two slabs between two heights inside both on top, in slabs between those at which their edges
    cross."""
    in_p, in_q = _piece(p, low, high), _piece(q, low, high)
    crossings = _crossings(in_p, in_q, low, high)
    if not crossings:
        if spans := _merge(in_p, in_q, keep):
            _stack(slabs, _slab((low, high, spans)))
        return
    for begin, end in pairwise((low, *sorted(crossings), high)):
        if spans := _merge(_piece(p, begin, end), _piece(q, begin, end), keep):
            _stack(slabs, _slab((begin, end, spans)))


def _slanted(spans: tuple[Span, ...]) -> bool:
    if len(spans) == 1:  # as most are
        left, right, left_high, right_high = spans[0]
        return left != left_high or right != right_high
    return any(s[0] != s[2] or s[1] != s[3] for s in spans)


def _crossings(p: tuple[Span, ...], q: tuple[Span, ...], low: int, high: int) -> set[int] | None:
    """Heights strictly between at which an edge of one crosses an edge of the other."""
    if len(p) == 1 == len(q):
        (left, right, left_high, right_high), (begin, end, begin_high, end_high) = p[0], q[0]
        if ((left - begin) * (left_high - begin_high) >= 0 and (left - end) * (left_high - end_high) >= 0 and
                (right - begin) * (right_high - begin_high) >= 0 and (right - end) * (right_high - end_high) >= 0):
            return None
    elif not (_slanted(p) or _slanted(q)):
        return None
    found = set()
    for u_low, u_high in _edges(p):
        for v_low, v_high in _edges(q):
            below, above = u_low - v_low, u_high - v_high
            if below * above < 0:
                z = low + (high - low) * below // (below - above)
                found |= {here for here in (z, z + 1) if low < here < high}
    return found


def _edges(spans: tuple[Span, ...]) -> list[tuple[int, int]]:
    return [(s[0], s[2]) for s in spans] + [(s[1], s[3]) for s in spans]


def _piece(slab: Slab, low: int, high: int) -> tuple[Span, ...]:
    """The spans of a slab between two heights inside it."""
    under, over, spans = slab
    if under == low and over == high:
        return spans
    if len(spans) == 1:  # as most are
        left, right, left_high, right_high = spans[0]
        if left == left_high and right == right_high:
            return spans
        at_low = (left, right) if low == under else (along(left, left_high, under, over, low),
                                                     along(right, right_high, under, over, low))
        at_high = (left_high, right_high) if high == over else (along(left, left_high, under, over, high),
                                                                along(right, right_high, under, over, high))
        return (_span((*at_low, *at_high)),)
    if not _slanted(spans):
        return spans
    return tuple([_span((along(s[0], s[2], under, over, low), along(s[1], s[3], under, over, low),
                         along(s[0], s[2], under, over, high), along(s[1], s[3], under, over, high))) for s in spans])


def _merge(a: tuple[Span, ...], b: tuple[Span, ...], keep: _Kept) -> tuple[Span, ...]:
    if len(a) == 1 == len(b):
        return _of_two(a[0], b[0], keep)
    edges: list[_Edge] = []
    for number, spans in ((2, a), (1, b)):
        for s in spans:
            edges.append((s[0] + s[2], s[0], s[2], 1, number))
            edges.append((s[1] + s[3], s[1], s[3], -1, number))
    edges.sort()
    out: list[Span] = []
    depth = [0, 0, 0]
    start: _Edge | None = None
    k = 0
    while k < len(edges):
        here = edges[k]
        there = here[:3]
        while k < len(edges) and edges[k][:3] == there:
            depth[edges[k][4]] += edges[k][3]
            k += 1
        kept = keep[2 * (depth[2] > 0) + (depth[1] > 0)]
        if kept and start is None:
            start = here
        elif not kept and start is not None:
            span = _span((start[1], here[1], start[2], here[2]))
            if not _is_sliver(span):
                out.append(span)
            start = None
    return tuple(out)


def _of_two(a: Span, b: Span, keep: _Kept) -> tuple[Span, ...]:
    """The same of one span and one, as most are. Ends are in the order of their middles; twice these tell it but where
    two that differ have one middle."""
    (a_left, a_right, _, _), (b_left, b_right, _, _) = a, b
    left, right, begin, end = a_left + a[2], a_right + a[3], b_left + b[2], b_right + b[3]
    if (left >= right or begin >= end or (left == begin and a_left != b_left) or (right == end and a_right != b_right)
            or (left == end and a_left != b_right) or (right == begin and a_right != b_left)):
        return _of_odd(a, b, keep)
    found: list[Span] = []
    if keep is _FIRST_ALONE:
        if end <= left or right <= begin:
            found.append(a)
        else:
            if left < begin:
                found.append(_span((a_left, b_left, a[2], b[2])))
            if end < right:
                found.append(_span((b_right, a_right, b[3], a[3])))
    elif keep is _BOTH:
        if begin < right and left < end:
            first, last = a if left > begin else b, a if right < end else b
            found.append(_span((first[0], last[1], first[2], last[3])))
    elif right < begin or end < left:
        found += (a, b) if right < begin else (b, a)
    else:
        first, last = a if left < begin else b, a if right > end else b
        found.append(_span((first[0], last[1], first[2], last[3])))
    return tuple([span for span in found if not _is_sliver(span)])


def _of_odd(a: Span, b: Span, keep: _Kept) -> tuple[Span, ...]:
    """The same where one of them has no width half-way up, or edges cross there."""
    left, right = (a[0] + a[2], a[0], a[2]), (a[1] + a[3], a[1], a[3])
    begin, end = (b[0] + b[2], b[0], b[2]), (b[1] + b[3], b[1], b[3])
    if not left < right or not begin < end:
        found = [(left, right)] if keep[2] and left < right else [(begin, end)] if keep[1] and begin < end else []
    elif keep is _BOTH:
        found = [(max(left, begin), min(right, end))]
    elif keep is _FIRST_ALONE:
        found = [(left, min(right, begin)), (max(left, end), right)]
    elif right < begin or end < left:
        found = [(left, right), (begin, end)] if right < begin else [(begin, end), (left, right)]
    else:
        found = [(min(left, begin), max(right, end))]
    spans = [_span((low[1], high[1], low[2], high[2])) for low, high in found if low < high]
    return tuple([span for span in spans if not _is_sliver(span)])


def _is_sliver(s: Span) -> bool:
    left, right, left_high, right_high = s
    return right - left <= _SLIVER and right_high - left_high <= _SLIVER and (left != left_high or right != right_high)


def _stack(slabs: list[Slab], top: Slab) -> None:
    """Put a slab on top, joined with the one below where their edges run on straight."""
    if slabs and slabs[-1][1] == top[0] and (whole := _joined(slabs[-1], top)):
        slabs[-1] = whole
    else:
        slabs.append(top)


def _joined(below: Slab, above: Slab) -> Slab | None:
    """Two slabs as one, where no edge bends between them by more than rounding does."""
    under, over = below[2], above[2]
    if len(under) != len(over):
        return None
    if len(under) == 1 and not _may_run_on(under[0], over[0]):  # told of most
        return None
    if under == over and not _slanted(over):
        return _slab((below[0], above[1], over))
    if not _slanted(under) or not _slanted(over):
        return None
    for a, b in zip(under, over, strict=True):
        if abs(a[2] - b[0]) > 1 or abs(a[3] - b[1]) > 1:
            return None
        for side in (0, 1):
            if abs(along(a[side], b[side + 2], below[0], above[1], below[1]) - a[side + 2]) > 1:
                return None
    return _slab((below[0], above[1], tuple([_span((a[0], a[1], b[2], b[3]))
                                             for a, b in zip(under, over, strict=True)])))


def _may_run_on(below: Span, above: Span) -> bool:
    """Whether the ends of one span lie where the other's do, to a nanometre."""
    return -1 <= below[2] - above[0] <= 1 and -1 <= below[3] - above[1] <= 1

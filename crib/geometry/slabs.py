"""What two rows of slabs hold between them: at each height spans whose ends run straight from bottom to top.

Boxes stay exact; where edges slant, crossings are rounded to the nanometre.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial
from itertools import pairwise

from crib.light.tuples import NamedTuple

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


def along(at_low: int, at_high: int, low: int, high: int, z: int) -> int:
    """Where a straight edge between two heights stands at a third, to the nearest nanometre."""
    if at_low == at_high:
        return at_low
    return at_low + (2 * (at_high - at_low) * (z - low) + (high - low)) // (2 * (high - low))


_Edge = tuple[int, int, int, int, int]
"""Twice the middle x, x at low, x at high, +1 opens or -1 closes, 2 of the first region or 1 of the second."""

EITHER, BOTH, FIRST_ALONE = (False, True, True, True), (False, False, False, True), (False, False, True, False)
"""What is kept: where neither region is, where the second alone is, where the first alone is, where both are."""

Kept = tuple[bool, bool, bool, bool]


def combined(a: Sequence[Slab], b: Sequence[Slab], keep: Kept) -> tuple[Slab, ...]:
    """What is kept of two regions' slabs, each from the lowest up."""
    slabs: list[Slab] = []
    i, j, many, more = 0, 0, len(a), len(b)
    heights = {slab[0] for slab in a}
    heights.update([slab[1] for slab in a], [slab[0] for slab in b], [slab[1] for slab in b])
    for low, high in pairwise(sorted(heights)):
        while i < many and a[i][1] <= low:
            i += 1
        while j < more and b[j][1] <= low:
            j += 1
        p = a[i] if i < many and a[i][0] < high else None
        q = b[j] if j < more and b[j][0] < high else None
        if p and q:
            _stack_both(slabs, p, q, low, high, keep)
        elif alone := (p if keep[2] else None) or (q if keep[1] else None):
            stack(slabs, _slab((low, high, _piece(alone, low, high))))
    return tuple(slabs)


def _stack_both(slabs: list[Slab], p: Slab, q: Slab, low: int, high: int, keep: Kept) -> None:
    """Put what is kept of two slabs between two heights inside both on top, in slabs between those at which their edges
    cross."""
    in_p, in_q = _piece(p, low, high), _piece(q, low, high)
    crossings = _crossings(in_p, in_q, low, high)
    if not crossings:
        if spans := _merge(in_p, in_q, keep):
            stack(slabs, _slab((low, high, spans)))
        return
    for begin, end in pairwise((low, *sorted(crossings), high)):
        if spans := _merge(_piece(p, begin, end), _piece(q, begin, end), keep):
            stack(slabs, _slab((begin, end, spans)))


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


def _merge(a: tuple[Span, ...], b: tuple[Span, ...], keep: Kept) -> tuple[Span, ...]:
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


def _of_two(a: Span, b: Span, keep: Kept) -> tuple[Span, ...]:
    """The same of one span and one, as most are. Ends are in the order of their middles; twice these tell it but where
    two that differ have one middle."""
    (a_left, a_right, _, _), (b_left, b_right, _, _) = a, b
    left, right, begin, end = a_left + a[2], a_right + a[3], b_left + b[2], b_right + b[3]
    if (left >= right or begin >= end or (left == begin and a_left != b_left) or (right == end and a_right != b_right)
            or (left == end and a_left != b_right) or (right == begin and a_right != b_left)):
        return _of_odd(a, b, keep)
    found: list[Span] = []
    if keep is FIRST_ALONE:
        if end <= left or right <= begin:
            found.append(a)
        else:
            if left < begin:
                found.append(_span((a_left, b_left, a[2], b[2])))
            if end < right:
                found.append(_span((b_right, a_right, b[3], a[3])))
    elif keep is BOTH:
        if begin < right and left < end:
            first, last = a if left > begin else b, a if right < end else b
            found.append(_span((first[0], last[1], first[2], last[3])))
    elif right < begin or end < left:
        found += (a, b) if right < begin else (b, a)
    else:
        first, last = a if left < begin else b, a if right > end else b
        found.append(_span((first[0], last[1], first[2], last[3])))
    return tuple([span for span in found if not _is_sliver(span)])


def _of_odd(a: Span, b: Span, keep: Kept) -> tuple[Span, ...]:
    """The same where one of them has no width half-way up, or edges cross there."""
    left, right = (a[0] + a[2], a[0], a[2]), (a[1] + a[3], a[1], a[3])
    begin, end = (b[0] + b[2], b[0], b[2]), (b[1] + b[3], b[1], b[3])
    if not left < right or not begin < end:
        found = [(left, right)] if keep[2] and left < right else [(begin, end)] if keep[1] and begin < end else []
    elif keep is BOTH:
        found = [(max(left, begin), min(right, end))]
    elif keep is FIRST_ALONE:
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


def stack(slabs: list[Slab], top: Slab) -> None:
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

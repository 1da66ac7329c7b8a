"""Regions add, meet and take away as sets of points do, slanted edges included.

Where edges slant, crossings are rounded to the nanometre: points nearer than that to an edge are not asked about.
"""

from __future__ import annotations

import numpy as np
from hypothesis import event, given, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from crib.geometry.faces import FINE
from crib.geometry.farthest import farthest
from crib.geometry.region import Region, box, trapezoid, union
from crib.geometry.slabs import BOTH, EITHER, FIRST_ALONE, Span, _of_odd, _of_two

AT = st.integers(-1_000_000, 1_000_000)
STEEPEST = 3


@st.composite
def pieces(draw: st.DrawFn) -> tuple[int, int, int, int, int, int]:
    """A trapezoid: low, high, left and right at its low and at its high edge, no edge flatter than 1 in 3."""
    low = draw(AT)
    high = low + draw(st.integers(1, 600_000))
    lean = st.integers(-STEEPEST * (high - low), STEEPEST * (high - low)) if draw(st.booleans()) else st.just(0)
    left = draw(AT)
    right = left + draw(st.integers(1, 800_000))
    left_high, right_high = left + draw(lean), right + draw(lean)
    if right_high < left_high:
        left_high = right_high = (left_high + right_high) // 2
        left_high = min(max(left_high, left - STEEPEST * (high - low)), left + STEEPEST * (high - low))
        right_high = left_high
    return low, high, left, right, left_high, right_high


Piece = tuple[int, int, int, int, int, int]
SOME = st.lists(pieces(), max_size=4)


def region(some: list[Piece]) -> Region:
    return union(trapezoid(*piece) for piece in some)


def holds(some: list[Piece], x: int, z: int) -> bool | None:
    """Whether a point is in any of the pieces; None where it is too near an edge to say."""
    inside = False
    for low, high, left, right, left_high, right_high in some:
        if min(abs(z - low), abs(z - high)) <= 6 and low - 6 <= z <= high + 6:
            return None
        if not low < z < high:
            continue
        share = (z - low) / (high - low)
        a, b = left + (left_high - left) * share, right + (right_high - right) * share
        if min(abs(x - a), abs(x - b)) <= 30:
            return None
        inside |= a < x < b
    return inside


def has(some: Region, x: int, z: int) -> bool:
    return any(left <= x < right for left, right in some.spans_at(z))


@settings(max_examples=400)
@given(SOME, SOME, st.lists(st.tuples(AT, AT), min_size=20, max_size=60))
def test_as_points(a: list[Piece], b: list[Piece], points: list[tuple[int, int]]) -> None:
    """Or, and, less: what each says of a point follows from what the two say of it."""
    p, q = region(a), region(b)
    both, either, less = p & q, p | q, p - q
    corners = [(x + dx, z) for low, high, left, right, lh, rh in (*a, *b)
               for x, z in (((left + lh) // 2, (low + high) // 2), ((right + rh) // 2, (low + high) // 2))
               for dx in (-50, 50)]
    for x, z in (*points, *corners):
        in_a, in_b = holds(a, x, z), holds(b, x, z)
        if in_a is None or in_b is None:
            continue
        assert has(p, x, z) == in_a and has(q, x, z) == in_b
        assert has(either, x, z) == (in_a or in_b)
        assert has(both, x, z) == (in_a and in_b)
        assert has(less, x, z) == (in_a and not in_b)


BOXES = st.lists(st.tuples(AT, AT, AT, AT), max_size=5).map(
    lambda some: union(box(min(a, c), min(b, d), max(a, c), max(b, d)) for a, b, c, d in some))


@settings(max_examples=300)
@given(BOXES, BOXES, BOXES)
def test_laws_of_boxes(a: Region, b: Region, c: Region) -> None:
    """Exact: the laws of sets, and areas that add up."""
    assert a | b == b | a and a & b == b & a
    assert (a | b) | c == a | (b | c) and (a & b) & c == a & (b & c)
    assert a & (b | c) == (a & b) | (a & c)
    assert a - b - c == a - (b | c) and a - (a - b) == a & b
    assert not a - a and a | a == a == a & a
    assert (a | b).area + (a & b).area == a.area + b.area
    assert (a - b).area + (a & b).area == a.area


@settings(max_examples=300)
@given(SOME, SOME)
def test_areas_of_slanted_edges(a: list[Piece], b: list[Piece]) -> None:
    """To what rounding crossings to the nanometre can come to: a few nanometres along every edge."""
    p, q = region(a), region(b)
    spare = 2 * 60 * sum(4 * (piece[1] - piece[0]) + 4 * 1_000_000 for piece in (*a, *b))
    assert abs((p | q).area + (p & q).area - p.area - q.area) <= spare
    assert abs((p - q).area + (p & q).area - p.area) <= spare


LATTICE = 16
"""Into so many steps each side of a piece is divided."""


def lattice(piece: Piece) -> tuple[NDArray[np.float64], float]:
    """Points all over a piece, its corners among them, and how far any other point of it is from one at the most."""
    low, high, left, right, left_high, right_high = piece
    up, across = (one.ravel() for one in np.meshgrid(*(np.linspace(0.0, 1.0, LATTICE + 1),) * 2))
    a, b = left + (left_high - left) * up, right + (right_high - right) * up
    step = max(right - left, right_high - left_high), high - low, max(abs(left_high - left), abs(right_high - right))
    return np.stack([a + (b - a) * across, low + (high - low) * up], 1), float(
        np.hypot(step[0] + step[2], step[1]) / LATTICE)


def off(piece: Piece, at: NDArray[np.float64]) -> NDArray[np.float64]:
    """How far points are from a piece: nothing within its four sides, else from the nearest of these."""
    low, high, left, right, left_high, right_high = piece
    corners = np.array([(left, low), (right, low), (right_high, high), (left_high, high)], dtype=float)
    inside, nearest = np.ones(len(at), dtype=bool), np.full(len(at), np.inf)
    for start, end in zip(corners, np.roll(corners, -1, axis=0), strict=True):
        way, there = end - start, at - start
        inside &= way[0] * there[:, 1] - way[1] * there[:, 0] >= 0
        share = np.clip(there @ way / max(float(way @ way), 1.0), 0.0, 1.0)
        nearest = np.minimum(nearest, np.hypot(*(there - share[:, None] * way).T))
    return np.where(inside, 0.0, nearest)


@settings(max_examples=150)
@given(SOME, SOME)
def test_how_far_one_reaches_from_another(some: list[Piece], others: list[Piece]) -> None:
    """The greatest of the least distances, as points all over the pieces have them."""
    told = farthest(region(some), region(others))
    if not some or not others:
        assert told == (2**62 if some else 0)
        return
    reached, between = 0.0, 0.0
    for piece in some:
        at, apart = lattice(piece)
        here = float(np.min([off(other, at) for other in others], axis=0).max())
        reached, between = max(reached, here), max(between, here + apart)
    event("reaches out" if reached else "lies within")
    assert reached - 60 <= told <= between + max(FINE, between / 1000) + 60


ENDS = st.integers(-6, 6)
SPANS = st.builds(Span, ENDS, ENDS, ENDS, ENDS)


@settings(max_examples=400)
@given(SPANS, SPANS, st.sampled_from((EITHER, BOTH, FIRST_ALONE)))
def test_two_spans_are_combined_by_their_middles_as_by_all_their_ends(one: Span, other: Span,
                                                                     keep: tuple[bool, bool, bool, bool]) -> None:
    """Ties, crossed ends and spans of no width among them; widened, as what is a few nanometres wide is left out."""
    wide = [Span(*(100 * end for end in span)) for span in (one, other)]
    assert _of_two(*wide, keep) == _of_odd(*wide, keep)

"""Turning a section loses nothing, adds nothing, and turned back it is the same."""

from __future__ import annotations

from math import cos, hypot, radians, sin

from hypothesis import given
from hypothesis import strategies as st

from crib.geometry.outline import Box, Face, Opening, Outline, Room, Waiver
from crib.geometry.region import Region, box, trapezoid, union
from crib.geometry.rotate import laid_over, mapped, turned
from tests.property.test_region import SOME, Piece, has, region

ANGLES = st.one_of(st.sampled_from([0, 90, 180, 270, -90, 45, 30, 60]), st.floats(-180, 180, width=32))
BOXES = st.lists(st.tuples(*[st.integers(-10**6, 10**6)] * 4).filter(lambda b: b[0] < b[2] and b[1] < b[3]), max_size=4)


def corners(some: Region) -> list[tuple[int, int]]:
    return [(x, z) for slab in some.slabs for s in slab.spans
            for x, z in ((s[0], slab.low), (s[1], slab.low), (s[2], slab.high), (s[3], slab.high))]


def girth(some: Region) -> int:
    """A length that the edges of a region don't exceed."""
    return sum(slab.high - slab.low + sum(s[1] - s[0] + s[3] - s[2] for s in slab.spans) for slab in some.slabs) * 4


@given(SOME, ANGLES)
def test_area_is_kept(some: list[Piece], degrees: float) -> None:
    """Rounding moves an edge by no more than a nanometre at its ends, and one where another corner's height cuts it."""
    was = region(some)
    now = turned(was, degrees)
    assert abs(now.area - was.area) <= 2 * 2 * girth(was) + 4 * girth(now)


@given(SOME, st.sampled_from([0, 90, 180, 270, -90, 360]))
def test_a_quarter_is_exact(some: list[Piece], degrees: int) -> None:
    """Area to the last square nanometre, and four quarters are none: of boxes to the letter."""
    boxes = union(box(p[2], p[0], p[3], p[1]) for p in some)
    assert turned(boxes, degrees).area == boxes.area
    assert turned(turned(boxes, degrees), -degrees) == boxes


@given(SOME, ANGLES)
def test_turned_back_it_is_the_same(some: list[Piece], degrees: float) -> None:
    """Nothing of either lies outside the other by more than two nanometres, but for what rounding adds where an edge is
    cut at the height of another's corner: no sliver is left that is wider than that."""
    was = region(some)
    back = turned(turned(was, degrees), -degrees)
    for a, b in ((was, back), (back, was)):
        for slab in (a - b).slabs:
            for s in slab.spans:
                across = max(s.right_low - s.left_low, s.right_high - s.left_high)
                assert min(slab.high - slab.low, across) <= 2, (slab.low, slab.high, s)


@given(SOME, ANGLES, st.lists(st.tuples(st.integers(-10**6, 10**6), st.integers(-10**6, 10**6)), max_size=20))
def test_points_go_along(some: list[Piece], degrees: float, points: list[tuple[int, int]]) -> None:
    """A point that is well inside or outside is so after turning: sines and cosines of the standard library."""
    was = region(some)
    now = turned(was, degrees)
    c, s = cos(radians(degrees)), sin(radians(degrees))
    for x, z in points:
        near = [has(was, x + dx, z + dz) for dx in (-40, 0, 40) for dz in (-40, 0, 40)]
        if len(set(near)) == 1:
            assert has(now, round(x * c - z * s), round(x * s + z * c)) == near[0]


@given(BOXES, st.integers(-99, 99), st.integers(-99, 99))
def test_laid_over_twice_is_the_same(boxes: list[tuple[int, int, int, int]], dx: int, dz: int) -> None:
    """A whole outline: regions, rooms with the names of their sides, faces, what an owner may let stand."""
    some = union(box(*one) for one in boxes)
    room = Box(-5, -9, 7, 3)
    was = Outline(
        some | room.region, room.region, room.region, room.region,
        (Room("room", room, room, room, frozenset({Opening.TOP, Opening.LEFT})),),
        (Face("wall", True, 1, 7, 6, 8, -9, 3), Face("floor", False, -1, -9, -8, -10, -5, 7)),
        (Waiver("corner", trapezoid(-9, -6, -5, -2, -5, -5)),), some,
    )
    laid = laid_over(was, dx, dz)
    assert laid_over(laid, -dz, -dx) == was
    assert laid.stock.area == was.stock.area
    assert laid.rooms[0].open == {Opening.RIGHT, Opening.BOTTOM}
    assert laid.faces[0] == Face("wall", False, 1, 7 + dz, 6 + dz, 8 + dz, -9 + dx, 3 + dx)


def test_neighbours_stay_neighbours() -> None:
    """Pieces that share edges, one of them with a corner in the middle of the other's: after turning by an angle
    nothing lies between them and nothing twice."""
    low, high = trapezoid(0, 1000, 0, 3000, 0, 3000), trapezoid(1000, 2500, 700, 1900, 400, 2600)
    both = turned(low | high, 33.3)
    parts = turned(low, 33.3), turned(high, 33.3)
    assert all(hypot(*corner) <= hypot(3000, 2500) + 2 for corner in corners(both))
    assert abs(both.area - (parts[0].area + parts[1].area)) <= 4 * 10_000
    holes = (parts[0] | parts[1]) - both
    assert all(min(slab.high - slab.low, s.right_low - s.left_low) <= 2 for slab in holes.slabs for s in slab.spans)


def test_nothing_moved_is_the_same() -> None:
    some = union([trapezoid(-7, 5, -3, 8, 0, 2), box(20, -4, 30, 9)])
    assert mapped(some, lambda point: point).area == some.area
    assert turned(Region(), 45) == Region()

"""Turning a section: by a quarter with its sides changed over, which is exact, or by any angle, each corner rounded
once to the nanometre.

A corner that several pieces share comes out the same for all of them, so that no sliver is left between them.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator
from itertools import pairwise
from math import cos, radians, sin

from crib.geometry.outline import Box, Face, Opening, Outline, Room, Waiver
from crib.geometry.region import Region, pile
from crib.geometry.slabs import Slab, Span, along

Point = tuple[int, int]
Move = Callable[[Point], Point]

_CHANGED = {Opening.TOP: Opening.RIGHT, Opening.RIGHT: Opening.TOP, Opening.LEFT: Opening.BOTTOM,
            Opening.BOTTOM: Opening.LEFT}


def laid_over(outline: Outline, dx: int = 0, dz: int = 0) -> Outline:
    """An outline with x and z changed over: what was its top is its right, what was its right its top; then moved by dx
    and dz. Exact; done twice without moving it gives the same again.

    >>> from crib.geometry.region import box
    >>> room = Box(-3, -9, 3, 0)
    >>> one = Room("room", room, room, room, frozenset({Opening.TOP}))
    >>> [laid] = laid_over(Outline(box(-99, -99, 99, 0), *[box(*room)] * 3, (one,))).rooms
    >>> laid.least, laid.opens(Opening.RIGHT), laid.opens(Opening.TOP)
    (Box(left=-9, low=-3, right=0, high=3), True, False)
    """

    def move(point: Point) -> Point:
        return point[1] + dx, point[0] + dz

    def moved(region: Region) -> Region:
        return mapped(region, move)

    return Outline(
        stock=moved(outline.stock),
        least=moved(outline.least),
        aim=moved(outline.aim),
        most=moved(outline.most),
        rooms=tuple(_room(room, dx, dz) for room in outline.rooms),
        faces=tuple(_face(face, dx, dz) for face in outline.faces),
        waivers=tuple(Waiver(waiver.name, moved(waiver.region)) for waiver in outline.waivers),
        obstacles=moved(outline.obstacles),
    )


def turned(region: Region, degrees: float) -> Region:
    """A region turned anticlockwise about the origin, its corners rounded to the nanometre.

    >>> from crib.geometry.region import box
    >>> turned(box(0, 0, 4, 2), 90) == box(-2, 0, 0, 4)
    True
    """
    quarter = round(degrees / 90)
    if quarter * 90 == degrees:
        c, s = ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[quarter % 4]
    else:
        c, s = cos(radians(degrees)), sin(radians(degrees))
    return mapped(region, lambda p: (round(p[0] * c - p[1] * s), round(p[0] * s + p[1] * c)))


def mapped(region: Region, move: Move) -> Region:
    """A region with each of its corners moved, by a motion that keeps straight lines straight."""
    edges: Counter[tuple[Point, Point]] = Counter()
    for loop in _loops(region):
        for a, b in pairwise((*loop, loop[0])):
            if edges[b, a] > 0:
                edges[b, a] -= 1
            else:
                edges[a, b] += 1
    return _within([(move(a), move(b)) for (a, b), count in edges.items() for _ in range(count)])


def _room(room: Room, dx: int, dz: int) -> Room:
    sides = frozenset(_CHANGED[side] for side in room.open)
    least, aim, most = (Box(b.low + dx, b.left + dz, b.high + dx, b.right + dz)
                        for b in (room.least, room.aim, room.most))
    return Room(room.name, least, aim, most, sides)


def _face(face: Face, dx: int, dz: int) -> Face:
    across, up = (dz, dx) if face.upright else (dx, dz)
    return Face(face.name, not face.upright, face.metal, face.aim + across, face.least + across, face.most + across,
                face.low + up, face.high + up)


def _loops(region: Region) -> Iterator[list[Point]]:
    """The pieces of a region by their corners, anticlockwise, with the corners of their neighbours on their level
    edges."""
    at: dict[int, set[int]] = {}
    for slab in region.slabs:
        at.setdefault(slab.low, set()).update(x for s in slab.spans for x in (s.left_low, s.right_low))
        at.setdefault(slab.high, set()).update(x for s in slab.spans for x in (s.left_high, s.right_high))
    for slab in region.slabs:
        for s in slab.spans:
            below = sorted(x for x in at[slab.low] if s.left_low <= x <= s.right_low)
            above = sorted((x for x in at[slab.high] if s.left_high <= x <= s.right_high), reverse=True)
            yield [*((x, slab.low) for x in below), *((x, slab.high) for x in above)]


def _within(edges: list[tuple[Point, Point]]) -> Region:
    """What directed edges that close into loops go round."""
    rising = [(a, b, 1) if a[1] < b[1] else (b, a, -1) for a, b in edges if a[1] != b[1]]
    slabs = []
    for low, high in pairwise(sorted({p[1] for a, b, _ in rising for p in (a, b)})):
        here = sorted(
            (x_low + x_high, x_low, x_high, way)
            for a, b, way in rising
            if a[1] <= low and b[1] >= high
            for x_low, x_high in [tuple(along(a[0], b[0], a[1], b[1], z) for z in (low, high))]
        )
        slabs.append(Slab(low, high, tuple(_spans(here))))
    return pile(slab for slab in slabs if slab.spans)


def _spans(edges: list[tuple[int, int, int, int]]) -> Iterator[Span]:
    """The intervals that edges open and close, from left to right; those that came to nothing left out."""
    depth, start = 0, edges[0] if edges else (0, 0, 0, 0)
    for edge in edges:
        if depth == 0:
            start = edge
        depth += edge[3]
        if depth == 0 and (edge[1] > start[1] or edge[2] > start[2]):
            yield Span(start[1], edge[1], start[2], edge[2])

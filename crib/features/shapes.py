"""Pieces that outlines are made of; millimetres in, whole nanometres out."""

from __future__ import annotations

from itertools import pairwise

from crib.features.request import Request
from crib.geometry.arcs import quarter
from crib.geometry.outline import Box, Face, Opening, Room, Waiver
from crib.geometry.region import FAR, Region, box, pile, trapezoid, union
from crib.geometry.slabs import Slab
from crib.units import Size, nm


def metal(request: Request, deepest: float, right: int = FAR) -> Region:
    """The work before: below the surface, down to its underside where that is known, up to its edge on the right."""
    low = -FAR if request.below is None else -nm(deepest + request.below)
    return box(-FAR, low, right, 0)


def bar(radius: int, x: int, z: int) -> Region:
    """A round bar along the feed, its middle at a place [nm]."""
    pieces = []
    for (one, low), (other, high) in pairwise(quarter(radius)):
        if high > low:
            pieces.append(trapezoid(z + low - radius, z + high - radius, x - one, x + one, x - other, x + other))
            pieces.append(trapezoid(z + radius - high, z + radius - low, x - other, x + other, x - one, x + one))
    return union(pieces)


def walls(request: Request) -> Region:
    """What stands beside the feature, as far as it is known: from its near face outwards, on the side it is on."""
    return union(
        box(nm(wall.distance), 0, FAR, nm(wall.height)) if wall.distance >= 0 else
        box(-FAR, 0, nm(wall.distance), nm(wall.height))
        for wall in request.walls
    )


def upright_pair(name: str, size: Size, low: int, high: int) -> tuple[Face, Face]:
    """The back and the front wall of something centred that is as wide as a size says."""
    aim, least, most = nm(size.mid / 2), nm(size.lo / 2), nm(size.hi / 2)
    return (
        Face(f"{name} back wall", True, 1, aim, least, most, low, high),
        Face(f"{name} front wall", True, -1, -aim, -least, -most, low, high),
    )


def floor(name: str, size: Size, left: int, right: int) -> Face:
    """A floor below the surface."""
    return Face(name, False, -1, -nm(size.mid), -nm(size.lo), -nm(size.hi), left, right)


def fillet(x: int, z: int, radius: int, side: int) -> Region:
    """The metal between a sharp floor corner and a rounded one. `side`: +1 for a corner whose wall is on the right."""
    pieces = list[Slab]()
    for (out_low, low), (out_high, high) in pairwise(quarter(radius)):
        if high > low:
            inner = (x - side * (radius - out_low), x - side * (radius - out_high))
            ends = (inner[0], x, inner[1], x) if side > 0 else (x, inner[0], x, inner[1])
            pieces += trapezoid(z + low, z + high, *ends).slabs
    return pile(pieces)


def floor_corners(least: Box, allowed: float, sides: tuple[int, ...]) -> tuple[Region, tuple[Waiver, ...]]:
    """What a floor radius that the drawing allows may leave, and what more an owner might let stand: a radius up to a
    quarter of the lesser of width and depth."""
    corners = [(least.right if side > 0 else least.left, side) for side in sides]
    radius = floor_radius_between(allowed, least.width) if len(sides) > 1 else nm(allowed)
    may = union(fillet(x, least.low, radius, side) for x, side in corners) if radius > 0 else Region()
    limit = min(least.width, least.height) // 4
    if limit <= radius:
        return may, ()
    return may, (Waiver("floor corner", union(fillet(x, least.low, limit, side) for x, side in corners)),)


def floor_radius_between(allowed: float, width: int) -> int:
    """A floor radius that is allowed between two walls [mm] so far apart, as far as there is room for it: no cutter
    that goes between them leaves one of more than half of that.

    >>> floor_radius_between(2.0, 10_000_000), floor_radius_between(6.0, 10_000_000)
    (2000000, 5000000)
    """
    return min(nm(allowed), width // 2)


def centred(size: float, low: int, high: int) -> Box:
    """A box about the centre line."""
    return Box(-nm(size / 2), low, nm(size / 2), high)


def centred_room(name: str, width: Size, lows: tuple[int, int, int], highs: tuple[int, int, int],
                 open_sides: frozenset[Opening]) -> Room:
    """A room about the centre line; lows and highs for least, aim and most."""
    return Room(
        name,
        centred(width.lo, lows[0], highs[0]),
        centred(width.mid, lows[1], highs[1]),
        centred(width.hi, lows[2], highs[2]),
        open_sides,
    )

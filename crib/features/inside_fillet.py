"""An inside fillet, or cove: a step whose wall runs into its floor on a radius; without a width and a depth only the
quarter round itself, cut out of the edge. x counts from the finished wall outwards."""

from __future__ import annotations

from collections.abc import Iterator

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, SizeSpec, refuse
from crib.features.request import Request
from crib.features.shapes import fillet, floor, metal, walls
from crib.features.speech import Speech
from crib.geometry.outline import Box, Face, Opening, Outline, Room
from crib.geometry.region import Region
from crib.light.records import replace
from crib.units import Size, nm

_LEAST_MM = 0.25
"""A step so much wider than its fillet is one for a square mill first [mm]."""


def draw(request: Request) -> Feature:
    """A rectangle from the edge in and from the surface down, less what the round leaves in its corner."""
    radius = request.size("radius")
    width, depth = (request.sizes.get(key, radius) for key in ("width", "depth"))
    for size, name in ((width, "wide"), (depth, "deep")):
        if size.mid < radius.mid - 1e-6:
            raise refuse(f"a fillet of {radius.text} doesn't go into a step {size.text} {name}", size.text,
                         f"at least {radius.text}, or a smaller radius")
    edge = nm(width.mid)
    least, aim, most = (Box(edge - nm(wide), -nm(deep), edge, 0) for wide, deep in (
        (width.lo, depth.lo), (width.mid, depth.mid), (width.hi, depth.hi)))
    outline = Outline(
        stock=metal(request, depth.hi, edge),
        least=_rounded(least, radius.hi),
        aim=_rounded(aim, radius.mid),
        most=_rounded(most, radius.lo),
        rooms=tuple(_rooms((least, aim, most), (nm(radius.lo), nm(radius.mid), nm(radius.hi)))),
        faces=tuple(_faces(depth, least, aim, most, nm(radius.hi))),
        obstacles=walls(request),
    )
    rooms = tuple(room.name for room in outline.rooms)
    return Feature(
        kind="inside-fillet",
        words="inside fillet",
        request=replace(request, floor_radius=radius.hi),
        outline=outline,
        dimensions=(
            Dimension("fillet radius", "corner", radius, (), rooms),
            *(_step_width(width, outline) if "width" in request.sizes else ()),
            *((Dimension("fillet step depth", "depth", depth, (), rooms),) if "depth" in request.sizes else ()),
        ),
        calls_for={"step": CallsFor(("end-mill",)),
                   "fillet": CallsFor(("end-mill", "form-cutter"), corner=(radius.lo, radius.hi))},
    )


def _step_width(width: Size, outline: Outline) -> Iterator[Dimension]:
    """Held by the wall where any of that is straight; else by nothing but the round."""
    walls = tuple(face.name for face in outline.faces if face.upright)
    yield Dimension("fillet step width", "width" if walls else "face", width, walls,
                    tuple(room.name for room in outline.rooms))


def _rooms(boxes: tuple[Box, Box, Box], hollow: tuple[int, int, int]) -> Iterator[Room]:
    """What lies outside of the fillet, where there is more than it, for a square mill; then the fillet's own width."""
    sides = frozenset({Opening.TOP, Opening.RIGHT})
    least, aim, most = boxes
    ends = aim.left + hollow[1]
    if aim.right - ends > nm(_LEAST_MM):
        yield Room("step", least._replace(left=ends), aim._replace(left=ends), most._replace(left=ends), sides,
                   hollow=hollow)
        least, aim, most = (one._replace(right=ends) for one in boxes)
    yield Room("fillet", least, aim, most, sides, hollow=hollow)


def _rounded(around: Box, radius_mm: float) -> Region:
    return around.region - fillet(around.left, around.low, nm(radius_mm), -1)


def _faces(depth: Size, least: Box, aim: Box, most: Box, radius: int) -> Iterator[Face]:
    """What of the wall and the floor is straight."""
    if least.height > radius:
        yield Face("fillet wall", True, -1, aim.left, least.left, most.left, least.low + radius, 0)
    if least.width > radius:
        yield floor("floor", depth, least.left + radius, aim.right)


KIND = FeatureKind(
    name="inside-fillet",
    words="an inside fillet, or cove",
    sizes=(
        SizeSpec("radius", "of the fillet"),
        SizeSpec("width", "from the edge in to the wall; the radius without it", "general", False),
        SizeSpec("depth", "from the surface to the floor; the radius without it", "general", False),
    ),
    draw=draw,
    ends=("open", "one"),
    example={"radius": "1/8", "width": "3/4", "depth": "1/4"},
    speech=Speech(names=("cove", "filleted step", "concave edge", "fillet"), order=("radius", "width", "depth")),
)

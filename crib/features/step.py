"""A step along an edge: a wall and a floor. x counts from the finished wall outwards."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, SizeSpec
from crib.features.request import Request
from crib.features.shapes import floor, floor_corners, metal, walls
from crib.features.speech import EDGE, Speech
from crib.geometry.outline import Box, Face, Opening, Outline, Room
from crib.units import nm


def draw(request: Request) -> Feature:
    """A rectangle from the surface down and from the edge in."""
    width, depth = request.size("width"), request.size("depth")
    edge = nm(width.mid)
    in_by = {"lo": edge - nm(width.lo), "mid": 0, "hi": edge - nm(width.hi)}
    least, aim, most = (
        Box(in_by[which], -nm(getattr(depth, which)), edge, 0) for which in ("lo", "mid", "hi")
    )
    room = Room("step", least, aim, most, frozenset({Opening.TOP, Opening.RIGHT}))
    fillets, waivers = floor_corners(least, request.floor_radius, (-1,))
    outline = Outline(
        stock=metal(request, depth.hi, edge),
        least=least.region - fillets,
        aim=aim.region,
        most=most.region,
        rooms=(room,),
        faces=(
            Face("step wall", True, -1, aim.left, least.left, most.left, least.low, 0),
            floor("floor", depth, least.left, edge),
        ),
        waivers=waivers,
        obstacles=walls(request),
    )
    return Feature(
        kind="step",
        words="step",
        request=request,
        outline=outline,
        dimensions=(
            Dimension("step width", "width", width, ("step wall",)),
            Dimension("step depth", "depth", depth, ("floor",)),
        ),
        calls_for={"step": CallsFor(("end-mill", "face-mill"))},
    )


KIND = FeatureKind(
    name="step",
    words="a step or shoulder along an edge",
    sizes=(SizeSpec("width", "from the edge in to the wall"), SizeSpec("depth", "from the surface to the floor")),
    draw=draw,
    ends=("open", "one"),
    set_ups=("upright", "on its side"),
    example={"width": "3/4", "depth": "1/4"},
    speech=Speech(
        names=("shoulder", "ledge", "rebate", "rabbet"),
        words={"width": ("from the edge", "in from the edge"), "depth": ("high", "tall", "height")},
        order=("width", "depth", "length"),
        idle=EDGE,
        common=("shoulder", "ledge"),
    ),
)

"""A slit: narrow and deep, sawn into a face of the work."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, SizeSpec
from crib.features.request import Request
from crib.features.shapes import centred_room, floor, floor_corners, metal, upright_pair, walls
from crib.features.speech import Speech
from crib.findings.message import InWords, said
from crib.geometry.outline import Opening, Outline
from crib.units import nm

EDGE_ASSUMED_MM = 25.4
"""How far the edge of the work is from the slit, where that wasn't given [mm]: what holds the cutter must clear it."""


def draw(request: Request) -> Feature:
    """A rectangle from the surface down, about its middle; the nearer edge of the work is on the right."""
    width, depth, edge = request.size("width"), request.size("depth"), request.sizes.get("edge")
    leaf = edge.hi if edge else EDGE_ASSUMED_MM
    lows = (-nm(depth.lo), -nm(depth.mid), -nm(depth.hi))
    room = centred_room("slit", width, lows, (0, 0, 0), frozenset({Opening.TOP}))
    fillets, waivers = floor_corners(room.least, request.floor_radius, (1, -1))
    outline = Outline(
        stock=metal(request, depth.hi, nm(width.hi / 2 + leaf)),
        least=room.least.region - fillets,
        aim=room.aim.region,
        most=room.most.region,
        rooms=(room,),
        faces=(
            *upright_pair("slit", width, room.least.low, 0),
            floor("floor", depth, room.least.left, room.least.right),
        ),
        waivers=waivers,
        obstacles=walls(request),
    )
    return Feature(
        kind="slit",
        words="slit",
        request=request,
        outline=outline,
        dimensions=(
            Dimension("slit width", "width", width, ("slit back wall", "slit front wall")),
            Dimension("slit depth", "depth", depth, ("floor",)),
        ),
        calls_for={"slit": CallsFor(("slitting-saw",), None, (width.lo, width.hi))},
        level=(edge.mid + width.mid / 2, "below the near edge, which lies up") if edge else None,
        assumed=() if edge else (said("the edge of the work {leaf} from the slit: --edge says how far it is",
                                      leaf=InWords(leaf)),),
    )


KIND = FeatureKind(
    name="slit",
    words="a slit",
    sizes=(
        SizeSpec("width", "width of the slit"),
        SizeSpec("depth", "from the surface to its end"),
        SizeSpec("edge", "from the slit to the nearer edge of the work, beside it", "exact", False),
    ),
    draw=draw,
    set_ups=("on its side", "upright"),
    example={"width": "1/16", "depth": "3/8"},
    speech=Speech(
        names=("saw cut", "saw slot", "saw kerf", "sawn slot", "slitting cut", "slitting", "kerf"),
        words={
            "width": ("thick",),
            "edge": ("edge", "from the edge", "from edge", "to the edge"),
        },
        order=("width", "depth", "length"),
        common=("kerf",),
    ),
)

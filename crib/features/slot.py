"""A straight slot, open at the top."""

from __future__ import annotations

from crib.features.base import CLOSED_CORNER, CallsFor, Dimension, Feature, FeatureKind, SizeSpec, refuse
from crib.features.request import Request
from crib.features.shapes import centred_room, floor, floor_corners, metal, upright_pair, walls
from crib.features.speech import Speech
from crib.geometry.outline import Opening, Outline
from crib.geometry.region import FAR
from crib.units import Size, nm


def draw(request: Request) -> Feature:
    """A rectangle from the surface down, about the centre line."""
    width, depth, edge = request.size("width"), request.size("depth"), request.sizes.get("edge")
    _check(request, width)
    right = nm(width.hi / 2 + edge.hi) if edge else FAR
    lows = (-nm(depth.lo), -nm(depth.mid), -nm(depth.hi))
    room = centred_room("slot", width, lows, (0, 0, 0), frozenset({Opening.TOP}))
    fillets, waivers = floor_corners(room.least, request.floor_radius, (1, -1))
    outline = Outline(
        stock=metal(request, depth.hi, right),
        least=room.least.region - fillets,
        aim=room.aim.region,
        most=room.most.region,
        rooms=(room,),
        faces=(
            *upright_pair("slot", width, room.least.low, 0),
            floor("floor", depth, room.least.left, room.least.right),
        ),
        waivers=waivers,
        obstacles=walls(request),
    )
    return Feature(
        kind="slot",
        words="slot",
        request=request,
        outline=outline,
        dimensions=(
            Dimension("slot width", "width", width, ("slot back wall", "slot front wall")),
            Dimension("slot depth", "depth", depth, ("floor",)),
        ),
        calls_for={"slot": CallsFor(("end-mill",), (width.lo, width.hi))},
        kindest={"end-mill": {"diameter_mm": width.mid}},
        level=(edge.mid + width.mid / 2, "below the near edge, which lies up") if edge else None,
    )


def _check(request: Request, width: Size) -> None:
    """Raises `CribError` for corners where there are none, and for corners that none has."""
    corner = request.sizes.get(CLOSED_CORNER)
    if corner is None:
        return
    if request.ends != "one":
        asked = "closed at both ends it is a pocket: make pocket" if request.ends == "closed" else (
            "--ends one, and it has a closed end")
        raise refuse(f"a slot with ends '{request.ends}' has no corners of a closed end", corner.text, asked)
    from crib.features.closed import check_corner

    check_corner(corner, width, "width")


KIND = FeatureKind(
    name="slot",
    words="a straight slot",
    sizes=(
        SizeSpec("width", "width of the slot"),
        SizeSpec("depth", "from the surface to the floor"),
        SizeSpec("edge", "from the slot to the nearer edge of the work, beside it", "exact", False),
        SizeSpec(CLOSED_CORNER, "radius of the corners at its one closed end, at the most", "exact", False),
    ),
    draw=draw,
    ends=("open", "one", "closed"),
    set_ups=("upright", "on its side"),
    example={"width": "9/16+.002-0", "depth": "3/8"},
    mates="width",
    speech=Speech(
        names=("straight slot", "groove", "straight groove", "square groove", "channel", "milled slot"),
        common=("groove", "channel"),
        words={
            CLOSED_CORNER: ("radius in the corners", "corners at the closed end"),
            "edge": ("edge", "from the edge", "from edge", "to the edge", "from the near edge"),
        },
        order=("width", "depth", "length"),
    ),
)

"""A pocket: a rectangle with round corners, closed all round, down to a flat floor; without an island."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, OptionSpec, SizeSpec, refuse
from crib.features.closed import WAIVED, check_corner
from crib.features.request import Request
from crib.features.shapes import centred_room, floor, floor_corners, floor_radius_between, metal, upright_pair, walls
from crib.features.speech import Speech
from crib.geometry.layers import Corners, Ends, Layer, Layers
from crib.geometry.outline import Opening, Outline
from crib.geometry.rounded_box import oblong
from crib.units import Size, nm

ROUNDER = 1.5
"""An owner may let a corner be so many times as round as it is drawn. From memory."""


def draw(request: Request) -> Feature:
    """A rectangle about the centre line; its corners are drawn with the layers."""
    width, length, depth, corner = (request.size(key) for key in ("width", "length", "depth", "corner_radius"))
    _check(request, width, length, corner)
    lows = (-nm(depth.lo), -nm(depth.mid), -nm(depth.hi))
    room = centred_room("pocket", width, lows, (0, 0, 0), frozenset({Opening.TOP}))
    fillets, waivers = floor_corners(room.least, request.floor_radius, (1, -1))
    radius = min(corner.hi, width.lo / 2, length.lo / 2)
    return Feature(
        kind="pocket",
        words="pocket",
        request=request,
        outline=Outline(
            stock=metal(request, depth.hi),
            least=room.least.region - fillets,
            aim=room.aim.region,
            most=room.most.region,
            rooms=(room,),
            faces=(*upright_pair("pocket", width, room.least.low, 0),
                   floor("floor", depth, room.least.left, room.least.right)),
            waivers=waivers,
            obstacles=walls(request),
        ),
        dimensions=(
            Dimension("pocket width", "width", width, ("pocket back wall", "pocket front wall")),
            Dimension("pocket length", "length", length, ()),
            Dimension("pocket corner radius", "corner", corner, ()),
            Dimension("pocket depth", "depth", depth, ("floor",)),
        ),
        calls_for={"pocket": CallsFor(("end-mill",), (0.0, 2 * radius))},
        layers=_layers(request, width, length, depth, corner),
    )


def _layers(request: Request, width: Size, length: Size, depth: Size, corner: Size) -> Layers:
    """What it is from above: at the least with its roundest corners, at the most with its sharpest."""
    least_round, aim_round, most_round = (
        min(nm(radius), nm(min(wide, long)) // 2)
        for radius, wide, long in ((corner.lo, width.hi, length.hi), (corner.mid, width.mid, length.mid),
                                   (corner.hi, width.lo, length.lo)))
    narrow = nm(min(width.lo, length.lo))
    waived = max(most_round, min(round(ROUNDER * aim_round), narrow // 2))

    def layer(long: float, wide: float, deep: float, radius: int) -> Layer:
        return Layer(-nm(deep), 0, oblong(-nm(long / 2), nm(long / 2), nm(wide / 2), radius))

    fillet = min(nm(width.lo), nm(depth.lo)) // WAIVED
    return Layers(
        least=(layer(length.lo, width.lo, depth.lo, most_round),),
        most=(layer(length.hi, width.hi, depth.hi, least_round),),
        fillet=floor_radius_between(request.floor_radius, nm(min(width.lo, length.lo))),
        waived=fillet,
        ends={"pocket": Ends(-nm(length.mid / 2), nm(length.mid / 2), nm(length.lo), nm(length.hi))},
        corners={"pocket": Corners(least_round, aim_round, most_round, waived)},
        kept=(layer(length.lo, width.lo, depth.lo, waived),),
    )


def _check(request: Request, width: Size, length: Size, corner: Size) -> None:
    """Raises `CribError` for a corner that isn't one, one rounder than half the pocket, and for an island."""
    if request.said.get("islands", "none").lower() not in ("none", "no", "0"):
        raise refuse("a pocket with an island in it isn't reckoned", request.said["islands"],
                     "the channels round the island, each asked as a slot or a pocket")
    narrow, name = min((width, "width"), (length, "length"), key=lambda one: one[0].mid)
    check_corner(corner, narrow, name)


KIND = FeatureKind(
    name="pocket",
    words="a pocket",
    sizes=(
        SizeSpec("width", "across, from front to back"),
        SizeSpec("length", "along, from the left end to the right one"),
        SizeSpec("depth", "from the surface to the floor"),
        SizeSpec("corner_radius", "radius of its inside corners, seen from above"),
    ),
    draw=draw,
    ends=("closed",),
    other_ends="one that is open at a side is a slot with one closed end (make slot --ends one), its corners as round "
               "as the mill, or as --corner-radius lets them be",
    options=(OptionSpec("islands", "what stays standing inside: none is reckoned with"),),
    cautions=("chips stay in a pocket: stop the spindle and clear them, or they are cut again",),
    speech=Speech(
        names=("recess", "cavity"),
        words={"corner_radius": ("corners", "corner", "radius", "rad", "r", "corner radii", "radius in the corners",
                                 "radius corners", "corners radius", "in the corners")},
        order=("length", "width", "depth"),
        longer=("length", "width"),
    ),
    example={"width": "1-1/2", "length": "2-1/2", "depth": "1/2", "corner_radius": "1/4"},
)

"""An elongated hole: a slot with two round ends, through or to a depth; for a screw that is to be shifted."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, OptionSpec, SizeSpec, Standard, refuse
from crib.features.for_screws import FIT, FITTED, SCREW, elongated_for
from crib.features.request import Request
from crib.features.rounds import is_through
from crib.features.shapes import centred_room, floor, floor_corners, metal, upright_pair, walls
from crib.features.speech import Speech
from crib.geometry.outline import Opening, Outline
from crib.geometry.region import FAR, box
from crib.light.records import replace
from crib.units import Size, nm

PAST_MM, FREE_MM = 1.0, 5.0
"""How far a cutter goes past the underside, and how far it may [mm]. Common practice."""

_THROUGH = "nothing under a hole that goes through: parallels and table out of its way"


def draw(request: Request) -> Feature:
    """A rectangle about the centre line; its round ends are drawn with the layers."""
    width, depth, length = request.size("width"), request.size("depth"), request.size("length")
    if length.lo <= width.hi:
        raise refuse(f"an elongated hole {length.text} long and {width.text} wide is a round one", length.text,
                     "a length over both its round ends, more than its width")
    through = is_through(request)
    thick = depth.nominal
    deep = Size(thick, thick, thick + FREE_MM, depth.text, aim=thick + PAST_MM) if through else depth
    lows = (-nm(deep.lo), -nm(deep.mid), -nm(deep.hi))
    room = centred_room("hole", width, lows, (0, 0, 0), frozenset({Opening.TOP}))
    fillets, waivers = floor_corners(room.least, request.floor_radius, (1, -1))
    ground = box(-FAR, -nm(thick), FAR, 0) if through else metal(request, depth.hi)
    bottom = () if through else (floor("floor", depth, room.least.left, room.least.right),)
    held = () if through else (Dimension("depth", "depth", depth, ("floor",), ("hole",)),)
    return Feature(
        kind="elongated-hole",
        words="elongated hole",
        request=replace(request, ends="closed"),
        outline=Outline(
            stock=ground,
            least=room.least.region - fillets,
            aim=room.aim.region,
            most=room.most.region,
            rooms=(room,),
            faces=(*upright_pair("hole", width, room.least.low, 0), *bottom),
            waivers=() if through else waivers,
            obstacles=walls(request),
        ),
        dimensions=(Dimension("hole width", "width", width, ("hole back wall", "hole front wall")),
                    Dimension("hole length", "length", length, ()), *held),
        calls_for={"hole": CallsFor(("end-mill",), (width.lo, width.hi))},
        kindest={"end-mill": {"diameter_mm": width.mid}},
        exact=frozenset({"depth"}) if through else frozenset(),
        cautions=(_THROUGH,) if through else (),
    )


KIND = FeatureKind(
    name="elongated-hole",
    words="an elongated hole",
    sizes=(
        SizeSpec("width", "width of the hole"),
        SizeSpec("length", "from end to end, its round ends included"),
        SizeSpec("depth", "from the surface to the floor; the thickness with --through", "loose"),
    ),
    draw=draw,
    ends=("closed",),
    standards=(Standard("screw", "for a screw's clearance: #8, 1/4, M6", elongated_for),),
    options=(FIT, OptionSpec("through", "it goes through"),),
    example={"width": "9/32+.010-0", "length": "3/4", "depth": "3/8"},
    speech=Speech(
        names=("slotted hole", "oblong hole", "obround hole", "obround", "oval hole", "long hole", "oblong slot",
               "adjusting slot", "elongated slot"),
        words={"depth": ("thick", "thickness", "plate", "thick plate"),
               "length": ("over all", "overall", "end to end", "over the ends"),
               "screw": ("screws", "bolt", "machine screw", "cap screw")},
        order=("width", "length", "depth"),
        after={"screw": ("length", "depth")},
        longer=("length", "width"),
        forms={"screw": SCREW},
        tells=FITTED,
    ),
)

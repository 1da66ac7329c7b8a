"""A countersink: a cone at the mouth of a hole, for a flat head that lies flush."""

from __future__ import annotations

from math import radians, tan

from crib.features.base import AngleSpec, CallsFor, Dimension, Feature, FeatureKind, SizeSpec, Standard, refuse
from crib.features.down import OVER_THE_HOLE, Countersink
from crib.features.for_screws import FIT, FITTED, HEAD, SCREW, countersink_angle, countersink_for
from crib.features.request import Request
from crib.features.rounds import hole_there, metal, rod, room
from crib.features.speech import Speech
from crib.geometry.axis_view import disc
from crib.geometry.outline import Outline
from crib.geometry.region import FAR, Region
from crib.handbook.points import countersink_travel
from crib.units import Size, nm

SQUARE_DEG, ANY_DEG = 1.0, 10.0
"""How far the cutter's angle may be off and count as the head's; and off at all: then the head bears on one edge of its
seat alone [deg]. Common practice."""


def cone(rim_mm: float, angle_deg: float) -> Region:
    """A cone from its rim at the surface down to its point."""
    half = nm(rim_mm / 2)
    return disc(-round(half / tan(radians(angle_deg) / 2)), 0, 0, half)


def draw(request: Request) -> Feature:
    """A cone down to the hole; a blunter or a sharper one within reason takes no more than may go."""
    diameter, hole, angle = request.size("diameter"), hole_there(request), request.angle().deg
    assert hole is not None
    if not 40 <= angle <= 130:
        raise refuse(f"a countersink of {angle:g} degrees is none", f"{angle:g}", "between both sides: 82, 90, 100")
    if hole.hi >= diameter.lo:
        raise refuse(f"the countersink, {diameter.text}, is no wider than its hole, {hole.text}", diameter.text,
                     f"a diameter above {hole.text}, tolerances included")
    deep = countersink_travel(diameter.mid, hole.mid, angle)
    through = rod(hole.mid, FAR / 1e6)
    as_deep = Size(deep, deep, deep, "")
    outline = Outline(
        stock=metal(request, deep) - through,
        least=cone(diameter.lo, angle + ANY_DEG) - through,
        aim=cone(diameter.mid, angle),
        most=cone(diameter.hi, angle - ANY_DEG) | through,
        rooms=(room("countersink", diameter, as_deep),),
    )
    return Feature(
        kind="countersink",
        words="countersink",
        request=request,
        outline=outline,
        dimensions=(Dimension("countersink diameter", "width", diameter, ()),),
        down=Countersink(diameter, angle, hole),
        number=request.count,
        stands="upright",
        exact=frozenset({"hole"}),
        measures=(("down from where a sharp point touches the hole", deep),),
        calls_for={"countersink": CallsFor(("countersink",), (diameter.lo, 1e6),
                                           angle=(angle - SQUARE_DEG, angle + SQUARE_DEG))},
    )


KIND = FeatureKind(
    name="countersink",
    words="a countersink",
    sizes=(SizeSpec("diameter", "across its rim, at the surface"),
           SizeSpec("hole", "diameter of the hole that is there")),
    draw=draw,
    angles=(AngleSpec("angle", "between its sides: 82, 90", most=180.0),),
    standards=(Standard("screw", "for the flat head of a screw: #8, 1/4, M6", countersink_for, countersink_angle),),
    options=(HEAD, FIT),
    brought=(OVER_THE_HOLE, "lock table and cross"),
    example={"diameter": ".507", "angle": "82", "hole": "17/64"},
    speech=Speech(
        above={"diameter": ("hole", None)},
        names=("counter sink", "csk", "c sink", "csink", "countersunk hole", "countersunk"),
        words={
            "diameter": ("rim", "across the rim", "over the rim", "wide"),
            "hole": ("pilot hole", "through hole", "clearance hole", "drilled hole", "pilot"),
            "screw": ("screws", "flat head screw", "flat head machine screw", "machine screw", "countersunk screw",
                      "csk screw", "flathead screw", "socket head screw", "flat head socket screw",
                      "flat head", "flathead", "socket head"),
        },
        forms={"screw": SCREW},
        tells={"flat head": ("head", "flat"), "flathead": ("head", "flat"), "socket head": ("head", "socket"),
               "flat socket head": ("head", "socket"), "flat head socket": ("head", "socket"),
               **FITTED},
    ),
)

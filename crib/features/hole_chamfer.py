"""A chamfer at the mouth of a hole: to break its edge, to start a tap or a pin. Any point does where no angle is
named."""

from __future__ import annotations

from crib.features.base import AngleSpec, CallsFor, Dimension, Feature, FeatureKind, SizeSpec, refuse
from crib.features.countersink import cone
from crib.features.down import OVER_THE_HOLE, Countersink
from crib.features.request import Request
from crib.features.rounds import hole_there, metal, rod, room
from crib.features.speech import Speech
from crib.geometry.outline import Outline
from crib.geometry.region import FAR
from crib.handbook.points import countersink_travel
from crib.units import Size

ANY, COSMETIC_DEG, USUAL_DEG = (60.0, 120.0), 3.0, 90.0
"""The points that break an edge; how far one may be off an angle that is named; what is taken where none is [deg].
Common practice."""


def draw(request: Request) -> Feature:
    """A cone from its rim at the surface down to the hole, as deep as the point makes it."""
    diameter, hole, named = request.size("diameter"), hole_there(request), request.angles.get("angle")
    assert hole is not None
    is_named = named is not None and bool(named.text)
    angle = named.deg if named is not None and is_named else USUAL_DEG
    if not 40 <= angle <= 130:
        raise refuse(f"a chamfer of {angle:g} degrees between its sides is none", f"{angle:g}",
                     "between both sides: 60, 82, 90, 120")
    if hole.hi >= diameter.lo:
        raise refuse(f"the chamfer, {diameter.text}, is no wider than its hole, {hole.text}", diameter.text,
                     f"a diameter above {hole.text}, tolerances included")
    low, high = (angle - COSMETIC_DEG, angle + COSMETIC_DEG) if is_named else ANY
    deepest, through = countersink_travel(diameter.mid, hole.mid, low), rod(hole.mid, FAR / 1e6)
    outline = Outline(
        stock=metal(request, deepest) - through,
        least=cone(diameter.lo, high) - through,
        aim=cone(diameter.mid, angle),
        most=cone(diameter.hi, low) | through,
        rooms=(room("chamfer", diameter, Size(deepest, deepest, deepest, "")),),
    )
    return Feature(
        kind="hole-chamfer",
        words="hole chamfer",
        request=request,
        outline=outline,
        dimensions=(Dimension("chamfer diameter", "width", diameter, ()),),
        down=Countersink(diameter, angle, hole, (low, high)),
        number=request.count,
        stands="upright",
        exact=frozenset({"hole"}),
        measures=(("down from where a sharp point of 90 degrees touches the hole",
                   countersink_travel(diameter.mid, hole.mid, USUAL_DEG)),),
        calls_for={"chamfer": CallsFor(("countersink", "chamfer-cutter", "spot-drill"), (diameter.lo, 1e6),
                                       angle=(low, high))},
    )


KIND = FeatureKind(
    name="hole-chamfer",
    words="a chamfer at a hole",
    sizes=(SizeSpec("diameter", "across its rim, at the surface", "loose"),
           SizeSpec("hole", "diameter of the hole that is there")),
    draw=draw,
    angles=(AngleSpec("angle", "between its sides; any point where none is given", USUAL_DEG, most=180.0),),
    brought=(OVER_THE_HOLE, "lock table and cross"),
    example={"diameter": "5/16", "hole": "1/4"},
    speech=Speech(names=("chamfered hole", "chamfer on a hole", "chamfer a hole", "chamfer the hole", "deburred hole"),
                  words={"diameter": ("rim",)}, order=("diameter", "hole"),
                  above={"diameter": ("hole", 8.0)}),
)

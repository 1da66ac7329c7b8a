"""A chamfer at the mouth of a hole: to break its edge, to start a tap or a pin. Any point does where no angle is
named."""

from __future__ import annotations

from crib.features.base import AngleSpec, CallsFor, Dimension, Feature, FeatureKind, SizeSpec, refuse
from crib.features.countersink import cone
from crib.features.down import OVER_THE_HOLE, Countersink
from crib.features.request import Request
from crib.features.rounds import hole_there, metal, rod, room
from crib.features.slants import in_proportion, one_way
from crib.features.speech import Speech
from crib.geometry.outline import Outline
from crib.geometry.region import FAR
from crib.handbook.chamfers import leg_ratio
from crib.handbook.points import countersink_travel
from crib.units import Size

ANY, COSMETIC_DEG, USUAL_DEG = (60.0, 120.0), 3.0, 90.0
"""The points that break an edge; how far one may be off an angle that is named; what is taken where none is [deg].
Common practice."""

A_SIDE_DEG = 50.0
"""Up to this an angle is one side's [deg]: `1/32 x 45` is cut with a point of 90. Common practice, no source."""


def draw(request: Request) -> Feature:
    """A cone from its rim at the surface down to the hole, as deep as the point makes it."""
    hole = hole_there(request)
    assert hole is not None
    typed, is_named = _angle(request)
    angle = typed if typed > A_SIDE_DEG else 2 * typed
    if not 40 <= angle <= 130:
        raise refuse(f"a chamfer of {angle:g} degrees between its sides is none", f"{angle:g}",
                     "between both sides: 60, 82, 90, 120")
    diameter = one_way(request, {"diameter": lambda size: size, "leg": lambda size: in_proportion(
        size, 2 * leg_ratio(angle), hole.nominal)}, "the diameter across its rim")
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
        reckoned={"diameter_mm": diameter.nominal, "angle_deg": angle},
        assumed=() if angle == typed else (f"{typed:g} degrees a side: {angle:g} between its sides",),
        measures=(("down from where a sharp point of 90 degrees touches the hole",
                   countersink_travel(diameter.mid, hole.mid, USUAL_DEG)),),
        calls_for={"chamfer": CallsFor(("countersink", "chamfer-cutter", "spot-drill"), (diameter.lo, 1e6),
                                       angle=(low, high))},
    )


def _angle(request: Request) -> tuple[float, bool]:
    """The angle [deg], and whether it was named."""
    named = request.angles.get("angle")
    return (named.deg, True) if named is not None and named.text else (USUAL_DEG, False)


KIND = FeatureKind(
    name="hole-chamfer",
    words="a chamfer at a hole",
    sizes=(SizeSpec("diameter", "across its rim, at the surface", "loose", needed=False),
           SizeSpec("leg", "down the wall of the hole, instead of --diameter", needed=False),
           SizeSpec("hole", "diameter of the hole that is there")),
    draw=draw,
    angles=(AngleSpec("angle", "between its sides, up to 50 of one of them; any point where none is given", USUAL_DEG,
                      most=180.0),),
    one_of=("diameter", "leg"),
    brought=(OVER_THE_HOLE, "lock table and cross"),
    example={"diameter": "5/16", "hole": "1/4"},
    speech=Speech(
        names=("chamfered hole", "chamfer on a hole", "chamfer a hole", "chamfer the hole", "chamfer in a hole",
               "chamfer of a hole", "chamfer at a hole", "deburred hole", "deburr a hole", "deburr the hole",
               "deburr hole", "deburr", "deburring", "chamfered bore", "chamfer on a bore", "chamfer a bore",
               "chamfer the bore", "chamfer in a bore"),
        common=("deburr", "deburring"),
        words={"diameter": ("rim",), "leg": ("legs", "chamfer leg"), "hole": ("bore",)},
        order=("diameter", "hole", "angle"),
        above={"diameter": ("hole", 3.0)},
        instead={"diameter": "leg"},
    ),
)

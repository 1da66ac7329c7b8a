"""A counterbore round a hole that is there: a flat floor for a screw's head."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, SizeSpec, Standard, refuse
from crib.features.down import OVER_THE_HOLE, Counterbore
from crib.features.for_screws import FIT, FITTED, SCREW, counterbore_for
from crib.features.request import Request
from crib.features.rounds import check_depth, hole_there, metal, rod, room
from crib.features.speech import Speech
from crib.geometry.outline import Outline
from crib.geometry.region import FAR


def draw(request: Request) -> Feature:
    """A round from the surface down, wider than the hole that it stands on."""
    diameter, depth, hole = request.size("diameter"), request.size("depth"), hole_there(request)
    assert hole is not None
    if hole.hi >= diameter.lo:
        raise refuse(f"the counterbore, {diameter.text}, is not wider than its hole, {hole.text}", diameter.text,
                     f"a diameter above {hole.text}, tolerances included")
    check_depth(request, depth, diameter.mid)
    through = rod(hole.mid, FAR / 1e6)
    outline = Outline(
        stock=metal(request, depth.mid) - through,
        least=rod(diameter.lo, depth.lo) - through,
        aim=rod(diameter.mid, depth.mid),
        most=rod(diameter.hi, depth.hi) | through,
        rooms=(room("counterbore", diameter, depth),),
    )
    return Feature(
        kind="counterbore",
        words="counterbore",
        request=request,
        outline=outline,
        dimensions=(Dimension("counterbore diameter", "width", diameter, ()), Dimension("depth", "depth", depth, ())),
        down=Counterbore(diameter, depth.mid, hole),
        number=request.count,
        stands="upright",
        exact=frozenset({"hole"}),
        calls_for={"counterbore": CallsFor(("counterbore",), (diameter.lo, diameter.hi))},
    )


KIND = FeatureKind(
    name="counterbore",
    words="a counterbore",
    sizes=(SizeSpec("diameter", "diameter of the counterbore", "loose"),
           SizeSpec("depth", "from the surface to its floor"),
           SizeSpec("hole", "diameter of the hole that is there")),
    draw=draw,
    standards=(Standard("screw", "for a socket head cap screw: #8, 1/4, M6", counterbore_for),),
    options=(FIT,),
    brought=(OVER_THE_HOLE, "lock table and cross"),
    example={"diameter": "13/32", "depth": "1/4", "hole": "17/64"},
    speech=Speech(
        above={"diameter": ("hole", None)},
        names=("counter bore", "c bore", "cbore", "counterbored hole", "counterbored"),
        words={
            "hole": ("pilot hole", "through hole", "clearance hole", "hole through", "drilled hole", "pilot"),
            "screw": ("screws", "cap screw", "socket head cap screw", "socket head screw", "socket screw",
                      "socket cap screw", "cap head screw", "socket head", "socket cap", "allen screw", "shcs", "bolt",
                      "cap bolt"),
        },
        forms={"screw": SCREW},
        tells=FITTED,
    ),
)

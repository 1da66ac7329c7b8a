"""A blind hole with a flat floor: for a pin, a spring, a head that is let in."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, SizeSpec, refuse
from crib.features.down import HOLE, FlatHole
from crib.features.request import Request
from crib.features.rounds import check_depth, metal, rod, room
from crib.features.speech import Speech
from crib.geometry.outline import Outline

MOST_DEEP = 12.0
"""A flat floor deeper than so many diameters isn't reckoned: no mill or flat drill reaches it [-]. From memory."""


def draw(request: Request) -> Feature:
    """A round from the surface down, square at its floor but for the radius that may be there."""
    diameter, depth = request.size("diameter"), request.size("depth")
    check_depth(request, depth, diameter.mid)
    if depth.mid > MOST_DEEP * diameter.mid:
        raise refuse(f"a flat floor {depth.text} down in a hole of {diameter.text} is more than {MOST_DEEP:g} "
                     "diameters deep: that far nothing is reckoned", depth.text,
                     f"at most {MOST_DEEP:g} times {diameter.text}")
    if 2 * request.floor_radius > diameter.hi:
        raise refuse("the floor radius is more than half of the diameter", diameter.text,
                     f"at most half of {diameter.text}")
    inside = diameter.lo - 2 * request.floor_radius
    outline = Outline(
        stock=metal(request, depth.mid),
        least=rod(diameter.lo, depth.lo - request.floor_radius) | rod(max(inside, 0.0), depth.lo),
        aim=rod(diameter.mid, depth.mid),
        most=rod(diameter.hi, depth.hi),
        rooms=(room(HOLE, diameter, depth),),
    )
    return Feature(
        kind="flat-bottomed-hole",
        words="flat-bottomed hole",
        request=request,
        outline=outline,
        dimensions=(Dimension("hole diameter", "width", diameter, ()), Dimension("depth", "depth", depth, ())),
        down=FlatHole(diameter, depth),
        number=request.count,
        stands="upright",
        calls_for={HOLE: CallsFor(("end-mill",), (diameter.lo, diameter.hi))},
    )


KIND = FeatureKind(
    name="flat-bottomed-hole",
    words="a flat-bottomed hole",
    sizes=(SizeSpec("diameter", "diameter of the hole"),
           SizeSpec("depth", "from the surface to its flat floor")),
    draw=draw,
    cautions=("chips pack on a flat floor: out of the hole and clear it before the last of the depth",),
    example={"diameter": "3/8+.006-0", "depth": "1/2"},
    speech=Speech(
        names=("flat bottom hole", "flat bottomed hole", "flat hole", "flat bottom", "flat bottomed", "round pocket",
               "circular pocket", "round recess", "circular recess"),
        common=("flat bottom", "flat bottomed"),
        order=("diameter", "depth"),
    ),
)

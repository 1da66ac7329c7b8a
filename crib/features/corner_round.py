"""A rounded edge along a straight corner of the work: x counts from its finished wall, z from the top."""

from __future__ import annotations

from itertools import pairwise

from crib.features.base import CallsFor, Comes, Dimension, Feature, FeatureKind, SizeSpec
from crib.features.request import Request
from crib.features.shapes import metal, walls
from crib.features.speech import EDGE, Speech
from crib.geometry.arcs import quarter
from crib.geometry.outline import Box, Opening, Outline, Room, Waiver
from crib.geometry.region import Region, box, trapezoid, union
from crib.units import nm

FILED = 0.085
"""What stands proud of the round by up to this share of its radius may be filed away: a single flat at 45 degrees
leaves .0824 R, 1/cos(22.5) - 1 [-]. Geometry."""


def outside(radius: int, larger: int = 0) -> Region:
    """What stands outside of a round between the wall and the top; outside of a larger one about the same centre."""
    whole = radius + larger
    pieces = [trapezoid(out - radius, other - radius, whole - radius - up, 0, whole - radius - over, 0)
              for (out, up), (other, over) in pairwise(quarter(whole)) if other > out]
    return union(pieces) & box(-radius, -radius, 0, 0)


def square(radius: int) -> Box:
    """The corner that a round stands in."""
    return Box(-radius, -radius, 0, 0)


def draw(request: Request) -> Feature:
    """The corner outside of a quarter of a circle that meets the wall and the top."""
    radius = request.size("radius")
    least, aim, most = (nm(mm) for mm in (radius.lo, radius.mid, radius.hi))
    filed = outside(least) - outside(least, round(FILED * least))
    outline = Outline(
        stock=metal(request, radius.hi, 0),
        least=outside(least),
        aim=outside(aim),
        most=outside(most),
        rooms=(Room("round", square(least), square(aim), square(most), frozenset({Opening.TOP, Opening.RIGHT}),
                    rounded=(least, aim, most)),),
        waivers=(Waiver("flats along the round, to be filed to a radius gauge", filed, is_proud=True),),
        obstacles=walls(request),
    )
    return Feature(
        kind="corner-round",
        words="rounded corner",
        request=request,
        outline=outline,
        dimensions=(Dimension("round radius", "corner", radius, ()),),
        calls_for={"round": CallsFor(("corner-rounding-cutter",))},
    )


KIND = FeatureKind(
    name="corner-round",
    words="a round along an outside corner",
    sizes=(SizeSpec("radius", "of the round"),),
    draw=draw,
    comes=Comes.ON_EDGES,
    example={"radius": "1/8"},
    speech=Speech(
        names=("rounded corner", "rounded edge", "edge round", "radiused edge", "radius on an edge",
               "radius on the edge", "radius on edge", "edge radius", "outside round", "round over", "rounding over",
               "round the edge", "round an edge", "round the corner", "round a corner",
               "radius the corner", "radius a corner", "radius the edge", "radius an edge", "radius on all edges"),
        order=("radius",),
        idle=EDGE,
    ),
)

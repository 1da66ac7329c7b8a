"""A groove with a round floor, half round or shallower: an oil groove, a flute, a seat for a bar. Its radius with its
limits is that of the floor about one centre, so that the depth keeps to the same limits."""

from __future__ import annotations

from itertools import pairwise

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, SizeSpec, refuse
from crib.features.request import Request
from crib.features.shapes import centred, metal, walls
from crib.features.speech import Speech
from crib.geometry.arcs import quarter
from crib.geometry.outline import Opening, Outline, Room
from crib.geometry.region import FAR, Region, box, trapezoid, union
from crib.units import Size, nm


def round_floor(radius: int, centre: int) -> Region:
    """The lower half of a circle about the centre line [nm]."""
    points = [(out, centre - radius + up) for out, up in quarter(radius)]
    return union(trapezoid(low, high, -one, one, -other, other)
                 for (one, low), (other, high) in pairwise(points) if high > low)


def draw(request: Request) -> Feature:
    """The part of a circle that lies under the surface."""
    radius = request.size("radius")
    depth = request.sizes.get("depth") or Size(radius.mid, radius.mid, radius.mid, radius.text)
    if depth.mid > radius.mid + 1e-6:
        raise refuse(f"a round groove {depth.text} deep is deeper than its radius, {radius.text}", depth.text,
                     "a depth up to the radius; deeper it has upright walls, and is a slot with a floor radius")
    centre, under = nm(radius.mid - depth.mid), box(-FAR, -FAR, FAR, 0)
    least, aim, most = (round_floor(nm(mm), centre) & under for mm in (radius.lo, radius.mid, radius.hi))
    smallest, middle, largest = (centred(2 * mm, centre - nm(mm), 0) for mm in (radius.lo, radius.mid, radius.hi))
    outline = Outline(
        stock=metal(request, depth.mid + radius.hi - radius.mid),
        least=least,
        aim=aim,
        most=most,
        rooms=(Room("groove", smallest, middle, largest, frozenset({Opening.TOP})),),
        obstacles=walls(request),
    )
    return Feature(
        kind="round-groove",
        words="round groove",
        request=request,
        outline=outline,
        dimensions=(Dimension("floor radius", "width", radius, (), by="radius gauge"),),
        calls_for={"groove": CallsFor(("end-mill", "form-cutter"), (2 * radius.lo, 1e6),
                                      corner=(radius.lo, radius.hi))},
        measures=(("across at the surface", aim.bounds()[2] / 5e5),),
    )


KIND = FeatureKind(
    name="round-groove",
    words="a groove with a round floor",
    sizes=(SizeSpec("radius", "of its floor"),
           SizeSpec("depth", "from the surface to the lowest of its floor; half round without it", "exact", False)),
    draw=draw,
    set_ups=("upright", "on its side"),
    example={"radius": "1/8+.002-.002"},
    speech=Speech(
        names=("round bottom groove", "round bottomed groove", "radius groove", "radiused groove", "half round groove",
               "round bottom slot", "round bottomed slot", "ball groove", "ball end slot",
               "ball nose slot", "ball ended slot", "ball nosed slot", "concave groove",
               "bullnose groove", "bull nose groove", "bullnose slot", "bull nose slot", "gutter", "oil groove"),
        order=("radius", "depth"),
    ),
)

"""A chamfer along a straight edge. Its leg counts down the wall, its angle from the wall; x counts from the wall."""

from __future__ import annotations

from math import radians, tan

from crib.features.base import AngleSpec, CallsFor, Comes, Dimension, Feature, FeatureKind, SizeSpec
from crib.features.request import Request
from crib.features.shapes import metal, walls
from crib.features.slants import leaning_face, slope
from crib.features.speech import EDGE, Speech
from crib.geometry.outline import Box, Opening, Outline, Room, Waiver
from crib.geometry.region import Region, trapezoid
from crib.handbook.chamfers import leg_across
from crib.units import nm

BAND_DEG, COSMETIC_DEG = 1.0, 3.0
"""How far a chamfer's angle may be off for the drawing, and for an edge that is only looked at [deg]. Common practice,
no source."""


def draw(request: Request) -> Feature:
    """A triangle at the edge."""
    angle, size = request.angle(), request.size("size")
    band = angle.band if angle.band is not None else BAND_DEG
    let = max(band, min(COSMETIC_DEG, angle.deg / 2, (90 - angle.deg) / 2))
    lean, legs = slope(angle.deg, let), (nm(size.lo), nm(size.mid), nm(size.hi))
    least, aim, most = (Box(lean.over(leg), -leg, 0, 0) for leg in legs)
    strict = slope(angle.deg, band)
    half = 2 * angle.deg
    at = tuple(-lean.over(leg - legs[1]) for leg in legs)
    region = _triangle(least)
    waived = region - _inside(legs[0], angle.deg, let)
    outline = Outline(
        stock=metal(request, size.hi, 0),
        least=region,
        aim=_triangle(aim),
        most=_triangle(most),
        rooms=(Room("chamfer", least, aim, most, frozenset({Opening.TOP, Opening.RIGHT}), lean=lean),),
        faces=(leaning_face("chamfer", -1, (at[0], at[1], at[2]), lean, aim.low, aim.low, 0),),
        waivers=(Waiver("chamfer", waived),),
        obstacles=walls(request),
    )
    return Feature(
        kind="chamfer",
        words="chamfer",
        request=request,
        outline=outline,
        dimensions=(Dimension("chamfer leg", "depth", size, ("chamfer",), follows=(1.0, 1.0)),),
        calls_for={"chamfer": CallsFor(("chamfer-cutter",), angle=(half - 2 * band, half + 2 * band))},
        kindest={kind: {"angle_deg": half} for kind in ("chamfer-cutter", "countersink", "spot-drill")},
        strict={"chamfer": (strict.least, strict.most)},
        measures=(("leg down the wall", size.mid), ("leg across the top", leg_across(size.mid, angle.deg)),
                  ("width of the face", size.mid / _cos(angle.deg))),
    )


def _cos(deg: float) -> float:
    return float((1 + tan(radians(deg)) ** 2) ** -0.5)


def _triangle(around: Box) -> Region:
    return trapezoid(around.low, 0, 0, 0, around.left, 0)


def _inside(leg: int, deg: float, let: float) -> Region:
    """What chamfers of every angle that is let pass take, each as large as goes into the one that is asked."""
    across = leg * tan(radians(deg))
    flat, steep = -round(leg * tan(radians(deg - let))), -round(across / tan(radians(deg + let)))
    return trapezoid(-leg, 0, 0, 0, flat, 0) & trapezoid(steep, 0, 0, 0, -round(across), 0)


KIND = FeatureKind(
    name="chamfer",
    words="a chamfer along a straight edge",
    angles=(AngleSpec("angle", "from the wall; 45 where none is given", 45.0),),
    sizes=(SizeSpec("size", "the leg down the wall"),),
    draw=draw,
    comes=Comes.ON_EDGES,
    example={"size": "1/8", "angle": "30"},
    speech=Speech(
        names=("edge chamfer", "chamfered edge", "broken edge", "chamf", "edge break", "break edge", "break the edge",
               "break an edge", "break all edge", "break sharp edge", "break the sharp edge",
               "break all sharp edge"),
        words={"size": ("leg", "legs", "wide", "deep")},
        order=("size", "angle"),
        idle=EDGE,
    ),
)

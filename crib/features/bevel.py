"""A bevel: a slanted face along an edge, wider than a chamfer and held to its angle. x counts from the wall, z from the
top."""

from __future__ import annotations

from math import cos, radians, sin

from crib.features.base import AngleSpec, CallsFor, Comes, Dimension, Feature, FeatureKind, SizeSpec, refuse
from crib.features.request import Request
from crib.features.shapes import metal, walls
from crib.features.slants import band_of, leaning_face, slope
from crib.features.speech import EDGE, Speech
from crib.findings.message import Mm, said
from crib.geometry.outline import Box, Opening, Outline, Room
from crib.geometry.region import Region, trapezoid
from crib.handbook.deviations import staircase_ridge
from crib.units import nm

SINE_BAR_MM = 5 * 25.4
"""The sine bar that heights are told for [mm]."""

STEP_MM = 0.020 * 25.4
"""A step of a staircase that is cut to be filed down [mm]. From memory."""


def draw(request: Request) -> Feature:
    """A triangle at the edge, its face as wide as asked and so far from the level."""
    angle, width = request.angle(), request.size("width")
    band = band_of(request)
    if angle.deg - band <= 0 or angle.deg + band >= 90:
        raise refuse(f"a bevel of {angle.text} degrees, {band:g} either way, lies in the top or in the wall",
                     angle.text, "an angle between the two, from the top")
    lean = slope(90 - angle.deg, band)
    downs = tuple(nm(mm * sin(radians(angle.deg))) for mm in (width.lo, width.mid, width.hi))
    least, aim, most = (Box(lean.over(down), -down, 0, 0) for down in downs)
    at = tuple(-lean.over(down - downs[1]) for down in downs)
    return Feature(
        kind="bevel",
        words="bevel",
        request=request,
        outline=Outline(
            stock=metal(request, width.hi * sin(radians(angle.deg)), 0),
            least=_triangle(least),
            aim=_triangle(aim),
            most=_triangle(most),
            rooms=(Room("bevel", least, aim, most, frozenset({Opening.TOP, Opening.RIGHT}), lean=lean),),
            faces=(leaning_face("bevel", -1, (at[0], at[1], at[2]), lean, aim.low, aim.low, 0),),
            obstacles=walls(request),
        ),
        dimensions=(Dimension("bevel face width", "face", width, (), follows=_follows(angle.deg)),),
        calls_for={"bevel": CallsFor(("end-mill", "face-mill", "fly-cutter", "chamfer-cutter"))},
        kindest={kind: {"angle_deg": 180 - 2 * angle.deg} for kind in ("chamfer-cutter", "countersink", "spot-drill")},
        strict={"bevel": (lean.least, lean.most)},
        measures=(
            ("width of the face", width.mid),
            ("down the wall", width.mid * sin(radians(angle.deg))),
            ("across the top", width.mid * cos(radians(angle.deg))),
            ("under one end of a 5 in sine bar", SINE_BAR_MM * sin(radians(angle.deg))),
            (said("ridges of a staircase in steps of {step}, which is no face until it is filed", step=Mm(STEP_MM)),
             staircase_ridge(STEP_MM, angle.deg)),
        ),
    )


def _follows(deg: float) -> tuple[float, float]:
    """How much wider its face gets for so much that it is set deeper: as it leans, and turned level."""
    return 1 / sin(radians(deg)), 1 / (sin(radians(deg)) * cos(radians(deg)))


def _triangle(around: Box) -> Region:
    return trapezoid(around.low, 0, 0, 0, around.left, 0)


KIND = FeatureKind(
    name="bevel",
    words="a bevel along an edge",
    angles=(AngleSpec("angle", "from the top, which lies level"),),
    sizes=(SizeSpec("width", "across its face"),),
    draw=draw,
    set_ups=("upright", "face level"),
    comes=Comes.ON_EDGES,
    example={"angle": "45", "width": "1/4"},
    speech=Speech(names=("bevelled edge", "beveled edge", "bevel face", "angle face"),
                  order=("width", "angle"), idle=EDGE),
)

"""A V-groove: two flanks that meet in a sharp root. Its angle is the one between them, its width at the surface; one
given by its depth is as wide as that makes it."""

from __future__ import annotations

from math import cos, radians, tan

from crib.features.base import AngleSpec, CallsFor, Dimension, Feature, FeatureKind, SizeSpec
from crib.features.request import Request
from crib.features.shapes import metal, walls
from crib.features.slants import in_proportion, leaning_face, one_way, slope
from crib.features.speech import Speech
from crib.geometry.outline import Box, Opening, Outline, Room, Waiver
from crib.geometry.region import Region, trapezoid
from crib.handbook.chamfers import groove_depth
from crib.units import nm

BAND_DEG = 0.5
"""How far each flank's angle may be off [deg]. Common practice, no source."""


def draw(request: Request) -> Feature:
    """A triangle about the centre line, its point down."""
    angle = request.angle()
    width = one_way(request, {"width": lambda size: size, "depth": lambda size: in_proportion(
        size, 1 / groove_depth(1.0, angle.deg))}, "its width at the surface")
    band = angle.band / 2 if angle.band is not None else BAND_DEG
    lean = slope(angle.deg / 2, band)
    sides = [(nm(half / 2), nm(groove_depth(half, angle.deg))) for half in (width.lo, width.mid, width.hi)]
    least, aim, most = (Box(-half, -deep, half, 0) for half, deep in sides)
    offs = tuple(-lean.over(-aim.low + each.low) for each in (least, aim, most))
    back = leaning_face("back flank", 1, (-offs[0], 0, -offs[2]), lean, aim.low, aim.low, 0)
    root = _triangle(least) & Box(least.left, aim.low, least.right, aim.low * 3 // 4).region
    outline = Outline(
        stock=metal(request, -most.low / 1e6),
        least=_triangle(least),
        aim=_triangle(aim),
        most=_triangle(most),
        rooms=(Room("groove", least, aim, most, frozenset({Opening.TOP}), lean=lean),),
        faces=(back, leaning_face("front flank", -1, (offs[0], 0, offs[2]), lean, aim.low, aim.low, 0)),
        waivers=(Waiver("root", root),),
        obstacles=walls(request),
    )
    return Feature(
        kind="v-groove",
        words="V-groove",
        request=request,
        outline=outline,
        dimensions=(Dimension("groove width", "width", width, ("back flank", "front flank"), by="caliper",
                              called="groove width across its mouth, the burrs off",
                              follows=(2 * tan(radians(angle.deg / 2)), 2 / cos(radians(angle.deg / 2)))),),
        calls_for={"groove": CallsFor(("chamfer-cutter",), (width.mid, 1e6),
                                      angle=(angle.deg - 2 * band, angle.deg + 2 * band))},
        kindest={kind: {"angle_deg": angle.deg} for kind in ("chamfer-cutter", "countersink", "spot-drill")},
        reckoned={"width_mm": width.nominal, "depth_mm": groove_depth(width.nominal, angle.deg)},
        measures=(("depth to the sharp root", groove_depth(width.mid, angle.deg)),),
    )


def _triangle(around: Box) -> Region:
    return trapezoid(around.low, 0, 0, 0, around.left, around.right)


KIND = FeatureKind(
    name="v-groove",
    words="a V-groove",
    angles=(AngleSpec("angle", "between its two flanks: 90, 60", most=180.0),),
    sizes=(SizeSpec("width", "at the surface", needed=False),
           SizeSpec("depth", "from the surface to where its flanks meet, instead of --width", needed=False)),
    draw=draw,
    set_ups=("upright", "tilted"),
    one_of=("width", "depth"),
    example={"angle": "90", "width": "5/8"},
    speech=Speech(
        names=("vee groove", "v slot", "vee slot", "vee", "v way", "vee way"),
        words={"width": ("wide at the top", "across the top", "at the top")},
        order=("width",),
        common=("vee",),
    ),
)

"""Dovetail cutters: teeth on a cone that is widest at its lower face, on a neck."""

from __future__ import annotations

from collections.abc import Iterator
from math import radians, tan

from crib.cutters import disc, flank
from crib.cutters.base import Clearances, Cutter, Kind, Motion
from crib.cutters.gauged import by_angle
from crib.cutters.proposals import LONGER_MM, Need, Wanted, new, thin_necked
from crib.cutters.speech import Angle, Name, Speech
from crib.findings.finding import Finding
from crib.geometry.silhouette import Silhouette

_STICK_OUT = 38.1


def _form(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The teeth with their corner, the neck with its fillet, and the shank."""
    diameter, face = cutter.diameter_mm or 0.0, cutter.face_mm or 0.0
    teeth = flank.teeth(diameter, face, cutter.angle_deg or 60.0, cutter.corner_radius_mm or 0.0, cutter.tip_mm or 0.0)
    reach = max(face, cutter.reach_mm or face)
    top = max(reach, cutter.overall_length_mm or reach + _STICK_OUT)
    return Silhouette(teeth, teeth, disc.on_a_neck(cutter, face, reach, top, clear).parts)


def _check(cutter: Cutter) -> tuple[Finding, ...]:
    from crib.cutters.checks import no_fatter, no_longer

    return (
        *flank.check(cutter),
        *no_fatter(cutter, "neck_mm", "diameter_mm", "the neck", "the diameter over the teeth"),
        *no_fatter(cutter, "neck_mm", "nominal_mm", "the neck", "the diameter over the teeth"),
        *no_longer(cutter, "face_mm", "reach_mm", "the face", "the reach (face and neck together)"),
        *no_longer(cutter, "reach_mm", "overall_length_mm", "the reach", "the overall length"),
        *no_longer(cutter, "tip_mm", "face_mm", "the flat at the corner", "the face"),
    )


def _proposes(need: Need) -> Iterator[Wanted]:
    """Those as tall as the flank, thin-necked enough for their cone, of the angle that is called for."""
    from crib.handbook import stock

    called = need.usual_angle(stock.DOVETAIL_ANGLES)
    if called is None or need.face is None:
        return
    angle, source = called
    for one in stock.dovetails():
        top = one.diameter_mm - 2 * one.face_mm / tan(radians(angle))
        if one.face_mm >= need.face[0] - 1e-6 and top > 0.2 * one.diameter_mm:
            reach = max(one.face_mm, need.deep + need.end) + LONGER_MM
            cutter = new("dovetail-cutter", diameter_mm=one.diameter_mm, face_mm=one.face_mm, angle_deg=angle,
                         neck_mm=round(0.9 * top, 6), reach_mm=round(reach, 6), shank_mm=one.shank_mm, flutes=6,
                         end_teeth=True)
            yield thin_necked(cutter, source)


KIND = Kind(
    name="dovetail-cutter",
    words="dovetail cutter",
    plural="dovetail cutters",
    size_keys=("diameter_mm", "nominal_mm"),
    shown_keys=("angle_deg",),
    form=_form,
    fill=disc.fill,
    unknowns=lambda cutter: (*flank.unknowns(cutter), *flank.stem_unknowns(cutter)),
    check=_check,
    motions=frozenset({Motion.FLANK}),
    buried=True,
    gauging=by_angle(
        "dovetail-cutter", "dovetail cutter",
        lambda angle: f"{angle:g} is from the face to the flank; between two pins shows which it is",
        (45.0, 50.0, 55.0, 60.0)),
    cautions=disc.cautions,
    proposes=_proposes,
    is_ground_from_blanks=True,
    speech=Speech(
        names=(Name(r"dove[ -]?tails?(?: cutters?)?"),),
        heard={"d-tail": "dovetail", "d/tail": "dovetail", "dtail": "dovetail"},
        order=("diameter_mm", "face_mm"),
        angle=Angle.FLANK,
        wanted=("angle_deg", "face_mm"),
    ),
    example=Cutter(0, "dovetail-cutter", diameter_mm=19.05, angle_deg=60.0, face_mm=7.9375, neck_mm=9.525,
                   reach_mm=12.7, shank_mm=9.525, overall_length_mm=60.325, flutes=6, material="hss"),
)

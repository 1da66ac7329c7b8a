"""Angle cutters with a bore, on a stub arbor: single-angle ones with one flat face, double-angle ones with a ridge.

A single-angle cutter is put up with its flat face downwards, as a dovetail wants it; its angle counts from that face.
A double-angle cutter's is the angle between its two sides, half of it on each side of its middle.
"""

from __future__ import annotations

from math import radians, tan

from crib.cutters import flank
from crib.cutters.base import Clearances, Cutter, Kind, Motion
from crib.cutters.gauged import by_angle
from crib.cutters.shapes import cone, cylinder
from crib.cutters.speech import Angle, Name, Speech
from crib.geometry.silhouette import Part, Silhouette

_SCREW_SHARE, _SCREW_MM = 1.5, 6.35
"""Head of the arbor's screw below the cutter, in bores across, and its height [mm]. From memory."""

_ARBOR_MM, _FLANGE_SHARE = 38.1, 1.6
"""Stub arbor above the cutter [mm], and its shoulder in bores across. From memory."""


def is_double(cutter: Cutter) -> bool:
    """Whether it has two slanted sides."""
    return "double" in (cutter.note or "") or "double" in (cutter.marking or "")


def _form(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The teeth, the arbor's screw below them and its shoulder above."""
    diameter, face, bore = cutter.diameter_mm or 0.0, cutter.face_mm or 0.0, cutter.bore_mm or 0.0
    teeth = _ridge(cutter) if is_double(cutter) else flank.teeth(
        diameter, face, cutter.angle_deg or 60.0, cutter.corner_radius_mm or 0.0, cutter.tip_mm or 0.0)
    if not bore:
        return Silhouette(teeth, teeth,
                          (cylinder("shank", face, face + _ARBOR_MM, cutter.shank_mm or diameter, clear.neck,
                                            clear.end),))
    return Silhouette(teeth, teeth, (
        cylinder("arbor screw", -_SCREW_MM, 0.0, _SCREW_SHARE * bore, clear.neck, 0.0),
        cylinder("arbor shank", face, face + _ARBOR_MM, _FLANGE_SHARE * bore, clear.neck, clear.end),
    ))


def _ridge(cutter: Cutter) -> tuple[Part, ...]:
    diameter, face = cutter.diameter_mm or 0.0, cutter.face_mm or 0.0
    edge = max(0.1, diameter - face / tan(radians(cutter.angle_deg or 60.0) / 2))
    return (*cone("teeth", 0.0, face / 2, edge, diameter), *cone("teeth", face / 2, face, diameter, edge))


KIND = Kind(
    name="angle-cutter",
    words="angle cutter",
    plural="angle cutters",
    size_keys=("diameter_mm", "nominal_mm"),
    shown_keys=("angle_deg", "face_mm"),
    form=_form,
    unknowns=flank.unknowns,
    check=lambda cutter: () if is_double(cutter) else flank.check(cutter),
    motions=frozenset({Motion.FLANK}),
    buried=True,
    gauging=by_angle(
        "angle-cutter", "single-angle cutter",
        lambda angle: f"one side is flat and {angle:g} is from that face; a double-angle cutter has half of it on each "
                      "side",
        (30.0, 45.0, 50.0, 55.0, 60.0, 70.0, 75.0, 82.0, 90.0)),
    is_ground_from_blanks=True,
    speech=Speech(
        largest=152.4,
        names=(
            Name(r"single angle(?: cutters?)?", "single angle"),
            Name(r"double angle(?: cutters?)?", "double angle"),
            Name(r"angle cutters?"),
        ),
        order=("diameter_mm", "face_mm", "bore_mm"),
        angle=Angle.HANDED,
        wanted=("angle_deg",),
    ),
    example=Cutter(0, "angle-cutter", diameter_mm=63.5, angle_deg=45.0, face_mm=12.7, bore_mm=25.4, material="hss"),
)

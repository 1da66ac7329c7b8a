"""Centre drills: a short pilot with its own point, and a 60 degree cone behind it."""

from __future__ import annotations

from crib.cutters.base import Clearances, Cutter, Kind
from crib.cutters.pointed import pilot_check
from crib.cutters.shapes import cone, cylinder
from crib.handbook.points import point_length
from crib.section.form import Form, Part

_PILOT_SHARE, _BODY = 1.2, 6.35
"""Length of the pilot in its diameters [-], from memory; body that stands out [mm]."""


def _fill(cutter: Cutter) -> Cutter:
    if cutter.angle_deg is not None:
        return cutter
    return cutter.but(angle_deg=60.0, assumed=tuple(dict.fromkeys((*cutter.assumed, "angle_deg"))))


def _on_axis(cutter: Cutter, clear: Clearances) -> Form:
    """The point, the pilot, the cone, and as much body as stands out."""
    teeth = _teeth(cutter)
    top, size = teeth[-1].high / 1e6, 2 * teeth[-1].radius_high / 1e6
    whole = (*teeth, cylinder("body", top, top + _BODY, size))
    return Form(whole, whole)


def _along_edge(cutter: Cutter, clear: Clearances) -> Form:
    """The point, the pilot and the cone, where it is fed sideways along an edge."""
    teeth = _teeth(cutter)
    top, size = teeth[-1].high / 1e6, 2 * teeth[-1].radius_high / 1e6
    return Form(teeth, teeth, (cylinder("shank", top, top + 6 * _BODY, size),))


def _teeth(cutter: Cutter) -> tuple[Part, ...]:
    pilot = cutter.tip_mm or 0.3 * (cutter.diameter_mm or 0.0)
    size = max(cutter.diameter_mm or 0.0, pilot + 0.1)
    point = point_length(pilot, 118.0)
    straight = point + _PILOT_SHARE * pilot
    top = straight + point_length(size, cutter.angle_deg or 60.0, pilot)
    return (*cone("point", 0.0, point, 0.0, pilot), cylinder("pilot", point, straight, pilot),
            *cone("cone", straight, top, pilot, size))


KIND = Kind(
    name="centre-drill",
    words="centre drill",
    plural="centre drills",
    size_keys=("diameter_mm", "tip_mm"),
    shown_keys=("angle_deg",),
    form=_along_edge,
    on_axis=_on_axis,
    fill=_fill,
    check=pilot_check,
    ways=frozenset({"down", "edge"}),
    example=Cutter(0, "centre-drill", diameter_mm=7.9375, tip_mm=2.778125, angle_deg=60.0),
)

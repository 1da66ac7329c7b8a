"""Tapered end mills. Recorded and found, not reckoned with yet."""

from __future__ import annotations

from crib.cutters import end_mill
from crib.cutters.base import Cutter, Kind
from crib.cutters.gauged import by_angle
from crib.cutters.speech import Angle, Name, Speech

KIND = Kind(
    name="taper-end-mill",
    words="tapered end mill",
    plural="tapered end mills",
    size_keys=("diameter_mm", "tip_mm"),
    shown_keys=("angle_deg",),
    gauging=by_angle("taper-end-mill", "a side tapered end mill",
                     lambda angle: f"{angle:g} is from its axis to its side",
                     (1.0, 2.0, 3.0, 5.0, 7.0, 10.0, 15.0)),
    speech=Speech(
        names=(Name(r"taper(?:ed)? end ?mills?"),),
        angle=Angle.SLOPE,
        fields={"radius_mm": "corner_radius_mm"},
        looks=end_mill.looks,
    ),
    example=Cutter(0, "taper-end-mill", tip_mm=3.175, angle_deg=3.0),
)

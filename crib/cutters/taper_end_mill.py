"""Tapered end mills. Recorded and found, not reckoned with yet."""

from __future__ import annotations

from crib.cutters import end_mill
from crib.cutters.base import Cutter, Kind
from crib.cutters.speech import Angle, Name, Speech

KIND = Kind(
    name="taper-end-mill",
    words="tapered end mill",
    plural="tapered end mills",
    size_keys=("diameter_mm", "tip_mm"),
    shown_keys=("angle_deg",),
    speech=Speech(
        names=(Name(r"taper(?:ed)? end ?mills?"),),
        angle=Angle.SLOPE,
        fields={"radius_mm": "corner_radius_mm"},
        looks=end_mill.looks,
    ),
    example=Cutter(0, "taper-end-mill", tip_mm=3.175, angle_deg=3.0),
)

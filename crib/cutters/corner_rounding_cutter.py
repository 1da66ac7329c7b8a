"""Corner-rounding cutters: a concave edge with a pilot below it. Recorded and found, not reckoned with yet."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.gauged import by_size, parts_of_an_inch, whole_mm
from crib.cutters.speech import Name, Speech

KIND = Kind(
    name="corner-rounding-cutter",
    words="corner-rounding cutter",
    plural="corner-rounding cutters",
    size_keys=("radius_mm", "diameter_mm"),
    shown_keys=("radius_mm",),
    is_ground_from_blanks=True,
    gauging=by_size("corner-rounding-cutter", "radius corner-rounding cutter",
                    lambda: (*parts_of_an_inch(1, 32, 32), *whole_mm(1, 12)), "radius_mm"),
    speech=Speech(
        names=(Name(r"corner ?round(?:er|ing)?s?(?: cutters?| end ?mills?| em)?"),),
        order=("radius_mm",),
        fields={"pilot_mm": "tip_mm"},
        wanted=("tip_mm", "shank_mm"),
        looks=lambda values: () if "tip_mm" in values else ("mic the pilot, its small end",),
    ),
    example=Cutter(0, "corner-rounding-cutter", radius_mm=3.175, tip_mm=6.35, shank_mm=12.7),
)

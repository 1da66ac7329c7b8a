"""Face mills: a wide body with inserted or brazed teeth. Recorded and found, not reckoned with yet."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.gauged import Made, by_size, parts_of_an_inch
from crib.cutters.speech import Name, Speech

KIND = Kind(
    name="face-mill",
    words="face mill",
    plural="face mills",
    shown_keys=("flutes",),
    gauging=by_size("face-mill", "face mill", lambda: (*parts_of_an_inch(5, 24, 4), *(
        Made(float(mm), f"{mm} mm") for mm in (32, 40, 50, 63, 80, 100, 125, 160))), over=0.5, rare=True),
    speech=Speech(
        largest=304.8,
        names=(Name(r"shell (?:end ?)?mills?", "shell mill", lent=True), Name(r"face ?mills?")),
        wanted=("bore_mm", "flutes"),
    ),
    example=Cutter(0, "face-mill", diameter_mm=50.8, flutes=5, bore_mm=19.05),
)

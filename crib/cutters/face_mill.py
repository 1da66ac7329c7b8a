"""Face mills: a wide body with inserted or brazed teeth. Recorded and found, not reckoned with yet."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.speech import Name, Speech

KIND = Kind(
    name="face-mill",
    words="face mill",
    plural="face mills",
    shown_keys=("flutes",),
    speech=Speech(
        largest=304.8,
        names=(Name(r"shell (?:end ?)?mills?", "shell mill", lent=True), Name(r"face ?mills?")),
        wanted=("bore_mm", "flutes"),
    ),
    example=Cutter(0, "face-mill", diameter_mm=50.8, flutes=5, bore_mm=19.05),
)

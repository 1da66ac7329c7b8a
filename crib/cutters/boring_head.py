"""Boring heads: they hold a bar and set its tooth out. As a holder the shop's settings have them."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.speech import Name, Speech

KIND = Kind(
    name="boring-head",
    words="boring head",
    plural="boring heads",
    shown_keys=("bore_mm",),
    speech=Speech(
        largest=203.2, times_shank=12.0, names=(Name(r"boring heads?"),),
        phrases=((r"(\bboring heads?\b.*?)(?:\bthat )?\b(?:takes?|holds?|for|with) (?=[.\d][-./\d]*(?: ?(?:mm|in))? "
                  r"bars?\b)", r"\1"),),
        looks=lambda values: () if "bore_mm" in values else (
            "measure the hole that its bars go into, then say it with what it bores: crib shop --boring-heads",),
    ),
    example=Cutter(0, "boring-head", diameter_mm=50.8, bore_mm=12.7),
)

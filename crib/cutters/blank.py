"""Blanks: hardened and unground, of which a cutter can be made."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.speech import Name, Speech

KIND = Kind(
    name="blank",
    words="blank",
    plural="blanks",
    size_keys=("diameter_mm", "shank_mm"),
    shown_keys=("overall_length_mm",),
    is_blank=True,
    is_plain=True,
    speech=Speech(
        names=(Name(r"fly ?cutters? bits?", "bits for a fly cutter"), Name(r"blanks?")),
        noun=None,
        order=("diameter_mm", "overall_length_mm"),
    ),
    example=Cutter(0, "blank", diameter_mm=9.525, overall_length_mm=76.2),
)

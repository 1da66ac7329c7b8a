"""Fly cutters: one bit in a holder. Recorded and found, not reckoned with yet."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.speech import Name, Speech

KIND = Kind(
    name="fly-cutter",
    words="fly cutter",
    plural="fly cutters",
    size_keys=("diameter_mm", "shank_mm"),
    cautions=lambda group: ("stand out of the line of a fly cutter; tool and its screw tight",),
    speech=Speech(largest=254.0, names=(Name(r"fly ?cutters?"),), noun="fly ?cutter"),
    example=Cutter(0, "fly-cutter", diameter_mm=63.5, shank_mm=12.7),
)

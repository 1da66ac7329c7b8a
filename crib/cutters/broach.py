"""Broaches, for keyways in a bore. Recorded and found: no cutter for the mill."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.speech import Name, Speech

KIND = Kind(
    name="broach",
    words="broach",
    plural="broaches",
    is_plain=True,
    speech=Speech(names=(Name(r"(?:key )?broach(?:es)?"),)),
    example=Cutter(0, "broach", diameter_mm=4.7625),
)

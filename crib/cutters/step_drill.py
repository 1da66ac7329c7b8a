"""Step drills, for sheet. Recorded and found, not reckoned with yet."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.speech import Name, Order, Speech

KIND = Kind(
    name="step-drill",
    words="step drill",
    plural="step drills",
    speech=Speech(names=(Name(r"step (?:drill|bit)s?"),), order=Order.SPAN),
    example=Cutter(0, "step-drill", diameter_mm=12.7, tip_mm=3.175),
)

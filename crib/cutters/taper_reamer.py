"""Taper reamers, for pins. Recorded and found, not reckoned with yet."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.speech import Name, Order, Speech

KIND = Kind(
    name="taper-reamer",
    words="taper reamer",
    plural="taper reamers",
    speech=Speech(
        names=(Name(r"taper(?:ed)? pin(?: reamers?)?", "taper pin"), Name(r"taper(?:ed)? reamers?")),
        beside="reamers?",
        order=Order.PIN,
    ),
    example=Cutter(0, "taper-reamer", diameter_mm=6.35),
)

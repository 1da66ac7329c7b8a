"""Dies, for outside threads. Recorded and found: no cutter for the mill."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.speech import Order, Speech

KIND = Kind(
    name="die",
    words="die",
    plural="dies",
    size_keys=("thread",),
    is_plain=True,
    speech=Speech(common=True, order=Order.THREAD),
    example=Cutter(0, "die", thread="1/4-20", diameter_mm=25.4),
)

"""Spot drills: a stiff body with a plain point."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.pointed import on_axis

KIND = Kind(
    name="spot-drill",
    words="spot drill",
    plural="spot drills",
    shown_keys=("angle_deg",),
    on_axis=on_axis,
    ways=frozenset({"down"}),
    example=Cutter(0, "spot-drill", diameter_mm=12.7, angle_deg=90.0),
)

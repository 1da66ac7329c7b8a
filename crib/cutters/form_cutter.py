"""Convex and concave form cutters: a rounded rim on a bore. Recorded and found, not reckoned with yet."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind
from crib.cutters.speech import Name, Order, Speech

KIND = Kind(
    name="form-cutter",
    words="form cutter",
    plural="form cutters",
    size_keys=("radius_mm", "diameter_mm"),
    shown_keys=("radius_mm", "face_mm"),
    is_ground_from_blanks=True,
    speech=Speech(
        largest=203.2,
        names=(Name(r"convex cutters?|convex", "convex"), Name(r"concave cutters?|concave", "concave")),
        order=Order.ROUND,
    ),
    example=Cutter(0, "form-cutter", radius_mm=3.175, diameter_mm=57.15, face_mm=6.35),
)

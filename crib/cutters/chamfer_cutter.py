"""Chamfer cutters: a cone with a flat at its tip, on a shank."""

from __future__ import annotations

from crib.cutters.base import Cutter, Kind, Motion
from crib.cutters.pointed import along_edge, fill, point_unknowns
from crib.cutters.speech import Angle, Name, Speech

KIND = Kind(
    name="chamfer-cutter",
    words="chamfer cutter",
    plural="chamfer cutters",
    size_keys=("diameter_mm", "nominal_mm"),
    shown_keys=("angle_deg", "flutes"),
    form=along_edge,
    fill=fill,
    unknowns=point_unknowns,
    motions=frozenset({Motion.EDGE}),
    speech=Speech(
        names=(Name(r"chamfer(?:ing)?(?: ?(?:mills?|bits?|cutters?|tools?))?"),),
        small=True,
        angle=Angle.EDGE,
        wanted=("angle_deg",),
    ),
    example=Cutter(0, "chamfer-cutter", diameter_mm=12.7, angle_deg=90.0, tip_mm=1.5875, shank_mm=12.7, flutes=4,
                   material="hss"),
)

"""T-slot cutters: teeth on the periphery and on both faces."""

from __future__ import annotations

from crib.cutters import disc
from crib.cutters.base import Cutter, Kind, Motion
from crib.cutters.speech import Name, Order, Speech

KIND = Kind(
    name="t-slot-cutter",
    words="T-slot cutter",
    plural="T-slot cutters",
    size_keys=("diameter_mm", "nominal_mm"),
    shown_keys=("face_mm", "neck_mm", "reach_mm", "shank_mm", "flutes"),
    form=disc.form,
    fill=lambda cutter: disc.fill(cutter).but(end_teeth=True if cutter.end_teeth is None else cutter.end_teeth),
    unknowns=disc.unknowns,
    check=disc.check,
    motions=frozenset({Motion.ALONG}),
    buried=True,
    speech=Speech(
        names=(Name(r"(?:t|tee) ?slot(?: ?cutters?| mills?)?|t cutters?"),),
        noun="t slot cutter",
        short=("tee", "tslot"),
        heard={"tslot": "t slot", "t-slot": "t slot", "tee-slot": "t slot", "teeslot": "t slot"},
        order=Order.DISC,
        small=True,
        by_bolt=True,
        wanted=("face_mm", "neck_mm", "reach_mm", "shank_mm"),
    ),
    example=Cutter(0, "t-slot-cutter", diameter_mm=24.60625, face_mm=9.921875, neck_mm=13.49375, reach_mm=30.0,
                   shank_mm=19.05, overall_length_mm=87.3125, flutes=8, material="hss"),
)

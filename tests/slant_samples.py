"""Cutters for what leans, made up for the tests. Sizes in inches."""

from __future__ import annotations

from crib.cutters.base import Cutter
from crib.cutters.label import label

IN = 25.4


def named(number: int, kind: str, **sizes: float | int | bool | str) -> Cutter:
    """A sharp cutter with all its sizes measured; lengths in inches."""
    values = {key: round(float(value) * IN, 6) if key.endswith("_mm") else value for key, value in sizes.items()}
    plain = Cutter(number, kind, material="hss", condition="sharp", measured=("diameter_mm",)).but(**values)
    return plain.but(label=label(plain, "in"))


def end_mill(number: int, diameter: float, tall: float = 1.5) -> Cutter:
    return named(number, "end-mill", diameter_mm=diameter, length_of_cut_mm=tall, shank_mm=max(diameter, 0.375),
                 flutes=4, centre_cutting=True, corner_radius_mm=0.0)


def dovetail_cutter(number: int, diameter: float, angle: float, face: float, neck: float,
                    corner: float = 0.0) -> Cutter:
    return named(number, "dovetail-cutter", diameter_mm=diameter, angle_deg=float(angle), face_mm=face, neck_mm=neck,
                 reach_mm=face + 0.4, shank_mm=0.375, flutes=6, corner_radius_mm=corner)


def chamfer_cutter(number: int, diameter: float, angle: float, tip: float, flutes: int = 5) -> Cutter:
    return named(number, "chamfer-cutter", diameter_mm=diameter, angle_deg=float(angle), tip_mm=tip, flutes=flutes,
                 shank_mm=0.5)


def pointed(number: int, kind: str, diameter: float, angle: float) -> Cutter:
    """A countersink or spot drill with a sharp point, or a centre drill."""
    tip = {"tip_mm": 0.109, "reach_mm": 0.164} if kind == "centre-drill" else {"tip_mm": 0.0}
    return named(number, kind, diameter_mm=diameter, angle_deg=float(angle), shank_mm=0.5, **tip)


MILLS = (end_mill(1, 0.5), end_mill(2, 0.75))
CRIB = (*MILLS, dovetail_cutter(3, 0.75, 60, 0.3125, 0.375), dovetail_cutter(4, 1.0, 60, 0.4375, 0.375))

"""Kinds of cutter that are recorded and found, and not reckoned with yet: none of them has a silhouette."""

from __future__ import annotations

from typing import Any

from crib.cutters.base import Cutter, Kind

_INCH = 25.4




def _example(kind: str, **values: Any) -> Cutter:
    """A cutter of a kind, its sizes on whole nanometres."""
    whole = {key: round(value, 6) if isinstance(value, float) else value for key, value in values.items()}
    return Cutter(0, kind).but(**whole)


KINDS: tuple[Kind, ...] = (
    Kind("corner-rounding-cutter", "corner-rounding cutter", ("radius_mm", "diameter_mm"), ("radius_mm",),
         plural="corner-rounding cutters",
         example=_example("corner-rounding-cutter", radius_mm=_INCH / 8, tip_mm=_INCH / 4, shank_mm=_INCH / 2)),
    Kind("form-cutter", "form cutter", ("radius_mm", "diameter_mm"), ("radius_mm", "face_mm"), plural="form cutters",
         example=_example("form-cutter", radius_mm=_INCH / 8, diameter_mm=2.25 * _INCH, face_mm=_INCH / 4)),
    Kind("face-mill", "face mill", shown_keys=("flutes",), plural="face mills",
         example=_example("face-mill", diameter_mm=2 * _INCH, flutes=5, bore_mm=0.75 * _INCH)),
    Kind("fly-cutter", "fly cutter", ("diameter_mm", "shank_mm"), plural="fly cutters",
         example=_example("fly-cutter", diameter_mm=2.5 * _INCH, shank_mm=_INCH / 2)),
    Kind("blank", "blank", ("diameter_mm", "shank_mm"), ("overall_length_mm",), plural="blanks",
         example=_example("blank", diameter_mm=0.375 * _INCH, overall_length_mm=3 * _INCH)),
    Kind("taper-end-mill", "tapered end mill", ("diameter_mm", "tip_mm"), ("angle_deg",), plural="tapered end mills",
         example=_example("taper-end-mill", tip_mm=_INCH / 8, angle_deg=3.0)),
    Kind("taper-reamer", "taper reamer", plural="taper reamers",
         example=_example("taper-reamer", diameter_mm=0.25 * _INCH)),
    Kind("step-drill", "step drill", plural="step drills",
         example=_example("step-drill", diameter_mm=_INCH / 2, tip_mm=_INCH / 8)),
    Kind("annular-cutter", "annular cutter", plural="annular cutters",
         example=_example("annular-cutter", diameter_mm=1.0625 * _INCH, shank_mm=0.75 * _INCH)),
    Kind("die", "die", ("thread",), plural="dies", example=_example("die", thread="1/4-20", diameter_mm=_INCH)),
    Kind("broach", "broach", plural="broaches", example=_example("broach", diameter_mm=0.1875 * _INCH)),
    Kind("boring-head", "boring head", shown_keys=("bore_mm",), plural="boring heads",
         example=_example("boring-head", diameter_mm=2 * _INCH, bore_mm=0.5 * _INCH)),
)

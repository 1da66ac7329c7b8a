"""What follows from what a line says, for each kind; and the questions that every reading of it would leave."""

from __future__ import annotations

import re

from crib.cutters import in_doubt
from crib.intake.shorthand.slip import Slip
from crib.units import NM, nm

_AUXILIARY = ("ball", "chamfers", "angle_how", "ground_by", "ground_to", "miked", "neck_length", "separated", "range",
              "insert", "double_ended", "two_ends")


def settle(slip: Slip, kind: str) -> None:
    """Put what was said into the kind's own fields."""
    values = slip.values
    _stamp(slip)
    if kind in ("end-mill", "taper-end-mill"):
        _end_mill(slip)
    if kind == "corner-rounding-cutter":
        _pilot_is_tip(slip)
    if kind in ("keyseat-cutter", "t-slot-cutter") and (neck := values.get("neck_length")) and values.get("face_mm"):
        values["reach_mm"] = nm(values["face_mm"] + neck) / NM
    if kind in ("drill", "spot-drill") and slip.has("ground flat"):
        values["angle_deg"] = 180.0
    if kind == "tap":
        _tap(slip)
    _angle(slip, kind)
    if kind == "drill" and values.get("shank_mm") and "drawer" not in values and slip.has("bench"):
        slip.notes.append("bench")


def drop_auxiliary(slip: Slip) -> None:
    """Take away what was only noted on the way."""
    for key in _AUXILIARY:
        slip.values.pop(key, None)


def _stamp(slip: Slip) -> None:
    """A measured size makes the other one a stamp; a regrind by so much is stated and not measured."""
    values = slip.values
    if miked := values.get("miked"):
        stamp, typed = values.pop("diameter_mm", None), slip.typed.pop("diameter_mm", "")
        if slip.size("diameter_mm", miked):
            slip.measured.append("diameter_mm")
        if stamp is not None:
            values.setdefault("nominal_mm", stamp)
            slip.typed.setdefault("nominal_mm", typed)
    if (to := values.get("ground_to")) and "diameter_mm" in values:
        values["nominal_mm"] = values.pop("diameter_mm")
        slip.typed["nominal_mm"] = slip.typed.pop("diameter_mm", "")
        slip.size("diameter_mm", to)
    if by := values.get("ground_by"):
        stamp, less = values.get("diameter_mm"), slip.mm(by)
        if stamp is not None and less is not None and less < stamp:
            values |= {"nominal_mm": stamp, "diameter_mm": nm(stamp - less) / NM}
            slip.notes.append(f"said to be reground {by} under")


def _end_mill(slip: Slip) -> None:
    values = slip.values
    if "radius_mm" in values:
        values["corner_radius_mm"] = values.pop("radius_mm")
        slip.typed["corner_radius_mm"] = slip.typed.pop("radius_mm", "")
    across = values.get("diameter_mm", values.get("nominal_mm"))
    if values.get("ball") and across:
        values["corner_radius_mm"] = nm(across / 2) / NM
    if values.get("flutes", 0) and values["flutes"] >= 4 and "centre_cutting" not in values and not values.get("ball"):
        slip.looks.append("does it cut to the centre? look at its end teeth")


def _pilot_is_tip(slip: Slip) -> None:
    if "pilot_mm" in slip.values:
        slip.values["tip_mm"] = slip.values.pop("pilot_mm")
        slip.typed["tip_mm"] = slip.typed.pop("pilot_mm", "")
    elif "tip_mm" not in slip.values:
        slip.looks.append("mic the pilot, its small end")


def _tap(slip: Slip) -> None:
    chamfers = slip.values.get("chamfers", [])
    if len(chamfers) == 1:
        slip.values["tap_chamfer"] = chamfers[0]
    if "hand" not in slip.values:
        slip.assumed.append("hand")
    if any(note.startswith("serial") for note in slip.notes):
        slip.ask("tap_chamfer", "which of the serial set is it? count its rings")


def _angle(slip: Slip, kind: str) -> None:
    """Included, or for a side; from the face, for a dovetail."""
    values = slip.values
    angle, how = values.get("angle_deg"), values.get("angle_how", "")
    if angle is None:
        return
    each = "side" in how
    if kind == "dovetail-cutter":
        if how or angle != 60:
            slip.ask("angle_deg", in_doubt.from_face(angle)
                     + (" it was called included" if "incl" in how else ""))
    elif kind in ("chamfer-cutter", "countersink"):
        if each:
            values["angle_deg"] = 2 * angle
        elif angle == 45:
            values["angle_deg"] = 90.0
            slip.ask("angle_deg", in_doubt.each_side(90.0))
        elif kind == "chamfer-cutter" and not how:
            slip.ask("angle_deg", in_doubt.included(angle))
    elif kind == "taper-end-mill":
        slip.ask("angle_deg", f"is it {angle:g} degrees a side, or included?")
    elif kind == "angle-cutter" and "double angle" not in slip.notes and "hand" not in values:
        slip.ask("hand", "which hand does it cut?")


def double_ended(slip: Slip) -> None:
    """Note whether it has two ends, which counts as one cutter."""
    if slip.take("de"):
        slip.values["double_ended"] = True
    slip.take("se")


def fit(slip: Slip) -> None:
    """A fit behind a reamer's size, which is in mm then: `10 H7`."""
    found = re.search(r"(?<![\w./-])(\d+(?:\.\d+)?) ?(?:mm )?([hgjk][6-9])(?!\w)", slip.text)
    if found:
        slip.values["limit"] = found[2].upper()
        slip.text = slip.text[: found.start()] + f"{found[1]} mm ¦" + slip.text[found.end():]


def span(slip: Slip) -> None:
    """A range of two sizes: `15/32-17/32`."""
    found = re.search(r"(?<![\w/.-])(\d+/\d+)\s*(?:-|to)\s*(\d+/\d+)(?![\w/.-])", slip.text)
    if found:
        slip.values["range"] = [found[1], found[2]]
        slip.text = slip.text[: found.start()] + " ¦ " + slip.text[found.end():]

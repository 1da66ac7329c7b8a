"""What follows from what a line says, for each kind; and the questions that every reading of it would leave."""

from __future__ import annotations

import re

from crib.cutters import KINDS, in_doubt
from crib.cutters.speech import Angle, Order, Speech
from crib.intake.shorthand.aside import set_off
from crib.intake.shorthand.slip import Slip
from crib.intake.shorthand.vocabulary import CONDITIONS, END_STATES
from crib.light.patterns import pattern
from crib.units import NM, nm

_AUXILIARY = ("per_foot", "for", "off_by", "stated", "ball", "chamfers", "angle_how", "ground_by", "ground_to", "miked",
    "neck_length",
    "separated", "range",
              "insert", "double_ended", "two_ends", "one_end", "is_square")


def settle(slip: Slip, kind: str) -> None:
    """Put what was said into the kind's own fields."""
    values = slip.values
    _stamp(slip)
    set_off(slip)
    speech = KINDS[kind].speech
    for said, meant in speech.fields.items():
        if said in values:
            values[meant] = values.pop(said)
            slip.typed[meant] = slip.typed.pop(said, "")
    across = values.get("diameter_mm", values.get("nominal_mm"))
    if values.get("ball") and not across and values.get("corner_radius_mm"):
        across = values["diameter_mm"] = nm(2 * values["corner_radius_mm"]) / NM
        slip.at["diameter_mm"] = slip.at.get("radius_mm", (0, 0))
    if values.get("ball") and across and nm(values.get("corner_radius_mm") or 0.0) == nm(2 * across):
        _the_other_way(slip)
        across = values["diameter_mm"]
    if values.get("ball") and across and abs(values.get("corner_radius_mm", across / 2) - across / 2) > 0.05:
        slip.ask("corner_radius_mm", f"corner-radius {slip.typed.get('corner_radius_mm')} isn't a ball's: mic it")
    elif values.get("ball") and across:
        values["corner_radius_mm"] = nm(across / 2) / NM
    slip.looks += speech.looks(values)
    _by_how_much(slip)
    if "reach_mm" in speech.wanted and (neck := values.get("neck_length")) and values.get("face_mm"):
        values["reach_mm"] = nm(values["face_mm"] + neck) / NM
    if "tap_chamfer" in speech.wanted:
        _tap(slip)
    _angle(slip, speech.angle)
    if speech.order is Order.NUMBER and values.get("shank_mm") and "drawer" not in values and slip.has("bench"):
        slip.notes.append("bench")


def _the_other_way(slip: Slip) -> None:
    """A ball's radius is half of its diameter: `1/4 R 1/8` names them the other way about."""
    values, typed = slip.values, slip.typed
    key = "diameter_mm" if "diameter_mm" in values else "nominal_mm"
    across = values.pop(key)
    values["diameter_mm"], values["corner_radius_mm"] = values["corner_radius_mm"], across
    typed["diameter_mm"], typed["corner_radius_mm"] = typed.get("corner_radius_mm", ""), typed.pop(key, "")


def _by_how_much(slip: Slip) -> None:
    """A size that is said to be over or under without how much is only its name."""
    typed = slip.typed.get("diameter_mm", "")
    if not slip.notes or "nominal_mm" in slip.values or not {"oversize", "undersize"} & {*slip.notes}:
        return
    if re.search(r"[/#]|^[A-Z]$", typed):
        slip.ask("diameter_mm", f"diameter: how much is it off {typed}? mic it")


def told(slip: Slip, speech: Speech) -> None:
    """The values that the words of a kind give."""
    for words, meant_by in speech.tells.items():
        if slip.take(words):
            slip.values |= meant_by


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
    if (stated := values.get("stated")) and "diameter_mm" in values:
        values["nominal_mm"], slip.typed["nominal_mm"] = values.pop("diameter_mm"), slip.typed.pop("diameter_mm", "")
        slip.size("diameter_mm", stated)
    if (to := values.get("ground_to")) and "diameter_mm" in values:
        values["nominal_mm"] = values.pop("diameter_mm")
        slip.typed["nominal_mm"] = slip.typed.pop("diameter_mm", "")
        slip.size("diameter_mm", to)
    if by := values.get("ground_by"):
        stamp, less = values.get("diameter_mm"), slip.mm(by)
        if stamp is not None and less is not None and less < stamp:
            values |= {"nominal_mm": stamp, "diameter_mm": nm(stamp - less) / NM}
            slip.notes.append(f"said to be reground {by} under")


def _tap(slip: Slip) -> None:
    chamfers = slip.values.get("chamfers", [])
    if len(chamfers) == 1:
        slip.values["tap_chamfer"] = chamfers[0]
    if "hand" not in slip.values:
        slip.assumed.append("hand")
    if any(note.startswith("serial") for note in slip.notes):
        slip.ask("tap_chamfer", "which of the serial set is it? count its rings")


def _angle(slip: Slip, sort: Angle | None) -> None:
    """Included, or for a side; from the face, for a dovetail."""
    values = slip.values
    angle, how = values.get("angle_deg"), values.get("angle_how", "")
    if angle is None:
        return
    each = "side" in how
    if sort is Angle.FLANK:
        if how or angle != 60:
            slip.ask("angle_deg", in_doubt.from_face(angle)
                     + (" it was called included" if "incl" in how else ""))
    elif sort in (Angle.EDGE, Angle.POINT):
        if each:
            values["angle_deg"] = 2 * angle
        elif angle == 45:
            values["angle_deg"] = 90.0
            slip.ask("angle_deg", in_doubt.each_side(90.0))
        elif sort is Angle.EDGE and not how:
            slip.ask("angle_deg", in_doubt.included(angle))
    elif sort is Angle.SLOPE:
        slip.ask("angle_deg", f"is it {angle:g} degrees a side, or included?")
    elif sort is Angle.HANDED and "double angle" not in slip.notes and "hand" not in values:
        slip.ask("hand", "which hand does it cut?")


def double_ended(slip: Slip) -> None:
    """Note whether it has two ends, which counts as one cutter."""
    states = []
    while found := slip.take(rf"oneend ({END_STATES})"):
        states.append(found[1].strip())
    if states:
        slip.values["one_end"] = [end_state(each) for each in states]
    if slip.take("de") or states:
        slip.values["double_ended"] = True
    slip.take("se")


def end_state(said: str) -> str:
    """The condition of an end as it is said; one that is broken off is chipped at the best."""
    found = (state for pattern, state in CONDITIONS if re.fullmatch(pattern, said))
    return next(found, "used" if said in ("ok", "fine") else "chipped")


_FIT = pattern(r"(?<![\w./-])(\d+(?:\.\d+)?) ?(?:mm )?([hgjk][6-9])(?!\w)")


def fit(slip: Slip) -> None:
    """A fit behind a reamer's size, which is in mm then: `10 H7`."""
    found = _FIT.search(slip.text)
    if not found and (alone := slip.take(r"[hgjknp][6-9]", "limit")):
        slip.values["limit"] = alone[0].upper()
    if found:
        slip.values["limit"] = found[2].upper()
        slip.at["limit"] = found.span(2)
        size = found[1] if len(found[1]) > 2 and found[1][0] == "." else f"{found[1]} mm"
        slip.text = slip.text[: found.start()] + f"{size} ¦" + slip.text[found.end():]


_SPAN = pattern(r"(?<![\w/.-])(\d+-\d+/\d+|\d+/\d+)\s*(?:-|to)\s*(\d+-\d+/\d+|\d+/\d+|\d+(?! ?-))(?![\w/.-])")


def span(slip: Slip) -> None:
    """A range of two sizes: `15/32-17/32`."""
    found = _SPAN.search(slip.text) if "-" in slip.text or "to" in slip.text else None
    if found:
        slip.values["range"] = [found[1], found[2]]
        slip.blank(*found.span())

"""Sizes without a label of what comes down its own axis: drills, reamers, taps, counterbores. Each function puts them
into a slip's fields, and raises `Held` where a reading would be a guess."""

from __future__ import annotations

import re

from crib.handbook.numbered import CENTRE_DRILLS, TAPER_PINS
from crib.intake.shorthand.in_order import NEAR_MM, WHOLE, in_order
from crib.intake.shorthand.slip import Held, Slip
from crib.light.patterns import pattern
from crib.units import in_words


def drill(slip: Slip) -> None:
    """Drills, by number, letter or size."""
    letter = re.search(r"(?:letter |[¦‖] *|^ ?)([a-z])(?= *[¦‖]| *$| )", slip.text) or re.search(
        r"\b(?:letter|size) ([a-z])\b", slip.said) or re.search(r"^([a-z]) drills?\b", slip.said)
    if gauge := re.search(r"(\d+) ?(swg|awg|gauge|ga|stubs)\b", slip.said):
        raise Held(f"{gauge[0]} is a wire's gauge: which size is that?", "mic it, or say the drill's number or letter")
    if letter and letter[1] == "a" and not re.search(r"\b(?:letter|size) a\b|\ba drills?\b|\bdrills? a\b", slip.said):
        letter = None
    if not slip.sizes and letter:
        slip.size("diameter_mm", letter[1].upper())
        slip.typed["diameter_mm"] = letter[1].upper()
        return
    if slip.sizes and WHOLE.match(slip.sizes[0]):
        _numbered(slip)
    if slip.values.pop("range", None):
        raise Held("a range is a set: which sizes are in it?", "fractional index 1/16-1/2, or number drills 1-60")
    texts = slip.sizes
    if len(texts) == 2 and (slip.mm(texts[1]) or 0) > 4 * (slip.mm(texts[0]) or 1e9):
        in_order(slip, ("diameter_mm", "overall_length_mm"))
    else:
        in_order(slip, ("diameter_mm",))


def _numbered(slip: Slip) -> None:
    """`6 drill` is #6 in an inch crib; in a metric one it could be 6 mm."""
    number = int(slip.sizes[0])
    if slip.units == "mm":
        raise Held(f"is {number} the drill #{number}, or {number} mm?", f"#{number} drill, or {number} mm drill")
    if number > 80:
        raise Held(f"there is no drill #{number}; is it in mm, or the mark of a keyseat cutter?",
                   f"{number} mm drill, or {number} key cutter")
    if number:
        slip.sizes[0] = f"#{number}"


def reamer(slip: Slip) -> None:
    """Reamers: one size, stamped and measured, or from and to what it is set."""
    sizes = slip.sizes
    if span := slip.values.pop("range", None):
        slip.size("min_hole_mm", span[0])
        slip.size("diameter_mm", span[1])
        slip.notes.append(f"adjustable from {span[0]} to {span[1]}: mic what it is set to")
        return
    first, second = ((slip.mm(text) or 0.0) for text in sizes[:2]) if len(sizes) == 2 else (0.0, 0.0)
    if second and abs(first - second) < NEAR_MM:
        slip.size("nominal_mm", sizes[0])
        slip.size("diameter_mm", sizes[1])
        if not slip.has("dowel|over.*|under.*"):
            slip.measured.append("diameter_mm")
        return
    letter = None if sizes else re.search(r"\b(?:letter|size) ([a-z])\b", slip.said)
    if letter:
        slip.size("diameter_mm", letter[1].upper())
    in_order(slip, ("diameter_mm",))


def taper_reamer(slip: Slip) -> None:
    """Taper reamers: for pins by their number, for Morse tapers by theirs."""
    if _is_morse(slip):
        return
    found = re.search(r"#\s?(\d{1,2})|no\.? ?(\d{1,2})", slip.said)
    end = TAPER_PINS.get(int(found[1] or found[2])) if found else None
    if found and end:
        slip.values["marking"] = f"#{found[1] or found[2]}"
        if slip.size("diameter_mm", end):
            slip.stamped.append("diameter_mm")
        slip.notes.append(f"large end of the pin {end}")
        return
    in_order(slip, ("diameter_mm",))


_MORSE = pattern(r"\b(?:morse(?: taper)?|m ?t)\b|\bmt\d")
_MORSE_NO = pattern(r"(?:#|no\.? ?|number )\s?(\d)(?![\d/.])|\bmt ?#?(\d)|morse(?: taper)? #?(\d)(?![\d/.])|"
                    r"\b(\d) (?:mt|morse)")


def _is_morse(slip: Slip) -> bool:
    """Whether a taper reamer is said to be a Morse taper's: by its number the taper's large end, and no pin's."""
    if not _MORSE.search(slip.said):
        return False
    from crib.handbook.tapers import tapers

    found = _MORSE_NO.search(slip.said)
    number = next((part for part in found.groups() if part), "") if found else ""
    taper = next((one for one in tapers() if one.name == f"Morse {number}"), None)
    if taper is None:
        slip.ask("diameter_mm", "which Morse taper: no. 0 to 7?")
        in_order(slip, ("diameter_mm",))
        return True
    slip.values["marking"] = f"MT{number}"
    slip.sizes.clear()
    if slip.size("diameter_mm", in_words(taper.large_mm, "in")):
        slip.stamped.append("diameter_mm")
    slip.notes.append(f"Morse taper no. {number}")
    return True


def centre_drill(slip: Slip) -> None:
    """Centre drills, by number or by body and pilot."""
    found = re.fullmatch(r"#?\s?(\d{1,2})", slip.sizes[0]) if slip.sizes else None
    sizes = CENTRE_DRILLS.get(int(found[1])) if found else None
    if found and sizes:
        slip.values["marking"] = f"#{found[1]}"
        slip.size("diameter_mm", sizes[0])
        slip.size("tip_mm", sizes[1])
        slip.assumed += ["diameter_mm", "tip_mm"]
        return
    in_order(slip, ("diameter_mm", "tip_mm"))


def step_drill(slip: Slip) -> None:
    """Step drills, from and to."""
    if span := slip.values.pop("range", None):
        slip.size("tip_mm", span[0])
        slip.size("diameter_mm", span[1])
        slip.notes.append("for sheet only")
        return
    in_order(slip, ("tip_mm", "diameter_mm"))


def tap(slip: Slip) -> None:
    """Taps and dies: a thread says all, a bare size doesn't say its pitch."""
    said = slip.typed.get("thread", "")
    if not said and len(slip.sizes) == 1 and len(names := _pitches(slip.sizes[0])) > 1:
        raise Held(f"{slip.sizes[0]} doesn't say its pitch: is it {' or '.join(names)}?",
                   f"{names[0]} {slip.values['kind']}")
    for text in slip.sizes:
        if said.startswith(f"{text}-"):
            continue
        slip.ask(f"size {text}", f"is {text} how many there are, or a length?")


def _pitches(size: str) -> list[str]:
    """The coarse and the fine unified thread of a size."""
    from crib.handbook.threads import threads

    bare = re.sub(r"\s?(?:inch|in|\")$", "", size.removeprefix("#").strip())
    return [one.name for one in threads() if one.series in ("UNC", "UNF") and one.name.rpartition("-")[0] == bare]


def counterbore(slip: Slip) -> None:
    """Counterbores: by its own size, never by the screw's; a number is one, for no counterbore goes by a drill's."""
    is_a_screw = bool(slip.sizes) and slip.sizes[0].startswith("#")
    if is_a_screw and "diameter_mm" in slip.typed:
        slip.notes.append(f"for {slip.sizes.pop(0)} screw")
        is_a_screw = False
    if (is_a_screw or slip.has("screw|cap screw|bolt")) and "for" not in slip.values:
        text = slip.sizes[0] if slip.sizes else "the size"
        raise Held(f"{text} is the screw's, not the counterbore's: its head takes a wider one",
                   "mic it: counterbore 13/32 pilot 17/64")
    in_order(slip, ("diameter_mm", "pilot_mm"))

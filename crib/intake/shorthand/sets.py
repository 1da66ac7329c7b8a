"""Sets of drills expanded into the drills that are in them; the missing ones have a count of 0."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from crib.cutters import KINDS
from crib.cutters.base import Cutter
from crib.cutters.speech import Order
from crib.intake.attributes import read_value
from crib.intake.build import build
from crib.intake.shorthand import phrases
from crib.intake.shorthand.slip import Held, Slip
from crib.units import NM, nm, read

if TYPE_CHECKING:
    from crib.intake.shorthand.line import Shop

_SET = r"sets?|index|number drills|letter drills|fractional"
_NUMBERS = re.compile(r"#?(\d{1,2})\s*(?:-|to|thru|through)\s*#?(\d{1,2})(?![\d/])")
_FRACTIONS = re.compile(r"(\d+/\d+)\s*(?:-|to|thru|through)\s*(\d+(?:/\d+)?)(?![\d/])(?:\s*by (\d+)(?:ths|nds)?)?")
_METRIC = re.compile(r"(\d+(?:\.\d)?)\s*(?:-|to)\s*(\d+(?:\.\d)?)\s*mm(?:\s*by\s*(\.\d|0?\.\d+|\d+))?")
_LETTERS = re.compile(r"\b([a-z])\s*(?:-|to|thru)\s*([a-z])\b")
_ONE = r"(?:#?\d+(?:/\d+)?(?:\.\d+)?(?: ?mm)?|letter [a-z]|(?<![a-z])[a-z](?![a-z]))"
_MISSING = (re.compile(rf"(?<![\w#/-])((?:{_ONE}(?:,? and |, ?| ))*{_ONE}),? (?:is |are )?(?:missing|gone|lost)"),
            re.compile(rf"(?:missing|less|without|minus|except) ((?:{_ONE}(?:,? and |, ?| ))*{_ONE})"))
_WRONG = re.compile(rf"({_ONE}) is (?:really )?(?:a |an )?(\d+(?:\.\d+)?\s?mm|#\d+|\d+/\d+|\.\d+)")
_MOST = 200
_NUMBERED = next(kind.name for kind in KINDS.values() if kind.speech.order is Order.NUMBER)


def expand(slip: Slip, shop: Shop) -> tuple[Cutter, ...]:
    """The drills of a set; empty where the line speaks of no set of drills. Raises `Held` where its sizes aren't
    said."""
    if not slip.has(_SET) or slip.has(r"taps?|dies?|set ?screws?"):
        return ()
    missing, wrong = _exceptions(slip)
    names = _names(slip)
    if names is None:
        raise Held("a set is not one cutter: which sizes are in it?",
                   "number drills 1-60, or fractional index 1/16-1/2, or letter drills A-Z, with what is missing")
    strange = [name for name in (*missing, *wrong) if _key(name) not in {_key(one) for one in names}]
    if strange:
        raise Held(f"{strange[0]} is not in the set from {names[0]} to {names[-1]}", "the names as the set has them")
    phrases.substance(slip)
    phrases.remarks(slip)
    common = {key: value for key, value in slip.values.items() if key in ("drawer", "material", "condition")}
    for key, default in (shop.defaults or {}).items():
        common.setdefault(key, read_value(key, default, shop.units))
    said = f"set {names[0]} to {names[-1]}"
    note = "; ".join((said, *dict.fromkeys(slip.notes)))
    gone = {_key(name) for name in missing}
    members = [_drill(name, common | {"note": note}, shop, _key(name) in gone) for name in names
               if _key(name) not in {_key(one) for one in wrong}]
    for name, really in wrong.items():
        members.append(_drill(name, common | {"note": f"{note}; its place holds a {really}"}, shop, True))
        members.append(_drill(really, common | {"note": f"in the place of {name} of the {said}"}, shop, False))
    return tuple(members)


def _exceptions(slip: Slip) -> tuple[list[str], dict[str, str]]:
    missing: list[str] = []
    wrong: dict[str, str] = {}
    while found := _WRONG.search(slip.text):
        wrong[found[1]] = found[2]
        slip.text = slip.text[: found.start()] + " ¦ " + slip.text[found.end():]
    for pattern in _MISSING:
        if found := pattern.search(slip.text):
            missing += re.findall(_ONE, found[1].replace(" and ", ", "))
            slip.text = slip.text[: found.start()] + " ¦ " + slip.text[found.end():]
    return missing, wrong


def _names(slip: Slip) -> list[str] | None:
    """The names of the sizes that are in the set, in order."""
    text = slip.text
    if found := _FRACTIONS.search(text):
        by = Fraction(1, int(found[3] or 64))
        low, high = Fraction(found[1]), Fraction(found[2])
        steps = int((high - low) / by) + 1 if high > low else 0
        return [_said(low + step * by) for step in range(steps)] if 1 < steps <= _MOST else None
    if found := _METRIC.search(text):
        step, low, high = Fraction(found[3] or "1/2"), Fraction(found[1]), Fraction(found[2])
        steps = int((high - low) / step) + 1 if high > low else 0
        return [f"{float(low + place * step):g} mm" for place in range(steps)] if 1 < steps <= _MOST else None
    if slip.has("letter.*") and (found := _LETTERS.search(text)):
        return [chr(code).upper() for code in range(ord(found[1]), ord(found[2]) + 1)] or None
    if slip.has("letter (?:drills?|set|index)|letter drill set"):
        return [chr(code) for code in range(ord("A"), ord("Z") + 1)]
    if slip.has("numbers?|#.*|number drills?|wire") and (found := _NUMBERS.search(text)):
        first, last = int(found[1]), int(found[2])
        return [f"#{number}" for number in range(first, last + 1)] if 0 < first < last <= 80 else None
    return None


def _said(size: Fraction) -> str:
    whole, part = divmod(size, 1)
    return f"{whole}-{part}" if whole and part else str(part or whole)


def _key(name: str) -> str:
    return name.lower().removeprefix("letter ").removeprefix("#").replace(" ", "")


def _drill(name: str, common: dict[str, object], shop: Shop, missing: bool) -> Cutter:
    size = nm(read(name.upper().replace("MM", "mm"), shop.units).mm) / NM
    extra = {"count": 0, "note": f"missing from the {common['note']}"} if missing else {}
    return build(common | {"kind": _NUMBERED, "diameter_mm": size} | extra, shop.currency)

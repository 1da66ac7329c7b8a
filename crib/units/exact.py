"""The exact value of a length as it is typed: fractions and decimals are reckoned with as they stand. Apart from
`crib.units.read`, for it is long in loading and what only shows lengths reads none."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from fractions import Fraction

from crib.findings.errors import CribError
from crib.light.patterns import pattern
from crib.units.drills import LETTER_DRILLS, NUMBER_DRILLS
from crib.units.length import HELP

_INCH = Fraction(254, 10)
_THOU = Fraction(254, 10_000)
_PM = 1_000_000_000
"""Picometres in a millimetre."""

LONGEST_TEXT = 60
"""More signs than this are no length that anyone typed; digits without end would take for ever to read."""

_UNIT = pattern(r"\s*(mm|millimet(?:er|re)s?|inch(?:es)?|in\.?|[\"”″]|thou|mil)\s*$", re.IGNORECASE)
_MIXED = pattern(r"^(\d+)(?:-|\s+)(\d+)/(\d+)$")
_FRACTION = pattern(r"^(\d+)/(\d+)$")
_DECIMAL = pattern(r"^(\d+([.,]\d*)?|[.,]\d+)$")
_NUMBER_DRILL = pattern(r"^(?:#|no\.?\s*|num(?:ber)?\s*)(\d{1,2})$", re.IGNORECASE)
_LETTER_DRILL = pattern(r"^(?:letter\s*)?([A-Z])$", re.IGNORECASE)


def value_of(text: str, units: str, what: str, sixty_fourths: bool = True) -> tuple[Fraction, str]:
    """Millimetres as an exact fraction, and the unit that it was typed in. Raises `CribError` for what is no length."""
    bare = text.strip()
    if not bare:
        raise CribError("length", f"{what} is empty", text, HELP)
    check_length(bare, what, LONGEST_TEXT)
    unit, scale, named = units, _INCH if units == "in" else Fraction(1), False
    if found := _UNIT.search(bare):
        word = found.group(1).lower()
        bare, named = bare[: found.start()].strip(), True
        unit = "mm" if word.startswith("m") and word != "mil" else "in"
        scale = _THOU if word in ("thou", "mil") else Fraction(1) if unit == "mm" else _INCH
    if found := _MIXED.match(bare) or _FRACTION.match(bare):
        *whole, top, bottom = (int(n) for n in found.groups())
        if bottom == 0:
            raise CribError("length", f"{what} {text.strip()!r} divides by zero", text,
                            f"a number above 0 below the stroke: {HELP}")
        if named and unit == "mm":
            return (sum(whole) + Fraction(top, bottom)) * scale, "mm"
        return (sum(whole) + Fraction(top, bottom)) * (scale if named else _INCH), "in"
    if found := _DECIMAL.match(bare):
        value = Fraction(Decimal(bare.replace(",", ".")))
        if sixty_fourths and scale == _INCH and re.search(r"[.,]\d{4}$", bare):
            value = _sixty_fourth(value)
        return value * scale, unit
    drill = _drill(bare) if not named else None
    if drill is None:
        raise CribError("length", f"{what} {text.strip()!r} is not a length", text, HELP)
    return drill, "in"


def check_length(text: str, what: str, most: int) -> None:
    """Raises `CribError` for more signs than a length can have."""
    if len(text) > most:
        raise CribError("length", f"{what} {text.strip()[:20]!r}... is not a length", text[:80], HELP)


def _sixty_fourth(value: Fraction) -> Fraction:
    near = Fraction(round(value * 64), 64)
    shown = Decimal(near.numerator) / Decimal(near.denominator)
    four = Decimal("0.0001")
    rounded = {Fraction(shown.quantize(four, way)) for way in (ROUND_HALF_UP, ROUND_HALF_EVEN)}
    return near if value in rounded else value


def _drill(text: str) -> Fraction | None:
    if found := _NUMBER_DRILL.match(text):
        size = NUMBER_DRILLS.get(int(found.group(1)))
    elif found := _LETTER_DRILL.match(text):
        size = LETTER_DRILLS[found.group(1).upper()]
    else:
        return None
    return None if size is None else Fraction(size, 10_000) * _INCH


def nearest(value: Fraction) -> float:
    """The float nearest to a value; whole nanometres stay whole."""
    return float(round(value * _PM)) / _PM

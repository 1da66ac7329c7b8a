"""Sizes of a question as they are typed: with limits of their own, or with an ISO 286 class behind them: `12H7`."""

from __future__ import annotations

import re

from crib.findings.errors import CribError
from crib.light.patterns import pattern
from crib.units import Size, read
from crib.units import read_size as with_limits

_CLASS = pattern(r"""^(?P<size>[\d.,].*?(?:\d[.,]?|["”″])|\d|[\d.,].*?(?:mm|in|inch))\s*"""
                 r"(?P<letters>[A-Za-z]{1,2})(?P<grade>[1-9]\d?)$")
_UNITS = ("mm", "in")


def read_size(text: str, units: str, what: str, default_mm: tuple[float, float],
              about_mm: tuple[float, float] | None = None) -> Size:
    """As `crib.units.read_size`, and a size with its class. Raises `CribError`.

    >>> size = read_size("12H7", "in", "bore", (0.0, 0.0))
    >>> size.text, size.lo, size.hi
    ('12H7', 12.0, 12.018)
    """
    found = _class_in(text) if len(text) < 60 else None
    if not found or found["letters"].lower() in _UNITS:
        return with_limits(text, units, what, default_mm, about_mm)
    length = read(found["size"] + _unit(found["size"], units, what, text), units, what)
    from crib.handbook.fits import class_limits

    lo, hi, _ = class_limits(length.mm, found["letters"] + found["grade"])
    if lo <= 0:
        raise CribError("tolerance", f"the limits of {text.strip()!r} take the size to nothing", text,
                        "a larger size, or limits of its own: 5+.002-0")
    return Size(length.mm, round(lo, 9), round(hi, 9), text.strip())


def _class_in(text: str) -> re.Match[str] | None:
    """The size and its class; it has a letter."""
    return _CLASS.match(text.strip()) if any(map(str.isalpha, text)) else None


def _unit(size: str, units: str, what: str, text: str) -> str:
    """The unit to put behind a size that has none, in a shop of inches: the classes are for mm, and what is beyond
    their table in inches is said in mm."""
    if units == "mm" or not re.fullmatch(r"[\d.,]+", size):
        return ""
    from crib.handbook.fits import MOST_MM

    if read(size, "in", what).mm > MOST_MM:
        return "mm"
    if size.isdigit():
        raise CribError("tolerance", f"{what} {text.strip()!r} could be in mm or in inches", text,
                        text.replace(size, f"{size}mm ", 1) + " or " + text.replace(size, f"{size}in ", 1))
    return ""


def source_of(text: str, size: Size) -> str:
    """Where the limits of a size are from, if it was typed with a class.

    >>> source_of("12H7", Size(12.0, 12.0, 12.018, "12H7"))
    'ISO 286-2 H7, public tables'
    """
    found = _class_in(text)
    if not found or found["letters"].lower() in _UNITS:
        return ""
    from crib.handbook.fits import class_limits

    return class_limits(size.nominal, found["letters"] + found["grade"])[2]

"""From what is typed to a size of a feature, with its limits or without."""

from __future__ import annotations

from crib.units.length import Size
from crib.units.read import LONGEST_MM
from crib.units.usual import PM, usual, usual_limits

_SHORT = 60
"""Texts up to so many signs are looked at for the usual forms."""


def read_size(text: str, units: str, what: str, default_mm: tuple[float, float],
              about_mm: tuple[float, float] | None = None) -> Size:
    """Read a size of a feature, with or without its limits: `5/8+.002-0`, `16mm±.02`, `.500/.502`, `.625`.

    `default_mm` is the (lower, upper) deviation in mm where none was typed, `about_mm` where it was said to be about
    so much. A tolerance without a unit has its size's. Raises `CribError` for nonsense, and where the least size would
    not be above zero.

    >>> size = read_size("5/8+.002-0", "in", "throat", (0.0, 0.0))
    >>> round(size.lo, 4), round(size.hi, 4), size.given
    (15.875, 15.9258, True)
    """
    if len(text) <= _SHORT and (size := _usual(text, units, default_mm)) is not None:
        return size
    from crib.units.limits import size_of

    return size_of(text, units, what, default_mm, about_mm or default_mm)


def _usual(text: str, units: str, default_mm: tuple[float, float]) -> Size | None:
    """A size that is written as sizes nearly always are, and has nothing wrong with it."""
    bare, (lower, upper) = text.strip(), default_mm
    told = usual(bare, units)
    if told is not None:
        nominal = told[0]
    elif (limits := usual_limits(bare, units)) is not None:
        nominal, lower, upper = limits[0], limits[1] / PM, limits[2] / PM
    else:
        return None
    lo, hi = nominal / PM + lower, nominal / PM + upper
    return None if lo <= 0 or not 0 < nominal <= LONGEST_MM * PM else Size(
        nominal / PM, round(lo, 9), round(hi, 9), bare, told is None)

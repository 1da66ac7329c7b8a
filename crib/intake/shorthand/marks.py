"""What a mark stands for: keyseat cutters, centre drills and taper pins by their numbers."""

from __future__ import annotations

import re
from fractions import Fraction

_INCH = Fraction(254, 10)
_OLD = (None, 204, 304, 404, 305, 405, 505, 406, 506, 606, 507, 607, 707, 608, 708, 808, 609, 709, 809, 610, 710, 810,
        811, 1011, 812, 1012)
_OLD_LETTERS = {"A": 807, "B": 1008, "C": 1009, "D": 1010, "E": 1210, "F": 1211, "G": 1212}
"""Old numbers and letters of Woodruff keys and the numbers they have now (ANSI/ASME B17.2)."""

_CENTRES = {1: ("1/8", "3/64"), 2: ("3/16", "5/64"), 3: ("1/4", "7/64"), 4: ("5/16", "1/8"), 5: ("7/16", "3/16"),
            6: ("1/2", "7/32"), 7: ("5/8", "1/4"), 8: ("3/4", "5/16")}
"""Body and pilot of plain centre drills (ASME B94.11M, from memory)."""

_PINS = {0: ".156", 1: ".172", 2: ".193", 3: ".219", 4: ".250", 5: ".289", 6: ".341", 7: ".409", 8: ".492", 9: ".591",
         10: ".706"}
"""Large ends of taper pins (ASME B18.8.2, from memory)."""


def keyseat(mark: str) -> tuple[float, float] | None:
    """Diameter and face in mm that a keyseat cutter's mark stands for: eighths in the last two figures, 32nds before.

    >>> keyseat("606"), keyseat("202-1/2"), keyseat("999")
    ((19.05, 4.7625), (7.9375, 1.5875), None)
    """
    found = re.fullmatch(r"(\d{1,2})(\d\d)(-1/2)?", mark)
    if not found:
        return None
    face, across = int(found[1]), Fraction(int(found[2])) + (Fraction(1, 2) if found[3] else 0)
    if not (2 <= face <= 12 and 2 <= across <= 28 and Fraction(face, 32) < across / 8):
        return None
    return float(across / 8 * _INCH), float(Fraction(face, 32) * _INCH)


def old_keyseat(mark: str) -> str | None:
    """The number that an old number or letter of a Woodruff key has now.

    >>> old_keyseat("6"), old_keyseat("a"), old_keyseat("99")
    ('505', '807', None)
    """
    if mark.isdigit():
        return str(_OLD[int(mark)]) if 0 < int(mark) < len(_OLD) else None
    now = _OLD_LETTERS.get(mark.upper())
    return None if now is None else str(now)


def centre_drill(number: int) -> tuple[str, str] | None:
    """Body and pilot of a centre drill."""
    return _CENTRES.get(number)


def taper_pin(number: int) -> str | None:
    """The large end of a taper pin."""
    return _PINS.get(number)

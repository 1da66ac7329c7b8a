"""What a keyseat cutter's mark stands for."""

from __future__ import annotations

import re
from fractions import Fraction

_INCH = Fraction(254, 10)


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

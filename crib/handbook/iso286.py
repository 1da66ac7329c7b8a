"""ISO 286: how wide a grade of tolerance is, and how far from the size a letter puts it. Tables up to 120 mm; what they
don't have is no class here: nothing is reckoned beyond them.

References: ISO 286-1:2010 tables 1 to 3, ISO 286-2:2010. H7 from 3 to 80 mm, H11, H12 and JS9 seen on public tables,
all else from memory, held against the formulas that ISO 286-1 was made by.
"""

from __future__ import annotations

from crib.findings.errors import CribError

_TO = (3, 6, 10, 18, 24, 30, 40, 50, 65, 80, 100, 120)
"""Sizes up to and including [mm]; the grades take two steps of 18 to 120 mm together."""

_GRADE_TO = (3, 6, 10, 18, 30, 50, 80, 120)
_IT = {
    4: (3, 4, 4, 5, 6, 7, 8, 10), 5: (4, 5, 6, 8, 9, 11, 13, 15), 6: (6, 8, 9, 11, 13, 16, 19, 22),
    7: (10, 12, 15, 18, 21, 25, 30, 35), 8: (14, 18, 22, 27, 33, 39, 46, 54), 9: (25, 30, 36, 43, 52, 62, 74, 87),
    10: (40, 48, 58, 70, 84, 100, 120, 140), 11: (60, 75, 90, 110, 130, 160, 190, 220),
    12: (100, 120, 150, 180, 210, 250, 300, 350), 13: (140, 180, 220, 270, 330, 390, 460, 540),
}
"""Width of each grade [micron]."""

_BELOW = {
    "c": (60, 70, 80, 95, 110, 110, 120, 130, 140, 150, 170, 180),
    "d": (20, 30, 40, 50, 65, 65, 80, 80, 100, 100, 120, 120), "e": (14, 20, 25, 32, 40, 40, 50, 50, 60, 60, 72, 72),
    "f": (6, 10, 13, 16, 20, 20, 25, 25, 30, 30, 36, 36), "g": (2, 4, 5, 6, 7, 7, 9, 9, 10, 10, 12, 12),
    "h": (0,) * 12,
}
"""How far under the size the upper limit of a shaft is [micron]; of a hole the lower limit is as far over it."""

_ABOVE = {
    "k": (0, 1, 1, 1, 2, 2, 2, 2, 2, 2, 3, 3), "m": (2, 4, 6, 7, 8, 8, 9, 9, 11, 11, 13, 13),
    "n": (4, 8, 10, 12, 15, 15, 17, 17, 20, 20, 23, 23), "p": (6, 12, 15, 18, 22, 22, 26, 26, 32, 32, 37, 37),
    "r": (10, 15, 19, 23, 28, 28, 34, 34, 41, 43, 51, 54), "s": (14, 19, 23, 28, 35, 35, 43, 43, 53, 59, 71, 79),
    "u": (18, 23, 28, 33, 41, 48, 60, 70, 87, 102, 124, 144),
}
"""How far over the size the lower limit of a shaft is [micron]; k in grades 4 to 7, 0 in the others."""

_SHAFTS = {"c": (8, 12), "d": (5, 13), "e": (5, 10), "f": (5, 10), "g": (5, 10), "h": (5, 13), "js": (5, 13),
           "k": (5, 13), "m": (5, 9), "n": (5, 9), "p": (5, 10), "r": (5, 10), "s": (5, 10), "u": (5, 9)}
_HOLES = {"C": (8, 13), "D": (6, 13), "E": (5, 10), "F": (5, 10), "G": (5, 10), "H": (5, 13), "JS": (5, 13),
          "K": (6, 8), "M": (6, 9), "N": (6, 11), "P": (6, 10), "R": (6, 10), "S": (6, 10), "U": (6, 10)}
"""The grades that each letter is tabulated in, as far as they are here."""

MOST_MM = _TO[-1]
"""The largest size of the tables [mm]."""

_SEEN = ("H7", "H11", "H12", "JS9")
_TRANSITION = ("K", "M", "N")


def deviations(size_mm: float, letter: str, grade: int) -> tuple[float, float]:
    """How far the lower and the upper limit of a class lie from the size [mm]; a capital is a hole's. Raises
    `CribError` for a class or a size that the tables don't have.

    References: ISO 286-1:2010, 4.3: a hole's deviation is its shaft's turned over; for K, M, N up to grade 8 and P to U
    up to 7, above 3 mm, by the difference of two grades more.

    >>> [round(1000 * mm) for letter, grade in (("H", 7), ("g", 6), ("F", 8), ("K", 7), ("P", 9))
    ...  for mm in deviations(12.0, letter, grade)]
    [0, 18, -17, -6, 16, 43, -12, 6, -61, -18]
    """
    known = _HOLES if letter.isupper() else _SHAFTS
    if letter not in known or not known[letter][0] <= grade <= known[letter][1]:
        sort = "holes" if letter.isupper() else "shafts"
        given = ", ".join(f"{one}{low}-{high}" for one, (low, high) in known.items())
        raise CribError("fit", f"{letter}{grade} is not in the tables of {sort}", f"{letter}{grade}",
                        f"one of {given}; or limits of its own: 5+.002-0")
    if not 0 < size_mm <= MOST_MM:
        raise CribError("fit", f"the table of {letter}{grade} ends at {MOST_MM} mm", f"{size_mm:g}",
                        "limits of its own: 5+.002-0")
    wide = _grade(size_mm, grade)
    if letter in ("js", "JS"):
        return -wide / 2000, wide / 2000
    small = letter.lower()
    if small in _BELOW:
        off = _BELOW[small][_step(size_mm)]
        return (off / 1000, (off + wide) / 1000) if letter.isupper() else (-(off + wide) / 1000, -off / 1000)
    if letter.isupper():
        top = _upper_of_hole(size_mm, letter, grade)
        return (top - wide) / 1000, top / 1000
    low = 0 if letter == "k" and grade > 7 else _ABOVE[letter][_step(size_mm)]
    return low / 1000, (low + wide) / 1000


def _upper_of_hole(size_mm: float, letter: str, grade: int) -> int:
    """How far over the size a tight hole's upper limit is [micron]."""
    off = _ABOVE[letter.lower()][_step(size_mm)]
    if size_mm <= 3:
        return -off
    if letter == "N" and grade > 8:
        return 0
    with_difference = grade <= (8 if letter in _TRANSITION else 7)
    return -off + (_grade(size_mm, grade) - _grade(size_mm, grade - 1) if with_difference else 0)


def _grade(size_mm: float, grade: int) -> int:
    return _IT[grade][next(place for place, most in enumerate(_GRADE_TO) if size_mm <= most)]


def _step(size_mm: float) -> int:
    return next(place for place, most in enumerate(_TO) if size_mm <= most)


def source(name: str) -> str:
    """Where a class is from.

    >>> source("H7"), source("g6")
    ('ISO 286-2 H7, public tables', 'ISO 286-2 g6, from memory')
    """
    return f"ISO 286-2 {name}, {'public tables' if name in _SEEN else 'from memory'}"

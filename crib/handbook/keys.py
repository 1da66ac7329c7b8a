"""Parallel keys: the square key that a shaft takes, and how deep its seat goes."""

from __future__ import annotations

from math import sqrt

from crib.findings.errors import CribError
from crib.units import in_words

SOURCE = "ANSI B17.1-1967 (R1998) Table 1"
_INCH = 25.4
_LEAST = 0.3125
_SQUARE = ((0.4375, 0.09375), (0.5625, 0.125), (0.875, 0.1875), (1.25, 0.25), (1.375, 0.3125), (1.75, 0.375),
           (2.25, 0.5), (2.75, 0.625), (3.25, 0.75), (3.75, 0.875), (4.5, 1.0))
"""Shafts up to and including so much [in], and the side of their square key [in]; the first row begins above 5/16."""

_SLACK = 1e-6


def square_key(shaft_mm: float) -> float:
    """The side of the square key for a shaft [mm]. Raises `CribError` for a shaft that the table has none for.

    References: ANSI B17.1-1967 (R1998), Table 1.

    >>> [round(square_key(shaft) / 25.4, 4) for shaft in (19.05, 25.4)]
    [0.1875, 0.25]
    """
    shaft = shaft_mm / _INCH
    if shaft > _LEAST + _SLACK:
        for most, key in _SQUARE:
            if shaft <= most + _SLACK:
                return key * _INCH
    said = in_words(shaft_mm, "in")
    raise CribError("key", f"{SOURCE} has no square key for a shaft of {said}", said,
                    "a shaft above 5/16 and up to 4-1/2, or the key's own --width and --depth")


def crown(shaft_mm: float, width_mm: float) -> float:
    """How far the crown of a shaft stands over the edges of a seat [mm]: (D - sqrt(D^2 - W^2)) / 2.

    References: ANSI B17.1-1967, appendix, the chordal height Y.

    >>> round(crown(25.4, 6.35) / 25.4, 4)
    0.0159
    """
    return (shaft_mm - sqrt(shaft_mm**2 - width_mm**2)) / 2


def seat_depth(shaft_mm: float, key_mm: float) -> float:
    """From the crown of a shaft to the floor of the seat of a square key [mm]: half of the key lies under the edges.

    References: ANSI B17.1-1967: S = D - Y - H/2 is left under it.

    >>> round((25.4 - seat_depth(25.4, 6.35)) / 25.4, 3)
    0.859
    """
    return crown(shaft_mm, key_mm) + key_mm / 2

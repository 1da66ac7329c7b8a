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

_FLAT = {0.125: 0.09375, 0.1875: 0.125, 0.25: 0.1875, 0.3125: 0.25, 0.375: 0.25, 0.5: 0.375, 0.625: 0.4375, 0.75: 0.5,
         0.875: 0.625, 1.0: 0.75}
"""Widths of keys, and how high the rectangular one of that width is [in]."""

_SLACK = 1e-6

ISO_SOURCE = "ISO 773 / DIN 6885-1, two public tables; width N9, from memory but for its role"
_PARALLEL = ((8, 2, 1.2), (10, 3, 1.8), (12, 4, 2.5), (17, 5, 3.0), (22, 6, 3.5), (30, 8, 4.0), (38, 10, 5.0),
             (44, 12, 5.0), (50, 14, 5.5), (58, 16, 6.0), (65, 18, 7.0), (75, 20, 7.5), (85, 22, 9.0), (95, 25, 9.0),
             (110, 28, 10.0), (130, 32, 11.0))
"""Shafts up to and including so much, the width of their key, the depth of its seat from the crown [mm]; the first row
begins above 6."""

_HUBS = ((8, 1.0), (10, 1.4), (12, 1.8), (17, 2.3), (22, 2.8), (30, 3.3), (38, 3.3), (44, 3.3), (50, 3.8), (58, 4.3),
         (65, 4.4), (75, 4.9), (85, 5.4), (95, 5.4), (110, 6.4), (130, 7.4))
"""Shafts up to and including so much, and the depth of the seat in the hub from the crown of its bore [mm]: ISO 773 /
DIN 6885-1, two public tables."""

_JS9 = ((3, 0.0125), (6, 0.015), (10, 0.018), (18, 0.0215), (30, 0.026), (50, 0.031))
"""Widths up to, and how far a seat in a hub may be off its key's width to either side [mm]: ISO 286-2."""

_N9 = ((3, 0.029, 0.004), (6, 0.030, 0.0), (10, 0.036, 0.0), (18, 0.043, 0.0), (30, 0.052, 0.0), (50, 0.062, 0.0))
"""Widths up to [mm]; how much under the size a seat is at the most and at the least [mm]."""


def parallel_key(shaft_mm: float) -> tuple[float, tuple[float, float], tuple[float, float]]:
    """For a metric shaft the width of its key, the limits of the seat's width, and of its depth from the crown [mm].
    Raises `CribError` for a shaft that the table has none for.

    References: ISO 773 / DIN 6885-1; N9 of ISO 286-2; depth + 0.1, above 22 mm + 0.2.

    >>> parallel_key(25.0)
    (8, (7.964, 8.0), (4.0, 4.2))
    """
    if not 6 < shaft_mm <= _PARALLEL[-1][0]:
        said = in_words(shaft_mm, "mm")
        raise CribError("key", f"{ISO_SOURCE.split(',')[0]} has no key for a shaft of {said}", said,
                        "a shaft above 6 and up to 130 mm, or the key's own --width and --depth")
    _, wide, deep = next(row for row in _PARALLEL if shaft_mm <= row[0] + _SLACK)
    most, least = next(row[1:] for row in _N9 if wide <= row[0])
    return wide, (round(wide - most, 6), round(wide - least, 6)), (deep, deep + (0.1 if shaft_mm <= 22 else 0.2))


def parallel_hub(shaft_mm: float) -> tuple[float, tuple[float, float], tuple[float, float]]:
    """For a metric shaft the width of its key, the limits of the width of the seat in the hub, and of its depth from
    the crown of the bore [mm]. Raises `CribError` for a shaft that the table has none for.

    References: ISO 773 / DIN 6885-1, t2; JS9 of ISO 286-2; depth + 0.1, above 22 mm + 0.2.

    >>> parallel_hub(25.0)
    (8, (7.982, 8.018), (3.3, 3.5))
    """
    wide, _, (low, high) = parallel_key(shaft_mm)
    deep = next(row[1] for row in _HUBS if shaft_mm <= row[0] + _SLACK)
    off = next(mm for most, mm in _JS9 if wide <= most + _SLACK)
    return wide, (round(wide - off, 6), round(wide + off, 6)), (deep, round(deep + high - low, 6))


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


def key_height(shaft_mm: float, rectangular: bool) -> float:
    """How high the key for a shaft is, square or rectangular [mm]. Raises `CribError` for a shaft that the table has
    none for.

    References: ANSI B17.1-1967 (R1998), Table 1.

    >>> round(key_height(25.4, True) / 25.4, 4), round(key_height(25.4, False) / 25.4, 4)
    (0.1875, 0.25)
    """
    wide = square_key(shaft_mm)
    if not rectangular:
        return wide
    if (high := _FLAT.get(round(wide / _INCH, 6))) is None:
        said = in_words(shaft_mm, "in")
        raise CribError("key", f"{SOURCE} has no rectangular key for a shaft of {said}", said,
                        "a shaft above 7/16, or the square key")
    return high * _INCH


def crown(shaft_mm: float, width_mm: float) -> float:
    """How far the crown of a shaft stands over the edges of a seat [mm]: (D - sqrt(D^2 - W^2)) / 2.

    References: ANSI B17.1-1967, appendix, the chordal height Y.

    >>> round(crown(25.4, 6.35) / 25.4, 4)
    0.0159
    """
    return (shaft_mm - sqrt(shaft_mm**2 - width_mm**2)) / 2

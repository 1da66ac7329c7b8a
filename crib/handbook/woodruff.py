"""Woodruff keys by their number: the seat's width, diameter and depth.

The last two digits of an inch number are the diameter in eighths, what stands before them is the width in
thirty-seconds.
"""

from __future__ import annotations

import re
from math import floor

from crib.findings.errors import CribError
from crib.light.tuples import NamedTuple
from crib.units import in_words

_INCH = 25.4
_HEIGHTS = "ANSI/ASME B17.2-1967 (R2013), Machinery's Handbook 31st edition, Table 8: key heights"
_LIMITS = "seat widths and diameters from memory; depth by the least height less half the width"
_ISO = "ISO 3912:1977, from memory"

_MADE = {
    2: (2,), 2.5: (2, 3), 3: (2, 3, 4), 4: (2, 3, 4), 5: (3, 4, 5, 6), 6: (4, 5, 6, 8), 7: (5, 6, 7, 8),
    8: (6, 7, 8, 10, 12), 9: (6, 7, 8, 10), 10: (6, 7, 8, 10, 12), 11: (8, 10, 12), 12: (8, 10, 12),
}
"""Diameters [1/8 in], and the widths that are made of each [1/32 in]."""

_HIGH = {2: .109, 2.5: .140, 3: .172, 4: .203, 5: .250, 6: .313, 7: .375, 8: .438, 9: .484, 10: .547, 11: .594,
         12: .641}
"""Diameters [1/8 in], and the greatest height of the key [in]; the least is .005 lower."""

_OVER = ((6, .018), (9, .020), (11, .023), (12, .023))
"""Up to which diameter [1/8 in] how much wider the seat may be [in]."""

_WIDTHS = {2: (.0615, .0630), 3: (.0928, .0943), 4: (.1240, .1255), 5: (.1553, .1568), 6: (.1863, .1880),
           7: (.2175, .2193), 8: (.2487, .2505), 10: (.3111, .3130), 12: (.3735, .3755)}
"""Widths [1/32 in], and the limits of the seat [in]."""

_PRINTED = {(3, 3.0): .1202}
"""Depths that are printed otherwise than the rule gives them [in]."""

_OLD = (None, 204, 304, 404, 305, 405, 505, 406, 506, 606, 507, 607, 707, 608, 708, 808, 609, 709, 809, 610, 710, 810,
        811, 1011, 812, 1012)
_OLD_LETTERS = {"A": 807, "B": 1008, "C": 1009, "D": 1010, "E": 1210, "F": 1211, "G": 1212}
"""Old numbers and letters of Woodruff keys and the numbers they have now (ANSI/ASME B17.2)."""

_METRIC = {
    "1x1.4": (4, 1.0), "1.5x2.6": (7, 2.0), "2x2.6": (7, 1.8), "2x3.7": (10, 2.9), "2.5x3.7": (10, 2.7),
    "3x5": (13, 3.8), "3x6.5": (16, 5.3), "4x6.5": (16, 5.0), "4x7.5": (19, 6.0), "5x6.5": (16, 4.5),
    "5x7.5": (19, 5.5), "5x9": (22, 7.0), "6x9": (22, 6.5), "6x10": (25, 7.5), "8x11": (28, 8.0), "10x13": (32, 10.0),
}
"""Width by height; diameter, depth of the seat [mm]."""

_LARGE = {1628: (.6830, .938), 2428: (.5580, .938)}
"""Keys of 3-1/2 in: depth of the seat, greatest height [in]; the rows of ANSI/ASME B17.2 that a textbook reprints."""
_LARGE_SOURCE = ("ANSI/ASME B17.2-1967, two rows in a textbook's reprint; seat widths and diameters by the rule of the "
                 "smaller ones, from memory")

_DIN = {
    "1x1.4": (4, 1.0), "1.5x2.6": (7, 2.0), "2x2.6": (7, 1.8), "2x3.7": (10, 2.9), "2.5x3.7": (10, 2.9),
    "3x3.7": (10, 2.5), "3x5": (13, 3.8), "3x6.5": (16, 5.3), "4x5": (13, 3.5), "4x6.5": (16, 5.0),
    "4x7.5": (19, 6.0), "5x6.5": (16, 4.5), "5x7.5": (19, 5.5), "5x9": (22, 7.0), "6x7.5": (19, 5.1),
    "6x9": (22, 6.6), "6x11": (28, 8.6), "8x9": (22, 6.2), "8x11": (28, 8.2), "8x13": (32, 10.2),
    "10x11": (28, 7.8), "10x13": (32, 9.8), "10x16": (45, 12.8),
}
"""Width by height; diameter, depth of the seat [mm]: other depths than ISO 3912's for some."""
_DIN_SEEN_TO = 4.0

_FOR_SHAFTS = ((0.375, 204), (0.5, 304), (0.75, 404), (0.9375, 505), (1.1875, 606), (1.4375, 807), (1.75, 810),
               (2.125, 1011), (2.5, 1211))
_LEAST_SHAFT = 0.3125
FOR_SHAFTS = "Machinery's Handbook, from memory"
"""Shafts up to and including so much, and the first of the keys that go with them; the least shaft [in]. Machinery's
Handbook, Woodruff keys for different shaft diameters, from memory."""

DEEPER_MM, DEEPER_METRIC_MM = 0.005 * _INCH, 0.1
"""What a seat may be deeper than the table says [mm]."""


class Seat(NamedTuple):
    """The seat of a Woodruff key [mm]: the key's width; from what to what the seat is wide, across and deep at its
    side; how high the key is, from what to what; its name; where that is from."""

    key: float
    width: tuple[float, float]
    diameter: tuple[float, float]
    depth: tuple[float, float]
    height: tuple[float, float]
    name: str
    source: str


class KeyseatCutter(NamedTuple):
    """The cutter for a Woodruff key's seat, as its standard has it [mm]: `number` is the key's, `old` what it was
    called before, empty where it wasn't."""

    number: str
    old: str
    diameter_mm: float
    width_mm: float
    standard: str


def old_number(mark: str) -> str | None:
    """The number that an old number or letter of a Woodruff key has now.

    >>> old_number("6"), old_number("a"), old_number("99")
    ('505', '807', None)
    """
    if mark.isdigit():
        return str(_OLD[int(mark)]) if 0 < int(mark) < len(_OLD) else None
    now = _OLD_LETTERS.get(mark.upper())
    return None if now is None else str(now)


def keyseat_cutters() -> tuple[KeyseatCutter, ...]:
    """The cutters of both standards, the inch ones first, smallest first.

    >>> [one.number for one in keyseat_cutters() if one.diameter_mm == 19.05], keyseat_cutters()[-1].number
    (['406', '506', '606', '806'], '10x13')
    """
    before = {str(now): str(old) for old, now in (*enumerate(_OLD), *_OLD_LETTERS.items()) if now}
    inch = []
    for across, widths in _MADE.items():
        for wide in widths:
            number = f"{wide}{int(across):02d}" + ("-1/2" if across % 1 else "")
            inch.append(KeyseatCutter(number, before.get(number, ""), round(across * _INCH / 8, 6),
                                      round(wide * _INCH / 32, 6), "ANSI B17.2"))
    metric = (KeyseatCutter(name, "", float(across), float(name.partition("x")[0]), "ISO 3912, from memory")
              for name, (across, _) in _METRIC.items())
    return (*inch, *metric)


def numbers() -> tuple[str, ...]:
    """The numbers of the inch keys that there are.

    >>> len(numbers()), "606" in numbers(), "1018" in numbers(), "202-1/2" in numbers()
    (43, True, False, True)
    """
    made = (f"{wide}{int(across):02d}{'-1/2' if across % 1 else ''}" for across, many in _MADE.items() for wide in many)
    return (*made, *map(str, _LARGE))


def metric_names() -> tuple[str, ...]:
    """Width by height of the metric keys of both standards, the longer names first.

    >>> len(metric_names()), "3x5" in metric_names(), "6x11" in metric_names()
    (24, True, True)
    """
    return tuple(sorted({*_METRIC, *_DIN}, key=lambda name: (-len(name), name)))


def seat(text: str) -> Seat:
    """The seat of a key by its number. Raises `CribError` for a number that the tables don't have; of one that a key
    had before it says what it is called now.

    h = C - .005 - W / 2 in at the side of the slot, C the key's greatest height; to four places, halves up.

    References: ANSI/ASME B17.2-1967; ISO 3912:1977, from memory.

    >>> [round(mm / 25.4, 4) for mm in seat("606").depth], [round(mm / 25.4, 4) for mm in seat("204").depth]
    ([0.2143, 0.2193], [0.1668, 0.1718])
    """
    said = text.strip().lower().removeprefix("no.").removeprefix("#").strip().replace(",", ".").replace(" 1/2", "-1/2")
    if metric := re.fullmatch(r"(din ?(?:6888)? )?m?(\d+(?:\.\d+)?) ?x ?(\d+(?:\.\d+)?)(?: ?x ?\d+)?(?: ?mm)?", said):
        return _metric(f"{metric[2]}x{metric[3]}", text, bool(metric[1]))
    if said in map(str, _LARGE):
        return _large(said)
    found = re.fullmatch(r"(\d{1,2})(\d\d)(-1/2)?", said)
    wide, across = (int(found[1]), int(found[2]) + (0.5 if found[3] else 0)) if found else (0, 0.0)
    if wide not in _MADE.get(across, ()):
        now = old_number(said)
        raise CribError("key", f"there is no Woodruff key {text!r} in the tables", text, f"{now}: it was called "
                        f"{said.upper()} before" if now else
                        "a number such as 606, its width in 1/32 and its diameter in 1/8; 5x6.5 for ISO 3912, DIN "
                        "5x6.5 for DIN 6888; or the seat's own --width --diameter --depth")
    high = _HIGH[across] * _INCH
    over = next(more for most, more in _OVER if across <= most) * _INCH
    low, most = (limit * _INCH for limit in _WIDTHS[wide])
    key, size = wide * _INCH / 32, across * _INCH / 8
    deep = _PRINTED.get((wide, float(across)), _halves_up(_HIGH[across] - 0.005 - wide / 64)) * _INCH
    return Seat(key, (low, most), (size, size + over), (deep, deep + DEEPER_MM), (high - DEEPER_MM, high), said,
                f"{_HEIGHTS}; {_LIMITS}")


def _halves_up(inches: float) -> float:
    """To four places as the standard prints it."""
    return floor(inches * 10_000 + 0.5 + 1e-6) / 10_000


def key_for_shaft(shaft_mm: float) -> str:
    """The number of a Woodruff key that goes with a shaft: the first of those that do. Raises `CribError` for a shaft
    that the table has none for.

    References: Machinery's Handbook, Woodruff keys for different shaft diameters, from memory.

    >>> key_for_shaft(25.4), key_for_shaft(12.7)
    ('606', '304')
    """
    shaft = shaft_mm / _INCH
    if shaft >= _LEAST_SHAFT - 1e-6:
        for most, number in _FOR_SHAFTS:
            if shaft <= most + 1e-6:
                return str(number)
    said = in_words(shaft_mm, "in")
    raise CribError("key", f"the table has no Woodruff key for a shaft of {said}", said,
                    "a shaft from 5/16 to 2-1/2, or the key's own number: --key 606")


def _large(said: str) -> Seat:
    deep, high = (inches * _INCH for inches in _LARGE[int(said)])
    key, size = int(said[:2]) * _INCH / 32, int(said[2:]) * _INCH / 8
    return Seat(key, (key, key + 0.002 * _INCH), (size, size + 0.035 * _INCH), (deep, deep + DEEPER_MM),
                (high - DEEPER_MM, high), said, _LARGE_SOURCE)


def _metric(name: str, text: str, is_din: bool) -> Seat:
    table, standard = (_DIN, "DIN 6888") if is_din else (_METRIC, "ISO 3912")
    if name not in table:
        raise CribError("key", f"{standard} has no Woodruff key {text!r}", text, "one of " + ", ".join(table))
    across, deep = table[name]
    wide, high = map(float, name.split("x"))
    play = 0.025 if wide <= 3 else 0.030 if wide <= 6 else 0.036
    source = _ISO if not is_din else "DIN 6888:1956, a page's text" if wide <= _DIN_SEEN_TO else "DIN 6888, from memory"
    return Seat(wide, (wide - play, wide), (float(across), across + 0.5), (deep, deep + DEEPER_METRIC_MM), (high, high),
                f"DIN {name}" if is_din else name, f"{source}; width N9")

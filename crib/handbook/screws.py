"""What a screw's head and body need: the clearance hole, the counterbore, the countersink, the seat for a hexagon.

Each table says where its values are from; what isn't from a table says so too.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from math import cos, pi

from crib.findings.errors import CribError
from crib.light.tuples import NamedTuple
from crib.units import in_words, read

IN = 25.4
FITS = ("normal", "close", "loose")

_B18_2_8 = "ASME B18.2.8-1999 (R2017) Table 1a"
_CLEARANCE = """
#0 51 48 3/32        #1 46 43 37          #2 3/32 38 32        #3 36 32 30
#4 31 30 27          #5 9/64 5/32 11/64   #6 23 18 13          #8 15 9 3
#10 5 2 B            1/4 17/64 9/32 19/64 5/16 21/64 11/32 23/64
3/8 25/64 13/32 27/64    7/16 29/64 15/32 31/64    1/2 17/32 9/16 39/64
5/8 21/32 11/16 47/64    3/4 25/32 13/16 29/32     7/8 29/32 15/16 1-1/32
1 1-1/32 1-3/32 1-5/32   1-1/8 1-5/32 1-7/32 1-5/16   1-1/4 1-9/32 1-11/32 1-7/16
1-3/8 1-7/16 1-1/2 1-39/64   1-1/2 1-9/16 1-5/8 1-47/64
"""
"""Screw; the drill for a close, a normal and a loose hole: a fraction, a letter or a number."""

_LOOSE = """
#0 .094 .104 #1 .104 .114 #2 .116 .126 #3 .128 .140 #4 .144 .156 #5 .172 .184 #6 .185 .197 #8 .213 .225
1/4 .297 .311 5/16 .359 .373 3/8 .422 .438 7/16 .484 .500 1/2 .609 .625 5/8 .734 .754 3/4 .906 .926 7/8 1.031 1.051
1 1.156 1.181 1-1/8 1.312 1.337 1-1/4 1.438 1.463 1-3/8 1.609 1.634 1-1/2 1.734 1.759
"""
"""Screw; the least and the most of a loose hole as they are printed [in]."""

_ISO_273 = "ISO 273:1979, as an open parts library carries it"
_CLEARANCE_MM = """
M1 1.1 1.2 1.3    M1.2 1.3 1.4 1.5  M1.4 1.5 1.6 1.8  M1.6 1.7 1.8 2    M1.8 2 2.1 2.2    M2 2.2 2.4 2.6
M2.5 2.7 2.9 3.1  M3 3.2 3.4 3.6    M3.5 3.7 3.9 4.2  M4 4.3 4.5 4.8    M5 5.3 5.5 5.8    M6 6.4 6.6 7
M7 7.4 7.6 8      M8 8.4 9 10       M10 10.5 11 12    M12 13 14 15      M14 15 16 17      M16 17 18 19
M18 19 20 21      M20 21 22 24      M22 23 24 26      M24 25 26 28      M27 28 30 32      M30 31 33 35
M33 34 36 38      M36 37 39 42
"""
"""Screw; the least of a close, a normal and a loose hole [mm]."""

_GRADES = ((3, 0.10, 0.14, 0.25), (6, 0.12, 0.18, 0.30), (10, 0.15, 0.22, 0.36), (18, 0.18, 0.27, 0.43),
           (30, 0.21, 0.33, 0.52), (50, 0.25, 0.39, 0.62))
"""Holes up to [mm], and what H12, H13 and H14 add to them [mm]: ISO 286-2, H12 seen on public tables, the others from
memory."""

_B18_3 = "ASME B18.3 appendix, its counterbore from memory; head sizes as an open parts library carries B18.3"
_SOCKET = """
#0 .096 1/8      #1 .118 5/32     #2 .140 3/16     #3 .161 7/32     #4 .183 7/32     #5 .205 1/4
#6 .226 9/32     #8 .270 5/16     #10 .312 3/8     1/4 .375 7/16    5/16 .469 17/32  3/8 .562 5/8
7/16 .656 23/32  1/2 .750 13/16   5/8 .938 1       3/4 1.125 1-3/16 7/8 1.312 1-3/8  1 1.500 1-5/8
"""
"""Screw; the greatest diameter of a socket head [in], its counterbore. The head is as high as the screw is thick."""

_B18_3_1M = "ASME B18.3.1M appendix, its counterbore from memory; heads ISO 4762"
_SOCKET_MM = """
M1.6 3.14 3.5   M2 3.98 4.4      M2.5 4.68 5.4    M3 5.68 6.5      M4 7.22 8.25   M5 8.72 9.75   M6 10.22 11.25
M8 13.27 14.25  M10 16.27 17.25  M12 18.27 19.25  M14 21.33 22.25  M16 24.33 25.5 M20 30.33 31.5 M24 36.39 37.5
"""
"""Screw; the greatest diameter of a knurled socket head [mm], its counterbore."""

HEAD_RUNS_MM = IN / 64
"""What a counterbore must be wider than the greatest head [mm]. Common practice, no source."""

_FLAT_SOURCE = "ASME B18.6.3 (older editions) theoretical sharp diameter, from memory; heads on a public table page"
_FLAT = """
#0 .119 #1 .146 #2 .172 #3 .199 #4 .225 #5 .252 #6 .279 #8 .332 #10 .385 #12 .438 1/4 .507 5/16 .635 3/8 .762
7/16 .812 1/2 .875 9/16 1.000 5/8 1.125 3/4 1.375
"""
"""Flat-head machine screw, 82 degrees: the diameter of its head to a sharp edge [in]."""

_FLAT_SOCKET_SOURCE = "ASME B18.3, public table page: theoretical sharp diameter"
_FLAT_SOCKET = """
#0 .138 #1 .168 #2 .197 #3 .226 #4 .255 #5 .281 #6 .307 #8 .359 #10 .411 #12 .450 1/4 .531 5/16 .656 3/8 .781
7/16 .844 1/2 .938 5/8 1.188 3/4 1.438
"""
"""Flat-head socket screw, 82 degrees: the same."""

_ISO_10642 = "ISO 10642, as an open parts library carries it; to a sharp edge 12 percent more, from memory"
_FLAT_MM = """
M3 6 90 M4 8 90 M5 10 90 M6 12 90 M8 16 90 M10 20 90 M12 24 90 M14 27 90 M16 30 90 M18 33 90 M20 36 90
M22 36 60 M24 39 60
"""
"""Flat-head socket screw: its head [mm], its angle [deg]."""

_HEX_SOURCE = "ASME B18.2.1 and ISO 4017, widths across flats from memory; a seat as wide as the corners"
_HEX = """
1/4 7/16 5/16 1/2 3/8 9/16 7/16 5/8 1/2 3/4 5/8 15/16 3/4 1-1/8 7/8 1-5/16 1 1-1/2
M4 7mm M5 8mm M6 10mm M8 13mm M10 16mm M12 18mm M16 24mm M20 30mm M24 36mm
"""
"""Hexagon screw; its width across flats."""

OVER_CORNERS_MM = 0.03 * IN
"""What a seat is wider than the corners of its hexagon [mm]. Common practice."""


class Sized(NamedTuple):
    """A size of a screw's standard [mm]: from what to what, in words, and where it is from."""

    least: float
    most: float
    text: str
    source: str


class Flat(NamedTuple):
    """A flat head [mm, deg]: its diameter to a sharp edge, its angle, where they are from."""

    diameter: float
    angle: float
    source: str


def _rows(table: str, width: int) -> dict[str, tuple[str, ...]]:
    words = table.split()
    return {words[at]: tuple(words[at + 1 : at + width]) for at in range(0, len(words), width)}


def screw_name(text: str) -> str:
    """A screw as the tables name it: `#8`, `1/4`, `M6`; a pitch behind it says nothing here. Raises `CribError`.

    >>> [screw_name(said) for said in ("1/4-20", "no. 8", "#10-32", "m6x1", "1 1/4", "10")]
    ['1/4', '#8', '#10', 'M6', '1-1/4', '#10']
    """
    said = text.strip().lower().removesuffix("in").removesuffix('"').strip()
    if metric := re.fullmatch(r"m ?(\d+(?:\.\d+)?)(?: ?x.*)?", said):
        return f"M{metric[1]}"
    if number := re.fullmatch(r"(?:#|no\.? ?|number )(\d\d?)(?:-\d+)?", said):
        return f"#{int(number[1])}"
    if re.fullmatch(r"(?:[02-9]|1[0-2])(?:-\d\d+)?", said):
        return f"#{int(said.split('-')[0])}"
    if whole := re.fullmatch(r"(?:(\d+)[ -])?(\d+/\d+)(?:-\d\d?)?", said):
        return f"{whole[1]}-{whole[2]}" if whole[1] else whole[2]
    if said in ("1", "1-8", "1-12", "1-14") and (text.strip() != "1"):
        return "1"
    raise CribError("screw", f"{text!r} is no screw's size", text, "such as #8, 1/4, M6; '1in' or '#1' for a plain 1")


def _row(tables: dict[str, tuple[str, ...]], text: str, what: str) -> tuple[str, tuple[str, ...]]:
    name = screw_name(text)
    if name not in tables:
        raise CribError("screw", f"there is no {what} for {name} in the tables", text, "one of " + ", ".join(tables))
    return name, tables[name]


def clearance_hole(text: str, fit: str = FITS[0]) -> Sized:
    """The hole that a screw goes through [mm]. Raises `CribError` for a screw or a fit that the tables don't have.

    References: ASME B18.2.8 Table 1a, the loose ones as printed, of the others the drill as their least; ISO 273. The
    most of what isn't printed by ISO 286-2: H12 close, H13 normal, H14 loose.

    >>> hole = clearance_hole("1/4")
    >>> round(hole.least / 25.4, 4), hole.text
    (0.2812, '9/32')
    """
    if fit not in FITS:
        raise CribError("fit", f"fit {fit!r} of a screw's hole is not known", fit, "one of " + ", ".join(FITS))
    name, row = _row({**_rows(_CLEARANCE, 4), **_rows(_CLEARANCE_MM, 4)}, text, "clearance hole")
    place = {"close": 0, "normal": 1, "loose": 2}[fit]
    metric = name.startswith("M")
    drill = row[place]
    said = f"{drill} mm" if metric else drill if "/" in drill or drill.isalpha() else f"#{drill}"
    least = float(drill) if metric else read(said, "in").mm
    over = next(grades[place] for top, *grades in _GRADES if least <= top)
    if fit == "loose" and name in (printed := _rows(_LOOSE, 3)):
        low, high = (float(limit) * IN for limit in printed[name])
        return Sized(low, high, said, f"{fit} fit for {name}: {_B18_2_8}, least and most as printed")
    source = _ISO_273 if metric else f"{_B18_2_8}, the drill"
    return Sized(least, least + over, said, f"{fit} fit for {name}: {source}, H{12 + place} of ISO 286-2 over it")


class Sunk(NamedTuple):
    """What a socket head asks for [mm]: the table's counterbore, the least that its greatest head goes into, and how
    high it is."""

    bore: Sized
    least: float
    high: float


def socket_head(text: str) -> Sunk:
    """The counterbore for a socket head cap screw, and the height of its head [mm]. Raises `CribError`.

    References: ASME B18.3 appendix, from memory.

    >>> sunk = socket_head("1/4")
    >>> sunk.bore.text, round(sunk.least / 25.4, 3), round(sunk.high / 25.4, 3)
    ('7/16', 0.391, 0.25)
    """
    name, (head, bore) = _row({**_rows(_SOCKET, 3), **_rows(_SOCKET_MM, 3)}, text, "socket head")
    metric = name.startswith("M")
    across = float(bore) if metric else read(bore, "in").mm
    said = f"{bore} mm" if metric else bore
    least = min(across, (float(head) if metric else float(head) * IN) + HEAD_RUNS_MM)
    table = Sized(across, across + _PLUS_MM, said, f"{name}: {_B18_3_1M if metric else _B18_3}")
    return Sunk(table, round(least, 6), thickness(name))


def counterbores() -> Iterator[tuple[str, float]]:
    """Every screw with the counterbore for its socket head [mm].

    >>> dict(counterbores())["1/4"]
    11.1125
    """
    for name in (*_rows(_SOCKET, 3), *_rows(_SOCKET_MM, 3)):
        yield name, socket_head("1in" if name == "1" else name).bore.least


_PLUS_MM = 0.015 * IN
"""What a counterbore may be wider or deeper than the table says [mm]. Common practice."""


def thickness(name: str) -> float:
    """How thick a screw of the tables is [mm]: .060 + .013 n in for a number n.

    References: ASME B1.1 for the numbers.

    >>> [round(thickness(name) / 25.4, 4) for name in ("#8", "1/4")], thickness("M6")
    ([0.164, 0.25], 6.0)
    """
    if name.startswith("M"):
        return float(name[1:])
    return (0.060 + 0.013 * int(name[1:])) * IN if name.startswith("#") else read(name, "in").mm


def flat_head(text: str, socket: bool = False) -> Flat:
    """The flat head of a machine screw, or of a socket screw [mm, deg]; metric ones are socket screws. Raises
    `CribError`.

    References: ASME B18.3 (public page); B18.6.3, to a sharp edge from memory; ISO 10642.

    >>> [round(flat_head("1/4", socket).diameter / 25.4, 3) for socket in (False, True)], flat_head("M6").angle
    ([0.507, 0.531], 90.0)
    """
    if screw_name(text).startswith("M"):
        name, (across, angle) = _row(_rows(_FLAT_MM, 3), text, "flat head")
        return Flat(_SHARP * float(across), float(angle), f"{name}: {_ISO_10642}")
    name, (across,) = _row(_rows(_FLAT_SOCKET if socket else _FLAT, 2), text, "flat head")
    return Flat(float(across) * IN, 82.0, f"{name}: {_FLAT_SOCKET_SOURCE if socket else _FLAT_SOURCE}")


_SHARP = 1.12
"""The theoretical sharp diameter of an ISO 10642 head over its greatest [-]. From memory."""


def hexagon_seat(text: str) -> Sized:
    """The seat under a hexagon head [mm]: its corners, W / cos 30, and a little. Raises `CribError`.

    References: widths across flats from memory; geometry.

    >>> round(hexagon_seat("1/2").least / 25.4, 3)
    0.896
    """
    name, (flats,) = _row(_rows(_HEX, 2), text, "hexagon")
    least = read(flats, "in").mm / cos(pi / 6) + OVER_CORNERS_MM
    units = "mm" if name.startswith("M") else "in"
    return Sized(least, least + OVER_CORNERS_MM, in_words(least, units), f"{name}: {_HEX_SOURCE}")

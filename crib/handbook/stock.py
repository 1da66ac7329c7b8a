"""What end mills and keyseat cutters are made in, and how far a neck may go: what could be bought, without a maker.

All from memory of ASME B94.19 and, for end mills in millimetres, ISO 1641, not checked against a copy; T-slot cutters
are in `crib/handbook/tslots.py`, drills in `crib/handbook/drill_sizes.py`.
"""

from __future__ import annotations

from crib.light.records import dataclass

SOURCE = "ASME B94.19, from memory"
METRIC_SOURCE = "ISO 1641, from memory"
_INCH = 25.4

# Diameter, shank, length of cut, overall length [1/16 in]; regular length, two flutes that cut to the centre.
_TWO_FLUTES = (
    (2, 6, 6, 37), (3, 6, 7, 37), (4, 6, 8, 37), (5, 6, 9, 37), (6, 6, 9, 37), (7, 6, 13, 40), (8, 6, 13, 40),
    (8, 8, 16, 48), (9, 8, 18, 50), (10, 8, 18, 50), (10, 10, 21, 55), (12, 8, 21, 53), (12, 12, 21, 57),
    (14, 12, 24, 60), (16, 12, 24, 60), (16, 16, 26, 66),
)
# The same of long and extra long ones, of high helix.
_LONG = (
    (4, 6, 20, 49), (5, 6, 22, 50), (6, 6, 24, 52), (7, 8, 28, 60), (8, 8, 32, 64), (10, 10, 40, 74),
    (12, 12, 48, 84), (14, 14, 56, 92), (16, 16, 64, 104),
    (4, 6, 28, 57), (5, 6, 32, 60), (6, 6, 40, 68), (8, 8, 48, 80), (10, 10, 64, 98), (12, 12, 64, 100),
    (16, 16, 96, 136),
)
# Diameter, which mostly is the shank's too; length of cut and overall length, short and long [mm].
_METRIC = (
    (3, 8, 52, 12, 56), (4, 11, 55, 19, 63), (5, 13, 57, 24, 68), (6, 13, 57, 24, 68), (7, 16, 66, 30, 80),
    (8, 19, 69, 38, 88), (9, 19, 69, 38, 88), (10, 22, 72, 45, 95), (12, 26, 83, 53, 110),
    (14, 26, 83, 53, 110), (16, 32, 92, 63, 123), (18, 32, 92, 63, 123),
    (20, 38, 104, 75, 141), (25, 45, 121, 90, 166),
)
_METRIC_SHANKS = {3: 6, 4: 6, 5: 6, 7: 10, 8: 10, 9: 10, 14: 12, 18: 16}
# Woodruff number: its last two figures are the diameter in eighths, those before the face in thirty-seconds of an inch.
_KEYSEAT_NUMBERS = (
    202, 203, 303, 403, 204, 304, 404, 305, 405, 505, 605, 406, 506, 606, 806, 507, 607, 707, 807, 608, 708, 808, 1008,
    1208, 609, 709, 809, 1009, 610, 710, 810, 1010, 1210,
)
KEYSEAT_SHANK_MM = _INCH / 2
NECK_SHARE = 0.35
"""The neck of a keyseat cutter, of its diameter, where nobody measured one (from memory): enough for a first look."""


# Diameter, face, shank [1/16 in]; the usual angles [deg].
_DOVETAILS = ((6, 2, 6), (8, 3, 6), (12, 5, 6), (16, 6, 8), (22, 10, 10), (30, 13, 14), (36, 17, 16))
DOVETAIL_ANGLES = (45.0, 60.0)
# Diameter, which is the shank's too, and the flat at the tip [1/64 in]; the usual included angles [deg].
_CHAMFERS = ((16, 3), (24, 4), (32, 6), (48, 8), (64, 10))
CHAMFER_ANGLES = (60.0, 82.0, 90.0, 120.0)


# Diameter and bore [1/8 in], and the thicknesses of each [1/64 in].
_SAWS = ((20, 7, (2, 3, 4, 6, 8)), (24, 8, (2, 3, 4, 6, 8, 10)), (32, 8, (2, 3, 4, 6, 8, 10, 12)))
_SIDE_CUTTERS = ((24, 8, (16, 20, 24, 32)), (32, 8, (24, 32, 40, 48)))


@dataclass(frozen=True)
class StockDisc:
    """A saw or a side cutter, on an arbor through its bore [mm]."""

    diameter_mm: float
    bore_mm: float
    face_mm: float


@dataclass(frozen=True)
class StockDovetail:
    """A dovetail cutter as it is made, whatever its angle [mm]."""

    diameter_mm: float
    face_mm: float
    shank_mm: float


@dataclass(frozen=True)
class StockChamfer:
    """A chamfer cutter as it is made, whatever its angle [mm]."""

    diameter_mm: float
    tip_mm: float


@dataclass(frozen=True)
class StockEndMill:
    """An end mill of two flutes that cuts to the centre, as it is made [mm]."""

    diameter_mm: float
    shank_mm: float
    length_of_cut_mm: float
    overall_length_mm: float


@dataclass(frozen=True)
class StockKeyseatCutter:
    """A keyseat cutter by its Woodruff number [mm]."""

    number: str
    diameter_mm: float
    face_mm: float


def _parts(count: float, of: int) -> float:
    """So many parts of an inch, in whole nanometres [mm]."""
    return round(count * _INCH / of, 6)


def end_mills(metric: bool = False) -> tuple[StockEndMill, ...]:
    """The end mills that are made, of each diameter the shortest first: in inches, or in millimetres.

    References: ASME B94.19 and ISO 1641, from memory.

    >>> [round(mill.shank_mm / 25.4, 3) for mill in end_mills() if mill.diameter_mm == 12.7]
    [0.375, 0.5, 0.5, 0.5]
    >>> [mill.length_of_cut_mm for mill in end_mills(metric=True) if mill.diameter_mm == 6]
    [13, 24]
    """
    if metric:
        return tuple(StockEndMill(size, _METRIC_SHANKS.get(size, size), cut, overall)
                     for size, short, over_short, long, over_long in _METRIC
                     for cut, overall in ((short, over_short), (long, over_long)))
    every = [StockEndMill(*(_parts(each, 16) for each in row)) for row in (*_TWO_FLUTES, *_LONG)]
    return tuple(sorted(every, key=lambda mill: (mill.diameter_mm, mill.length_of_cut_mm)))


def keyseat_cutters() -> tuple[StockKeyseatCutter, ...]:
    """The keyseat cutters that are made, by diameter and face.

    References: numbering by ASME B17.2, membership from memory.

    >>> [(c.number, c.diameter_mm, c.face_mm) for c in keyseat_cutters() if c.number in ("606", "1008")]
    [('606', 19.05, 4.7625), ('1008', 25.4, 7.9375)]
    """
    return tuple(StockKeyseatCutter(str(number), _parts(number % 100, 8), _parts(number // 100, 32))
                 for number in _KEYSEAT_NUMBERS)


def dovetails() -> tuple[StockDovetail, ...]:
    """The dovetail cutters that are made, smallest first.

    References: from memory of common sizes.

    >>> [round(c.face_mm / 25.4, 4) for c in dovetails() if c.diameter_mm == 19.05]
    [0.3125]
    """
    return tuple(StockDovetail(*(_parts(each, 16) for each in row)) for row in _DOVETAILS)


def chamfers() -> tuple[StockChamfer, ...]:
    """The chamfer cutters that are made, smallest first.

    References: from memory of common sizes.

    >>> [c.diameter_mm for c in chamfers()][2]
    12.7
    """
    return tuple(StockChamfer(*(_parts(each, 64) for each in row)) for row in _CHAMFERS)


def saws() -> tuple[StockDisc, ...]:
    """The slitting saws that are made, smallest first.

    References: from memory.

    >>> [round(saw.face_mm / 25.4, 4) for saw in saws() if saw.bore_mm < 25][:3]
    [0.0312, 0.0469, 0.0625]
    """
    return _discs(_SAWS)


def side_cutters() -> tuple[StockDisc, ...]:
    """The side cutters that are made, smallest first.

    References: from memory.

    >>> len(side_cutters())
    8
    """
    return _discs(_SIDE_CUTTERS)


def _discs(rows: tuple[tuple[int, int, tuple[int, ...]], ...]) -> tuple[StockDisc, ...]:
    return tuple(StockDisc(_parts(across, 8), _parts(bore, 8), _parts(thick, 64))
                 for across, bore, faces in rows for thick in faces)

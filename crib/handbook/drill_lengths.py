"""How long the flutes of a drill are, where nobody measured them: by its series, from tables.

References: ASME B94.11M jobber, screw-machine and taper length, straight shank, and ISO 235 with the stub and long
series that go with it; all from memory, not checked against a copy. Number and letter sizes take the row of the next
fraction.
"""

from __future__ import annotations

import re

from crib.handbook.drill_sizes import drill_name
from crib.light.tuples import NamedTuple

SOURCE = "ASME B94.11M and ISO 235, from memory"
_INCH = 25.4
SERIES = ("screw-machine", "jobber", "taper length")

# Up to this diameter [1/64 in]: flutes of a screw-machine, a jobber and a taper length drill [1/16 in].
_INCH_ROWS = (
    (2, 8, 8, 16), (3, 9, 12, 18), (4, 10, 14, 28), (5, 11, 16, 32), (6, 12, 20, 36), (7, 13, 24, 40), (8, 14, 26, 44),
    (9, 15, 28, 48), (10, 16, 32, 48), (11, 17, 34, 54), (12, 18, 37, 54), (13, 19, 39, 58), (14, 20, 40, 58),
    (15, 21, 42, 60), (16, 22, 44, 60), (17, 23, 46, 62), (18, 24, 47, 62), (19, 25, 49, 64), (20, 26, 51, 64),
    (21, 27, 53, 66), (22, 27, 55, 66), (23, 28, 56, 68), (24, 29, 58, 68), (25, 30, 60, 70), (26, 31, 62, 70),
    (27, 32, 63, 74), (28, 33, 65, 74), (29, 34, 67, 76), (30, 34, 69, 76), (31, 35, 70, 76), (32, 36, 72, 76),
    (37, 40, 77, 78), (42, 44, 83, 84), (44, 46, 90, 90), (48, 50, 94, 94), (64, 64, 102, 102),
)
# Up to this diameter: flutes of a stub, a jobber and a long drill, all in mm.
_METRIC_ROWS = (
    (1.0, 6, 12, 33), (1.5, 9, 18, 45), (2.0, 12, 24, 56), (2.65, 14, 30, 62), (3.0, 16, 33, 66), (3.35, 18, 36, 69),
    (3.75, 20, 39, 73), (4.25, 22, 43, 78), (4.75, 24, 47, 82), (5.3, 26, 52, 87), (6.0, 28, 57, 91), (6.7, 31, 63, 97),
    (7.5, 34, 69, 102), (8.5, 37, 75, 109), (9.5, 40, 81, 115), (10.6, 43, 87, 121), (11.8, 47, 94, 128),
    (13.2, 51, 101, 134), (14.0, 54, 108, 140), (15.0, 56, 114, 144), (16.0, 58, 120, 149), (17.0, 60, 125, 154),
    (18.0, 62, 130, 158), (19.0, 64, 135, 162), (20.0, 66, 140, 166),
)
REDUCED_MM = 3 * _INCH
"""Flutes of a drill over half an inch with a half-inch shank [mm]. From memory."""

_WORDS = ((r"\bstub\b|screw[ -]?machine", 0), (r"\bjobbers?\b", 1), (r"taper[ -]?length|long series", 2))


class Flutes(NamedTuple):
    """The flutes of a screw-machine (or stub), a jobber and a taper length (or long) drill of one size [mm]."""

    shortest: float
    usual: float
    longest: float


def flutes(diameter_mm: float) -> Flutes:
    """The flutes that a drill of a size may have, shortest first [mm].

    Parameters: diameter [mm]. Returns: three lengths [mm]; above the tables those of their last row. References: see
    above. Examples: from memory, a #7 jobber 2-7/16, a #43 1-1/4, a 10 mm 87 mm.

    >>> [round(flutes(mm).usual / 25.4, 4) for mm in (0.201 * 25.4, 0.089 * 25.4)], flutes(10.0).usual
    ([2.4375, 1.25], 87)
    """
    if drill_name(diameter_mm).endswith("mm"):
        row = next((row for row in _METRIC_ROWS if diameter_mm <= row[0] + 1e-6), _METRIC_ROWS[-1])
        return Flutes(*row[1:])
    inch = next((row for row in _INCH_ROWS if diameter_mm <= row[0] / 64 * _INCH + 1e-6), _INCH_ROWS[-1])
    return Flutes(*(round(part / 16 * _INCH, 6) for part in inch[1:]))


def said_of(diameter_mm: float, text: str) -> Flutes:
    """The same where the series is said of the drill: then they are all alike.

    >>> said_of(6.35, "a stub from the lathe").longest, said_of(6.35, "").usual
    (34.925, 69.85)
    """
    found = flutes(diameter_mm)
    for words, place in _WORDS if text else ():
        if re.search(words, text.lower()):
            return Flutes(*(found[place],) * 3)
    return found

"""Screws that set a gib: how many, where, how long, and the land for the jam nut.

References: common practice and from memory, except the set screws' keys: ASME B18.3 and ISO 4026, as carried in an
open parts library.
"""

from __future__ import annotations

from math import ceil, cos, radians

IN = 25.4
MOST_SPACING_MM, LEAST_END_MM = 2.0 * IN, 0.5 * IN
"""The most between two screws of a light slide, and the least from an end [mm]. From memory: 1.5 to 2.5 in and .5 to
.75 in are usual."""

_KEYS_IN: dict[str, str] = {
    "4-40": ".050", "6-32": "1/16", "8-32": "5/64", "10-24": "3/32", "10-32": "3/32", "1/4-20": "1/8", "1/4-28": "1/8",
    "5/16-18": "5/32", "5/16-24": "5/32", "3/8-16": "3/16", "3/8-24": "3/16", "M3x0.5": "1.5 mm", "M4x0.7": "2 mm",
    "M5x0.8": "2.5 mm", "M6x1": "3 mm", "M8x1.25": "4 mm",
}


def hex_key(thread_name: str) -> str | None:
    """The key of a socket set screw, None where it isn't tabled.

    >>> hex_key("1/4-28")
    '1/8'
    """
    return _KEYS_IN.get(thread_name)


def screws_for(length_mm: float, major_mm: float) -> int:
    """How many screws a gib of a length wants: two at the ends and no more than 2 in between, three at least over 3 in.

    n = ceil((L - 2 e) / p) + 1

    Parameters: L, D [mm]. Returns: n [-]. References: from memory.

    >>> screws_for(6 * 25.4, 6.35)
    4
    """
    between = max(0.0, length_mm - 2 * end_distance(major_mm))
    return max(ceil(between / MOST_SPACING_MM - 1e-9) + 1, 3 if length_mm > 3 * IN else 2)


def end_distance(major_mm: float) -> float:
    """From the end of the gib to the first screw: half an inch, 1.5 D at least [mm]. References: from memory.

    >>> end_distance(6.35)
    12.7
    """
    return max(LEAST_END_MM, 1.5 * major_mm)


def places(length_mm: float, number: int, major_mm: float) -> tuple[float, ...]:
    """Where the screws stand, from the end of the gib [mm].

    >>> [round(x / 25.4, 3) for x in places(6 * 25.4, 4, 6.35)]
    [0.5, 2.167, 3.833, 5.5]
    """
    first = end_distance(major_mm)
    if number == 1:
        return (length_mm / 2,)
    step = (length_mm - 2 * first) / (number - 1)
    return tuple(first + step * place for place in range(number))


def across_corners(flats_mm: float) -> float:
    """A hexagon nut across its corners: AF / cos 30 [mm]. References: geometry.

    >>> round(across_corners(0.4375), 3)
    0.505
    """
    return flats_mm / cos(radians(30))


def land(flats_mm: float) -> float:
    """The spot-faced land of a jam nut: across corners and .030 in [mm]. References: common practice.

    >>> round(land(0.4375 * 25.4) / 25.4, 3)
    0.535
    """
    return across_corners(flats_mm) + 0.030 * IN


def nut_height(major_mm: float) -> float:
    """A jam nut's height, taken as 0.6 D [mm]. From memory: 5/32 for 1/4.

    >>> round(nut_height(6.35) / 25.4, 3)
    0.15
    """
    return 0.6 * major_mm


def screw_length(wall_mm: float, dimple_mm: float, major_mm: float, pitch_mm: float, step_mm: float) -> float:
    """The set screw: wall, dimple, jam nut and 1.5 threads beyond it, up to the next length that is made [mm].

    References: common practice.

    >>> round(screw_length(0.375 * 25.4, 1.6, 6.35, 0.907, 25.4 / 8) / 25.4, 3)
    0.75
    """
    least = wall_mm + dimple_mm + nut_height(major_mm) + 1.5 * pitch_mm
    return ceil(least / step_mm - 1e-9) * step_mm


def least_thread(major_mm: float, is_steel: bool) -> float:
    """The least length of thread: a diameter, in steel 0.8 of it [mm]. References: common practice.

    >>> least_thread(6.35, False)
    6.35
    """
    return major_mm * (0.8 if is_steel else 1.0)

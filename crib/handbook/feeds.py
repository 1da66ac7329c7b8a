"""Feed per tooth for HSS cutters and the table feed that comes of it."""

from __future__ import annotations

from itertools import pairwise
from math import inf

from crib.findings.errors import CribError
from crib.handbook.materials import Material

_INCH = 25.4
FEEDS_IN: tuple[tuple[float, float], ...] = (
    (1 / 16, 0.0002), (1 / 8, 0.0005), (3 / 16, 0.0008), (1 / 4, 0.0010), (3 / 8, 0.0015), (1 / 2, 0.0025),
    (3 / 4, 0.0035), (1.0, 0.0045),
)
"""Diameter [in] and feed per tooth [in], HSS in low-carbon steel. From memory, in line with common tables."""

FEED_FACTORS: dict[str, float] = {"milling": 1.0, "buried": 0.5, "sawing": 0.25, "forming": 0.4, "fly cutting": 1.0}
"""Share of the milling feed [-]. From memory."""

LEAST_MM = 0.0005 * _INCH
"""Below this a tooth of a cutter 1/4 in and over rubs [mm]. From memory."""

SAW_LIMITS_MM = (0.0003 * _INCH, 0.0010 * _INCH)
"""Feed per tooth of a slitting saw [mm]. From memory."""

DRILL_FEEDS_IN: tuple[tuple[float, float, float], ...] = (
    (1 / 8, 0.001, 0.002), (1 / 4, 0.002, 0.004), (1 / 2, 0.004, 0.007), (1.0, 0.007, 0.015),
)
"""Up to this diameter [in], from and to this feed a revolution [in]. Standard handbook table, common."""


def feed_per_tooth(diameter_mm: float, material: Material, operation: str = "milling") -> float:
    """The feed per tooth of an HSS cutter.

    fz = fz(D) for low-carbon steel, between the table's sizes in proportion, x material x operation; not under
    .0005 in from 1/4 in up. Under 1/16 in it falls with the diameter, over 1 in it stays.

    Parameters: D [mm]; material; operation, one of `FEED_FACTORS` [-]. Returns: feed per tooth [mm].
    Raises: `operation`, `diameter`. References: from memory, in line with common tables.

    >>> from crib.handbook.materials import find_material
    >>> round(feed_per_tooth(12.7, find_material("mild steel")) / 25.4, 5)
    0.0025
    """
    if operation not in FEED_FACTORS:
        raise CribError("operation", f"operation {operation!r} has no feed per tooth", operation,
                        f"one of: {', '.join(FEED_FACTORS)}")
    if not diameter_mm > 0:
        raise CribError("diameter", f"a cutter of diameter {diameter_mm} mm has no feed", str(diameter_mm),
                        "a diameter above zero")
    feed = _table_feed_in(diameter_mm / _INCH) * _INCH * material.feed_factor * FEED_FACTORS[operation]
    if operation == "sawing":
        return min(max(feed, SAW_LIMITS_MM[0]), SAW_LIMITS_MM[1])
    return max(feed, LEAST_MM) if diameter_mm >= _INCH / 4 else feed


def least_per_tooth(diameter_mm: float, feed_mm: float) -> float:
    """The least feed per tooth at which a cutter still bites that would take so much.

    .0005 in from 1/4 in up, half of what it would take below; never more than that.

    Parameters: D, feed per tooth [mm]. Returns: feed per tooth [mm]. References: from memory.

    >>> [round(least_per_tooth(d, 0.0635) / 25.4, 5) for d in (12.7, 3.175)]
    [0.0005, 0.00125]
    """
    return min(feed_mm, LEAST_MM if diameter_mm >= _INCH / 4 else feed_mm / 2)


def seconds_for(feed_mm_min: float, length_mm: float = _INCH) -> float:
    """How long a feed takes for a length, an inch unless it is said: what a hand on the wheel goes by.

    60 L / vf

    Parameters: feed [mm/min], L [mm]. Returns: time [s]; infinite for no feed. References: geometry.
    Examples: a worked sheet, 2.3 in/min, about 26 s an inch.

    >>> round(seconds_for(2.3 * 25.4))
    26
    """
    return 60 * length_mm / feed_mm_min if feed_mm_min > 0 else inf


def table_feed(rpm: float, teeth: int, feed_per_tooth_mm: float) -> float:
    """The feed of the table.

    vf = N z fz

    Parameters: N [rev/min], z [-], fz [mm]. Returns: vf [mm/min]. References: geometry.
    Examples: computed here; 500 mm/min is the answer of a textbook slab-milling problem.

    >>> table_feed(100, 20, 0.25)
    500.0
    """
    return rpm * teeth * feed_per_tooth_mm


def drill_feed(diameter_mm: float) -> tuple[float, float]:
    """The least and the most feed a revolution of an HSS drill [mm].

    References: standard handbook table, common.

    >>> [round(feed / 25.4, 4) for feed in drill_feed(9.525)]
    [0.004, 0.007]
    """
    for up_to, least, most in DRILL_FEEDS_IN:
        if diameter_mm <= up_to * _INCH:
            return least * _INCH, most * _INCH
    return DRILL_FEEDS_IN[-1][1] * _INCH, DRILL_FEEDS_IN[-1][2] * _INCH


def _table_feed_in(diameter_in: float) -> float:
    smallest, largest = FEEDS_IN[0], FEEDS_IN[-1]
    if diameter_in <= smallest[0]:
        return smallest[1] * diameter_in / smallest[0]
    for (d0, f0), (d1, f1) in pairwise(FEEDS_IN):
        if diameter_in <= d1:
            return f0 + (f1 - f0) * (diameter_in - d0) / (d1 - d0)
    return largest[1]

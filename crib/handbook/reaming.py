"""What a drill should leave for a machine reamer, on the drill's own size, as inch and metric shops have it."""

from __future__ import annotations

from math import ceil

_INCH = 25.4
_INCH_ROWS = ((0.25, 0.006, 0.012), (0.5, 0.008, 0.016), (1.0, 0.012, 0.020), (9.0, 0.016, 0.030))
_METRIC_ROWS = ((5.0, 0.1, 0.2), (20.0, 0.2, 0.3), (32.0, 0.3, 0.4), (250.0, 0.4, 0.5))
"""Up to this diameter, from and to this much on diameter for a machine reamer: in inches, in mm. Common practice; the
metric ones from memory."""

CUTS_OVER_MM = ((0.0001 * _INCH, 0.0005 * _INCH), (0.0001 * _INCH, 0.0003 * _INCH))
"""From how much to how much over its measured size a reamer cuts, as usual and with care [mm]. Common practice; more in
hot or gummy metal. The careful most is from memory."""

BY_HAND_MM, MOST_BY_HAND_MM = (0.002 * _INCH, 0.006 * _INCH), 0.012 * _INCH
"""From how much to how much a hand reamer takes of the hole that is there, on diameter, and the most that it is given
[mm]. Common practice; the most is from memory."""

A_SETTING_MM, MOST_SET_OUT_MM = 0.004 * _INCH, 0.030 * _INCH
"""What an adjustable reamer is set out for each cut, on diameter, and in all [mm]. From memory."""

HAND_FEED_MM = 0.015 * _INCH
"""How far a hand reamer goes down at a turn [mm]. From memory."""

ABSURD = 3.0
"""So many times the most that a reamer takes isn't reamed [-]. Common practice."""


def windows(reamer_mm: float) -> tuple[tuple[float, float], tuple[float, float]]:
    """The least and the most to leave on diameter, by inch and by metric habit [mm].

    >>> [[round(mm, 3) for mm in window] for window in windows(10.0)]
    [[0.203, 0.406], [0.2, 0.3]]
    """
    inch = next((row for row in _INCH_ROWS if reamer_mm <= row[0] * _INCH + 1e-6), _INCH_ROWS[-1])
    metric = next((row for row in _METRIC_ROWS if reamer_mm <= row[0] + 1e-6), _METRIC_ROWS[-1])
    return (inch[1] * _INCH, inch[2] * _INCH), (metric[1], metric[2])


def window(reamer_mm: float) -> tuple[float, float]:
    """What either habit allows, as one range [mm].

    >>> [round(mm, 3) for mm in window(10.0)]
    [0.2, 0.406]
    """
    inch, metric = windows(reamer_mm)
    return min(inch[0], metric[0]), max(inch[1], metric[1])


def outside(reamer_mm: float, drill_mm: float) -> float:
    """How far what a drill leaves is outside of what either habit allows [mm]; nought inside.

    >>> outside(10.0, 9.8), round(outside(10.0, 9.5), 3), round(outside(10.0, 9.9), 3)
    (0.0, 0.094, 0.1)
    """
    least, most = window(reamer_mm)
    stock = reamer_mm - drill_mm
    return max(0.0, least - stock - 1e-9, stock - most - 1e-9)


def can_follow(reamer_mm: float, drill_mm: float, hole_mm: float) -> bool:
    """Whether a reamer finds something to take all round, and not absurdly much.

    >>> can_follow(10.0, 9.8, 9.9), can_follow(10.0, 9.95, 10.05), can_follow(10.0, 8.0, 8.1)
    (True, False, False)
    """
    return hole_mm < reamer_mm - 1e-6 and reamer_mm - drill_mm <= ABSURD * window(reamer_mm)[1]


def outside_by_hand(reamer_mm: float, hole_mm: float) -> float:
    """How far what a hole leaves is outside of what a hand reamer takes [mm]; nought inside.

    >>> [round(outside_by_hand(12.7, 12.7 - thou * 0.0254) / 0.0254, 3) for thou in (1, 4, 9)]
    [1.0, 0.0, 3.0]
    """
    least, most = BY_HAND_MM
    stock = reamer_mm - hole_mm
    return max(0.0, least - stock - 1e-9, stock - most - 1e-9)


def can_follow_by_hand(reamer_mm: float, hole_mm: float, least_mm: float) -> bool:
    """Whether a reamer that is turned by hand finds something to take in a hole, and not too much; `least_mm`: what it
    can be set down to, its own size where it can't be set.

    >>> [can_follow_by_hand(12.7, hole, 12.7) for hole in (12.6, 12.7, 12.3)], can_follow_by_hand(12.7, 12.3, 12.0)
    ([True, False, False], True)
    """
    if not 1e-6 < reamer_mm - hole_mm <= MOST_SET_OUT_MM:
        return False
    return least_mm - hole_mm <= MOST_BY_HAND_MM


def settings_by_hand(reamer_mm: float, hole_mm: float, least_mm: float) -> int:
    """How often a reamer is run through by hand, set out a little each time; once where it can't be set.

    >>> settings_by_hand(12.7, 12.6, 12.7), settings_by_hand(12.7, 12.3, 12.0)
    (1, 4)
    """
    return ceil((reamer_mm - hole_mm) / A_SETTING_MM - 1e-9) if least_mm < reamer_mm - 1e-6 else 1

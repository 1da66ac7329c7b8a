"""Holes equally spaced round a circle: where each stands, how far it is to the next, what is left between."""

from __future__ import annotations

from math import cos, pi, radians, sin

MOST = 360
"""So many holes in a circle at the most [-]."""


def chord(circle_mm: float, number: int) -> float:
    """How far it is from one hole to the next, centre to centre [mm]: D sin(180/n).

    Parameters: the circle's diameter D [mm], the number of holes n, two or more [-]. Returns: the chord [mm].
    References: geometry; the coefficients for a circle of 1 are those of the handbooks' tables of chords: 6 holes .5, 8
    holes .38268.

    >>> round(chord(1.0, 6), 5), round(chord(1.0, 8), 5)
    (0.5, 0.38268)
    """
    return circle_mm * sin(pi / number)


def places(circle_mm: float, number: int, start_deg: float) -> tuple[tuple[float, float], ...]:
    """Where each hole stands from the middle of its circle, to the right and away [mm]: D/2 cos, D/2 sin, from the
    first hole's angle on, counter-clockwise seen from above.

    Parameters: the circle's diameter [mm], how many holes [-], the first one's angle from the right [deg].
    References: geometry. Computed here: 4 in a circle of 2 from 45 degrees stand .7071 each way.

    >>> [(round(x, 4), round(y, 4)) for x, y in places(2.0, 4, 45.0)]
    [(0.7071, 0.7071), (-0.7071, 0.7071), (-0.7071, -0.7071), (0.7071, -0.7071)]
    """
    at = [radians(start_deg + 360 * place / number) for place in range(number)]
    return tuple((round(circle_mm / 2 * cos(a), 9), round(circle_mm / 2 * sin(a), 9)) for a in at)

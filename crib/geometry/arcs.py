"""A quarter circle as chords, within 2.5 microns of the true arc."""

from __future__ import annotations

from functools import lru_cache
from math import acos, ceil, cos, pi, sin

_ERROR = 2_500


@lru_cache(maxsize=256)
def quarter(radius: int) -> tuple[tuple[int, int], ...]:
    """Points of a quarter circle from its lowest point outwards and up: (out, up), from (0, 0) to (radius, radius).

    >>> quarter(1_000_000)[0], quarter(1_000_000)[-1]
    ((0, 0), (1000000, 1000000))
    """
    if radius <= 0:
        return ((0, 0),)
    pieces = max(4, ceil(pi / 4 / acos(1 - min(0.5, _ERROR / radius))))
    angles = [i * pi / 2 / pieces for i in range(pieces + 1)]
    return tuple((round(radius * sin(a)), round(radius * (1 - cos(a)))) for a in angles)

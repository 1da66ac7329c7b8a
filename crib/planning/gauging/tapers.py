"""Tapers: by two diameters and the length between them."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.gauged import IN, Candidate, Gauging, Measured, fine, outside
from crib.findings.message import Text, said
from crib.handbook.tapers import Taper, tapers
from crib.planning.gauging.base import Thing

_OFF_MM = 0.003 * IN
"""How far off the taper over the length is with calipers at both ends [mm]. Common practice."""

_SHORT_MM, _PAST_MM, _PAST = 0.03 * IN, 0.03 * IN, 0.06
"""How far beyond the standard's two ends a taper may go on: at the small end, at the large one, and of its size besides
[mm, -]. Common practice."""


def _fits(measured: Measured) -> Iterator[Candidate]:
    """The standard tapers of that slope which have both diameters in them, those whose ends are nearest first."""
    if measured.diameter_mm is None or measured.small_mm is None or not measured.length_mm:
        return
    large, small = max(measured.diameter_mm, measured.small_mm), min(measured.diameter_mm, measured.small_mm)
    for one in tapers():
        off = large - small - one.slope * measured.length_mm
        ends = abs(small - one.small_mm) + abs(large - one.large_mm)
        high = one.large_mm * (1 + _PAST) + _PAST_MM
        beyond = outside(off, -_OFF_MM, _OFF_MM) + outside(small, one.small_mm - _SHORT_MM, high) + outside(
            large, one.small_mm, high)
        yield Candidate("taper", one.name, off, _why(one, measured.length_mm, large - small), beyond=beyond,
                        order=(ends,))


def _why(one: Taper, length: float, run: float) -> Text:
    return said("{foot} to the foot, yours {yours}; {small} to {large} over {long}; {source}",
                foot=f"{12 * one.slope:.4f}", yours=f"{12 * run / length:.4f}", small=fine(one.small_mm),
                large=fine(one.large_mm), long=fine(one.length_mm), source=one.source)


THING = Thing("taper", ("taper shank", "taper socket", "morse taper", "shank taper"),
              Gauging("small_mm", _fits, needs=("diameter_mm", "small_mm", "length_mm")))

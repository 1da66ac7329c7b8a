"""The way of a pass in words, leg by leg, as each is dialled."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from crib.units import show

_THOU_MM = 0.0254


def reading(mm: float, units: str, sign: bool = False) -> str:
    """A setting as it is dialled: three decimals, four in inches where it isn't in whole thous.

    >>> reading(10.16, "in"), reading(-1.6637, "in", True), reading(4.445, "mm")
    ('.400', '-.0655', '4.445')
    """
    fine = units == "in" and abs(mm / _THOU_MM - round(mm / _THOU_MM)) > 1e-4
    return show(mm, units, sign, 4 if fine else 3)


def legs(path: Sequence[tuple[float, float]], units: str) -> str:
    """Every leg of a way through corners (along, across) [mm]: which way the cutter goes, the reading where it ends.

    >>> legs([(0.0, 0.0), (50.8, 0.0), (50.8, -2.54), (0.0, -2.54)], "in")
    'right to 2.000, toward you to -.100, left to .000'
    """
    return ", ".join(_legs(path, units))


def _legs(path: Sequence[tuple[float, float]], units: str) -> Iterator[str]:
    for (x, y), (along, across) in pairwise(path):
        if along != x:
            yield f"{'right' if along > x else 'left'} to {reading(along, units)}"
        if across != y:
            yield f"{'away' if across > y else 'toward you'} to {reading(across, units, sign=True)}"

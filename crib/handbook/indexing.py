"""Flats round a bar: the bar that leaves sharp corners, how far each flat is let in, in what order they are cut, and
how the work is turned from one to the next."""

from __future__ import annotations

from math import cos, pi, sqrt

from crib.light.tuples import NamedTuple

CIRCLES = (15, 16, 17, 18, 19, 20, 21, 23, 27, 29, 31, 33, 37, 39, 41, 43, 47, 49)
"""The holes in the circles of a dividing head's usual plates [-]. From memory."""


def stock_for(across: float, number: int) -> float:
    """The bar from which flats so far apart come out with sharp corners: AF / cos(180/n), in the units of `across`; two
    flats have no corners, and any bar does.

    References: geometry: 1.1547 for a hexagon, 1.4142 for a square.

    >>> round(stock_for(0.5, 6), 4), round(stock_for(1.0, 4), 4)
    (0.5774, 1.4142)
    """
    return across / cos(pi / number) if number > 2 else across


def infeed(stock: float, across: float) -> float:
    """How far each flat lies inside the bar: half of what the bar is over the flats.

    References: geometry. Computed here: a bar of .5774 for 1/2 across.

    >>> round(infeed(0.5774, 0.5), 4)
    0.0387
    """
    return (stock - across) / 2


def flat_width(stock: float, across: float, number: int) -> float:
    """How wide each flat comes out: from corner to corner, or less where the bar leaves its corners round.

    The chord at the flat, 2 sqrt(R^2 - (AF/2)^2), no more than the side of the polygon, AF tan(180/n). References:
    geometry.

    >>> round(flat_width(0.6, 0.5, 6), 4), round(flat_width(0.53, 0.5, 6), 4)
    (0.2887, 0.1758)
    """
    chord = sqrt(max(0.0, stock**2 - across**2))
    return chord if number == 2 else min(chord, across * sqrt(1 / cos(pi / number) ** 2 - 1))


def order_of(number: int) -> tuple[int, ...]:
    """The flats in the order in which they are cut: each followed by the one across from it, so that the two are miked
    before the next; one after the other where none lies across.

    References: common practice, no source.

    >>> order_of(6), order_of(4), order_of(3)
    ((1, 4, 2, 5, 3, 6), (1, 3, 2, 4), (1, 2, 3))
    """
    half = number // 2
    if number % 2:
        return tuple(range(1, number + 1))
    return tuple(one for first in range(1, half + 1) for one in (first, first + half))


CRANKED_A_MINUTE = 40.0
"""So often in a minute a hand turns the crank of a table evenly [1/min]. Common practice, no source."""


class Crank(NamedTuple):
    """Whole turns of a crank, and so many holes more on a circle of so many."""

    turns: int
    holes: int
    circle: int


def crank(ratio: int, flats: int, number: int) -> Crank:
    """How far a dividing head's crank is turned to go on by so many of a number of flats: ratio / n turns each.

    Parameters: turns of the crank for one of the spindle [-], 40 usually; flats to go on by; how many there are round
    the bar. Returns: the largest usual circle that has it; no circle where it is whole turns or none has. References:
    indexing by whole turns and plates, common practice; the circle from memory.

    >>> crank(40, 1, 6), crank(40, 1, 4), crank(90, 1, 8)
    (Crank(turns=6, holes=26, circle=39), Crank(turns=10, holes=0, circle=0), Crank(turns=11, holes=5, circle=20))
    """
    turns, rest = divmod(ratio * flats, number)
    if not rest:
        return Crank(turns, 0, 0)
    circle = next((one for one in reversed(CIRCLES) if rest * one % number == 0), 0)
    return Crank(turns, rest * circle // number, circle)

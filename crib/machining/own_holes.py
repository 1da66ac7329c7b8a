"""What the owner's own drilled holes measured, in the place of what a handbook expects of a drill."""

from __future__ import annotations

from crib.findings.message import Mm, Text, said
from crib.handbook.bands import Band, drill_least, drill_mean, drill_most, drilled
from crib.handbook.drill_sizes import drill_name
from crib.machining.words import Making
from crib.shop import Own, middle

_SAME_MM = 0.0002 * 25.4
"""Drills this near to one another count as one size [mm]."""

_NEAR_MM = 0.001 * 25.4
"""A drill's next hole lies this near to those that it has made [mm]. Common practice."""


def oversize(own: Own, drill_mm: float) -> tuple[float, int, bool]:
    """How much a drill's hole is over its size [mm], how many own holes that rests on, and whether they are all of that
    size. Holes of other sizes only shift the handbook's mean: they tell of the machine, not of the drill.

    >>> oversize(Own(), 25.4 / 4)[1:], [round(oversize(Own(), mm)[0] / 0.0254, 2) for mm in (6.35, 25.4)]
    ((0, False), [3.25, 7.0])
    """
    same = [hole.hole_mm - hole.drill_mm for hole in own.holes if abs(hole.drill_mm - drill_mm) <= _SAME_MM]
    if same:
        return middle(same), len(same), True
    shifts = [hole.hole_mm - hole.drill_mm - drill_mean(hole.drill_mm) for hole in own.holes]
    return drill_mean(drill_mm) + (middle(shifts) if shifts else 0.0), len(shifts), False


def own_band(own: Own, drill_mm: float) -> Band:
    """The handbook's band of a drilled hole, about the owner's own middle where there is one [mm over the drill]."""
    book = drilled(drill_mm)
    over, count, _ = oversize(own, drill_mm)
    if not count:
        return book
    by = over - drill_mean(drill_mm)
    usual, careful = ((low + by, high + by) for low, high in (book.usual_mm, book.careful_mm))
    return Band(Making.DRILL, usual, careful, "own holes")


def whole_range(own: Own, drill_mm: float) -> tuple[float, float]:
    """The least and the most that a drill's hole is expected to be over its size [mm]: by the handbook, or .001 in
    about the owner's own holes of that very size. Holes of other sizes shift the handbook's.

    >>> [round(mm / 0.0254, 2) for mm in whole_range(Own(), 25.4 / 4)]
    [1.75, 6.25]
    """
    over, count, same = oversize(own, drill_mm)
    if same:
        sizes = [hole.hole_mm - hole.drill_mm for hole in own.holes if abs(hole.drill_mm - drill_mm) <= _SAME_MM]
        return min(*sizes, over - _NEAR_MM), max(*sizes, over + _NEAR_MM)
    by = over - drill_mean(drill_mm) if count else 0.0
    return drill_least(drill_mm) + by, drill_most(drill_mm) + by


def own_words(own: Own, drill_mm: float) -> tuple[Text, ...]:
    """That the owner's holes are reckoned with, from how many, for a drill; nothing where there are none."""
    over, count, same = oversize(own, drill_mm)
    if not count:
        return ()
    how = "one hole" if count == 1 else f"the median of {count} holes"
    of = "" if same else " of other sizes"
    by = Mm(over, sign=True, places=4)
    return (said("a {drill_name} drill's hole {by} on its size, from {how}{of} measured here",
                 drill_name=drill_name(drill_mm), by=by, how=how, of=of),)

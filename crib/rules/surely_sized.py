"""What sizes come to whatever cutter is the last in a room, told before any pass is made: by the same ways as those of
a draft whose passes are there (`crib.rules.sizes`)."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from crib.features.base import Dimension
from crib.handbook.bands import Band
from crib.machining.methods import method_of
from crib.machining.methods.base import PassBound
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import BY_ITS_WIDTH, BY_THE_AXIS, LEANING, PREPARES, SIDEWAYS
from crib.rules.ways_of_cutting import (
    OWN_SIZE,
    SAME_FIGURE,
    SLACK,
    comes_out,
    is_by_no_band,
    is_set_once,
    kept_by,
    makes_size,
    middle,
    way_of,
)

_SETTLED = frozenset((*BY_THE_AXIS, *BY_ITS_WIDTH, *SIDEWAYS, *PREPARES))
"""Manners of which it is plain whether a cutter's width or the axis makes a size, or neither, for another must come."""


def least_said(question: Question, room: str, tool: Tool, fewest: PassBound) -> tuple[int, int]:
    """How many sizes of a room a tool holds with care only, and how many it misses, at the least, when it does the
    room alone."""
    kept = [one for dimension, one in _least_kept(question, room, tool, fewest) if len(dimension.rooms) <= 1]
    return kept.count("with care"), kept.count("no")


def surely_missed(question: Question, room: str, tool: Tool, fewest: PassBound, widest: float | None = None
                  ) -> Iterator[str]:
    """The sizes that a tool misses where it is the last that makes them, in a room, whoever was before: those whose way
    its manner alone decides, or one setting, or in how many levels it goes, which are as many whatever stands there, or
    that its walls are surely stepped to; those too that lie between two walls of a room under a lip that is never
    opened any wider than `widest` [mm], where that is told, and both walls are surely stepped to."""
    fewest = fewest._replace(passes=max(1, fewest.passes))  # whoever is the last there makes some pass
    by_manner = fewest.manner in (*BY_THE_AXIS, *BY_ITS_WIDTH, *SIDEWAYS, *LEANING)
    return (dimension.name for dimension, kept in _least_kept(question, room, tool, fewest)
            if (kept == "no" and (by_manner or fewest.stepped or dimension.sort in ("depth", "height")))
            or (widest is not None and fewest.stepped and _comes_short(question, dimension, fewest, widest)))


def lies_between_walls(dimension: Dimension) -> bool:
    """Whether a dimension is as large as two walls are apart that cutters are set to."""
    return dimension.sort == "width" and not dimension.rooms and len(dimension.faces) != 1


def _comes_short(question: Question, dimension: Dimension, fewest: PassBound, widest: float) -> bool:
    """Whether what lies between two walls comes out too narrow, with care too, set as wide as they ever are apart."""
    way = way_of(question, dimension, fewest.levels, fewest.own_size, fewest.stepped)
    return lies_between_walls(dimension) and way is not None and way.way != OWN_SIZE and _falls_short(
        dimension, way, widest)


def comes_too_low(question: Question, dimension: Dimension, fewest: PassBound, tallest: float) -> bool:
    """Whether a height comes out too small, with care too, where whoever is the last there goes in more levels than one
    and cuts no taller than so from the lowest to the highest [mm]."""
    way = way_of(question, dimension, fewest.levels, False, False) if dimension.sort == "height" else None
    return way is not None and fewest.levels > 1 and _falls_short(dimension, way, tallest)


def _falls_short(dimension: Dimension, way: Band, aimed: float) -> bool:
    """Whether a dimension that is set to no more than so comes out too small, with care too."""
    return all(comes_out(way, 0.0, aimed, careful)[0] < dimension.size.lo - SAME_FIGURE for careful in (False, True))


def between_flanks(question: Question) -> Iterator[tuple[str, str]]:
    """The sizes between two flanks that lean over the cutter, one at each side, and how these are kept to whatever cuts
    them: each flank is where the axis stood for it, in two places, and both are aimed at their middle."""
    leaning = {room.name for room in question.outline.rooms if room.lean and room.lean.run > 0}
    for dimension in question.dimensions:
        if dimension.sort != "width" or len(dimension.rooms) != 2 or not leaning.issuperset(dimension.rooms):
            continue
        if way := way_of(question, dimension, 1, False, True):
            yield dimension.name, kept_by(dimension, way, 0.0, dimension.size.mid)


def never_kept(question: Question) -> Iterator[str]:
    """The sizes of a question with one room that whatever clears it misses: each way in which its method may make them
    comes out farther apart, with care too, than their limits are, wherever it is aimed and whatever a cutter's own size
    is. So some job is the last there, by the axis or by its width, and what is said of the way of that is a miss."""
    return _never(question, lambda way: min(_apart(way.usual_mm), _apart(way.careful_mm)))


def never_usual(question: Question) -> Iterator[str]:
    """The same of sizes that whatever clears it holds with care only, or misses: each way comes out farther apart as
    usual than their limits are."""
    return _never(question, lambda way: _apart(way.usual_mm))


def _never(question: Question, apart: Callable[[Band], float]) -> Iterator[str]:
    """The sizes of which each way comes out so far apart, with care or without, that it isn't within their limits."""
    rooms = question.outline.rooms
    if len(rooms) > 1 or not _SETTLED.issuperset(method_of(rooms[0]).manners):
        return
    for dimension in question.dimensions:
        size = dimension.size
        if (is_by_no_band(dimension) or dimension.sort == "height" or size.band < SLACK
                or not makes_size(rooms[0].name, dimension)):
            continue
        ways = [way_of(question, dimension, 1, own_size, stepped)
                for own_size, stepped in ((True, False), (True, True), (False, True))]
        if all(way and apart(way) > size.band + 3 * SAME_FIGURE for way in ways):
            yield dimension.name


def _apart(band: tuple[float, float]) -> float:
    return band[1] - band[0]


def _least_kept(question: Question, room: str, tool: Tool, fewest: PassBound) -> Iterator[tuple[Dimension, str]]:
    """How the sizes of a room are kept to at the best by a tool that makes any pass: aimed at the middle nothing comes
    out better."""
    for dimension in question.dimensions if fewest.passes else ():
        if is_by_no_band(dimension) or not makes_size(room, dimension):
            continue
        if is_set_once(question, dimension) and dimension.sort != "depth" and not fewest.stepped:
            continue
        way = way_of(question, dimension, fewest.levels, fewest.own_size, fewest.stepped)
        if way is not None:
            yield dimension, kept_by(dimension, way, tool.cutter.diameter_mm or 0.0, middle(dimension))

"""Where a cutter stands that comes from above: in the middle, at the walls, along an open edge."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.geometry.free_positions import Interval, Metal, free_positions
from crib.geometry.outline import Box
from crib.geometry.region import FAR, NOTHING, Region
from crib.light.records import dataclass
from crib.machining.methods.base import Attempt
from crib.machining.methods.cuts import LEAST_BITE
from crib.machining.words import Manner
from crib.units import nm

_OVER = 0.2
_HELD_BY_STEPPING = nm(0.001 * 25.4)
_WORTH_A_HAIR = nm(0.0005 * 25.4)
"""A cutter that is wide enough by itself is stepped for no less than this a side."""


@dataclass(frozen=True)
class Walls:
    """Where the axis stands to finish each wall; None where there is no wall or the middle pass makes it."""

    manner: Manner
    back: int | None
    front: int | None
    middle: int

    @property
    def beside(self) -> list[int]:
        """Where it stands at walls that the middle pass doesn't make."""
        return [x for x in (self.back, self.front) if x is not None]


def manners_of(a: Attempt) -> Iterator[Walls]:
    """Each manner that its width allows, with where it stands then."""
    if a.at_an_edge:
        yield Walls(Manner.ALONG_THE_EDGE, None, _edge(a), _edge(a))
        return
    radius, middle, least = a.tool.form.radius, a.middle, a.room.least
    offset = a.room.aim.width // 2 - radius
    wide = a.room.most.width // 2 - radius - _HELD_BY_STEPPING
    if offset < LEAST_BITE <= wide:
        offset = LEAST_BITE
    if a.allowed.aimed:
        if 2 * radius >= least.width and a.tool.can_finish:
            yield Walls(Manner.OWN_SIZE, None, None, middle)
        if offset >= LEAST_BITE:
            yield Walls(Manner.STEPPED, middle + offset, middle - offset, middle)
        elif 2 * radius < least.width or offset >= _WORTH_A_HAIR:
            yield Walls(Manner.A_HAIR_A_SIDE, middle + offset, middle - offset, middle)
    if a.allowed.wide and wide >= LEAST_BITE and wide > offset:
        yield Walls(Manner.WIDE, middle + wide, middle - wide, middle)


def wall_axis(a: Attempt) -> int:
    """Where the axis stands at the edge's wall or the back one."""
    return _edge(a) if a.at_an_edge else max(a.middle, a.room.aim.right - a.tool.form.radius)


def _edge(a: Attempt) -> int:
    """Where the axis stands along an open edge: its teeth at the wall; over a face without walls in its middle, where
    its flat end covers that, else with a part of the flat over the side."""
    if not a.is_a_face:
        return a.room.aim.left + a.tool.form.radius
    flat = min(part.radius_low for part in a.tool.form.sure if part.low == 0)
    return a.middle if 2 * flat >= a.room.aim.width else a.room.aim.left + round((1 - _OVER) * flat)


def goes_past(a: Attempt) -> bool:
    """Whether the teeth stand at the wall without touching what stands beside, on the floor and in the first bite."""
    beside, first = Metal(a.outline.obstacles, NOTHING), max(a.room.least.low, least_top(a) - a.tool.bite)
    at_floor, in_the_first = (
        any(holds(free_positions(a.tool.form, beside, z), [wall_axis(a)]) for z in heights)
        for heights in ((a.room.aim.low, a.room.least.low), (first,)))
    return at_floor and in_the_first


def nearest_beside(a: Attempt) -> int:
    """Where the nearest of what stands beyond the open edge begins."""
    lefts = (span.left_low for slab in a.outline.obstacles.slabs for span in slab.spans)
    return min((left for left in lefts if left >= a.room.aim.right), default=FAR)


def openings(a: Attempt, walls: Walls) -> list[tuple[list[int], int, int]]:
    """Where it stands, and from where to where it opens the room there: the middle pass its own width, the side passes
    what lies between the walls; along an edge all at once."""
    radius, beside = a.tool.form.radius, walls.beside
    if a.at_an_edge:
        return [([*{walls.middle, *beside}], a.room.aim.left, a.room.aim.right)]
    middle = ([walls.middle], walls.middle - radius, walls.middle + radius)
    return [middle, (beside, min(beside) - radius, max(beside) + radius)] if beside else [middle]


def holds(spans: Sequence[Interval], places: list[int]) -> bool:
    """Whether it can stand at all of these places."""
    return all(any(left <= x <= right for left, right in spans) for x in places)


def metal_left(a: Attempt, cleared: Region, left: int, right: int) -> Metal:
    """What a tool meets with so much cleared and all between two places of the room."""
    return Metal(a.outline.keep, a.outline.standing_but(cleared, Box(left, a.room.aim.low, right, 0)))


def opened(a: Attempt) -> Metal:
    """What a tool meets with the room clear."""
    return Metal(a.outline.keep, (a.outline.stock - a.room.aim.region) | a.outline.obstacles)


def least_top(a: Attempt) -> int:
    """The lowest that metal can begin, whatever was cut before."""
    alone = a.outline.alone[a.outline.rooms.index(a.room)]
    return alone.bounds()[3] if alone else a.room.least.low


def is_in_the_clear(a: Attempt) -> bool:
    """Whether nothing of a tool but its teeth comes near the work when it stands on the floor that is aimed at."""
    lowest = min((part.low - part.end for part in a.tool.form.clear
                  if part.widest + part.side > a.tool.form.radius or part.low < 0), default=-a.room.aim.low)
    return not a.outline.obstacles and a.room.aim.low + lowest >= 0 and a.outline.stock.bounds()[3] <= 0

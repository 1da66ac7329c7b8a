"""What a cutter takes at the least to do a room from above."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from crib.geometry.free_positions import Interval, Metal, widest_gap
from crib.geometry.lowest import never_below
from crib.geometry.region import FAR, NOTHING, Region, box
from crib.handbook.bites import bites_needed
from crib.machining.methods.base import Attempt, PassBound
from crib.machining.methods.cuts import FINISH_FLOOR, GRAIN, rubs
from crib.machining.methods.from_above.gate import returns_of
from crib.machining.methods.from_above.passes import bite_of, columns_of, side_passes, spare_of, tops_of, under
from crib.machining.methods.from_above.places import (
    Walls,
    holds,
    is_in_the_clear,
    least_top,
    manners_of,
    metal_left,
    openings,
)
from crib.machining.words import Manner, Role


def count(a: Attempt) -> tuple[PassBound, ...]:
    """What each manner takes at the least, told before anything is cut."""
    if not (manners := [*manners_of(a)]):
        return ()
    if not (on_floor := a.spans(a.room.least.low)):
        return _in_part(a)
    top = least_top(a)
    free = a.spans(a.room.aim.low) if is_in_the_clear(a) else ()
    found = tuple(_fewest_so(a, walls, top, free) for walls in manners)
    return tuple(_stays_up(a, walls, on_floor) or one for walls, one in zip(manners, found, strict=True))


def _stays_up(a: Attempt, walls: Walls, on_floor: Sequence[Interval]) -> PassBound | None:
    """A manner of a tool that stands on the floor somewhere, but not where it is to stand at the edge's wall: whatever
    is gone it stays over something that must go. None where it may get down."""
    if not a.at_an_edge or a.is_a_face or holds(on_floor, [walls.middle]):
        return None
    [(places, left, right)] = openings(a, walls)
    metal, foot = metal_left(a, a.outline.most, left, right), min(part.low for part in a.tool.form.sure)
    under = never_below(a.tool.form, metal, a.room.aim.low, 0, places) - GRAIN + foot
    if under <= a.room.least.low or a.outline.is_waived(_under(a.outline.rest(a.room, NOTHING), under)):
        return None
    alone = a.outline.shares_alone[a.outline.rooms.index(a.room)]
    return _kind_of(a, walls, a.outline.is_waived(_under(alone, under)))


def _under(region: Region, high: int) -> Region:
    return region & box(-FAR, -FAR, FAR, high)


def ways(a: Attempt) -> tuple[PassBound, ...]:
    """The same without counting any."""
    if not a.spans(a.room.least.low):
        return _in_part(a)
    return tuple(_kind_of(a, walls, False)._replace(passes=1) for walls in manners_of(a))


def stands_at(a: Attempt, z: int) -> bool:
    """Whether a tool stands anywhere at a height with all gone that may be: told first of whether there is a gap for
    all of it as high up as any metal goes."""
    form, gap = a.tool.form, widest_gap(a.outline.keep, z + a.tool.form.foot)
    return gap >= 2 * form.girth or bool(a.spans(z))


def never_ends(a: Attempt) -> bool:
    """Whether a tool gets neither to the floor nor as deep as it must alone."""
    return not stands_at(a, a.room.least.low) and not stands_at(a, lowest_alone(a))


def _in_part(a: Attempt) -> tuple[PassBound, ...]:
    """What comes of a tool that doesn't get down to the floor."""
    from crib.geometry.anywhere import stands_anywhere

    outline, room = a.outline, a.room
    touches = a.spans(0) or stands_anywhere(a.tool.form, Metal(outline.keep, outline.keep), room.least.low, 0)
    helped = touches and bool(a.spans(lowest_alone(a)))
    return tuple(_kind_of(a, walls, helped) for walls in manners_of(a)) if touches else ()


def lowest_alone(a: Attempt) -> int:
    """How deep it must go itself: what is under that is gone when another room is."""
    alone = a.outline.shares_alone[a.outline.rooms.index(a.room)]
    return alone.bounds()[1] if alone else a.room.least.high


def _kind_of(a: Attempt, walls: Walls, helped: bool) -> PassBound:
    """A manner of a tool that doesn't do the whole room: how it makes walls where it is the last there."""
    own = walls.manner == Manner.OWN_SIZE
    return PassBound(inf, own_size=own, stepped=not own, manner=walls.manner, helped=helped)


def _fewest_so(a: Attempt, walls: Walls, top: int, free: Sequence[Interval]) -> PassBound:
    """What a manner takes down to the floor, from the lowest that metal can begin; `free`: where the tool can stand on
    the floor that is aimed at, whatever is still there. If it can, it goes there."""
    tool, low, floor = a.tool, a.room.least.low, a.room.aim.low
    finish_walls = tool.can_finish and a.is_fine("wall")
    columns = columns_of(a, walls, finish_walls, floor)
    spare = spare_of(a)
    floors = 1 if spare and tool.can_finish else 0
    bite = bite_of(a, columns)
    down = bites_needed(top - under(a, floor + spare), bite) + floors
    tops = tops_of(a, columns)
    rough = _rough(a, tops, floor, spare, bite) + floors * len(columns)
    if not holds(free, [walls.middle, *walls.beside]):
        down, floors = min(down, bites_needed(top - under(a, low), bite)), 0
        rough = min(rough, _rough(a, tops, low, 0, bite))
    if not tops:
        rough = len(columns) * down
    deep = low if tool.can_finish else low + FINISH_FLOOR
    sides = tuple(side_passes(a, columns, walls, max(top, deep + 1), deep, finish_walls))
    checks = 1 + floors + len({cut.side for cut in sides if cut.role == Role.FINISH})
    own, between = walls.manner == Manner.OWN_SIZE, not a.at_an_edge
    hair = between and any(map(rubs, sides))
    strips = returns_of(len(columns), max(1, down), 0, 0) if between else 0
    returns = returns_of(len(columns), max(1, down), len(sides), len({cut.z for cut in sides})) if between else 0
    return PassBound(max(1, rough) + len(sides), 0, 1, checks, own, not own, between, hair, walls.manner,
                     returns=returns, strips=strips, sides=len(sides) if between else 0)


def _rough(a: Attempt, tops: list[int], low: int, spare: int, bite: int) -> int:
    """How many passes go down to what is spared over a height, where metal stands so high in the columns (`tops_of`).
    Where something stands beside the work they may begin elsewhere."""
    return 0 if a.outline.obstacles else sum(
        bites_needed(max(0, top - GRAIN - low - spare), bite + 1) for top in tops)

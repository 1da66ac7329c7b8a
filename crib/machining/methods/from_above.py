"""From above: bites down to the floor along the middle or in strips, then the floor, the back wall, the front wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from crib.findings.finding import Figure
from crib.geometry.free_positions import Metal, free_positions, reach
from crib.geometry.outline import Outline, Room
from crib.geometry.region import FAR, NOTHING, Region, box
from crib.handbook.bites import bites_needed
from crib.machining.methods.base import (
    FINISH_FLOOR,
    KEEP_OFF,
    LEAST_BITE,
    TOUCHES,
    Cut,
    Infeasible,
    Job,
    Limits,
    Method,
    PassBound,
    after,
    is_fine,
    rubs,
    takes,
    width_figures,
)
from crib.machining.methods.blocked import blocked
from crib.machining.tool import Tool
from crib.shop import Shop
from crib.units import nm

_LAST_BITE = nm(0.005 * 25.4)
_WORTH_TWO = nm(0.015 * 25.4)
Spans = tuple[tuple[int, int], ...]

_STRIP = 0.7
_SIDE = 0.25
_TALL = 1.5
_HELD_BY_STEPPING = nm(0.001 * 25.4)
_WORTH_A_HAIR = nm(0.0005 * 25.4)
"""A cutter that is wide enough by itself is stepped for no less than this a side."""


MOST_BITES = 80
"""Nobody takes more bites than this to get down (from memory): the cutter is too slender for the depth."""


def bites_down(tool: Tool, room: Room) -> int:
    """How many bites a tool takes to get to the floor of a room from the surface."""
    return bites_needed(-room.aim.low, max(1, tool.bite))


@dataclass(frozen=True)
class _Walls:
    """Where the axis stands to finish each wall; None where there is no wall or the middle pass makes it."""

    manner: str
    back: int | None
    front: int | None
    middle: int


def clear(tool: Tool, outline: Outline, room: Room, removed: Region, limits: Limits) -> tuple[Job, ...]:
    """The manners in which a tool clears a room that is open at the top."""
    jobs = []
    for walls in _manners(tool, room, limits.wide):
        cuts = _cuts(tool, outline, room, removed, walls)
        if not cuts:
            continue
        gone = after(tool, outline, cuts, removed)
        if takes(outline, room, removed, gone):
            jobs.append(Job(tool, room.name, cuts, gone, walls.manner))
    return tuple(jobs)


def _manners(tool: Tool, room: Room, may_widen: bool) -> Iterator[_Walls]:
    radius = tool.form.radius
    aim, least, most = room.aim, room.least, room.most
    if "right" in room.open:
        yield _Walls("along the edge", None, aim.left + radius, aim.left + radius)
        return
    middle = (aim.left + aim.right) // 2
    if 2 * radius > most.width:
        return
    if 2 * radius >= least.width and tool.can_finish:
        yield _Walls("own size", None, None, middle)
    offset = aim.width // 2 - radius
    widest = most.width // 2 - radius
    if offset < LEAST_BITE <= widest - _HELD_BY_STEPPING:
        offset = LEAST_BITE
    if offset >= LEAST_BITE:
        yield _Walls("stepped", middle + offset, middle - offset, middle)
    elif 2 * radius < least.width or offset >= _WORTH_A_HAIR:
        yield _Walls("a hair a side", middle + offset, middle - offset, middle)
    wide = widest - _HELD_BY_STEPPING
    if may_widen and wide >= LEAST_BITE and wide > offset:
        yield _Walls("wide", middle + wide, middle - wide, middle)


def _cuts(tool: Tool, outline: Outline, room: Room, removed: Region, walls: _Walls) -> tuple[Cut, ...]:
    if bites_down(tool, room) > MOST_BITES:
        return ()
    low = _lowest(tool, outline, room, removed, walls)
    left = (outline.stock & room.aim.region) - removed
    if low is None or not left:
        return ()
    top = left.bounds()[3]
    if low >= top:
        return ()
    finish_walls = tool.can_finish and is_fine(outline, "wall", room)
    at_floor = low == room.aim.low
    spare = FINISH_FLOOR if at_floor and (not tool.can_finish or is_fine(outline, "floor", room)) else 0
    columns = _columns(tool, room, walls, finish_walls, _outermost(tool, outline, room, walls.middle, low))
    rough = _rough(tool, room, columns, top, low + spare)
    floor = _floor(tool, room, columns, low, spare) if spare and tool.can_finish else ()
    sides = tuple(_sides(tool, room, columns, walls, top, low if tool.can_finish else low + spare, finish_walls))
    return (*rough, *floor, *sides)


def _lowest(tool: Tool, outline: Outline, room: Room, removed: Region, walls: _Walls) -> int | None:
    """The lowest that the lower face can go, not under the floor, in what its own passes open: the middle pass its own
    width, the side passes what lies between the walls."""
    radius = tool.form.radius
    beside = [x for x in (walls.back, walls.front) if x is not None]
    if "right" in room.open:
        return _lowest_at(tool, outline, room, removed, [walls.middle, *beside], room.aim.left, room.aim.right)
    low = _lowest_at(tool, outline, room, removed, [walls.middle], walls.middle - radius, walls.middle + radius)
    if low is None or not beside:
        return low
    sides = _lowest_at(tool, outline, room, removed, beside, min(beside) - radius, max(beside) + radius)
    return None if sides is None else max(low, sides)


def _lowest_at(
    tool: Tool, outline: Outline, room: Room, removed: Region, places: list[int], left: int, right: int
) -> int | None:
    """The lowest that it can go at all of some places, if all between left and right were clear."""
    metal = _metal(outline, room, removed, (left, right))
    if _holds(free_positions(tool.form, metal, room.aim.low), places):
        return room.aim.low
    bands = reach(tool.form, metal, room.aim.low, 0)
    return next((band.low for band in bands if _holds(band.spans, places)), None)


def _holds(spans: Spans, places: list[int]) -> bool:
    return all(any(left <= x <= right for left, right in spans) for x in places)


def _columns(tool: Tool, room: Room, walls: _Walls, finish_walls: bool, limit: int) -> list[int]:
    """Where the axis stands while the metal is roughed out, first the middle (or the outermost, up to a limit), then
    strip by strip to the back wall, then to the front wall: the screw is wound across once."""
    radius, spare = tool.form.radius, tool.finish if finish_walls or not tool.can_finish else 0
    if "right" in room.open:
        wall = min(walls.middle + spare, limit)
        wide = room.aim.right - (wall - radius)
        count = 1 if wide <= 2 * radius else bites_needed(wide, _STRIP * 2 * radius)
        strips = (min(limit, wall + wide * k // count) for k in reversed(range(count)))
        return list(dict.fromkeys(strips))
    if walls.back is None or walls.front is None:
        return [walls.middle]
    offset = walls.back - walls.middle
    if offset <= _SIDE * 2 * radius:
        return [walls.middle]
    span = 2 * (offset - spare)
    count = bites_needed(span, _STRIP * 2 * radius) + 1
    places = [walls.middle - span // 2 + span * k // (count - 1) for k in range(count)]
    start = min(places, key=lambda x: (abs(x - walls.middle), -x))
    return [start, *(x for x in places if x > start), *(x for x in reversed(places) if x < start)]


def _outermost(tool: Tool, outline: Outline, room: Room, wall: int, low: int) -> int:
    """How far out of the open edge the axis need stand, a little off what stands beyond it."""
    if "right" not in room.open or not outline.obstacles:
        return FAR
    metal = Metal(outline.keep, (outline.stock - room.aim.region) | outline.obstacles)
    limit = next((right for left, right in free_positions(tool.form, metal, low) if left <= wall <= right), wall)
    return max(wall, min(limit, max(limit - KEEP_OFF, room.aim.right - tool.form.radius)))


def _beside(outline: Outline, room: Room) -> int:
    """Where the nearest of what stands beyond the open edge begins."""
    lefts = (span.left_low for slab in outline.obstacles.slabs for span in slab.spans)
    return min((left for left in lefts if left >= room.aim.right), default=FAR)


def _rough(tool: Tool, room: Room, columns: list[int], top: int, low: int) -> tuple[Cut, ...]:
    if low >= top:
        return ()
    count = bites_needed(top - low, tool.bite)
    cuts = []
    for k in range(1, count + 1):
        z = top - (top - low) * k // count
        bite = (top - low) // count
        for i, x in enumerate(columns):
            cuts.append(Cut(x, z, "rough", room.name, _side_of(room, columns, i), _width(tool, room, columns, i), bite))
    return tuple(cuts)


def _floor(tool: Tool, room: Room, columns: list[int], low: int, bite: int) -> tuple[Cut, ...]:
    return tuple(
        Cut(x, low, "floor", room.name, _side_of(room, columns, i), _width(tool, room, columns, i), bite)
        for i, x in enumerate(columns)
    )


def _side_of(room: Room, columns: list[int], i: int) -> str:
    if "right" in room.open:
        return "front"
    if i == 0:
        return "both"
    return "back" if columns[i] > columns[0] else "front"


def _width(tool: Tool, room: Room, columns: list[int], i: int) -> int:
    """How wide the cut is: the whole cutter in a slot, what is new beside the neighbouring strip, or what it overlaps
    of an open edge."""
    full = 2 * tool.form.radius
    done = columns[:i]
    if "right" in room.open:
        return min(full, room.aim.right - (columns[i] - full // 2)) if not done else min(full, done[-1] - columns[i])
    return full if not done else min(full, min(abs(columns[i] - x) for x in done))


def _sides(tool: Tool, room: Room, columns: list[int], walls: _Walls, top: int, low: int,
           finish: bool) -> Iterator[Cut]:
    """Each wall in turn, the back one first: a rough side pass where much is left, then the finishing one."""
    for side, wall, inward in (("back", walls.back, -1), ("front", walls.front, 1)):
        if wall is None:
            continue
        at = max(columns) if side == "back" else min(columns)
        left = abs(wall - at)
        if left == 0:
            continue
        if not tool.can_finish:
            if left > tool.finish:
                yield from _down(tool, room, wall + inward * tool.finish, "rough", side, left - tool.finish, top, low)
            continue
        if left > _WORTH_TWO and finish:
            yield from _down(tool, room, wall + inward * _LAST_BITE, "rough", side, left - _LAST_BITE, top, low)
            left = _LAST_BITE
        yield from _down(tool, room, wall, "finish" if finish else "rough", side, left, top, low)


def _down(tool: Tool, room: Room, x: int, role: str, side: str, radial: int, top: int, low: int) -> Iterator[Cut]:
    """One side pass, at full depth where the teeth reach, else in as few levels as they need."""
    if low >= top:
        return
    tall = tool.form.height if role == "finish" else min(tool.form.height, round(_TALL * 2 * tool.form.radius))
    count = bites_needed(top - low, tall)
    for k in range(1, count + 1):
        z = top - (top - low) * k // count
        yield Cut(x, z, role, room.name, side, radial, (top - low) // count, wall=True)


def _fewest(tool: Tool, outline: Outline, room: Room, limits: Limits) -> tuple[PassBound, ...]:
    if 2 * tool.form.radius > room.most.width and "right" not in room.open:
        return ()
    metal = Metal(outline.keep, outline.keep)
    if not free_positions(tool.form, metal, room.least.low):
        return TOUCHES if reach(tool.form, metal, room.least.low, 0) else ()
    if bites_down(tool, room) > MOST_BITES:
        return ()
    alone = outline.alone[outline.rooms.index(room)]
    top = alone.bounds()[3] if alone else room.least.low
    free = free_positions(tool.form, metal, room.aim.low) if _stands_clear(tool, outline, room) else ()
    return tuple(_fewest_so(tool, outline, room, walls, top, free) for walls in _manners(tool, room, limits.wide))


def _fewest_so(tool: Tool, outline: Outline, room: Room, walls: _Walls, top: int, free: Spans) -> PassBound:
    """What a manner takes down to the floor, from the lowest that metal can begin; `free`: where the tool can stand on
    the floor that is aimed at, whatever is still there. If it can, it goes there."""
    finish_walls = tool.can_finish and is_fine(outline, "wall", room)
    limit = _outermost(tool, outline, room, walls.middle, room.aim.low)
    columns = _columns(tool, room, walls, finish_walls, limit)
    spare = FINISH_FLOOR if not tool.can_finish or is_fine(outline, "floor", room) else 0
    floors = 1 if spare and tool.can_finish else 0
    down = bites_needed(top - room.aim.low - spare, tool.bite) + floors
    low = room.least.low
    places = [x for x in (walls.middle, walls.back, walls.front) if x is not None]
    if not _holds(free, places):
        down, floors = min(down, bites_needed(top - low, tool.bite)), 0
    deep = low if tool.can_finish else low + FINISH_FLOOR
    sides = tuple(_sides(tool, room, columns, walls, max(top, deep + 1), deep, finish_walls))
    checks = 1 + floors + len({cut.side for cut in sides if cut.role == "finish"})
    own = walls.manner == "own size"
    between = "right" not in room.open
    hair = between and any(map(rubs, sides))
    return PassBound(len(columns) * max(1, down) + len(sides), 0, 1, checks, own, not own, between, hair, walls.manner)


def _stands_clear(tool: Tool, outline: Outline, room: Room) -> bool:
    """Whether nothing of a tool but its teeth comes near the work when it stands on the floor that is aimed at."""
    lowest = min((part.low - part.end for part in tool.form.clear
                  if part.widest + part.side > tool.form.radius or part.low < 0), default=-room.aim.low)
    return not outline.obstacles and room.aim.low + lowest >= 0 and outline.stock.bounds()[3] <= 0


def _why_not(tool: Tool, outline: Outline, room: Room, cleared: Region, limits: Limits) -> Infeasible:
    radius, diameter, most = tool.form.radius, tool.cutter.diameter_mm or 0.0, room.most.width / 1e6
    if diameter > most and "right" not in room.open:
        says = f"{{has}} across is more than the {room.name} may be, {{needs}}"
        return Infeasible("SZ3", says, diameter, most, "a cutter of {needs} or less would go in", diameter - most,
                    "diameter_mm")
    if (bites := bites_down(tool, room)) > MOST_BITES:
        says = (f"so slender a cutter would take {bites} bites to get down, {MOST_BITES} at the most: its bite is "
                "{has}, {needs} is the least that would do")
        return Infeasible("RE4", says, tool.bite / 1e6, -room.aim.low / MOST_BITES / 1e6, "a stouter cutter",
                    -room.aim.low / 1e6, up=True)
    wall = room.aim.left + radius if "right" in room.open else max(0, room.aim.right - radius)
    if (over := wall + radius - _beside(outline, room)) > 0:
        says = "{has} across, it meets what stands beside the work: {needs} is the most that goes between"
        return Infeasible("G6", says, diameter, diameter - over / 1e6, "a cutter of {needs} or less would go in",
                          over / 1e6,
                    "diameter_mm")
    clear_of = Metal(outline.keep, (outline.stock - room.aim.region) | outline.obstacles)
    has = tool.cutter.corner_radius_mm or 0.0
    stands = any(left <= wall <= right for left, right in free_positions(tool.form, clear_of, room.least.low))
    if not stands or has <= limits.floor_radius:
        return blocked(tool, outline, room, cleared | room.aim.region, [(wall, room.least.low)])
    return Infeasible("G11", "it leaves a radius of {has} in the floor corners", has, limits.floor_radius,
                "would go if the floor radius may be {has}", has - limits.floor_radius)


def _is_feasible(tool: Tool, outline: Outline, room: Room, cleared: Region, limits: Limits) -> bool | None:
    """Told of a square cutter that finishes, in the clear: what a round corner or a dull edge leaves takes cutting."""
    if len(tool.form.sure) > 1 or not tool.can_finish or outline.obstacles:
        return None
    if bites_down(tool, room) > MOST_BITES:
        return False
    radius, clear_of = tool.form.radius, _stands_clear(tool, outline, room)
    for walls in _manners(tool, room, limits.wide):
        back = walls.middle if walls.back is None else walls.back
        front = walls.middle if walls.front is None else walls.front
        wide = "right" in room.open or back + radius >= room.least.right
        if wide and front - radius <= room.least.left and _gets_down(tool, outline, room, cleared, walls, clear_of):
            return True
    return False


def _gets_down(tool: Tool, outline: Outline, room: Room, cleared: Region, walls: _Walls, clear_of: bool) -> bool:
    """Whether a tool goes down to a floor that is deep enough (see `_lowest`); `clear_of`: nothing but its teeth comes
    near the work."""
    radius, beside = tool.form.radius, [x for x in (walls.back, walls.front) if x is not None]
    if clear_of or "right" in room.open:
        columns = [([walls.middle, *beside], room.aim.left, room.aim.right)]
    else:
        columns = [([walls.middle], walls.middle - radius, walls.middle + radius)]
        columns += [(beside, min(beside) - radius, max(beside) + radius)] if beside else []
    return all(
        any(_holds(free_positions(tool.form, metal, z), places) for z in (room.least.low, room.aim.low))
        for places, left, right in columns
        for metal in [_metal(outline, room, cleared, None if clear_of else (left, right))]
    )


def _metal(outline: Outline, room: Room, cleared: Region, between: tuple[int, int] | None) -> Metal:
    """What a tool meets with so much cleared and all between two places of the room; only what must stay where nothing
    but its teeth meets any."""
    if between is None:
        return Metal(outline.keep, NOTHING)
    clear = box(between[0], room.aim.low, between[1], 0)
    return Metal(outline.keep, (outline.stock - cleared - clear) | outline.obstacles)


def _figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
    if "right" not in room.open:
        yield from width_figures(job)


METHOD = Method(
    suits=lambda room: "top" in room.open,
    clear=clear,
    fewest=_fewest,
    why_not=_why_not,
    figures=_figures,
    manners={
        "own size": "its own size in one width",
        "stepped": "both walls stepped",
        "wide": "walls stepped wide",
        "a hair a side": "down the middle, and what is left off each wall in one light pass",
        "along the edge": "along the edge",
    },
    is_feasible=_is_feasible,
)

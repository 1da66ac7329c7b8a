"""From above: bites down to the floor along the middle or in strips, then the floor, the back wall, the front wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import inf

from crib.findings.finding import Figure
from crib.findings.message import said
from crib.geometry.free_positions import Interval, Metal, bands, free_positions
from crib.geometry.lowest import lowest as lowest_of
from crib.geometry.lowest import never_below
from crib.geometry.outline import Box, Opening, Room
from crib.geometry.region import FAR, NOTHING, Region
from crib.handbook.bites import bites_needed
from crib.machining.methods.base import Attempt, Limit, Method, PassBound, Stand, too_wide, width_figures
from crib.machining.methods.blocked import blocked
from crib.machining.methods.cuts import (
    FINISH_FLOOR,
    GRAIN,
    KEEP_OFF,
    LAST_BITE,
    LEAST_BITE,
    Cut,
    Job,
    after,
    deeper,
    rubs,
    tall_of,
)
from crib.machining.methods.from_above_gate import MOST_BITES, gate
from crib.machining.methods.from_above_gate import SIDE as _SIDE
from crib.machining.methods.from_above_gate import STRIP as _STRIP
from crib.machining.words import Manner, Role, Side
from crib.records import dataclass
from crib.shop import Shop
from crib.units import nm

_WORTH_TWO = nm(0.015 * 25.4)
_OVER = 0.2
_HELD_BY_STEPPING = nm(0.001 * 25.4)
_WORTH_A_HAIR = nm(0.0005 * 25.4)
"""A cutter that is wide enough by itself is stepped for no less than this a side."""


def limits(a: Attempt) -> Iterator[Limit]:
    """It goes between the walls, down in few bites, and past what stands beyond an open edge."""
    tool, depth, diameter = a.tool, -a.room.aim.low, a.tool.cutter.diameter_mm or 0.0
    if not a.at_an_edge:
        yield too_wide(a)
    if (most := 2 * a.allowed.corner) < inf:
        yield Limit("SZ3", "{has} across is too round for the corners at the closed end, {needs} is the most that goes "
                    "into them", diameter, most, "a cutter of {needs} or less would go in", diameter - most,
                    "diameter_mm", holds=2 * tool.form.radius <= nm(most))
    bites = bites_needed(depth, max(1, tool.bite))
    slender = said("so slender a cutter would take {bites} bites to get down, {most} at the most: its bite is {has}, "
                "{needs} is the least that would do", bites=bites, most=MOST_BITES)
    yield Limit("RE4", slender, tool.bite / 1e6, depth / MOST_BITES / 1e6, "a stouter cutter", depth / 1e6, up=True,
                holds=bites <= MOST_BITES)
    if a.outline.obstacles:
        over = _wall(a) + tool.form.radius - _beside(a)
        beside = "{has} across, it meets what stands beside the work: {needs} is the most that goes between"
        yield Limit("G6", beside, diameter, diameter - over / 1e6, "a cutter of {needs} or less would go in",
                    over / 1e6,
                    "diameter_mm", holds=over <= 0 or _goes_past(a))


def _wall(a: Attempt) -> int:
    """Where the axis stands at the edge's wall or the back one."""
    return _edge(a) if a.at_an_edge else max(a.middle, a.room.aim.right - a.tool.form.radius)


def _edge(a: Attempt) -> int:
    """Where the axis stands along an open edge: its teeth at the wall; over a face without walls in its middle, where
    its flat end covers that, else with a part of the flat over the side."""
    if not a.is_a_face:
        return a.room.aim.left + a.tool.form.radius
    flat = min(part.radius_low for part in a.tool.form.sure if part.low == 0)
    return a.middle if 2 * flat >= a.room.aim.width else a.room.aim.left + round((1 - _OVER) * flat)


def _goes_past(a: Attempt) -> bool:
    """Whether the teeth stand at the wall without touching what stands beside, on the floor and in the first bite."""
    beside, first = Metal(a.outline.obstacles, NOTHING), max(a.room.least.low, _top(a) - a.tool.bite)
    at_floor, in_the_first = (
        any(_holds(free_positions(a.tool.form, beside, z), [_wall(a)]) for z in heights)
        for heights in ((a.room.aim.low, a.room.least.low), (first,)))
    return at_floor and in_the_first


def _beside(a: Attempt) -> int:
    """Where the nearest of what stands beyond the open edge begins."""
    lefts = (span.left_low for slab in a.outline.obstacles.slabs for span in slab.spans)
    return min((left for left in lefts if left >= a.room.aim.right), default=FAR)


@dataclass(frozen=True)
class _Walls:
    """Where the axis stands to finish each wall; None where there is no wall or the middle pass makes it."""

    manner: Manner
    back: int | None
    front: int | None
    middle: int

    @property
    def beside(self) -> list[int]:
        """Where it stands at walls that the middle pass doesn't make."""
        return [x for x in (self.back, self.front) if x is not None]


def positions(a: Attempt, removed: Region) -> Iterator[Job]:
    """In each manner down to the floor, and then to the walls."""
    for walls in _manners(a):
        if cuts := _cuts(a, removed, walls):
            yield Job(a.tool, a.room.name, cuts, after(a.tool, a.outline, cuts, removed), walls.manner)


def _manners(a: Attempt) -> Iterator[_Walls]:
    radius, middle = a.tool.form.radius, a.middle
    aim, least, most = a.room.aim, a.room.least, a.room.most
    if a.at_an_edge:
        yield _Walls(Manner.ALONG_THE_EDGE, None, _edge(a), _edge(a))
        return
    if 2 * radius >= least.width and a.tool.can_finish:
        yield _Walls(Manner.OWN_SIZE, None, None, middle)
    offset = aim.width // 2 - radius
    widest = most.width // 2 - radius
    if offset < LEAST_BITE <= widest - _HELD_BY_STEPPING:
        offset = LEAST_BITE
    if offset >= LEAST_BITE:
        yield _Walls(Manner.STEPPED, middle + offset, middle - offset, middle)
    elif 2 * radius < least.width or offset >= _WORTH_A_HAIR:
        yield _Walls(Manner.A_HAIR_A_SIDE, middle + offset, middle - offset, middle)
    wide = widest - _HELD_BY_STEPPING
    if a.allowed.wide and wide >= LEAST_BITE and wide > offset:
        yield _Walls(Manner.WIDE, middle + wide, middle - wide, middle)


def _cuts(a: Attempt, removed: Region, walls: _Walls) -> tuple[Cut, ...]:
    tool, aim = a.tool, a.room.aim
    low = _lowest(a, removed, walls)
    left = (a.outline.stock & aim.region) - removed
    if low is None or not left:
        return ()
    top = left.bounds()[3]
    if low >= top:
        return ()
    finish_walls = tool.can_finish and a.is_fine("wall")
    spare = _spare(a) if low == aim.low else 0
    columns = _columns(a, walls, finish_walls, low)
    rough = _rough(a, columns, top, low + spare, _bite(a, columns))
    last = Role.FINISH if any(face.turned for face in a.outline.faces) else Role.FLOOR
    floor = _floor(a, columns, low, spare, last) if spare and tool.can_finish else ()
    sides = tuple(_sides(a, columns, walls, top, low if tool.can_finish else low + spare, finish_walls))
    return (*rough, *floor, *sides)


def _spare(a: Attempt) -> int:
    """What is left for the floor's finishing pass, or for another cutter to finish."""
    return FINISH_FLOOR if not a.tool.can_finish or a.is_fine("floor") else 0


def _openings(a: Attempt, walls: _Walls) -> list[tuple[list[int], int, int]]:
    """Where it stands, and from where to where it opens the room there: the middle pass its own width, the side passes
    what lies between the walls; along an edge all at once."""
    radius, beside = a.tool.form.radius, walls.beside
    if a.at_an_edge:
        return [([walls.middle, *beside], a.room.aim.left, a.room.aim.right)]
    middle = ([walls.middle], walls.middle - radius, walls.middle + radius)
    return [middle, (beside, min(beside) - radius, max(beside) + radius)] if beside else [middle]


def _stands_in(a: Attempt, gone: Region) -> Iterator[Stand]:
    """In each manner no lower than it gets at all of its places at once with all gone that ever is; across from wall to
    wall, or from the edge's wall out."""
    top = max(0, a.outline.stock.bounds()[3])
    for walls in _manners(a):
        low = max(_never_below(a, gone, *opening) for opening in _openings(a, walls))
        if a.at_an_edge:
            yield Stand(low, top, walls.middle)
        else:
            off = max([0, *(x - walls.middle for x in walls.beside)])
            half = max(off, a.tool.finish - off) if off > _SIDE * 2 * a.tool.form.radius else off
            yield Stand(low, top, walls.middle - half, walls.middle + half)


def _never_below(a: Attempt, gone: Region, places: list[int], left: int, right: int) -> int:
    return never_below(a.tool.form, _metal(a, gone, left, right), a.room.aim.low, 0, places) - GRAIN


def _lowest(a: Attempt, removed: Region, walls: _Walls) -> int | None:
    """The lowest that the lower face can go, not under the floor, in what its own passes open."""
    lowest: int = a.room.aim.low
    for places, left, right in _openings(a, walls):
        low = lowest_of(a.tool.form, _metal(a, removed, left, right), a.room.aim.low, 0, places)
        if low is None:
            return None
        lowest = max(lowest, low)
    return lowest


def _holds(spans: Sequence[Interval], places: list[int]) -> bool:
    return all(any(left <= x <= right for left, right in spans) for x in places)


def _metal(a: Attempt, cleared: Region, left: int, right: int) -> Metal:
    """What a tool meets with so much cleared and all between two places of the room."""
    return Metal(a.outline.keep, a.outline.standing_but(cleared, Box(left, a.room.aim.low, right, 0)))


def _columns(a: Attempt, walls: _Walls, finish_walls: bool, low: int) -> list[int]:
    """Where the axis stands while the metal is roughed out, first the middle (or the outermost that what stands beside
    lets it), then strip by strip to the back wall, then to the front wall: the screw is wound across once. Nothing is
    left for the wall's last pass where that alone takes what there is along an edge."""
    tool, radius = a.tool, a.tool.form.radius
    spare = tool.finish if finish_walls or not tool.can_finish else 0
    if a.at_an_edge:
        if tool.can_finish and a.room.aim.width < spare + LEAST_BITE:
            spare = 0
        limit = _outermost(a, walls.middle, low)
        wall = min(walls.middle + spare, limit)
        wide = a.room.aim.right - (wall - radius)
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


def _outermost(a: Attempt, wall: int, low: int) -> int:
    """How far out of the open edge the axis need stand, a little off what stands beyond it."""
    if not a.outline.obstacles:
        return FAR
    spans = free_positions(a.tool.form, _opened(a), low)
    limit = next((right for left, right in spans if left <= wall <= right), wall)
    return max(wall, min(limit, max(limit - KEEP_OFF, a.room.aim.right - a.tool.form.radius)))


def _opened(a: Attempt) -> Metal:
    """What a tool meets with the room clear."""
    return Metal(a.outline.keep, (a.outline.stock - a.room.aim.region) | a.outline.obstacles)


def _bite(a: Attempt, columns: list[int]) -> int:
    """How deep a bite goes: buried no deeper than is usual for it. Along an edge, where no strip is wider than a
    quarter of it, it cuts with its side: as deep as takes no more metal at once (common practice)."""
    full = 2 * a.tool.form.radius
    widest = max(_width(a, columns, i) for i in range(len(columns)))
    if not a.at_an_edge or a.is_a_face or not 0 < widest <= _SIDE * full:
        return a.tool.bite
    return deeper(a.tool, widest / full)


def _rough(a: Attempt, columns: list[int], top: int, low: int, bite: int) -> Iterator[Cut]:
    count = bites_needed(top - low, bite) if low < top else 0
    for k in range(1, count + 1):
        yield from _floor(a, columns, top - (top - low) * k // count, (top - low) // count, Role.ROUGH)


def _floor(a: Attempt, columns: list[int], low: int, bite: int, role: Role = Role.FLOOR) -> Iterator[Cut]:
    """A pass at each column."""
    for i, x in enumerate(columns):
        yield Cut(x, low, role, a.room.name, _side_of(a, columns, i), _width(a, columns, i), bite)


def _side_of(a: Attempt, columns: list[int], i: int) -> Side:
    if a.at_an_edge:
        return Side.BOTH if a.is_a_face and len(columns) == 1 else Side.FRONT
    if i == 0:
        return Side.BOTH
    return Side.BACK if columns[i] > columns[0] else Side.FRONT


def _width(a: Attempt, columns: list[int], i: int) -> int:
    """How wide the cut is: the whole cutter in a slot, what is new beside the neighbouring strip, or what it overlaps
    of an open edge."""
    full = 2 * a.tool.form.radius
    done = columns[:i]
    if a.at_an_edge:
        return min(full, a.room.aim.width,
                   a.room.aim.right - (columns[i] - full // 2) if not done else done[-1] - columns[i])
    return full if not done else min(full, min(abs(columns[i] - x) for x in done))


def _sides(a: Attempt, columns: list[int], walls: _Walls, top: int, low: int, finish: bool) -> Iterator[Cut]:
    """Each wall in turn, the back one first: a rough side pass where much is left, then the finishing one."""
    tool = a.tool
    for side, wall, inward in ((Side.BACK, walls.back, -1), (Side.FRONT, walls.front, 1)):
        if wall is None:
            continue
        left = abs(wall - (max(columns) if side == Side.BACK else min(columns)))
        if left == 0:
            continue
        if not tool.can_finish:
            if left > tool.finish:
                yield from _down(a, wall + inward * tool.finish, Role.ROUGH, side, left - tool.finish, top, low)
            continue
        if left > _WORTH_TWO and finish:
            yield from _down(a, wall + inward * LAST_BITE, Role.ROUGH, side, left - LAST_BITE, top, low)
            left = LAST_BITE
        yield from _down(a, wall, Role.FINISH if finish else Role.ROUGH, side, left, top, low)


def _down(a: Attempt, x: int, role: Role, side: Side, radial: int, top: int, low: int) -> Iterator[Cut]:
    """One side pass, at full depth where the teeth reach, else in as few levels as they need."""
    if low >= top:
        return
    tall = a.tool.form.height if role == Role.FINISH else tall_of(a.tool)
    count = bites_needed(top - low, tall)
    for k in range(1, count + 1):
        z = top - (top - low) * k // count
        yield Cut(x, z, role, a.room.name, side, radial, (top - low) // count, wall=True)


def _top(a: Attempt) -> int:
    """The lowest that metal can begin, whatever was cut before."""
    alone = a.outline.alone[a.outline.rooms.index(a.room)]
    return alone.bounds()[3] if alone else a.room.least.low


def _count(a: Attempt) -> tuple[PassBound, ...]:
    outline, room = a.outline, a.room
    if not a.spans(room.least.low):
        touches = a.spans(0) or any(bands(a.tool.form, Metal(outline.keep, outline.keep), room.least.low, 0))
        return tuple(_kind_of(a, walls) for walls in _manners(a)) if touches else ()
    top = _top(a)
    free = a.spans(room.aim.low) if _is_in_the_clear(a) else ()
    return tuple(_fewest_so(a, walls, top, free) for walls in _manners(a))


def _kind_of(a: Attempt, walls: _Walls) -> PassBound:
    """A manner of a tool that doesn't do the whole room: how it makes walls where it is the last there."""
    own = walls.manner == Manner.OWN_SIZE
    return PassBound(inf, own_size=own, stepped=not own, manner=walls.manner)


def _fewest_so(a: Attempt, walls: _Walls, top: int, free: Sequence[Interval]) -> PassBound:
    """What a manner takes down to the floor, from the lowest that metal can begin; `free`: where the tool can stand on
    the floor that is aimed at, whatever is still there. If it can, it goes there."""
    tool, low, floor = a.tool, a.room.least.low, a.room.aim.low
    finish_walls = tool.can_finish and a.is_fine("wall")
    columns = _columns(a, walls, finish_walls, floor)
    spare = _spare(a)
    floors = 1 if spare and tool.can_finish else 0
    bite = _bite(a, columns)
    down = bites_needed(top - floor - spare, bite) + floors
    if not _holds(free, [walls.middle, *walls.beside]):
        down, floors = min(down, bites_needed(top - low, bite)), 0
    deep = low if tool.can_finish else low + FINISH_FLOOR
    sides = tuple(_sides(a, columns, walls, max(top, deep + 1), deep, finish_walls))
    checks = 1 + floors + len({cut.side for cut in sides if cut.role == Role.FINISH})
    own, between = walls.manner == Manner.OWN_SIZE, not a.at_an_edge
    hair = between and any(map(rubs, sides))
    return PassBound(len(columns) * max(1, down) + len(sides), 0, 1, checks, own, not own, between, hair, walls.manner)


def _is_in_the_clear(a: Attempt) -> bool:
    """Whether nothing of a tool but its teeth comes near the work when it stands on the floor that is aimed at."""
    lowest = min((part.low - part.end for part in a.tool.form.clear
                  if part.widest + part.side > a.tool.form.radius or part.low < 0), default=-a.room.aim.low)
    return not a.outline.obstacles and a.room.aim.low + lowest >= 0 and a.outline.stock.bounds()[3] <= 0


def _stands(a: Attempt, cleared: Region) -> bool | None:
    """Told of a square cutter that finishes, in the clear: what a round corner or a dull edge leaves takes cutting."""
    if len(a.tool.form.sure) > 1 or not a.tool.can_finish or a.outline.obstacles:
        return None
    radius, least, is_clear = a.tool.form.radius, a.room.least, _is_in_the_clear(a)
    for walls in _manners(a):
        places = walls.beside or [walls.middle]
        wide = a.at_an_edge or max(places) + radius >= least.right
        if wide and min(places) - radius <= least.left and _gets_down(a, cleared, walls, is_clear):
            return True
    return False


def _gets_down(a: Attempt, cleared: Region, walls: _Walls, is_clear: bool) -> bool:
    """Whether a tool goes down to a floor that is deep enough; `is_clear`: nothing but its teeth comes near the
    work."""
    return all(
        any(_holds(free_positions(a.tool.form, metal, z), places) for z in (a.room.least.low, a.room.aim.low))
        for places, left, right in _openings(a, walls)
        for metal in [Metal(a.outline.keep, NOTHING) if is_clear else _metal(a, cleared, left, right)]
    )


def _in_the_way(a: Attempt, cleared: Region) -> Limit:
    wall, low = _wall(a), a.room.least.low
    stands = any(left <= wall <= right for left, right in free_positions(a.tool.form, _opened(a), low))
    has, most = a.tool.cutter.corner_radius_mm or 0.0, a.allowed.floor_radius
    if not stands or has <= most:
        return blocked(a, cleared | a.room.aim.region, [(wall, low)])
    return Limit("G11", "it leaves a radius of {has} in the floor corners", has, most,
                 "would go if the floor radius may be {has}", has - most)


def _figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
    if not room.opens(Opening.RIGHT):
        yield from width_figures(job)


METHOD = Method(
    suits=lambda room: room.opens(Opening.TOP),
    limits=limits,
    positions=positions,
    stands_in=_stands_in,
    in_the_way=_in_the_way,
    figures=_figures,
    manners={
        Manner.OWN_SIZE: "as wide as the cutter",
        Manner.STEPPED: "both walls stepped",
        Manner.WIDE: "walls stepped wide",
        Manner.A_HAIR_A_SIDE: "down the middle, and what is left off each wall in one light pass",
        Manner.ALONG_THE_EDGE: "along the edge",
        Manner.ROUGHED: "roughed and its floor made, the walls left",
    },
    count=_count,
    stands=_stands,
    gate=gate,
)

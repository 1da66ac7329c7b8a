"""The passes of a cutter from above: strips down to the floor, the floor, then the walls."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from crib.geometry.free_positions import free_positions
from crib.geometry.region import FAR, box
from crib.handbook.bites import bites_needed
from crib.machining.methods.base import Attempt
from crib.machining.methods.cuts import FINISH_FLOOR, GRAIN, KEEP_OFF, LAST_BITE, LEAST_BITE, Cut, deeper, tall_of
from crib.machining.methods.from_above.gate import SIDE as _SIDE
from crib.machining.methods.from_above.gate import STRIP as _STRIP
from crib.machining.methods.from_above.lands import Lands
from crib.machining.methods.from_above.places import Walls, opened
from crib.machining.words import Role, Side
from crib.units import nm

_WORTH_TWO = nm(0.015 * 25.4)


def spare_of(a: Attempt) -> int:
    """What is left for the floor's finishing pass, or for another cutter to finish."""
    return FINISH_FLOOR if not a.tool.can_finish or a.is_fine("floor") else 0


def spare_at(a: Attempt, finish_walls: bool) -> int:
    """What is left at the walls for their last passes, or for another cutter to finish."""
    return a.tool.finish if finish_walls or not a.tool.can_finish else 0


def columns_of(a: Attempt, walls: Walls, finish_walls: bool, low: int) -> list[int]:
    """Where the axis stands while the metal is roughed out, first the middle (or the outermost that what stands beside
    lets it), then strip by strip to the back wall, then to the front wall: the screw is wound across once. Nothing is
    left for the wall's last pass where that alone takes what there is along an edge."""
    tool, radius, spare = a.tool, a.tool.form.radius, spare_at(a, finish_walls)
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
    spans = free_positions(a.tool.form, opened(a), low)
    limit = next((right for left, right in spans if left <= wall <= right), wall)
    return max(wall, min(limit, max(limit - KEEP_OFF, a.room.aim.right - a.tool.form.radius)))


def bite_of(a: Attempt, columns: list[int]) -> int:
    """How deep a bite goes: buried no deeper than is usual for it. Along an edge, where no strip is wider than a
    quarter of it, it cuts with its side: as deep as takes no more metal at once (common practice)."""
    full = 2 * a.tool.form.radius
    widest = max(_width(a, columns, i) for i in range(len(columns)))
    if not a.at_an_edge or a.is_a_face or not 0 < widest <= _SIDE * full:
        return a.tool.bite
    return deeper(a.tool, widest / full)


def roughing(a: Attempt, columns: list[int], top: int, low: int, bite: int) -> Iterator[Cut]:
    """Equal bites down to where metal ends, each strip by strip; the last goes on past an underside."""
    ends = under(a, low)
    count = bites_needed(top - ends, bite) if low < top else 0
    for k in range(1, count + 1):
        at = top - (top - ends) * k // count if k < count else low
        yield from floor_passes(a, columns, at, (top - ends) // count, Role.ROUGH)


def under(a: Attempt, low: int) -> int:
    """How low metal stands over a height."""
    return max(low, a.outline.stock.bounds()[1])


def floor_passes(a: Attempt, columns: list[int], low: int, bite: int, role: Role = Role.FLOOR) -> Iterator[Cut]:
    """A pass at each column in which metal stands so high."""
    tops = tops_of(a, columns)
    for i, x in enumerate(columns):
        if tops and tops[i] <= low + GRAIN:
            continue
        yield Cut(x, low, role, a.room.name, _side_of(a, columns, i), _width(a, columns, i), bite)


def tops_of(a: Attempt, columns: list[int]) -> list[int]:
    """How high metal stands in what each column takes beside the one before it, where work that was tilted brings its
    surface down across them; else nothing, for it is as high in all."""
    if len(columns) == 1 or not any(face.turned for face in a.outline.faces):
        return []
    radius, room = a.tool.form.radius, a.room.aim.region & a.outline.stock
    ends = [FAR, *(x - radius for x in columns)]
    pieces = [room & box(left, -FAR, right, FAR) for right, left in pairwise(ends)]
    return [piece.bounds()[3] if piece else -FAR for piece in pieces]


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


def side_passes(a: Attempt, columns: list[int], walls: Walls, top: int, low: int, finish: bool,
                lands: Lands | None = None, after_rounds: int | None = None) -> Iterator[Cut]:
    """Each wall in turn, the back one first: a rough side pass where much is left, then the finishing one. `lands`:
    what another left there; `after_rounds`: what rounds along it left."""
    tool = a.tool
    for side, wall, inward in ((Side.BACK, walls.back, -1), (Side.FRONT, walls.front, 1)):
        if wall is None:
            continue
        left = abs(wall - (max(columns) if side == Side.BACK else min(columns)))
        if lands:
            left = lands.at(side, low, left, after_rounds)
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

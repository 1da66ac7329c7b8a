"""From above: what a room asks of a cutter's bare sizes by that method's limits, and what it takes at the least."""

from __future__ import annotations

from functools import partial
from math import inf

from crib.geometry.outline import Opening, Room
from crib.geometry.region import FAR
from crib.handbook.bites import bites_needed
from crib.machining.gate import PROBE, Beside, Gate, Whole, is_free, is_full
from crib.machining.methods.base import FINISH_FLOOR, GRAIN, LEAST_BITE, Site
from crib.machining.sizes import Most, Sizes
from crib.units import NM

STRIP, SIDE = 0.7, 0.25
"""How wide a strip is, and from what share of its diameter aside a cutter is stepped in strips [-]."""

MOST_BITES = 80
"""Nobody takes more bites than this to get down (from memory): the cutter is too slender for the depth."""


def gate(site: Site) -> Gate | None:
    """What it asks of bare sizes, the wall beside the stem when the teeth stand at it, and which cutters surely do."""
    outline, room = site.outline, site.room
    least, aim, most = room.least, room.aim, room.most
    if outline.obstacles or room.opens(Opening.LEFT, Opening.RIGHT) or outline.stock.bounds()[3] != 0:
        return None
    at_an_edge, depth = room.opens(Opening.RIGHT), -aim.low / NM
    wall, slop = ((most.left - PROBE, least.left - most.left) if at_an_edge else
                  (most.right, most.right - least.right))
    stands = is_full(outline.uncut(site.cleared), wall, least.low, wall + PROBE, 0)
    beside = Beside(0.0, slop / NM, 0.0, -least.low / NM) if stands else None
    whole = _whole(room, depth) if is_free(outline.keep, most.left, most.low, FAR if at_an_edge else most.right,
                                           FAR) else None
    alone = outline.alone[outline.rooms.index(room)]
    deep = (alone.bounds()[3] - least.low) / NM if alone else 0.0
    widest = min(inf if at_an_edge else most.width / NM, 2 * site.allowed.corner)
    return Gate(widest=widest, least_short=depth, beside=beside, whole=whole,
                passes=partial(_least_passes, room, deep - FINISH_FLOOR / NM))


def _whole(room: Room, aimed: float) -> Whole | None:
    """Which cutters surely clear a room with nothing in it that must stay: all along an edge, else those that are
    stepped to the walls that are aimed at, and those as wide as the room."""
    least, aim, most = room.least, room.aim, room.most
    bite, depth = aimed / MOST_BITES * _SURELY, -least.low / NM
    if room.opens(Opening.RIGHT):
        return Whole(inf, (inf, inf), depth, bite)
    half, middle = aim.width // 2, aim.middle
    if middle + half < least.right or middle - half > least.left:
        return None
    widest = 2 * min(middle - most.left, most.right - middle)
    own = (least.width + GRAIN) / NM, (widest - GRAIN) / NM
    return Whole((aim.width - 2 * LEAST_BITE - GRAIN) / NM, own, depth, bite)


def _least_passes(room: Room, deep: float, sizes: Sizes, most: Most) -> int:
    """The fewest strips that there can be, each down to so deep [mm]; down the middle alone the walls too, where they
    are stepped."""
    strip, half = STRIP * sizes.diameter, room.aim.width / 2 / NM
    down, sides = max(1, bites_needed(deep, most.down + 1 / NM)), 0
    if room.opens(Opening.RIGHT):
        wide = 2 * half - _MOST_SPARE
        columns = 1 if wide <= sizes.diameter else bites_needed(wide, strip)
        down = 1 if wide <= SIDE * sizes.diameter + GRAIN / NM else down
    else:
        off = half - sizes.diameter / 2
        columns = 1 + bites_needed(2 * (off - _MOST_SPARE), strip) if off > SIDE * sizes.diameter + GRAIN / NM else 1
        sides = 2 if columns == 1 and sizes.diameter < room.least.width / NM and off > _MOST_SPARE else 0
    return columns * down + sides


_MOST_SPARE = 0.26
"""More than what is left for a wall's finishing pass [mm]."""

_SURELY = 1.0001
"""By so much what surely holds is more than what must."""

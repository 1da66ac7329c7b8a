"""From above: what a room asks of a cutter's bare sizes by that method's limits, and what it takes at the least."""

from __future__ import annotations

from math import inf

from crib.geometry.outline import Opening, Room
from crib.geometry.region import FAR
from crib.handbook.bites import bites_needed, finish_allowance
from crib.machining.gate import PROBE, SLACK, Beside, Count, Gate, Whole, is_above, is_free, is_full
from crib.machining.methods.base import Site
from crib.machining.methods.cuts import FINISH_FLOOR, GRAIN, LEAST_BITE, TALL
from crib.machining.sizes import Most, Sizes
from crib.units import NM

STRIP, SIDE = 0.7, 0.25
"""How wide a strip is, and from what share of its diameter aside a cutter is stepped in strips [-]."""

MOST_BITES = 80
"""Nobody takes more bites than this to get down (from memory): the cutter is too slender for the depth."""


def gate(site: Site) -> Gate | None:
    """What it asks of bare sizes, the wall beside the stem when the teeth stand at it, and which cutters surely do."""
    outline, room = site.outline, site.room
    aim, most = room.aim, room.most
    if outline.obstacles or room.opens(Opening.LEFT, Opening.RIGHT) or outline.stock.bounds()[3] != 0:
        return None
    at_an_edge, depth = room.opens(Opening.RIGHT), -aim.low / NM
    beside = _beside(site)
    whole = _whole(room, depth) if is_free(outline.keep, most.left, most.low, FAR if at_an_edge else most.right,
                                           FAR) else None
    widest, deep = min(inf if at_an_edge else most.width / NM, 2 * site.allowed.corner), _Deep(site, whole)
    return Gate(widest=widest, least_short=depth, beside=beside, whole=whole, fewest=deep.fewest, closely=deep.count)


def _beside(site: Site) -> Beside | None:
    """The wall that stands beside the stem when the teeth stand at it. They open the room no further than to where the
    wall is aimed at, or to their own width: where all is metal from there on, whatever is fatter than they meets it;
    else it may stand as far back as is allowed."""
    room, metal = site.room, site.outline.uncut(site.cleared)
    least, aim, most = room.least, room.aim, room.most
    at_an_edge = room.opens(Opening.RIGHT)

    def stands(left: int, right: int) -> bool:
        return is_full(metal, left, least.low, right, 0)

    if stands(most.left - PROBE, aim.left) if at_an_edge else stands(aim.right, most.right + PROBE):
        return Beside(0.0, 0.0, 0.0, -least.low / NM)
    slop = least.left - most.left if at_an_edge else most.right - least.right
    if stands(most.left - PROBE, most.left) if at_an_edge else stands(most.right, most.right + PROBE):
        return Beside(0.0, slop / NM, 0.0, -least.low / NM)
    return None


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


def returns_of(columns: int, down: int, sides: int, levels: int) -> int:
    """How often a cutter between two walls goes half the way between closed ends besides: before strips in so many
    columns, so many times down, and before so many side passes in so many levels.

    Strips at a height begin in the middle one, to the right as those towards the back wall do, each after one that went
    there too; of those towards the front wall, to the left, all but the first. So do side passes; in more than one
    level each may come down anew in the middle, half the way from where it begins, else it goes all the way back. The
    first may begin where the last strip ended.
    """
    strips = 2 * max(0, columns - 2) * down
    return strips + max(0, sides - (1 if columns == 1 else 2)) * (2 if levels == 1 else 1)


class _Deep:
    """A room as the passes of straight teeth in it are counted, no closer than a hair: `whole` tells who surely goes
    down to the floor that is aimed at."""

    def __init__(self, site: Site, whole: Whole | None) -> None:
        room, outline = site.room, site.outline
        least, aim = room.least, room.aim
        self.whole, self.is_at_an_edge = whole, room.opens(Opening.RIGHT)
        self.is_fine_wall, self.is_fine_floor = site.is_fine("wall"), site.is_fine("floor")
        alone = outline.alone[outline.rooms.index(room)]
        top = alone.bounds()[3] if alone else least.low
        ends = outline.stock.bounds()[1]
        self.deep, self.aimed = ((top - max(low, ends)) / NM for low in (least.low, aim.low))
        self.under = -aim.low / NM
        self.width, self.half = least.width / NM, aim.width / 2 / NM

    def count(self, sizes: Sizes, most: Most) -> Count:
        """The passes and checks of the manner that takes fewest."""
        bite, is_clear = self._bite(sizes, most) + 1 / NM, self._is_clear(sizes)
        spare = FINISH_FLOOR / NM if self.is_fine_floor else 0.0
        floors = int(self.is_fine_floor)
        down = max(1, bites_needed(self.aimed - spare - _HAIR, bite) + floors)
        if not is_clear:
            down, floors = max(1, min(down, bites_needed(self.deep - _HAIR, bite))), 0
        by_sides = self._edge(sizes) if self.is_at_an_edge else self._walls(sizes)
        if not self.is_at_an_edge and sizes.diameter > self.width - _HAIR:
            by_sides = (1, 0)
        columns, sides = by_sides
        is_narrow = self.half - sizes.diameter / 2 <= SIDE * sizes.diameter - _HAIR
        tall = TALL * sizes.diameter if is_narrow else inf
        return Count(columns * down + sides, 0, 1 + floors + (min(sides, self._most_walls) if self.is_fine_wall else 0),
                     0 if self.is_at_an_edge else returns_of(columns if is_narrow else max(2, columns), down, sides,
                                                             self._levels(sizes, tall)))

    def fewest(self, sizes: Sizes, most: Most, lowest: float) -> Count:
        """No more than `count` tells of any cutter that is no wider and no taller, and bites no deeper, with nothing
        but teeth up to the `lowest`: some of these don't go down to the floor that is aimed at, unless it is under that
        wholly, and one that needs no strips is stepped to walls."""
        bite = self._bite(sizes, most) + 1 / NM
        spare = FINISH_FLOOR / NM + _HAIR if self.is_fine_floor else _HAIR
        down, floors = bites_needed(self.aimed - spare, bite) + self.is_fine_floor, int(self.is_fine_floor)
        if self.whole is None or lowest <= self.under + SLACK:
            down, floors = min(down, bites_needed(self.deep - _HAIR, bite)), 0
        down = max(1, down)
        across, wide, fine = sizes.diameter, 2 * self.half - _MOST_SPARE, self.is_fine_wall
        if self.is_at_an_edge:
            columns = 1 if wide <= across else bites_needed(wide, STRIP * across)
            walls = int(fine and wide > _MOST_SPARE)
            return Count(columns * down + walls, 0, 1 + floors + walls)
        if across > self.width - _HAIR:
            return Count(down, 0, 1 + floors)
        off = self.half - across / 2
        columns = 1 + bites_needed(2 * (off - _MOST_SPARE), STRIP * across) if off > SIDE * across + _HAIR else 1
        if fine:
            return Count(columns * down + 2, 0, 3 + floors)
        return Count(min(columns * down + 2, max(columns, 2) * down), 0, 1 + floors)

    def _bite(self, sizes: Sizes, most: Most) -> float:
        """How deep a bite goes at the most: where no strip along an edge is wide it cuts with its side."""
        if self.is_at_an_edge and 2 * self.half - self._spare(sizes) <= SIDE * sizes.diameter + GRAIN / NM:
            return max(most.down, min(sizes.height, TALL * sizes.diameter))
        return most.down

    def _spare(self, sizes: Sizes) -> float:
        """What is left for a wall's last pass; nothing where that alone takes what there is along an edge."""
        spare = finish_allowance(sizes.diameter) if self.is_fine_wall else 0.0
        return 0.0 if self.is_at_an_edge and 2 * self.half < spare + (LEAST_BITE + GRAIN) / NM else spare

    @property
    def _most_walls(self) -> int:
        return 1 if self.is_at_an_edge else 2

    def _is_clear(self, sizes: Sizes) -> bool:
        """Whether it surely goes down to the floor that is aimed at."""
        return self.whole is not None and is_above(sizes, self.under, sizes.diameter / 2 - _HAIR)

    def _edge(self, sizes: Sizes) -> tuple[int, int]:
        """How many strips it takes from an open edge, and how many passes at the wall."""
        spare = self._spare(sizes)
        wide = 2 * self.half - spare - _HAIR
        columns = 1 if wide <= sizes.diameter else bites_needed(wide, STRIP * sizes.diameter)
        return columns, self._levels(sizes) if spare else 0

    def _walls(self, sizes: Sizes) -> tuple[int, int]:
        """The same between two walls, to which it is stepped."""
        off, spare = self.half - sizes.diameter / 2, self._spare(sizes)
        if off <= SIDE * sizes.diameter + _HAIR:
            rough = self._levels(sizes, TALL * sizes.diameter)
            if not self.is_fine_wall:
                return 1, 2 * rough
            return 1, 2 * (self._levels(sizes) + (rough if off > _WORTH_TWO else 0))
        columns = 1 + bites_needed(2 * (off - spare) - _HAIR, STRIP * sizes.diameter)
        return columns, 2 * self._levels(sizes) if self.is_fine_wall else 0

    def _levels(self, sizes: Sizes, tall: float = inf) -> int:
        """In how many levels it goes along a wall."""
        return max(1, bites_needed(self.deep - _HAIR, min(sizes.height, tall) + _HAIR))


_HAIR = 4 / NM
_WORTH_TWO = 0.015 * 25.4 + _HAIR
_MOST_SPARE = 0.26
"""More than what is left for a wall's finishing pass [mm]."""

_SURELY = 1.0001
"""By so much what surely holds is more than what must."""

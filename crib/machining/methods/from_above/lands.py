"""What another cutter left of a room along its walls alone: whoever follows it there goes in rounds along these, and
not through the middle, where it would meet nothing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.geometry.region import FAR, Region, box
from crib.geometry.slabs import Span
from crib.handbook.bites import bites_needed
from crib.light.tuples import NamedTuple
from crib.machining.methods.base import Attempt
from crib.machining.methods.cuts import LEAST_BITE, Cut, after
from crib.machining.methods.from_above.gate import SIDE
from crib.machining.methods.from_above.places import Walls
from crib.machining.words import Role, Side

SAME = 1000
"""Heights that are nearer to each other than this are one [nm]: slanted edges and rounds end on whole ones."""


def hair(a: Attempt, low: int) -> int:
    """What stands no higher than this over where a cutter goes is nothing to it: over a floor that another makes, which
    takes it with that, less than teeth bite; else as good as none [nm]."""
    if low <= a.room.least.low:
        return 0
    alone = a.outline.shares_alone[a.outline.rooms.index(a.room)]
    return LEAST_BITE if alone and low > alone.bounds()[1] else 0


def is_bitten(a: Attempt, removed: Region, gone: Region, low: int) -> bool:
    """Whether teeth bite anything of what is taken between two states by one that goes so low."""
    height = hair(a, low) if removed else 0
    if not height:
        return True
    taken = (gone - removed) & a.outline.stock
    return (taken - box(-FAR, low, FAR, low + height)).area > 2 * LEAST_BITE**2


class Bites(NamedTuple):
    """How deep a bite is, and to where bites go down."""

    deep: int
    low: int

    def down_from(self, high: int) -> int:
        """How many they are from a height."""
        return bites_needed(max(0, high - self.low), self.deep)


class Lands(NamedTuple):
    """Metal along the walls from a height `top` down to `low`, the middle between being open: how thick it is at the
    back wall and at the front one, from where a cutter that finishes them has its edge, as far as a side pass takes it
    [nm]; from the height `thick` down it is more, at `low` where that is nowhere."""

    top: int
    low: int
    back: int
    front: int
    thick: int

    def at(self, side: Side, low: int, own: int, after_rounds: int | None) -> int:
        """What the last passes along a wall have to take, down to a height: what the tool's `own` strips leave, which
        under them take what stands over them too; else what rounds leave, or all of it."""
        if self.low > low:
            return own
        return after_rounds if after_rounds is not None else self.back if side == Side.BACK else self.front


def lands_of(a: Attempt, left: Region, walls: Walls, spare: int, low: int, bites: Bites) -> Lands | None:
    """The lands that stand over everything else that is left of a room, down to a height; None where there are none,
    where one round along the walls doesn't take them, or where what is cleared under them takes no fewer bites than all
    of it. What stands no higher over the rest than a bite, strips take with that."""
    top = left.bounds()[3]
    found, side, lowest = list[tuple[int, int, int]](), max(spare, round(SIDE * 2 * a.tool.form.radius)), low
    for slab in reversed(left.slabs):
        if slab.high <= low + max(SAME, hair(a, low)):
            break
        here = _beside(a, slab.spans, walls, spare)
        if here is None:
            lowest = slab.high
            break
        found.append((slab.high, *here))
    if bites.down_from(lowest) >= bites.down_from(top):
        return None
    found = [one for one in found if lowest == low or one[0] > lowest + bites.deep]
    thick = max([lowest, *(high for high, *both in found if max(both) > side)])
    thin = [(back, front) for _, back, front in found if max(back, front) <= side]
    least = spare if thick > lowest else 0
    return Lands(top, lowest, max([least, *(back for back, _ in thin)]), max([least, *(front for _, front in thin)]),
                 thick)


def _beside(a: Attempt, spans: Sequence[Span], walls: Walls, spare: int) -> tuple[int, int] | None:
    """How thick the metal is at the back wall and at the front one, where that is all there is at a height and the
    cutter goes between; else None."""
    radius = a.tool.form.radius
    fronts, backs = list[int](), list[int]()
    for span in spans:
        left, right = min(span.left_low, span.left_high), max(span.right_low, span.right_high)
        if left <= a.middle <= right and not a.at_an_edge:
            return None
        if right < a.middle or a.at_an_edge:
            fronts.append(right)
        else:
            backs.append(left)
    front_wall, back_wall = (walls.middle if wall is None else wall for wall in (walls.front, walls.back))
    front = max([0, *(right - (front_wall - radius) for right in fronts)])
    back = max([0, *(back_wall + radius - left for left in backs)])
    if (front and walls.front is None) or (back and walls.back is None):
        return None
    open_ = min(backs, default=a.room.aim.right) - max(fronts, default=a.room.aim.left)
    if max(back, front) > 2 * radius - spare or open_ < (1 if a.at_an_edge else 2 * radius):
        return None
    return back, front


def rounds(a: Attempt, walls: Walls, lands: Lands, spare: int, top: int) -> Iterator[Cut]:
    """Along the walls, a little off them, level by level from a height down, as deep at a time as a cutter goes in
    metal with all of its width, as it does in corners."""
    tool, deep = a.tool, top - lands.low
    count = bites_needed(deep, max(1, tool.bite))
    for k in range(1, count + 1):
        z = top - deep * k // count
        for side, wall, inward in ((Side.BACK, walls.back, -1), (Side.FRONT, walls.front, 1)):
            if wall is not None:
                yield Cut(wall + inward * spare, z, Role.ROUGH, a.room.name, side, 2 * tool.form.radius, deep // count,
                          wall=True)


def that_take(a: Attempt, removed: Region, cuts: Sequence[Cut]) -> Iterator[Cut]:
    """The passes without those that only rough along a wall where another left less than teeth bite; between closed
    ends that is told of what is seen from above alone."""
    gone = removed
    for cut in cuts:
        then = after(a.tool, a.outline, (cut,), gone)
        takes = then.area - gone.area > 2 * LEAST_BITE**2
        if takes or a.allowed.ends == "closed" or cut.role != Role.ROUGH or not cut.wall:
            yield cut
            gone = then

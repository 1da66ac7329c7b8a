"""From above: bites down to the floor along the middle or in strips, then the floor, the back wall, the front wall."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import inf

from crib.findings.finding import Figure
from crib.findings.message import said
from crib.geometry.free_positions import Interval, Metal, free_positions
from crib.geometry.lowest import lowest as lowest_of
from crib.geometry.lowest import never_below
from crib.geometry.outline import Opening, Room
from crib.geometry.region import FAR, NOTHING, Region
from crib.handbook.bites import bites_needed
from crib.light.hints import TYPE_CHECKING
from crib.light.modules import later
from crib.machining.methods.base import Attempt, Limit, Method, Stand, too_wide, width_figures
from crib.machining.methods.cuts import GRAIN, Cut, Job, after
from crib.machining.methods.from_above.gate import MOST_BITES, gate
from crib.machining.methods.from_above.gate import SIDE as _SIDE
from crib.machining.methods.from_above.lands import Bites, hair, is_bitten, lands_of, rounds, that_take
from crib.machining.methods.from_above.least import count, never_ends, ways
from crib.machining.methods.from_above.passes import (
    bite_of,
    columns_of,
    floor_passes,
    roughing,
    side_passes,
    spare_at,
    spare_of,
)
from crib.machining.methods.from_above.places import (
    Walls,
    goes_past,
    holds,
    is_in_the_clear,
    manners_of,
    metal_left,
    nearest_beside,
    opened,
    openings,
    wall_axis,
)
from crib.machining.words import Manner, Role
from crib.shop import Shop
from crib.units import nm

if TYPE_CHECKING:
    from crib.machining.methods.from_above import at_once
else:
    at_once = later("crib.machining.methods.from_above.at_once")


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
    if bites > MOST_BITES:
        slender = said("so slender a cutter would take {bites} bites to get down, {most} at the most: its bite is "
                       "{has}, {needs} is the least that would do", bites=bites, most=MOST_BITES)
        yield Limit("RE4", slender, tool.bite / 1e6, depth / MOST_BITES / 1e6, "a stouter cutter", depth / 1e6, up=True)
    if a.outline.obstacles:
        over = wall_axis(a) + tool.form.radius - nearest_beside(a)
        beside = "{has} across, it meets what stands beside the work: {needs} is the most that goes between"
        yield Limit("G6", beside, diameter, diameter - over / 1e6, "a cutter of {needs} or less would go in",
                    over / 1e6,
                    "diameter_mm", holds=over <= 0 or goes_past(a))


def positions(a: Attempt, removed: Region) -> Iterator[Job]:
    """In each manner down to the floor, and then to the walls."""
    for walls in manners_of(a):
        cuts, *otherwise = [*_cuts(a, removed, walls)] or [()]
        gone = after(a.tool, a.outline, cuts, removed) if cuts else removed
        if cuts and is_bitten(a, removed, gone, min(cut.z for cut in cuts)):
            yield Job(a.tool, a.room.name, cuts, gone, walls.manner, otherwise=otherwise[0] if otherwise else ())


def _cuts(a: Attempt, removed: Region, walls: Walls) -> Iterator[tuple[Cut, ...]]:
    """The passes; between closed ends first those with rounds along what another left at the walls, where only what is
    seen from above tells whether there is metal for them in the corners."""
    tool, aim = a.tool, a.room.aim
    low = _lowest(a, removed, walls)
    left = (a.outline.stock & aim.region) - removed
    if low is None or not left or low + hair(a, low) >= left.bounds()[3]:
        return
    top, finish_walls = left.bounds()[3], tool.can_finish and a.is_fine("wall")
    spare, off = spare_of(a) if low == aim.low else 0, spare_at(a, finish_walls)
    columns = columns_of(a, walls, finish_walls, low)
    bite, deep = bite_of(a, columns), low if tool.can_finish else low + spare
    lands = None if a.is_a_face else lands_of(a, left, walls, off, deep, Bites(bite, low + spare))
    if lands and len(columns) == 1 and lands.thick > lands.low:
        lands = None
    open_to = lands.low if lands else top
    rough = roughing(a, columns, open_to, low + spare, bite)
    last = Role.FINISH if any(face.turned for face in a.outline.faces) else Role.FLOOR
    floor = floor_passes(a, columns, low, spare, last) if spare and tool.can_finish and open_to > low else ()
    through = (*rough, *floor)
    if lands is None:
        yield (*through, *side_passes(a, columns, walls, top, deep, finish_walls))
        return
    for down_from in (lands.top, lands.thick) if a.allowed.ends == "closed" else (lands.thick,):
        after_rounds = off if down_from == lands.top else None
        from_ = lands.low if after_rounds == 0 else top  # where rounds stood at the walls, nothing is left over that
        sides = side_passes(a, columns, walls, from_, deep, finish_walls, lands, after_rounds)
        yield tuple(that_take(a, removed, (*rounds(a, walls, lands, off, down_from), *through, *sides)))


def _stands_in(a: Attempt, gone: Region) -> Iterator[Stand]:
    """In each manner no lower than it gets at all of its places at once with all gone that ever is; across from wall to
    wall, or from the edge's wall out."""
    top = max(0, a.outline.stock.bounds()[3])
    for walls in manners_of(a):
        low = max(_never_below(a, gone, *opening) for opening in openings(a, walls))
        yield Stand(low, top, *_sides(a, walls))


def _sides(a: Attempt, walls: Walls) -> Interval:
    """Between which places it is in every pass of a manner; one that may only rough stays off the walls."""
    rough = 0 if a.tool.can_finish else a.tool.finish
    if a.at_an_edge:
        return walls.middle + (0 if a.outline.obstacles else rough), FAR
    off = max([0, *(x - walls.middle for x in walls.beside)])
    if rough:
        return walls.middle - abs(off - rough), walls.middle + abs(off - rough)
    half = max(off, a.tool.finish - off) if off > _SIDE * 2 * a.tool.form.radius else off
    return walls.middle - half, walls.middle + half


def _gets_near(a: Attempt, gone: Region, sides: Interval, under: int) -> bool:
    """In some manner between such places, and in all that it opens then so low."""
    over = under + GRAIN + 1
    for walls in manners_of(a):
        left, right = _sides(a, walls)
        if left < sides[1] and right > sides[0] and (over > 0 or not any(
                _stays_over(a, gone, *opening, over) for opening in openings(a, walls))):
            return True
    return False


def _stays_over(a: Attempt, gone: Region, places: list[int], left: int, right: int, over: int) -> bool:
    """Whether it never gets lower than so: told of what must stay alone before of what nobody takes besides."""
    metals = (Metal(a.outline.keep, NOTHING), None)
    return any(never_below(a.tool.form, metal or metal_left(a, gone, left, right), a.room.aim.low, over, places) >= over
               for metal in metals)


def _never_below(a: Attempt, gone: Region, places: list[int], left: int, right: int) -> int:
    return never_below(a.tool.form, metal_left(a, gone, left, right), a.room.aim.low, 0, places) - GRAIN


def _lowest(a: Attempt, removed: Region, walls: Walls) -> int | None:
    """The lowest that the lower face can go, not under the floor, in what its own passes open."""
    lowest: int = a.room.aim.low
    for places, left, right in openings(a, walls):
        low = lowest_of(a.tool.form, metal_left(a, removed, left, right), a.room.aim.low, 0, places)
        if low is None:
            return None
        lowest = max(lowest, low)
    return lowest


def _stands(a: Attempt, cleared: Region) -> bool | None:
    """Told of a square cutter that finishes, in the clear: what a round corner or a dull edge leaves takes cutting."""
    if len(a.tool.form.sure) > 1 or not a.tool.can_finish or a.outline.obstacles:
        return None
    radius, least, is_clear = a.tool.form.radius, a.room.least, is_in_the_clear(a)
    for walls in manners_of(a):
        places = walls.beside or [walls.middle]
        wide = a.at_an_edge or max(places) + radius >= least.right
        if wide and min(places) - radius <= least.left and _gets_down(a, cleared, walls, is_clear):
            return True
    return False


def _gets_down(a: Attempt, cleared: Region, walls: Walls, is_clear: bool) -> bool:
    """Whether a tool goes down to a floor that is deep enough; `is_clear`: nothing but its teeth comes near the
    work."""
    return all(
        any(holds(free_positions(a.tool.form, metal, z), places) for z in (a.room.least.low, a.room.aim.low))
        for places, left, right in openings(a, walls)
        for metal in [Metal(a.outline.keep, NOTHING) if is_clear else metal_left(a, cleared, left, right)]
    )


def _in_the_way(a: Attempt, cleared: Region) -> Limit:
    wall, low = wall_axis(a), a.room.least.low
    stands = any(left <= wall <= right for left, right in free_positions(a.tool.form, opened(a), low))
    has, most = a.tool.cutter.corner_radius_mm or 0.0, a.allowed.floor_radius
    if not stands or has <= most:
        from crib.machining.methods.blocked import blocked

        return blocked(a, cleared | a.room.aim.region, [(wall, low)])
    return Limit("G11", "it leaves a radius of {has} in the floor corners", has, most,
                 "would go if the floor radius may be {has}", has - most)


def _figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
    if not room.opens(Opening.RIGHT):
        yield from width_figures(job)


METHOD = Method(
    limits=limits,
    positions=positions,
    stands_in=_stands_in,
    gets_near=_gets_near,
    near=lambda *asked: at_once.near(*asked),
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
    count=count,
    ways=ways,
    never_ends=never_ends,
    stands=_stands,
    gate=gate,
    both=lambda room: not (room.opens(Opening.LEFT) or room.opens(Opening.RIGHT)),
)

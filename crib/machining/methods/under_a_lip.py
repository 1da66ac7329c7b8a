"""Under a lip: levels from the floor to the ceiling, at each the middle first where that cuts, then steps to the back
and the front wall in turn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from itertools import chain, zip_longest
from math import inf

from crib.findings.finding import Figure
from crib.findings.message import said
from crib.geometry.outline import Room
from crib.geometry.region import FAR, Region, box
from crib.handbook.bites import bites_needed
from crib.handbook.deviations import widest_head, widest_neck
from crib.machining.gate import Beside, Count, Gate, Whole, is_free, is_full
from crib.machining.methods.base import (
    Attempt,
    Limit,
    Method,
    PassBound,
    Site,
    Stand,
    by_levels,
    side_cuts,
    too_wide,
    width_figures,
)
from crib.machining.methods.cuts import LAST_BITE, Cut, Job, side_bites
from crib.machining.methods.levels import few_levels, heights_of, levels_in, levels_of, levels_short, low_face, tallest
from crib.machining.sizes import Most, Sizes
from crib.machining.words import Manner, Role, Side
from crib.shop import Shop
from crib.units import NM


def limits(a: Attempt) -> Iterator[Limit]:
    """It goes into the room sideways, and in height in few levels."""
    yield too_wide(a)
    face, most = a.tool.form.height / 1e6, heights_of(a)[1] / 1e6
    if a.tool.kind.buried:
        yield low_face(a, said("the face, {has}, is taller than the {room} may be, {needs}", room=a.room.name))
    else:
        says = said("its teeth, {has} tall, run up past the lip of the {room}, {needs} above its "
                    "floor", room=a.room.name)
        yield Limit("FC1", says, face, most, short=face - most, holds=face <= most)
    yield few_levels(a)


def positions(a: Attempt, removed: Region) -> Iterator[Job]:
    """Its walls where they are aimed at, or by the tool's own width where that is wide enough."""
    heights = levels_of(a)
    own_width = a.tool.can_finish and a.room.least.width <= 2 * a.tool.form.radius < a.room.aim.width
    for own in (False, True) if own_width else (False,):
        cuts, gone = by_levels(a, removed, heights, partial(_level, a, own))
        if own:
            manner = Manner.ONE_LEVEL_OWN_WIDTH if len(heights) == 1 else Manner.LEVELS_OWN_WIDTH
        else:
            manner = Manner.ONE_LEVEL if len(heights) == 1 else Manner.LEVELS
        yield Job(a.tool, a.room.name, cuts, gone, manner, len(heights))


def _level(a: Attempt, own: bool, z: int, gone: Region) -> list[Cut]:
    """The passes at a level; `own`: down the middle alone."""
    ends = _ends(a, z, gone)
    if ends is None:
        return []
    tool, (front, back), middle = a.tool, ends, a.middle
    radius, deep = tool.form.radius, tool.form.height
    free_left, free_right = _free(a, gone, z, z + deep)
    cuts = []
    if (bite := radius - min(middle - free_left, free_right - middle)) > 0:
        cuts.append(Cut(middle, z, Role.UNDERCUT, a.room.name, Side.BOTH, 2 * radius, deep, bite > tool.centre_limit))
        free_left, free_right = min(free_left, middle - radius), max(free_right, middle + radius)
    if own:
        return cuts
    fine = _is_finished(a)
    sides = [side_cuts(a, side, wall, z, side_bites(metal, tool.side, LAST_BITE if fine else 0), deep, fine)
             for side, wall, metal in ((Side.BACK, back, back + radius - free_right),
                                       (Side.FRONT, front, free_left - (front - radius)))]
    return [*cuts, *filter(None, chain(*zip_longest(*sides)))]


def _ends(a: Attempt, z: int, removed: Region | None = None) -> tuple[int, int] | None:
    """Where the axis stands at the front and at the back wall at a height, or as near as it gets; None where it
    doesn't stand in the middle."""
    span, radius, middle, aim = a.span(z, removed), a.tool.form.radius, a.middle, a.room.aim
    if span is None:
        return None
    return max(min(aim.left + radius, middle), span[0]), min(max(aim.right - radius, middle), span[1])


def _free(a: Attempt, gone: Region, low: int, high: int) -> tuple[int, int]:
    """How far the room is clear on both sides of the middle, over the whole height of the teeth."""
    left, _, right, _ = a.outline.most.bounds()
    middle, edges = a.middle, a.edges(gone, left, low, right, high)
    if any(begins < middle < ends for begins, ends in edges):
        return middle, middle
    return (max((ends for _, ends in edges if ends <= middle), default=left),
            min((begins for begins, _ in edges if begins >= middle), default=right))


def _count(a: Attempt) -> tuple[PassBound, ...]:
    tool, radius, least = a.tool, a.tool.form.radius, a.room.least
    heights = levels_of(a)
    ends = [found for z in heights if (found := _ends(a, z))]
    if not ends:
        return ()
    stepped = 2 * radius < least.width
    if max(back for _, back in ends) + radius < least.right or min(front for front, _ in ends) - radius > least.left:
        return (PassBound(inf, levels=len(heights), stepped=stepped),)
    lip = max(other.most.right for other in a.outline.rooms if other is not a.room)
    count, fine = len(heights), _is_finished(a)
    sides = 2 * _fewest_steps(a, least.right - max(lip, radius), fine)
    checks = 3 if fine and sides else 1
    if radius <= lip:
        return (PassBound(count * max(1, sides), levels=count, checks=checks, stepped=stepped,
                          returns=returns_of(count, sides, 0)),)
    slow = count if radius - lip > tool.centre_limit else 0
    return (PassBound(count * (1 + sides), slow, count, checks, stepped=stepped, both=True,
                      returns=returns_of(count, sides, count + slow)),)


def returns_of(levels: int, sides: int, both: int) -> int:
    """How often a disc goes as far as it runs from the middle between closed ends, in so many passes at the sides of
    each level, and so many at both at once: of the sides along the back wall once, along the front one there, back and
    to the middle; both ways along the middle and home."""
    return max(levels, levels * 2 * sides + 3 * both)


def _count_now(a: Attempt, removed: Region) -> tuple[PassBound, ...]:
    """By level, how wide it is clear where the level cuts anew."""
    least = _count(a)
    if not least or least[0].passes == inf:
        return least
    radius, face, middle, fine = a.tool.form.radius, a.tool.form.height, a.middle, _is_finished(a)
    heights = levels_of(a)
    passes = slow = 0
    for place, z in enumerate(heights):
        left, right = _free(a, removed, heights[place - 1] + face if place else z, z + face)
        if (bite := radius - min(middle - left, right - middle)) > 0:
            passes, slow = passes + 1, slow + (bite > a.tool.centre_limit)
            left, right = min(left, middle - radius), max(right, middle + radius)
        passes += _fewest_steps(a, a.room.least.right - right, fine) + _fewest_steps(a, left - a.room.least.left, fine)
    return (least[0]._replace(passes=max(passes, least[0].passes), slow=max(slow, least[0].slow)),)


def _fewest_steps(a: Attempt, metal: int, fine: bool) -> int:
    """What the bites at a side come to at the least, for so much metal or more."""
    return _steps(metal, a.tool.side, fine, LAST_BITE)


def _steps(metal: float, side: float, fine: bool, last: float) -> int:
    """Bites of so much at the most, with a last one where the wall is finished; all in one unit of length."""
    if metal <= 0:
        return 0
    plain = bites_needed(metal, side)
    with_last = 1 + bites_needed(max(metal, 2 * last) - last, side)
    return with_last if fine and metal > 2 * last else min(plain, with_last) if fine else plain


def _is_finished(a: Attempt) -> bool:
    return a.tool.can_finish and a.is_fine("wall")


def _stands(a: Attempt, cleared: Region) -> bool | None:
    if len(a.tool.form.sure) > 1:
        return None
    radius, least = a.tool.form.radius, a.room.least
    ends = (_ends(a, z, cleared) for z in levels_of(a))
    return all(found and found[1] + radius >= least.right and found[0] - radius <= least.left for found in ends)


def _in_the_way(a: Attempt, cleared: Region) -> Limit:
    x = max(a.middle, a.room.least.right - a.tool.form.radius)
    from crib.machining.methods.blocked import blocked

    return blocked(a, cleared, [(x, z) for z in levels_of(a)])


def gate(site: Site) -> Gate:
    """What it asks of bare sizes, and what of the lip is over the teeth when they stand at the wall."""
    outline, room, metal = site.outline, site.room, site.outline.uncut(site.cleared)
    top, floor, ceiling = outline.stock.bounds()[3], room.aim.low, room.most.high
    over = (metal & box(room.aim.middle, ceiling, room.most.right, top)).slabs
    lip = over[0].spans[0].left_low if over else room.most.right
    stands = is_full(metal, lip, ceiling, room.most.right, top)
    beside = Beside((room.least.right - lip) / NM, 0.0, (ceiling - floor) / NM, (top - floor) / NM) if stands else None
    lips = max((other.most.right for other in outline.rooms if other is not room), default=room.most.right)
    return Gate(room.most.width / NM, tallest(room) / NM, *levels_short(site), beside=beside, whole=_whole(site, lip),
                fewest=lambda sizes, most, _: Count(levels_in(room, sizes) * max(1, 2 * bites_needed(
                    room.least.right / NM - max(lips / NM, sizes.diameter / 2), most.side + 1 / NM))),
                closely=partial(_counted, room, lips / NM, site.is_fine("wall")))


def _counted(room: Room, lip: float, fine: bool, sizes: Sizes, most: Most) -> Count:
    """What the bounds count of bare sizes; `lip`: how far from the middle the nearest lip ends."""
    radius, side, levels = sizes.diameter / 2, most.side + 1 / NM, levels_in(room, sizes)
    sides = 2 * _steps(room.least.right / NM - max(lip, radius) - 1 / NM, side, fine, LAST_BITE / NM)
    checks = 3 if fine and sides else 1
    if radius <= lip + 1 / NM:
        return Count(levels * max(1, sides), 0, checks, returns_of(levels, sides, 0))
    slow = levels if radius - lip > most.centre + 1 / NM else 0
    return Count(levels * (1 + sides), slow, checks, returns_of(levels, sides, levels + slow), levels)


def _whole(site: Site, lip: int) -> Whole | None:
    """Which cutters surely clear a room under two lips as far apart, with nothing between them."""
    outline, room = site.outline, site.room
    left, middle, most, floor = 2 * room.aim.middle - lip, room.aim.middle, room.most, room.aim.low
    free = is_free(outline.standing(site.cleared), left, floor, lip, FAR) and is_free(outline.keep, *most)
    if outline.obstacles or not free:
        return None
    widest = 2 * min(middle - most.left, most.right - middle)
    inset = max(room.least.right - lip, left - room.least.left)
    return Whole(0.0, (0.0, (widest - 1) / NM), (outline.stock.bounds()[3] - floor) / NM,
                 tall=(most.high - floor - 1) / NM, inset=inset / NM, half=(lip - middle) / NM)


def _figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
    cutter = job.tool.cutter
    opening = before[-1].removed.spans_at(-1) if before else ()
    throat = (opening[0][1] - opening[0][0]) / 1e6 if opening else None
    diameter, neck = cutter.diameter_mm or 0.0, cutter.neck_mm
    yield from width_figures(job)
    yield Figure(f"{job.room}: levels", value=job.levels)
    yield Figure(f"{job.room}: largest side step in this metal", job.tool.side / 1e6)
    if throat and neck is not None and "neck_mm" not in {ask.key for ask in job.tool.kind.unknowns(job.tool.owned)}:
        yield Figure("widest head that this cutter can make here",
                     widest_head(diameter, throat, neck, shop.neck_clearance_mm))
        yield Figure("fattest neck that clears here",
                     widest_neck(diameter, throat, room.aim.width / 1e6, shop.neck_clearance_mm))
    deepest = min(cut.z for cut in job.cuts)
    yield Figure("reach needed, lower face to shank", -deepest / 1e6 + shop.end_clearance_mm)


METHOD = Method(
    limits=limits,
    positions=positions,
    stands_in=lambda a, _: (Stand(z, z) for z in levels_of(a)),
    in_the_way=_in_the_way,
    figures=_figures,
    manners={
        Manner.ONE_LEVEL: "one level",
        Manner.LEVELS: "{levels} levels",
        Manner.ONE_LEVEL_OWN_WIDTH: "one level, as wide as the cutter",
        Manner.LEVELS_OWN_WIDTH: "{levels} levels, as wide as the cutter",
    },
    count=_count,
    stands=_stands,
    count_now=_count_now,
    gate=gate,
)

"""From the side: a room that is open at its right, with metal over and under it. Levels for its height, and at each the
cutter goes in from outside in steps, or a saw in one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from math import inf

from crib.findings.finding import NO_CHANGE, Figure
from crib.findings.message import said
from crib.geometry.gaps import Gap, gaps
from crib.geometry.outline import Outline, Room
from crib.geometry.region import FAR, Region
from crib.handbook.bites import bites_needed
from crib.handbook.deviations import cusp
from crib.holders.arbors import FLANGE
from crib.machining.gate import Beside, Count, Gate, Whole, is_free, is_full
from crib.machining.methods.base import FINE_BAND, Attempt, Limit, Method, PassBound, Site, Stand, by_levels, side_cuts
from crib.machining.methods.cuts import LAST_BITE, Cut, Job, side_bites
from crib.machining.methods.levels import few_levels, heights_of, levels_in, levels_of, levels_short, low_face, tallest
from crib.machining.sizes import Most, Sizes
from crib.machining.tool import Tool
from crib.machining.words import Manner, Role, Side
from crib.shop import Shop
from crib.units import NM

_TOLD_MM = 0.0005 * 25.4
"""A rock of less than this [mm] isn't told by how much: it would read as none."""


def limits(a: Attempt) -> Iterator[Limit]:
    """It goes between floor and ceiling, and in height in few levels."""
    if a.room.across:
        yield from _as_wide_as_the_seat(a, *a.room.across)
    face, most = a.tool.form.height / 1e6, heights_of(a)[1] / 1e6
    if a.tool.kind.buried:
        yield low_face(a, said("the face, {has}, is more than the {room} may be wide, {needs}", room=a.room.name))
    else:
        says = said("its teeth are {has} tall, more than the {room} may be from side to side, "
                    "{needs}", room=a.room.name)
        yield Limit("FC1", says, face, most, holds=face <= most)
    yield few_levels(a)


def _as_wide_as_the_seat(a: Attempt, least: int, most: int) -> Iterator[Limit]:
    """What goes straight in makes a round of its own diameter: with a smaller one fed along, a key rocks on a flat."""
    across, room = 2 * a.tool.form.radius, a.room.name
    rock = cusp(least / 2, min(least, abs(least - across)))
    rocks = "on which the key rocks" + (" by {side}" if rock / 1e6 >= _TOLD_MM else "")
    yield Limit("SZ3", f"{{has}} across, the {room} is {{needs}} at the least: fed along it would leave a flat "
                f"{rocks}", across / 1e6, least / 1e6, "one of {needs} or more would do",
                (least - across) / 1e6, "diameter_mm", up=True, side=rock / 1e6, holds=across >= least)
    yield Limit("SZ3", f"{{has}} across, the {room} is {{needs}} at the most: the key would have end play",
                across / 1e6, most / 1e6, "one of {needs} or less would do", (across - most) / 1e6, "diameter_mm",
                holds=across <= most)


def positions(a: Attempt, removed: Region) -> Iterator[Job]:
    """Level by level in from the open side."""
    heights = _heights(a)
    cuts, gone = by_levels(a, removed, heights, partial(_level, a))
    yield Job(a.tool, a.room.name, cuts, gone, manner_of(a.tool, len(heights)), len(heights))


def _heights(a: Attempt) -> tuple[int, ...]:
    """Where the lower face stands at each level. One that is tall enough by itself is put to the middle of the room, as
    near as the room's limits let it."""
    face, aim, least, most = a.tool.form.height, a.room.aim, a.room.least, a.room.most
    heights = levels_of(a)
    if len(heights) > 1:
        return heights
    middle = (aim.low + aim.high - face) // 2
    return (min(max(middle, most.low, least.high - face), least.low, most.high - face),)


def manner_of(tool: Tool, count: int) -> Manner:
    """How a tool that takes so many levels does it."""
    if tool.kind.saws:
        return Manner.SAWN if count == 1 else Manner.SAWN_IN_LEVELS
    return Manner.FROM_THE_SIDE if count == 1 else Manner.FROM_THE_SIDE_IN_LEVELS


def _level(a: Attempt, z: int, gone: Region) -> list[Cut]:
    """The steps from where metal begins in to the room's own wall, or as far as it gets."""
    tool, radius, high, most = a.tool, a.tool.form.radius, z + a.tool.form.height, a.room.most
    inmost = _inmost(a, z, gone)
    if inmost is None:
        return []
    wall = max(a.room.aim.left + radius, inmost)
    edges = a.edges(gone, most.left, max(z, most.low), most.right, min(high, most.high))
    metal = max((ends for _, ends in edges), default=most.left) - (wall - radius)
    fine = tool.can_finish and _is_fine(a.outline, a.room)
    if tool.kind.saws or a.room.across:
        return side_cuts(a, Side.FRONT, wall, z, [metal] if metal > 0 else [], tool.form.height, False,
                         Role.SAW if tool.kind.saws else Role.UNDERCUT)
    return side_cuts(a, Side.FRONT, wall, z, side_bites(metal, tool.side, LAST_BITE if fine else 0), tool.form.height,
                     fine)


def _inmost(a: Attempt, z: int, removed: Region | None = None) -> int | None:
    """How far in the axis can come from outside at a height; None where it can't stand outside either."""
    spans = a.spans(z, removed)
    return spans[-1][0] if spans and spans[-1][1] >= FAR else None


def _is_fine(outline: Outline, room: Room) -> bool:
    """Whether the wall that the cutter comes up to wants finishing."""
    return any(face.upright and face.metal < 0 and face.band <= FINE_BAND and face.aim == room.aim.left
               for face in outline.faces)


def _count(a: Attempt) -> tuple[PassBound, ...]:
    heights, tool = _heights(a), a.tool
    edges = [x - tool.form.radius for z in heights if (x := _inmost(a, z)) is not None]
    if not edges or min(edges) >= a.room.most.right:
        return ()
    so = PassBound(inf, levels=len(heights), stepped=True, manner=manner_of(tool, len(heights)))
    if len(edges) < len(heights) or max(edges) > a.room.least.left:
        return (so,)
    at_once = tool.kind.saws or a.room.across
    finishes = tool.can_finish and not at_once and _is_fine(a.outline, a.room)
    each = 1 if at_once else len(side_bites(a.room.least.width, tool.side))
    return (so._replace(passes=len(heights) * each, checks=2 if finishes else 1),)


def _stands(a: Attempt, cleared: Region) -> bool | None:
    if len(a.tool.form.sure) > 1:
        return None
    for place, z in enumerate(_heights(a)):
        inmost = _inmost(a, z, cleared)
        if inmost is None or inmost - a.tool.form.radius > a.room.least.left:
            return None if place else False
    return True


def _in_the_way(a: Attempt, cleared: Region) -> Limit:
    from crib.machining.methods.blocked import blocked, worst_gap

    places = [(a.room.least.left + a.tool.form.radius, z) for z in _heights(a)]
    worst = worst_gap(a, cleared, places)
    if worst and "neck" in worst.part.name:
        return _neck(a.tool, worst)
    bore = a.tool.cutter.bore_mm or 0.0
    if worst and worst.part.name == FLANGE and 2 * (worst.part.radius_low + worst.slack) / 1e6 > bore:
        return _flange(a, worst, cleared, places)
    return blocked(a, cleared, places)


def _neck(tool: Tool, worst: Gap) -> Limit:
    """The neck comes against the work before the cutter is in deep enough: depth up to (Dk - dn) / 2 - cn."""
    fillet = 2 * worst.part.radius_low / 1e6 - (tool.cutter.neck_mm or 0.0)
    has = 2 * worst.part.radius_low / 1e6 - fillet
    needs = has + 2 * worst.slack / 1e6
    says = said("the {part} meets the work {side} short of the depth: neck {has}, {needs} is the most that clears",
                part=worst.part.name)
    return Limit("NK2", says, has, needs, "a neck of {needs} or less would clear", has - needs, "neck_mm",
                side=-worst.slack / 1e6)


def _flange(a: Attempt, worst: Gap, cleared: Region, places: Sequence[tuple[int, int]]) -> Limit:
    """The arbor's flange does: depth up to (Ds - Df) / 2 less its clearance. A narrower one is named where it alone
    would do."""
    radius = worst.part.radius_low + worst.slack
    has, needs = 2 * worst.part.radius_low / 1e6, 2 * radius / 1e6
    narrower = tuple(part._replace(radius_low=radius, radius_high=radius) if part.name == FLANGE else part
                     for part in a.tool.form.clear)
    others = min(gap.slack for x, z in places for gap in gaps(narrower, a.outline.standing(cleared), x, z))
    says = ("the flange of its arbor meets the work {side} short of the depth: flange {has}, {needs} is the most that "
            "clears")
    fix = "a flange of {needs} or less would do" if others >= 0 else NO_CHANGE
    return Limit("HD3", says, has, needs, fix, -worst.slack / 1e6, side=-worst.slack / 1e6)


def _gate(site: Site) -> Gate | None:
    """What it asks of bare sizes, and what of the metal over the room is beside the stem when the teeth are in."""
    outline, room, metal = site.outline, site.room, site.outline.uncut(site.cleared)
    if room.across or outline.obstacles:
        return None
    top, ceiling = outline.stock.bounds()[3], room.most.high
    lowest, highest = min(room.aim.low, room.most.low), max(room.aim.low, room.least.low)
    stands = is_full(metal, room.most.left, ceiling, room.most.right, top)
    inset = (room.most.right - room.least.left) / NM
    beside = Beside(inset, 0.0, (ceiling - lowest) / NM, (top - highest) / NM) if stands else None
    levels, enough = levels_short(site)
    return Gate(tallest=tallest(room) / NM, levels=levels, enough=enough, beside=beside, whole=_whole(room, metal),
                fewest=lambda sizes, most, _: Count(levels_in(room, sizes) * max(1, bites_needed(
                    room.least.width / NM, most.side + 1 / NM))),
                closely=partial(_counted, room, 2 if _is_fine(outline, room) else 1))


def _whole(room: Room, metal: Region) -> Whole | None:
    """Which cutters surely clear a room before which nothing stands: those whose stem is over the metal, or beside it
    when the teeth are in as far as they must be."""
    most = room.most
    if not metal or not is_free(metal - room.most.region, most.left, most.low, FAR, most.high):
        return None
    _, _, right, top = metal.bounds()
    lowest = min(most.low, room.aim.low)
    tall = min(tallest(room), most.height) - 1
    return Whole(inf, (inf, inf), (top - lowest) / NM, tall=tall / NM, inset=(right - room.least.left) / NM)


def _counted(room: Room, checks: int, sizes: Sizes, most: Most) -> Count:
    """What the bounds count of bare sizes."""
    steps = bites_needed(room.least.width / NM, most.side + 1 / NM)
    return Count(levels_in(room, sizes) * max(1, steps), 0, checks)


def _figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
    tool = job.tool
    inmost = min(cut.x for cut in job.cuts) - tool.form.radius
    yield Figure(f"{job.room}: depth aimed at", (room.aim.right - inmost) / 1e6)
    yield Figure(f"{job.room}: levels", value=job.levels)
    if not tool.kind.saws:
        yield Figure(f"{job.room}: largest side step in this metal", tool.side / 1e6)
    beside = next((part for part in tool.form.clear if part.low >= 0), None)
    if beside is not None:
        deepest = tool.form.radius - beside.radius_low - beside.side
        yield Figure(f"deepest that the {beside.name} lets it in", deepest / 1e6)


def _says(job: Job, cut: Cut) -> str:
    if cut.z != job.cuts[0].z and cut is next(other for other in job.cuts if other.z == cut.z):
        return "out of the work before the height is changed"
    return f"measure the width and the depth of the {job.room}" if cut is job.cuts[-1] else "chips out after it"


METHOD = Method(
    limits=limits,
    positions=positions,
    stands_in=lambda a, _: (Stand(z, z) for z in _heights(a)),
    in_the_way=_in_the_way,
    figures=_figures,
    manners={
        Manner.SAWN: "in one cut from the side",
        Manner.SAWN_IN_LEVELS: "in {levels} cuts side by side, from the side",
        Manner.FROM_THE_SIDE: "from the side at one level",
        Manner.FROM_THE_SIDE_IN_LEVELS: "from the side in {levels} levels",
    },
    says=_says,
    count=_count,
    stands=_stands,
    gate=_gate,
)

"""From the side: a room that is open at its right, with metal over and under it. Levels for its height, and at each the
cutter goes in from outside in steps, or a saw in one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from crib.findings.finding import NO_CHANGE, Figure
from crib.geometry.free_positions import Gap, Metal, free_positions, gaps
from crib.geometry.outline import Outline, Room
from crib.geometry.region import FAR, Region, box
from crib.handbook.bites import bites_needed
from crib.holders.arbors import FLANGE
from crib.machining.methods.base import (
    FINE_BAND,
    TOUCHES,
    Cut,
    Infeasible,
    Job,
    Limits,
    Method,
    PassBound,
    after,
    takes,
)
from crib.machining.methods.blocked import blocked
from crib.machining.methods.under_a_lip import heights_of, levels, too_many_levels
from crib.machining.tool import Tool
from crib.shop import Shop
from crib.units import nm

_LAST_BITE = nm(0.005 * 25.4)


def clear(tool: Tool, outline: Outline, room: Room, removed: Region, limits: Limits) -> tuple[Job, ...]:
    """The one manner in which a tool clears a room from its open side; none where it can't get in, or takes too many
    levels."""
    heights = _heights(tool, room)
    if heights is None or len(heights) > limits.most_levels:
        return ()
    standing = outline.stock - removed
    cuts: list[Cut] = []
    gone = removed
    for place, z in enumerate(heights):
        metal = Metal(outline.keep, (standing - gone) | outline.obstacles)
        here = _level(tool, outline, room, metal, gone, z)
        if place:
            here = [replace(cut, axial=z - heights[place - 1]) for cut in here]
        cuts += here
        gone = after(tool, outline, here, gone)
    if not cuts or not takes(outline, room, removed, gone):
        return ()
    return (Job(tool, room.name, tuple(cuts), gone, manner_of(tool, len(heights)), len(heights)),)


def _heights(tool: Tool, room: Room) -> tuple[int, ...] | None:
    """Where the lower face stands at each level. One that is tall enough by itself is put to the middle of the room, as
    near as the room's limits let it."""
    face, least, most = tool.form.height, room.least, room.most
    heights = levels(face, tool.overlap, room)
    if heights is None or len(heights) > 1:
        return heights
    middle = (room.aim.low + room.aim.high - face) // 2
    return (min(max(middle, most.low, least.high - face), least.low, most.high - face),)


def manner_of(tool: Tool, count: int) -> str:
    """How a tool that takes so many levels does it, in a word of this way."""
    how = "sawn" if saws(tool) else "from the side"
    return how if count == 1 else f"{how} in levels"


def saws(tool: Tool) -> bool:
    """Whether a tool is a saw, which takes its whole depth at once."""
    return tool.kind.operation == "sawing"


def _level(tool: Tool, outline: Outline, room: Room, metal: Metal, gone: Region, z: int) -> list[Cut]:
    """The steps from where metal begins in to the room's own wall, or as far as it gets."""
    radius, height = tool.form.radius, tool.form.height
    inmost = _inmost(tool, metal, z)
    if inmost is None:
        return []
    wall = max(room.aim.left + radius, inmost)
    outermost = _begins(outline, gone, room, z, z + height)
    bites = _bites(tool, outermost - (wall - radius), _is_fine(outline, room))
    cuts = []
    for k, bite in enumerate(bites):
        finishes = k == len(bites) - 1 and tool.can_finish and _is_fine(outline, room)
        role = "saw" if saws(tool) else "finish" if finishes else "undercut"
        cuts.append(Cut(wall + sum(bites[k + 1:]), z, role, room.name, "front", bite, height))
    return cuts


def _inmost(tool: Tool, metal: Metal, z: int) -> int | None:
    """How far in the axis can come from outside at a height; None where it can't stand outside either."""
    spans = free_positions(tool.form, metal, z)
    return spans[-1][0] if spans and spans[-1][1] >= FAR else None


def _begins(outline: Outline, gone: Region, room: Room, low: int, high: int) -> int:
    """Where metal begins, coming from outside, over the whole height of the teeth."""
    most = room.most
    standing = (outline.stock - gone) & box(most.left, max(low, most.low), most.right, min(high, most.high))
    return max((max(s.right_low, s.right_high) for slab in standing.slabs for s in slab.spans), default=most.left)


def _is_fine(outline: Outline, room: Room) -> bool:
    """Whether the wall that the cutter comes up to wants finishing."""
    return any(face.upright and face.metal < 0 and face.band <= FINE_BAND and face.aim == room.aim.left
               for face in outline.faces)


def _bites(tool: Tool, metal: int, fine: bool) -> list[int]:
    """Equal bites that take so much metal, the last a light one where the wall is to be finished; a saw takes all of it
    at once."""
    if metal <= 0:
        return []
    if saws(tool):
        return [metal]
    last = _LAST_BITE if fine and tool.can_finish and metal > 2 * _LAST_BITE else 0
    count = max(1, bites_needed(metal - last, tool.side))
    even = [(metal - last) * (k + 1) // count - (metal - last) * k // count for k in range(count)]
    return [*even, last] if last else even


def _fewest(tool: Tool, outline: Outline, room: Room, limits: Limits) -> tuple[PassBound, ...]:
    heights = _heights(tool, room)
    if heights is None or len(heights) > limits.most_levels:
        return ()
    metal, radius = Metal(outline.keep, outline.keep), tool.form.radius
    inmost = [_inmost(tool, metal, z) for z in heights]
    edges = [x - radius for x in inmost if x is not None]
    if not edges or min(edges) >= room.most.right:
        return ()
    if len(edges) < len(heights) or max(edges) > room.least.left:
        return TOUCHES
    finishes = tool.can_finish and not saws(tool) and _is_fine(outline, room)
    each = len(_bites(tool, room.least.width, False))
    return (PassBound(len(heights) * each, levels=len(heights), checks=2 if finishes else 1),)


def _is_feasible(tool: Tool, outline: Outline, room: Room, cleared: Region, limits: Limits) -> bool | None:
    heights = _heights(tool, room)
    if heights is None or len(heights) > limits.most_levels:
        return False
    if len(tool.form.sure) > 1:
        return None
    metal = Metal(outline.keep, outline.standing(cleared))
    for place, z in enumerate(heights):
        inmost = _inmost(tool, metal, z)
        if inmost is None or inmost - tool.form.radius > room.least.left:
            return None if place else False
    return True


def _why_not(tool: Tool, outline: Outline, room: Room, cleared: Region, limits: Limits) -> Infeasible:
    face, most = tool.form.height / 1e6, heights_of(room)[1] / 1e6
    if face > most:
        if not tool.kind.buried:
            says = f"its teeth are {{has}} tall, more than the {room.name} may be from side to side, {{needs}}"
            return Infeasible("FC1", says, face, most)
        says = f"the face, {{has}}, is more than the {room.name} may be wide, {{needs}}"
        return Infeasible("FC1", says, face, most, "a face of {needs} or less would go in", face - most, "face_mm")
    heights = _heights(tool, room) or (room.aim.low,)
    if len(heights) > limits.most_levels:
        return too_many_levels(tool, room, limits, len(heights))
    places = [(room.least.left + tool.form.radius, z) for z in heights]
    standing = outline.standing(cleared)
    near = [gap for x, z in places for gap in gaps(tool.form.clear, standing, x, z)]
    worst = min(near, key=lambda gap: gap.slack, default=None)
    if worst is not None and worst.slack < 0:
        if "neck" in worst.part.name:
            return _neck(tool, worst)
        if worst.part.name == FLANGE and 2 * (worst.part.radius_low + worst.slack) / 1e6 > (tool.cutter.bore_mm or 0.0):
            return _flange(tool, worst, standing, places)
    return blocked(tool, outline, room, cleared, places)


def _neck(tool: Tool, worst: Gap) -> Infeasible:
    """The neck comes against the work before the cutter is in deep enough: depth up to (Dk - dn) / 2 - cn."""
    fillet = 2 * worst.part.radius_low / 1e6 - (tool.cutter.neck_mm or 0.0)
    has = 2 * worst.part.radius_low / 1e6 - fillet
    needs = has + 2 * worst.slack / 1e6
    says = (f"the {worst.part.name} meets the work {{side}} short of the depth: neck {{has}}, "
            "{needs} is the most that clears")
    return Infeasible("NK2", says, has, needs, "a neck of {needs} or less would clear", has - needs, "neck_mm",
                side=-worst.slack / 1e6)


def _flange(tool: Tool, worst: Gap, standing: Region, places: Sequence[tuple[int, int]]) -> Infeasible:
    """The arbor's flange does: depth up to (Ds - Df) / 2 less its clearance. A narrower one is named where it alone
    would do."""
    radius = worst.part.radius_low + worst.slack
    has, needs = 2 * worst.part.radius_low / 1e6, 2 * radius / 1e6
    narrower = tuple(part._replace(radius_low=radius, radius_high=radius) if part.name == FLANGE else part
                     for part in tool.form.clear)
    others = min(gap.slack for x, z in places for gap in gaps(narrower, standing, x, z))
    says = ("the flange of its arbor meets the work {side} short of the depth: flange {has}, {needs} is the most that "
            "clears")
    fix = "a flange of {needs} or less would do" if others >= 0 else NO_CHANGE
    return Infeasible("HD3", says, has, needs, fix, -worst.slack / 1e6, side=-worst.slack / 1e6)


def _figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
    tool = job.tool
    inmost = min(cut.x for cut in job.cuts) - tool.form.radius
    yield Figure(f"{job.room}: depth aimed at", (room.aim.right - inmost) / 1e6)
    yield Figure(f"{job.room}: levels", value=job.levels)
    if not saws(tool):
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
    suits=lambda room: "right" in room.open and "top" not in room.open,
    clear=clear,
    fewest=_fewest,
    why_not=_why_not,
    figures=_figures,
    manners={
        "sawn": "in one cut from the side",
        "sawn in levels": "in {levels} cuts side by side, from the side",
        "from the side": "from the side at one level",
        "from the side in levels": "from the side in {levels} levels",
    },
    says=_says,
    is_feasible=_is_feasible,
)

"""Under a flank: a disc takes most of the metal in steps, one on top of the other, each as far under the flank as its
upper corner lets it; a cutter that leans as the flank does finds the edges of the steps alone."""

from __future__ import annotations

from functools import partial
from itertools import chain, zip_longest

from crib.cutters.base import Motion
from crib.geometry.free_positions import blocked
from crib.geometry.outline import Opening, Outline, Room
from crib.geometry.region import FAR, Region, box
from crib.machining.methods.base import Attempt, Limits, by_levels, side_cuts
from crib.machining.methods.cuts import LEAST_BITE, Cut, Job, side_bites
from crib.machining.methods.mirrored import mirror_job
from crib.machining.tool import Tool
from crib.machining.words import Manner, Role, Side


def may_step(tool: Tool) -> bool:
    """Whether a tool goes under a flank in steps: a disc with an upright rim, and no saw, that makes its floor."""
    if not tool.kind.buried or Motion.ALONG not in tool.kind.motions or tool.kind.saws or not tool.can_finish:
        return False
    return tool.form.edge.radius_low == tool.form.edge.radius_high


def most_steps(tool: Tool, room: Room) -> int:
    """How many steps of a disc there are under a flank, all below its top."""
    face, step = tool.form.height, tool.form.height - tool.overlap
    return 1 + (room.aim.height - face - 1) // step if 0 < face < room.aim.height else 0


def steps(tool: Tool, outline: Outline, room: Room, removed: Region, allowed: Limits, count: int) -> Job | None:
    """So many steps of a disc under the flanks of a room, from the floor up; None where it can't take them all."""
    a = Attempt(tool, outline, room, allowed)
    if room.opens(Opening.LEFT) and not a.at_an_edge:
        found = _steps(a.mirrored, removed.mirrored, count)
        return mirror_job(found) if found else None
    return _steps(a, removed, count)


def may_take(tool: Tool, outline: Outline, room: Room, allowed: Limits, count: int) -> bool:
    """Whether a disc may take so many steps under the flanks of a room, however much is gone: at each it goes farther
    under one flank than it stands off the other, and stands somewhere between, with all gone that ever is."""
    a = Attempt(tool, outline, room, allowed)
    a = a.mirrored if room.opens(Opening.LEFT) and not a.at_an_edge else a
    for z in _heights(tool, a.room, count):
        ends = _ends(a, z)
        front, back = ends[Side.FRONT], ends.get(Side.BACK, FAR)
        if front >= back or not any(left <= back and right >= front for left, right in a.spans(z)):
            return False
    return True


def _heights(tool: Tool, room: Room, count: int) -> list[int]:
    """Where the lower face stands at each of so many steps, the lowest first."""
    return [room.aim.low + k * (tool.form.height - tool.overlap) for k in range(count)]


def _ends(a: Attempt, z: int) -> dict[Side, int]:
    """Where the axis stands at a height when a step goes as far under each flank as it may."""
    tool, room = a.tool, a.room
    assert room.lean is not None
    off = room.lean.over(z + tool.form.height - room.aim.low) + tool.finish + tool.form.radius
    front = {Side.FRONT: room.aim.left + off}
    return front if a.at_an_edge else {Side.BACK: room.aim.right - off, **front}


def _steps(a: Attempt, removed: Region, count: int) -> Job | None:
    heights = _heights(a.tool, a.room, count)
    cuts, gone = by_levels(a, removed, heights, partial(_level, a))
    if {cut.z for cut in cuts} != set(heights):
        return None
    return Job(a.tool, a.room.name, cuts, gone, Manner.STEPS_FIRST, count)


def _level(a: Attempt, z: int, gone: Region) -> list[Cut]:
    """The passes of a step; none where the disc doesn't get in, or takes next to nothing."""
    tool, room, ends = a.tool, a.room, _ends(a, z)
    left, right = meets(a, z, gone)
    start = left if a.at_an_edge else (left + right) // 2
    span = next((span for span in a.spans(z, gone) if span[0] <= start <= span[1]), None)
    if span is None:
        return []
    ends = {side: min(max(x, span[0]), span[1]) for side, x in ends.items()}
    if not ends[Side.FRONT] <= start <= ends.get(Side.BACK, start):
        return []
    cuts: list[Cut] = []
    if (bite := max(start - right, left - start)) > 0:
        cuts.append(Cut(start, z, Role.ROUGH, room.name, Side.BOTH, 2 * tool.form.radius, tool.form.height,
                        bite > tool.centre_limit))
        left = right = start
    metal = {Side.FRONT: left - ends[Side.FRONT]} if a.at_an_edge else {
        Side.BACK: ends[Side.BACK] - right, Side.FRONT: left - ends[Side.FRONT]}
    sides = [side_cuts(a, side, ends[side], z, side_bites(much, tool.side), tool.form.height, False, Role.ROUGH)
             for side, much in metal.items() if much >= LEAST_BITE]
    return [*cuts, *filter(None, chain(*zip_longest(*sides)))] if sides else []


def meets(a: Attempt, z: int, gone: Region) -> tuple[int, int]:
    """How far the axis goes to the left and to the right at a height until some tooth meets metal of the room, from
    its middle; beside an edge from out of it, where nothing is at the right. The left is beyond the right where it
    meets metal wherever it stands."""
    most, aim, form, middle = a.room.most, a.room.aim, a.tool.form, a.middle
    uncut, high = a.outline.uncut(gone), min(z + form.height, most.high)
    if a.at_an_edge:
        found = blocked(form.sure, uncut & box(most.left, z, most.right, high), z)
        return max((right for _, right in found), default=aim.left + form.radius), FAR
    return (max((right for _, right in blocked(form.sure, uncut & box(most.left, z, middle, high), z)),
                default=aim.left + form.radius),
            min((left for left, _ in blocked(form.sure, uncut & box(middle, z, most.right, high), z)),
                default=aim.right - form.radius))

"""Under a lip: levels from the floor to the ceiling, at each the middle first where that cuts, then steps to the back
and the front wall in turn."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from crib.findings.finding import Figure
from crib.geometry.free_positions import Metal, free_positions
from crib.geometry.outline import Outline, Room
from crib.geometry.region import Region, box
from crib.handbook.bites import bites_needed, level_heights, levels_needed
from crib.handbook.deviations import widest_head, widest_neck
from crib.machining.methods.base import (
    TOUCHES,
    Cut,
    Infeasible,
    Job,
    Limits,
    Method,
    PassBound,
    after,
    is_fine,
    takes,
    width_figures,
)
from crib.machining.methods.blocked import blocked
from crib.machining.tool import Tool
from crib.shop import Shop
from crib.units import NM, nm

_LAST_BITE = nm(0.005 * 25.4)
OWN_WIDTH = " of its own width"
"""Ends the manners in which a room is as wide as the cutter."""


def clear(tool: Tool, outline: Outline, room: Room, removed: Region, limits: Limits) -> tuple[Job, ...]:
    """The manners in which a tool clears a room with a lip over it: its walls where they are aimed at, or by its own
    width where that is wide enough; none where it can't get in, or takes too many levels."""
    heights = levels(tool.form.height, tool.overlap, room)
    if heights is None or len(heights) > limits.most_levels or 2 * tool.form.radius > room.most.width:
        return ()
    manners = (False, True) if _own(tool, room) else (False,)
    jobs = [_job(tool, outline, room, removed, heights, own) for own in manners]
    return tuple(job for job in jobs if job)


def _own(tool: Tool, room: Room) -> bool:
    """Whether a tool's own width will do, narrower than is aimed at: as wide as it comes out in one pass."""
    return tool.can_finish and room.least.width <= 2 * tool.form.radius < room.aim.width


def _job(tool: Tool, outline: Outline, room: Room, removed: Region, heights: Sequence[int], own: bool) -> Job | None:
    """The passes at all levels; `own`: down the middle alone."""
    standing = (outline.stock - removed) | outline.obstacles
    metal = Metal(outline.keep, standing)
    cuts: list[Cut] = []
    gone = removed
    for place, z in enumerate(heights):
        here = _level(tool, outline, room, metal, gone, z, own)
        if place:
            here = [replace(cut, axial=z - heights[place - 1]) for cut in here]
        cuts += here
        gone = after(tool, outline, here, gone)
        metal = Metal(outline.keep, standing - gone)
    if not cuts or not takes(outline, room, removed, gone):
        return None
    manner = ("one level" if len(heights) == 1 else "levels") + (OWN_WIDTH if own else "")
    return Job(tool, room.name, tuple(cuts), gone, manner, len(heights))


def levels(face: int, overlap: int, room: Room) -> tuple[int, ...] | None:
    """Where the lower face stands at each level, floor first; None where the face is taller than the room may be.

    >>> from crib.geometry.outline import Box
    >>> head = Box(-10, -875, 10, -500)
    >>> levels(250, 25, Room("head", head, head, head))
    (-875, -750)
    """
    lowest, tallest = heights_of(room)
    if face > tallest:
        return None
    if face >= lowest:
        return (room.aim.low,)
    height = room.aim.height / NM
    count = levels_needed(height, face / NM, overlap / NM)
    return tuple(nm(z) for z in level_heights(-room.aim.low / NM, height, face / NM, count))


def too_many_levels(tool: Tool, room: Room, limits: Limits, count: int) -> Infeasible:
    """The face is too low for so few levels; the least that would do, found by halving."""
    low, high = tool.form.height, heights_of(room)[0]
    while high - low > 1:
        middle = (low + high) // 2
        few = len(levels(middle, tool.overlap, room) or ()) <= limits.most_levels
        low, high = (low, middle) if few else (middle, high)
    buried = tool.kind.buried
    says = (f"with {'a face of {has}' if buried else 'teeth {has} tall'} the {room.name} would take {count} levels, "
            f"{limits.most_levels} at the most: {{needs}} is the least")
    fix, key = ("a face of {needs} or more would do", "face_mm") if buried else (None, None)
    return Infeasible("FC2", says, tool.form.height / 1e6, high / 1e6, fix, (high - tool.form.height) / 1e6, key,
                      up=True)


def heights_of(room: Room) -> tuple[int, int]:
    """The least and the most height of a room."""
    return room.height or (room.least.height, room.most.height)


def _level(tool: Tool, outline: Outline, room: Room, metal: Metal, gone: Region, z: int, own: bool) -> list[Cut]:
    middle = (room.aim.left + room.aim.right) // 2
    span = next((s for s in free_positions(tool.form, metal, z) if s[0] <= middle <= s[1]), None)
    if span is None:
        return []
    radius, height = tool.form.radius, tool.form.height
    back = min(max(room.aim.right - radius, middle), span[1])
    front = max(min(room.aim.left + radius, middle), span[0])
    free_left, free_right = _free(gone, outline, middle, z, z + height)
    cuts = []
    if free_right - middle < radius or middle - free_left < radius:
        bite = radius - min(middle - free_left, free_right - middle)
        cuts.append(Cut(middle, z, "undercut", room.name, "both", 2 * radius, height, bite > tool.centre_limit))
        free_left, free_right = min(free_left, middle - radius), max(free_right, middle + radius)
    if own:
        return cuts
    fine = _is_finished(tool, outline, room)
    to_back = _steps(tool, back + radius - free_right, fine)
    to_front = _steps(tool, free_left - (front - radius), fine)
    for k in range(max(len(to_back), len(to_front))):
        for side, bites, wall, way in (("back", to_back, back, 1), ("front", to_front, front, -1)):
            if k < len(bites):
                x = wall - way * sum(bites[k + 1:])
                role = "finish" if fine and k == len(bites) - 1 else "undercut"
                cuts.append(Cut(x, z, role, room.name, side, bites[k], height))
    return cuts


def _steps(tool: Tool, metal: int, fine: bool) -> list[int]:
    """Equal bites that take so much metal at a side, the last a light one where the wall is to be finished."""
    if metal <= 0:
        return []
    last = _LAST_BITE if fine and metal > 2 * _LAST_BITE else 0
    count = max(1, bites_needed(metal - last, tool.side))
    even = [(metal - last) * (k + 1) // count - (metal - last) * k // count for k in range(count)]
    return [*even, last] if last else even


def _free(gone: Region, outline: Outline, middle: int, low: int, high: int) -> tuple[int, int]:
    """How far the room is clear on both sides of the middle, over the whole height of the teeth."""
    left, _, right, _ = outline.most.bounds()
    standing = (outline.stock - gone) & box(left, low, right, high)
    for slab in standing.slabs:
        for s in slab.spans:
            if max(s.right_low, s.right_high) <= middle:
                left = max(left, s.right_low, s.right_high)
            elif min(s.left_low, s.left_high) >= middle:
                right = min(right, s.left_low, s.left_high)
            else:
                return middle, middle
    return left, right



def _fewest(tool: Tool, outline: Outline, room: Room, limits: Limits) -> tuple[PassBound, ...]:
    heights = levels(tool.form.height, tool.overlap, room)
    if heights is None or len(heights) > limits.most_levels or 2 * tool.form.radius > room.most.width:
        return ()
    metal, radius = Metal(outline.keep, outline.keep), tool.form.radius
    middle = (room.aim.left + room.aim.right) // 2
    spans = [s for z in heights for s in free_positions(tool.form, metal, z) if s[0] <= middle <= s[1]]
    if not spans:
        return ()
    if max(s[1] for s in spans) + radius < room.least.right or min(s[0] for s in spans) - radius > room.least.left:
        return TOUCHES
    lip = max(other.most.right for other in outline.rooms if other is not room)
    count, fine = len(heights), _is_finished(tool, outline, room)
    sides = 2 * _fewest_steps(tool, room.least.right - max(lip, radius), fine)
    checks = 3 if fine and sides else 1
    if radius <= lip:
        return (PassBound(count * max(1, sides), levels=count, checks=checks, stepped=sides > 0),)
    slow = count if radius - lip > tool.centre_limit else 0
    return (PassBound(count * (1 + sides), slow, count, checks, stepped=sides > 0, both=True),)


def _fewest_now(tool: Tool, outline: Outline, room: Room, removed: Region, limits: Limits) -> tuple[PassBound, ...]:
    """By level, how wide it is clear where the level cuts anew."""
    least = _fewest(tool, outline, room, limits)
    if not least or least is TOUCHES:
        return least
    heights = levels(tool.form.height, tool.overlap, room) or ()
    radius, face, fine = tool.form.radius, tool.form.height, _is_finished(tool, outline, room)
    middle = (room.aim.left + room.aim.right) // 2
    passes = slow = 0
    for place, z in enumerate(heights):
        left, right = _free(removed, outline, middle, heights[place - 1] + face if place else z, z + face)
        bite = radius - min(middle - left, right - middle)
        if bite > 0:
            passes, slow = passes + 1, slow + (bite > tool.centre_limit)
            left, right = min(left, middle - radius), max(right, middle + radius)
        passes += _fewest_steps(tool, room.least.right - right, fine)
        passes += _fewest_steps(tool, left - room.least.left, fine)
    return (least[0]._replace(passes=max(passes, least[0].passes), slow=max(slow, least[0].slow)),)


def _fewest_steps(tool: Tool, metal: int, fine: bool) -> int:
    """What `_steps` comes to at the least, for so much metal or more."""
    if metal <= 0:
        return 0
    plain = bites_needed(metal, tool.side)
    with_last = 1 + bites_needed(max(metal, 2 * _LAST_BITE) - _LAST_BITE, tool.side)
    return with_last if fine and metal > 2 * _LAST_BITE else min(plain, with_last) if fine else plain


def _is_finished(tool: Tool, outline: Outline, room: Room) -> bool:
    return tool.can_finish and is_fine(outline, "wall", room)


def _is_feasible(tool: Tool, outline: Outline, room: Room, cleared: Region, limits: Limits) -> bool | None:
    if len(tool.form.sure) > 1:
        return None
    radius, heights = tool.form.radius, levels(tool.form.height, tool.overlap, room)
    if heights is None or len(heights) > limits.most_levels or 2 * radius > room.most.width:
        return False
    metal = Metal(outline.keep, outline.standing(cleared))
    middle = (room.aim.left + room.aim.right) // 2
    for z in heights:
        span = next((s for s in free_positions(tool.form, metal, z) if s[0] <= middle <= s[1]), None)
        if span is None:
            return False
        back, front = min(room.aim.right - radius, span[1]), max(room.aim.left + radius, span[0])
        if max(back, middle) < room.least.right - radius or min(front, middle) > room.least.left + radius:
            return False
    return True


def _why_not(tool: Tool, outline: Outline, room: Room, cleared: Region, limits: Limits) -> Infeasible:
    diameter, widest = tool.cutter.diameter_mm or 0.0, room.most.width / 1e6
    if diameter > widest:
        says = f"{{has}} across is more than the {room.name} may be, {{needs}}"
        return Infeasible("SZ3", says, diameter, widest, "a cutter of {needs} or less would go in", diameter - widest,
                    "diameter_mm")
    face, most = tool.form.height / 1e6, heights_of(room)[1] / 1e6
    if face > most:
        if not tool.kind.buried:
            says = f"its teeth, {{has}} tall, run up past the lip of the {room.name}, {{needs}} above its floor"
            return Infeasible("FC1", says, face, most, short=face - most)
        says = f"the face, {{has}}, is taller than the {room.name} may be, {{needs}}"
        return Infeasible("FC1", says, face, most, "a face of {needs} or less would go in", face - most, "face_mm")
    heights = levels(tool.form.height, tool.overlap, room) or (room.aim.low,)
    if len(heights) > limits.most_levels:
        return too_many_levels(tool, room, limits, len(heights))
    x = max(0, room.least.right - tool.form.radius)
    return blocked(tool, outline, room, cleared, [(x, z) for z in heights])


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
    suits=lambda room: "top" not in room.open,
    clear=clear,
    fewest=_fewest,
    why_not=_why_not,
    figures=_figures,
    manners={
        "one level": "one level",
        "levels": "{levels} levels",
        "one level" + OWN_WIDTH: "one level, its own width",
        "levels" + OWN_WIDTH: "{levels} levels, its own width",
    },
    is_feasible=_is_feasible,
    fewest_now=_fewest_now,
)

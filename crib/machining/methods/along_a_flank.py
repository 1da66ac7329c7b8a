"""Along a flank that leans over the cutter: one height where the teeth are as high as the flank, else two where the
neck allows; steps sideways to the back flank, the last a light one, then the same to the front flank."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from math import atan2, degrees

from crib.cutters.base import Motion
from crib.findings.finding import NO_CHANGE, Figure
from crib.geometry.free_positions import Metal, free_positions
from crib.geometry.outline import Lean, Outline, Room
from crib.geometry.region import FAR, Region, box
from crib.handbook.bites import bites_needed
from crib.handbook.dovetails import LAST_BITE_MM, flank_error, square_corner_short
from crib.handbook.dovetails import widest_neck as widest_flank_neck
from crib.machining.methods.base import Cut, Infeasible, Job, Limits, Method, PassBound, after, takes
from crib.machining.methods.blocked import blocked
from crib.machining.tool import Tool
from crib.shop import Shop
from crib.units import nm

_LAST = nm(LAST_BITE_MM)
_GRAIN = 6
"""Positions are good to so many nanometres: slanted edges end on whole ones."""

_MOST_HEIGHTS = 2


def clear(tool: Tool, outline: Outline, room: Room, removed: Region, limits: Limits) -> tuple[Job, ...]:
    """The one manner in which a tool makes the flanks of a room; none where its edge doesn't lie along them or it
    can't stand where it would have to."""
    lean = room.lean
    heights = heights_of(tool, room)
    if lean is None or not lies_along(tool, lean) or len(heights) > min(limits.most_levels, _MOST_HEIGHTS):
        return ()
    if not _is_opened(outline, room, removed):
        return ()
    gone = removed
    cuts: list[Cut] = []
    for place, z in enumerate(heights):
        here = _height(tool, outline, room, gone, z)
        if not here:
            return ()
        if place:
            here = [replace(cut, axial=heights[place - 1] - z) for cut in here]
        cuts += here
        gone = after(tool, outline, here, gone)
    if not takes(outline, room, removed, gone):
        return ()
    manner = "one height" if len(heights) == 1 else "two heights"
    return (Job(tool, room.name, tuple(cuts), gone, manner, len(heights)),)


def _is_opened(outline: Outline, room: Room, removed: Region) -> bool:
    """Whether the metal before the flanks is gone: down the middle of a slot, or all that stood outside of a slide."""
    if "right" in room.open:
        before = box(room.most.right, room.least.low, FAR, 0)
    else:
        middle = (room.aim.left + room.aim.right) // 2
        before = box(middle - 1, room.least.low, middle + 1, 0)
    return not (outline.stock & before) - removed


def lies_along(tool: Tool, lean: Lean) -> bool:
    """Whether the edge of a tool leans as the flank does, within what the drawing allows."""
    return lean.holds(tool.form.run(lean.rise))


def heights_of(tool: Tool, room: Room) -> tuple[int, ...]:
    """Where the lower face stands, the highest first: on the floor, and above it as often as the teeth fall short."""
    face, flank = tool.form.height, room.aim.height
    if face >= flank:
        return (room.aim.low,)
    overlap = overlap_of(tool)
    count = 1 + bites_needed(flank - face, face - overlap) if face > overlap else _MOST_HEIGHTS + 1
    raised = [min(flank - face + overlap, k * (face - overlap)) for k in range(count)]
    return tuple(room.aim.low + dz for dz in reversed(raised))


def overlap_of(tool: Tool) -> int:
    """How far one height reaches over the next: past the rounded corner too, which the lower one must take away."""
    return max(tool.overlap, tool.form.edge.low)


def final(tool: Tool, room: Room, z: int) -> dict[str, int]:
    """Where the axis stands at a height when each flank is done."""
    lean = room.lean
    shift = tool.form.base + (lean.over(z - room.aim.low) if lean else 0)
    places = {"back": room.aim.right - shift, "front": room.aim.left + shift}
    return {"front": places["front"]} if "right" in room.open else places


def _height(tool: Tool, outline: Outline, room: Room, gone: Region, z: int) -> list[Cut]:
    """The passes at a height; none where the tool can't stand at any of their places."""
    metal = Metal(outline.keep, outline.standing(gone))
    ends = final(tool, room, z)
    left, right = _free(gone, outline, room, z, z + tool.form.height)
    radius = tool.form.radius
    if "right" in room.open:
        start = right + radius
        cuts = list(_steps(tool, room, "front", z, ends["front"], right - (ends["front"] - radius)))
    else:
        start = min(max((left + right) // 2, ends["front"]), ends["back"])
        cuts = []
        if start + radius - right > 0 or left - (start - radius) > 0:
            bite = max(start + radius - right, left - (start - radius))
            cuts.append(Cut(start, z, "undercut", room.name, "both", 2 * radius, _deep(tool, room, z),
                            bite > tool.side))
            left, right = min(left, start - radius), max(right, start + radius)
        cuts += _steps(tool, room, "back", z, ends["back"], ends["back"] + radius - right)
        cuts += _steps(tool, room, "front", z, ends["front"], left - (ends["front"] - radius))
    wanted = [start, *ends.values()] if "right" not in room.open else [*ends.values(), *(cut.x for cut in cuts[:1])]
    return cuts if _can_stand(tool, metal, z, wanted) else []


def _can_stand(tool: Tool, metal: Metal, z: int, places: Sequence[int]) -> bool:
    low, high = min(places), max(places)
    return low <= high + _GRAIN and any(
        left - _GRAIN <= low and high <= right + _GRAIN for left, right in free_positions(tool.form, metal, z))


def _steps(tool: Tool, room: Room, side: str, z: int, end: int, metal: int) -> Iterator[Cut]:
    """Equal steps that take so much metal at the corner, the last a light one."""
    if metal <= _GRAIN:
        return
    last = _LAST if metal > 2 * _LAST and tool.can_finish else 0
    count = max(1, bites_needed(metal - last, tool.side))
    outward = 1 if side == "back" else -1
    for k in range(1, count + 1):
        taken = (metal - last) * k // count
        bite = taken - (metal - last) * (k - 1) // count
        role = "finish" if k == count and not last and tool.can_finish else "undercut"
        yield Cut(end - outward * (metal - taken), z, role, room.name, side, bite, _deep(tool, room, z))
    if last:
        yield Cut(end, z, "finish", room.name, side, last, _deep(tool, room, z))


def _deep(tool: Tool, room: Room, z: int) -> int:
    """How much of the teeth's height is in the work."""
    return min(tool.form.height, room.aim.high - z)


def _free(gone: Region, outline: Outline, room: Room, low: int, high: int) -> tuple[int, int]:
    """Between where and where the corner of the teeth meets no metal, over their whole height: in a slot between its
    walls, beside a slide from the wall outwards."""
    standing = (outline.stock - gone) & box(room.most.left, low, room.most.right, min(high, room.most.high))
    edges = [(min(s.left_low, s.left_high), max(s.right_low, s.right_high))
             for slab in standing.slabs for s in slab.spans]
    if "right" in room.open:
        return room.aim.left, max((right for _, right in edges), default=room.aim.left)
    middle = (room.aim.left + room.aim.right) // 2
    return (max((right for _, right in edges if right <= middle), default=room.aim.left),
            min((left for left, _ in edges if left >= middle), default=room.aim.right))


def _fewest(tool: Tool, outline: Outline, room: Room, limits: Limits) -> tuple[PassBound, ...]:
    heights = heights_of(tool, room)
    if room.lean is None or not lies_along(tool, room.lean):
        return ()
    if len(heights) > min(limits.most_levels, _MOST_HEIGHTS):
        return ()
    metal = Metal(outline.keep, outline.keep)
    if not all(_can_stand(tool, metal, z, tuple(final(tool, room, z).values())) for z in heights):
        return ()
    missing = tool.form.base - tool.form.radius
    if "right" in room.open:
        walls = [other.most.left for other in outline.rooms if other.most.left > room.aim.left]
        count = bites_needed(max(0, min(walls, default=0) - room.aim.left - missing), tool.side)
        return (PassBound(max(1, count) + len(heights) - 1, levels=len(heights)),)
    middle = (room.aim.left + room.aim.right) // 2
    mouth = max((other.most.right for other in outline.rooms if other is not room), default=0)
    corner = room.aim.right - missing - max(mouth, middle + tool.form.radius)
    sides = 2 * bites_needed(max(0, corner), tool.side)
    return (PassBound(max(1, sides) + len(heights) - 1, levels=len(heights)),)


def angle_of(run: float, rise: int) -> float:
    """The angle from the floor of an edge that runs so far over a rise [deg].

    >>> angle_of(0, 1), angle_of(1, 1)
    (90.0, 45.0)
    """
    return round(degrees(atan2(rise, run)), 4)


def _why_not(tool: Tool, outline: Outline, room: Room, cleared: Region, limits: Limits) -> Infeasible:
    lean = room.lean
    if lean is None or Motion.FLANK not in tool.kind.motions:
        return _square(tool, room)
    if not lies_along(tool, lean):
        return _other_angle(tool, room, lean)
    diameter, sharp = tool.cutter.diameter_mm or 0.0, 2 * tool.form.base / 1e6
    widest = room.most.width / 1e6 - (sharp - diameter)
    if "right" not in room.open and diameter > widest:
        says = f"{{has}} across is more than goes between the {room.name}, {{needs}}"
        return Infeasible("SZ3", says, diameter, widest, "a cutter of {needs} or less would go in", diameter - widest,
                    "diameter_mm")
    heights = heights_of(tool, room)
    face = tool.form.height / 1e6
    if len(heights) > min(limits.most_levels, _MOST_HEIGHTS):
        needs = (room.aim.height + 2 * overlap_of(tool)) / 2e6
        says = (f"its teeth are {{has}} high, so the flank would take {len(heights)} heights, and two are the most; "
                "{needs} would do it in two")
        return Infeasible("FC2", says, face, needs, "teeth {needs} high or higher would do", needs - face, "face_mm",
                          up=True)
    return _in_the_way(tool, outline, room, cleared, heights)


def _in_the_way(tool: Tool, outline: Outline, room: Room, cleared: Region, heights: Sequence[int]) -> Infeasible:
    """What stands in metal at the finished places, with all heights above the lowest cut."""
    places = [(x, z) for z in heights for x in final(tool, room, z).values()]
    gone = cleared
    for z in heights[:-1]:
        ends = final(tool, room, z)
        gone = after(tool, outline, [Cut(x, z, "undercut", room.name, side, 0, 0) for side, x in ends.items()], gone)
    lowest = after(tool, outline, [Cut(x, z, "undercut", room.name, "both", 0, 0) for x, z in places], gone)
    miss = blocked(tool, outline, room, lowest, places)
    if miss.rule == "NK1" and len(heights) > 1:
        says = ("its teeth are too short to do the flank at one height, and at two " + miss.says)
        return Infeasible("NK3", says, miss.has, miss.needs, miss.fix, miss.short, miss.key, side=miss.side)
    return miss


def _square(tool: Tool, room: Room) -> Infeasible:
    """A cutter whose edge stands upright."""
    height = room.aim.height / 1e6
    lean = room.lean
    if tool.kind.opens and lean is not None:
        short = square_corner_short(tool.cutter.diameter_mm or 0.0, angle_of(lean.run, lean.rise))
        says = ("a square corner doesn't go into an acute one: laid along the flank it would leave or gouge {has}, and "
                "levels make a staircase, which is no flank")
        return Infeasible("AN3", says, short, 0.0, NO_CHANGE, height + short)
    says = "its edge stands upright: levels make a staircase, and a staircase is no flank"
    return Infeasible("AN1", says, fix=NO_CHANGE, short=2 * height)


def _other_angle(tool: Tool, room: Room, lean: Lean) -> Infeasible:
    has, wanted = angle_of(tool.form.run(lean.rise), lean.rise), angle_of(lean.run, lean.rise)
    height = room.aim.height / 1e6
    off = flank_error(height, has, wanted)
    allowed = flank_error(height, angle_of(lean.least, lean.rise), wanted)
    says = (f"its flank is {has:g} degrees, {wanted:g} is wanted: over the height it would be {{has}} off, "
            "{needs} is allowed")
    return Infeasible("AN1", says, off, allowed, NO_CHANGE, off)


def _figures(job: Job, before: Sequence[Job], room: Room, shop: Shop) -> Iterator[Figure]:
    lean, form = room.lean, job.tool.form
    if lean is None:
        return
    ends = final(job.tool, room, room.aim.low)
    if "back" in ends:
        yield Figure(f"{job.room}: axis offset each side, (width - diameter) / 2",
                     (ends["back"] - ends["front"]) / 2e6)
    else:
        yield Figure(f"{job.room}: axis from the centre line, (width + diameter) / 2", abs(ends["front"]) / 1e6)
    opening = before[-1].removed.spans_at(-1) if before else ()
    if opening and "back" in ends:
        yield Figure(f"{job.room}: metal at each corner", (room.aim.right - max(right for _, right in opening)) / 1e6)
    elif "back" not in ends:
        metal = sum(cut.radial for cut in job.cuts if cut.z == room.aim.low)
        yield Figure(f"{job.room}: metal at the corner", metal / 1e6)
    yield Figure(f"{job.room}: side step in this metal", job.tool.side / 1e6)
    yield Figure(f"{job.room}: heights", value=job.levels)
    if job.levels > 1:
        angle = angle_of(lean.run, lean.rise)
        yield Figure("fattest neck that does it in two heights",
                     widest_flank_neck(2 * form.base / 1e6, room.aim.height / 1e6, angle, shop.neck_clearance_mm))


def _says(job: Job, cut: Cut) -> str:
    """What to look at with a pass: the pins after each flank."""
    if cut.z != job.cuts[0].z and cut is next(other for other in job.cuts if other.z == cut.z):
        return "out of the end before the height is changed"
    if cut.role != "finish":
        return "both points cut at once: slow hand feed" if cut.side == "both" else "chips out after it"
    if cut.z != job.cuts[-1].z:
        return ""
    second = job.room.startswith("front") or "back" in {other.side for other in job.cuts[:-1]} - {cut.side}
    if cut is job.cuts[-1] and second:
        across = "over" if _is_a_slide(job) else "between"
        return f"once more without moving, then measure {across} both pins: what is still to come goes on this flank"
    return "once more without moving, then measure from the pin to the reference edge"


def _is_a_slide(job: Job) -> bool:
    """Whether a job does one flank alone: the pins lie outside of it, and inside of a slot."""
    return len({cut.side for cut in job.cuts} & {"back", "front"}) == 1


METHOD = Method(
    suits=lambda room: room.lean is not None and room.lean.run > 0,
    clear=clear,
    fewest=_fewest,
    why_not=_why_not,
    figures=_figures,
    manners={"one height": "one height", "two heights": "two heights, with a line where they meet"},
    motion=Motion.FLANK,
    says=_says,
)

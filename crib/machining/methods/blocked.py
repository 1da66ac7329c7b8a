"""What of a tool stands in metal where it would have to stand: its neck, its shank, or what is above that."""

from __future__ import annotations

from collections.abc import Sequence

from crib.findings.message import Mm, said
from crib.geometry.free_positions import cut_all
from crib.geometry.gaps import Gap, gaps
from crib.geometry.outline import Opening, Outline, Room
from crib.geometry.region import FAR, Region, box
from crib.handbook.deviations import cusp, plunged_round_left
from crib.machining.methods.base import Attempt, Limit
from crib.machining.tool import Tool


def blocked(a: Attempt, cleared: Region, places: Sequence[tuple[int, int]]) -> Limit:
    """The part that falls shortest of its clearance at any of some places (x, z), with so much cleared; of a rim that
    swells, that it is no rim for a straight face."""
    if _swells(a):
        return _ridges(a)
    if is_round := _not_as_round(a):
        return is_round
    worst = worst_gap(a, cleared, places)
    if worst is None:
        return _unreached(a, places)
    return _neck(a.tool, a.room, worst) if "neck" in worst.part.name else _too_short(a.tool, worst, a.outline)


_SAME = 1e-4
"""Radii that differ by less are alike [mm]."""

_STEP = 0.2
"""How far apart such a rim would be stepped at the best, of its radius [-]. From memory."""


def _swells(a: Attempt) -> bool:
    """Whether a form cutter's rim is round outwards, and the room has a straight face and no corner as round."""
    parts = sorted(a.tool.form.sure, key=lambda part: part.low)
    if a.tool.kind.operation != "forming" or not a.tool.cutter.radius_mm or a.room.hollow or a.room.rounded:
        return False
    widest = a.tool.form.radius
    is_round = max(parts[0].radius_low, parts[-1].radius_high) < widest
    wide = max(a.room.aim.height, 0 if a.at_an_edge else a.room.aim.width)
    as_round = a.allowed.floor_radius >= a.tool.cutter.radius_mm - 1e-6 and wide <= a.tool.form.height
    return is_round and not as_round and any(a.room.name in face.name for face in a.outline.faces)


def _ridges(a: Attempt) -> Limit:
    radius = a.tool.cutter.radius_mm or 0.0
    says = said("its rim is round: on a face that is to be straight it leaves ridges, {ridge} high even stepped "
                "every {step}", ridge=Mm(cusp(radius, _STEP * radius), places=4), step=Mm(_STEP * radius))
    fix = "a cutter with a straight edge; a round groove or a cove of its radius is its own work"
    return Limit("KD1", says, fix=fix, short=a.room.aim.height / 1e6)


_SETTINGS = 9
"""Settings along a half round floor, every 22.5 degrees."""


def _not_as_round(a: Attempt) -> Limit | None:
    """That an edge is sharper than a round floor: what it would leave, walked along it; None where that isn't so."""
    cutter, up = a.tool.cutter, a.room.opens(Opening.TOP)
    floor, sharpest = ((one.width if up else one.height) / 2e6 for one in (a.room.aim, a.room.least))
    has = cutter.radius_mm or cutter.corner_radius_mm or 0.0
    if a.outline.faces or a.room.hollow or a.room.rounded or has >= sharpest - _SAME or _has_corners(a):
        return None
    is_ball = bool(cutter.radius_mm) or has >= (cutter.diameter_mm or 0.0) / 2 - _SAME
    if not is_ball:
        says = said("its corners are sharper than the floor of the {room}, which is one round", room=a.room.name)
        return Limit("SZ3", says, has, floor, "a ball or a convex cutter of {needs} would do", floor - has)
    says = said("its round is {has}, the floor's {needs}: in {settings} settings along it ridges {ridge} high would "
                "stay", settings=_SETTINGS,
                ridge=Mm(plunged_round_left(2 * floor, 2 * has, 2 * (_SETTINGS - 1)), places=4))
    return Limit("SZ3", says, has, floor, "one of {needs} radius would do", floor - has)


def _has_corners(a: Attempt) -> bool:
    """Whether all corners of a room may be cut out: its floor isn't round."""
    most = a.room.most
    wide, high = max(1, most.width // 100), max(1, most.height // 100)
    return all(a.outline.most & box(x, z, x + wide, z + high) for x in (most.left, most.right - wide)
               for z in (most.low, most.high - high))


def worst_gap(a: Attempt, cleared: Region, places: Sequence[tuple[int, int]]) -> Gap | None:
    """Where a part that doesn't cut falls shortest of its clearance; None where all clear."""
    standing = a.outline.standing(cleared)
    near = [gap for x, z in places for gap in gaps(a.tool.form.clear, standing, x, z) if gap.slack < 0]
    return min(near, key=lambda gap: gap.slack, default=None)


def _unreached(a: Attempt, places: Sequence[tuple[int, int]]) -> Limit:
    """Nothing of it is in the way, and still it doesn't clear a room: how far across is left, or cut that must stay."""
    room = a.room
    left = room.least.region - cut_all(a.tool.form.sure, places)
    over = a.outline.keep & cut_all(a.tool.form.may, places)
    if not left and not over:
        says = said("its edges don't lie along the {room} as drawn", room=room.name)
        return Limit("G5", says, short=room.aim.height / 1e6)
    low, bottom, high, top = (left or over).bounds()
    template = ("it doesn't reach all of the {room}: {has} across is left where it can't get, {needs} may "
                "be" if left else
                "it cuts into what must stay beside the {room}: {has} across, {needs} may be")
    return Limit("G5", said(template, room=room.name), max(high - low, top - bottom) / 1e6, 0.0,
                 short=room.aim.height / 1e6)


def _neck(tool: Tool, room: Room, worst: Gap) -> Limit:
    fillet = 2 * worst.part.radius_low / 1e6 - (tool.cutter.neck_mm or 0.0)
    has = 2 * worst.part.radius_low / 1e6 - fillet
    needs = 2 * (worst.part.radius_low + worst.slack) / 1e6 - fillet
    says = said("the {part} meets the lip of the {room}: neck {has}, {needs} is the most that clears by {side} a side",
                part=worst.part.name, room=room.name)
    return Limit("NK1", says, has, needs, "a neck of {needs} or less would clear", abs(needs - has), "neck_mm",
                side=worst.part.side / 1e6)


def _too_short(tool: Tool, worst: Gap, outline: Outline) -> Limit:
    """The shank or the spindle nose comes down on the work, or on what stands beside it."""
    has, needs = worst.part.low / 1e6, (worst.part.low + worst.rise) / 1e6
    beside = "what stands beside the work" if outline.obstacles and worst.z > worst.part.end else ""
    if has < 0 or worst.rise > FAR // 2:
        rule, under = ("HD3", " under it") if has < 0 else ("G6", "")
        wide, clears = 2 * worst.part.widest / 1e6, max(0.0, 2 * (worst.part.widest + worst.slack) / 1e6)
        says = said("the {part}{under}, {has} across, comes against the work: {needs} is the most that clears",
                    part=worst.part.name, under=under)
        return Limit(rule, says, wide, clears, short=wide - clears)
    if "shank" not in worst.part.name:
        says = said("the {part}, {side} across, comes down on {beside}: it stands out {has}, {needs} is needed",
                    part=worst.part.name, beside=beside or "the work")
        return Limit("G6", says, has, needs, "would go if it stood out {needs}", needs - has, up=True,
                    side=2 * worst.part.widest / 1e6)
    rule, cut = "RE2" if tool.kind.buried else "RE1", tool.cutter.length_of_cut_mm or 0.0
    key, name = "reach_mm", "reach"
    if not tool.kind.buried and (tool.cutter.reach_mm or 0.0) <= cut:
        has, key, name = cut or has, "length_of_cut_mm", "length of cut"  # a round corner may be taller
    top = beside or "the top of the work"
    says = said("the shank meets {beside}: {size} {has}, {needs} is needed", beside=top, size=name)
    fix = said("{size} of {needs} or more would do", size=name)
    return Limit(rule, says, has, needs, fix, abs(needs - has), key, up=True)

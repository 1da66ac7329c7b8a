"""What of a tool stands in metal where it would have to stand: its neck, its shank, or what is above that."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crib.geometry.free_positions import Gap, cut_all, gaps
from crib.geometry.outline import Outline, Room
from crib.geometry.region import FAR, Region
from crib.machining.methods.base import Infeasible
from crib.machining.tool import Tool


def blocked(tool: Tool, outline: Outline, room: Room, cleared: Region, places: Iterable[tuple[int, int]]) -> Infeasible:
    """The part that falls shortest of its clearance at any of some places (x, z), with so much cleared."""
    standing = outline.standing(cleared)
    places = tuple(places)
    near = [gap for x, z in places for gap in gaps(tool.form.clear, standing, x, z)]
    worst = min(near, key=lambda gap: gap.slack, default=None)
    if worst is None or worst.slack >= 0:
        return _unreached(tool, outline, room, places)
    return _neck(tool, room, worst) if "neck" in worst.part.name else _too_short(tool, worst, outline)


def _unreached(tool: Tool, outline: Outline, room: Room, places: Sequence[tuple[int, int]]) -> Infeasible:
    """Nothing of it is in the way, and still it doesn't clear a room: how far across is left, or cut that must stay."""
    left = room.least.region - cut_all(tool.form.sure, places)
    over = outline.keep & cut_all(tool.form.may, places)
    if not left and not over:
        return Infeasible("G5", f"its edges don't lie along the {room.name} as drawn", short=room.aim.height / 1e6)
    low, bottom, high, top = (left or over).bounds()
    what = (f"it doesn't reach all of the {room.name}: {{has}} across is left where it can't get" if left else
            f"it cuts into what must stay beside the {room.name}: {{has}} across")
    return Infeasible("G5", f"{what}, {{needs}} may be", max(high - low, top - bottom) / 1e6, 0.0,
                short=room.aim.height / 1e6)


def _neck(tool: Tool, room: Room, worst: Gap) -> Infeasible:
    fillet = 2 * worst.part.radius_low / 1e6 - (tool.cutter.neck_mm or 0.0)
    has = 2 * worst.part.radius_low / 1e6 - fillet
    needs = 2 * (worst.part.radius_low + worst.slack) / 1e6 - fillet
    says = (f"the {worst.part.name} meets the lip of the {room.name}: neck {{has}}, "
            "{needs} is the most that clears by {side} a side")
    return Infeasible("NK1", says, has, needs, "a neck of {needs} or less would clear", abs(needs - has), "neck_mm",
                side=worst.part.side / 1e6)


def _too_short(tool: Tool, worst: Gap, outline: Outline) -> Infeasible:
    """The shank or the spindle nose comes down on the work, or on what stands beside it."""
    has, needs = worst.part.low / 1e6, (worst.part.low + worst.rise) / 1e6
    beside = "what stands beside the work" if outline.obstacles and worst.z > worst.part.end else ""
    if has < 0 or worst.rise > FAR // 2:
        rule, under = ("HD3", " under it") if has < 0 else ("G6", "")
        wide, clears = 2 * worst.part.widest / 1e6, max(0.0, 2 * (worst.part.widest + worst.slack) / 1e6)
        says = (f"the {worst.part.name}{under}, {{has}} across, comes against the work: {{needs}} is the most that "
                "clears")
        return Infeasible(rule, says, wide, clears, short=wide - clears)
    if "shank" not in worst.part.name:
        says = (f"the {worst.part.name}, {{side}} across, comes down on {beside or 'the work'}: it stands out {{has}}, "
                "{needs} is needed")
        return Infeasible("G6", says, has, needs, "would go if it stood out {needs}", needs - has, up=True,
                    side=2 * worst.part.widest / 1e6)
    rule, key, name = ("RE2", "reach_mm", "reach") if tool.kind.buried else ("RE1", "length_of_cut_mm", "length of cut")
    top = beside or "the top of the work"
    says = f"the shank meets {top}: {name} {{has}}, {{needs}} is needed"
    return Infeasible(rule, says, has, needs, f"a {name} of {{needs}} or more would do", abs(needs - has), key, up=True)

"""Why a cutter can't: the rule, what it has, what would be needed, and one change that would do, confirmed by asking
once more with that change made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from math import ceil, floor

from crib.cutters import kind_of
from crib.cutters.base import Cutter, Unknown
from crib.lengths import show
from crib.planning.advice import Refusal
from crib.planning.draft import Draft, Question
from crib.planning.rules import judge
from crib.planning.tools import Tool, at_kindest, ready, unknowns
from crib.planning.ways import clear
from crib.planning.ways.base import Job
from crib.planning.ways.under_a_lip import levels, limits
from crib.section.outline import Room
from crib.section.reach import Gap, Metal, gaps, reach_at
from crib.section.region import Region, union

NEVER = float("inf")


def refusals(question: Question, cutters: Iterable[Cutter], used: set[int]) -> tuple[Refusal, ...]:
    """Every cutter that can do no room whole, nearest miss first; cutters that plans use are passed over."""
    found = [(ranked[0], ranked[1]) for cutter in cutters if cutter.id not in used and (ranked := _refusal(question, cutter))]
    found.sort(key=lambda ranked: (ranked[0], ranked[1].short_mm, ranked[1].cutter.id))
    return tuple(refusal for _, refusal in found)


def _refusal(question: Question, cutter: Cutter) -> tuple[int, Refusal] | None:
    """The refusal of a cutter, and how many rooms from the last, which is the one that fewest can do, it is for."""
    asked = unknowns(cutter)
    tool = ready(at_kindest(cutter), question.shop, question.material, cutter)
    rooms = question.outline.rooms
    if tool is None or "along" not in tool.kind.ways:
        return len(rooms), _other_kind(cutter, tool)
    misses = []
    for place, room in enumerate(reversed(rooms)):
        miss = _in_room(question, tool, room)
        if miss is None:
            return (place, _to_measure(question, tool, room, asked)) if asked else None
        misses.append((place, miss))
    return min(misses, key=lambda ranked: ranked[1].short_mm)


def _other_kind(cutter: Cutter, tool: Tool | None) -> Refusal:
    kind = kind_of(cutter)
    if kind.form is not None and tool is None:
        return Refusal(cutter, "measure first", "G7", "its size isn't known", fix="mic the diameter")
    return Refusal(cutter, "cannot", "KD1", f"{_a(kind.words)} isn't fed along a cut like this", short_mm=NEVER)


def _a(words: str) -> str:
    return ("an " if words[0] in "aeiou" else "a ") + words


def before(question: Question, room: Room) -> Region:
    """The section with every room before this one clear: the best that a cutter could be offered."""
    rooms = question.outline.rooms
    return union(other.aim.region for other in rooms[: rooms.index(room)])


def does(question: Question, tool: Tool, room: Room) -> Job | None:
    """A job that clears a whole room, the rooms before it being clear; None where the tool has none."""
    gone = before(question, room)
    for job in clear(tool, question.outline, room, gone, question.shop.most_levels):
        if question.outline.is_waived(question.outline.rest(room, job.removed)):
            return job
    return None


def _in_room(question: Question, tool: Tool, room: Room) -> Refusal | None:
    """Why a tool can't do a room; None where it can."""
    job = does(question, tool, room)
    if job is None:
        return _geometry(question, tool, room)
    held = tool.held
    for warning in judge(Draft(question, (job,))):
        if warning.rule == "BU1" and warning.severity == "stop":
            return Refusal(tool.owned, "cannot", "BU1", warning.says, short_mm=NEVER)
        if warning.severity == "stop":
            if warning.rule == "HD1":
                return Refusal(tool.owned, "cannot", "HD1", held.says, held.has, held.needs, held.fix, 0.0)
            return Refusal(tool.owned, "cannot", warning.rule, warning.says, *_numbers(tool, warning.rule), short_mm=0.0)
    return None


def _numbers(tool: Tool, rule: str) -> tuple[float | None, float | None, str | None]:
    if rule == "SP1" and tool.step:
        return None, None, f"a spindle speed of {tool.wanted_rpm * 1.5:.0f} or less"
    return None, None, None


def _geometry(question: Question, tool: Tool, room: Room) -> Refusal:
    """What of the tool is in the way, in the order in which a machinist would look."""
    diameter, most = tool.cutter.diameter_mm or 0.0, room.most.width / 1e6
    if diameter > most and "right" not in room.open:
        return _said(question, tool, room, "SZ3", diameter, most, f"{{has}} across is more than the {room.name} may be, {{needs}}",
                     "diameter_mm", "a cutter of {needs} or less would go in")
    if "top" in room.open:
        return _from_above(question, tool, room)
    return _under(question, tool, room)


def _under(question: Question, tool: Tool, room: Room) -> Refusal:
    face, most = tool.form.height / 1e6, limits(room)[1] / 1e6
    if tool.form.height > limits(room)[1]:
        if not tool.kind.buried:
            return Refusal(tool.owned, "cannot", "FC1", f"its teeth run up past the lip of the {room.name}", face, most,
                           None, face - most)
        return _said(question, tool, room, "FC1", face, most, f"the face, {{has}}, is taller than the {room.name} may be, {{needs}}",
                     "face_mm", "a face of {needs} or less would go in")
    heights = levels(tool.form.height, tool.overlap, room) or (room.aim.low,)
    if len(heights) > question.shop.most_levels:
        return Refusal(tool.owned, "cannot", "FC2", f"the {room.name} would take {len(heights)} levels, "
                       f"{question.shop.most_levels} at the most", face, None, None, room.aim.height / 1e6 - face)
    return _blocked(question, tool, room, max(0, room.least.right - tool.form.radius), heights)


def _from_above(question: Question, tool: Tool, room: Room) -> Refusal:
    outline = question.outline
    wall = room.least.left + tool.form.radius if "right" in room.open else max(0, room.least.right - tool.form.radius)
    lowest = room.aim.low
    if any(wall_at[0] <= wall <= wall_at[1] for wall_at in reach_at(
            tool.form, Metal(outline.keep, (outline.stock - room.aim.region) | outline.obstacles), lowest)):
        corner = tool.cutter.corner_radius_mm or 0.0
        return Refusal(tool.owned, "cannot", "G11", f"it leaves a radius of {show(corner, question.shop.units)} in the floor "
                       "corners", corner, question.feature.request.floor_radius,
                       f"would go if the floor radius may be {show(corner, question.shop.units)}",
                       corner - question.feature.request.floor_radius)
    return _blocked(question, tool, room, wall, (lowest,))


def _blocked(question: Question, tool: Tool, room: Room, x: int, heights: Sequence[int]) -> Refusal:
    """The part that meets metal where the tool would have to stand."""
    outline = question.outline
    cleared = before(question, room) | (room.aim.region if "top" in room.open else Region())
    standing = (outline.stock - cleared) | outline.obstacles
    worst = min((gap for z in heights for gap in gaps(tool.form.clear, standing, x, z)), key=lambda g: g.slack, default=None)
    if worst is None or worst.slack >= 0:
        return Refusal(tool.owned, "cannot", "G5", f"it doesn't reach all of the {room.name}", short_mm=room.aim.height / 1e6)
    if "neck" in worst.part.name:
        return _neck(question, tool, room, worst)
    return _shank(question, tool, room, worst, heights)


def _neck(question: Question, tool: Tool, room: Room, worst: Gap) -> Refusal:
    has = 2 * worst.part.radius_low / 1e6
    needs = 2 * (worst.part.radius_low + worst.slack) / 1e6
    fillet = has - (tool.cutter.neck_mm or has)
    words = (f"the {worst.part.name}, {{has}}, meets the lip of the {room.name}: {{needs}} is the most that clears by "
             f"{show(question.shop.neck_clearance_mm, question.shop.units)} a side")
    return _said(question, tool, room, "NK1", has - fillet, needs - fillet, words, "neck_mm", "a neck of {needs} or less would clear")


def _shank(question: Question, tool: Tool, room: Room, worst: Gap, heights: Sequence[int]) -> Refusal:
    low = worst.part.low / 1e6
    needs = (worst.part.end - min(heights)) / 1e6
    buried = tool.kind.buried
    rule, key, name = ("RE2", "reach_mm", "reach") if buried else ("RE1", "length_of_cut_mm", "length of cut")
    if worst.part.name == "spindle nose":
        return Refusal(tool.owned, "cannot", "G6", f"the spindle nose comes down on the work: it stands out {show(low, question.shop.units)}, "
                       f"{show(needs, question.shop.units)} is needed", low, needs,
                       f"would go if it stood out {show(needs, question.shop.units)}", needs - low)
    words = f"the {worst.part.name} meets the top of the work: {name} {{has}}, {{needs}} is needed"
    return _said(question, tool, room, rule, low, needs, words, key, f"a {name} of {{needs}} or more would do", up=True)


def _said(question: Question, tool: Tool, room: Room, rule: str, has: float, needs: float, words: str, key: str, fix: str,
          up: bool = False) -> Refusal:
    """A refusal in words; the change is named only where it alone would do."""
    units = question.shop.units
    rounded = _rounded(needs, units, up)
    changed = tool.owned.but(**{key: needs}) if needs > 0 else None
    again = changed and ready(at_kindest(changed), question.shop, question.material)
    cures = bool(again and needs > 0.1 * (tool.cutter.diameter_mm or 0.0) and does(question, again, room))
    return Refusal(
        tool.owned,
        "cannot",
        rule,
        words.format(has=show(has, units), needs=rounded),
        has,
        needs,
        fix.format(needs=rounded) if cures else "no single change of this cutter would do",
        abs(needs - has),
    )


def _rounded(mm: float, units: str, up: bool) -> str:
    """A limit in the user's units, rounded to the side that still holds."""
    scale = 25.4 if units == "in" else 1.0
    value = round(mm / scale * 1000, 4)
    return show((ceil(value) if up else floor(value)) / 1000 * scale, units)


def _to_measure(question: Question, tool: Tool, room: Room, asked: Sequence[Unknown]) -> Refusal:
    """What to measure, and for one that decides, the size at which it turns."""
    deciding = [ask for ask in asked if not _works_with(question, tool, room, ask)]
    asks = deciding or list(asked)
    says = "; ".join(ask.ask for ask in asks)
    limit = next((text for ask in asks if (text := _turns(question, tool, room, ask))), None)
    return Refusal(tool.owned, "measure first", "G7", says, None, None, limit, 0.0)


def _works_with(question: Question, tool: Tool, room: Room, ask: Unknown) -> bool:
    """Whether a size may be at its worst, all else being kind, and no position hangs on it."""
    if ask.key not in ("neck_mm", "reach_mm"):
        return False
    worse = ready(at_kindest(tool.owned.but(**{ask.key: ask.worst})), question.shop, question.material)
    return bool(worse and does(question, worse, room))


def _turns(question: Question, tool: Tool, room: Room, ask: Unknown) -> str | None:
    """The size at which an unknown neck or reach turns the answer, by asking the kernel with the worst."""
    if ask.key not in ("neck_mm", "reach_mm"):
        return None
    worse = ready(at_kindest(tool.owned.but(**{ask.key: ask.worst})), question.shop, question.material)
    if worse is None:
        return None
    refusal = _geometry(question, replace(worse, owned=worse.cutter), room)
    return refusal.fix if refusal.rule in ("NK1", "RE2") and "single" not in (refusal.fix or "") else None


def opened_by_end_mills(question: Question, tools: Sequence[Tool]) -> frozenset[str]:
    """The rooms that a usable end mill opens from above."""
    rooms = [room for room in question.outline.rooms if "top" in room.open]
    return frozenset(room.name for room in rooms if any(_opens(question, tools, room)))


def _opens(question: Question, tools: Sequence[Tool], room: Room) -> Iterator[bool]:
    for tool in tools:
        if tool.kind.buried or tool.cutter.kind != "end-mill":
            continue
        job = does(question, tool, room)
        yield job is not None and not any(w.severity == "stop" for w in judge(Draft(question, (job,))))


"""Why a cutter can't: the rule, what it has, what would be needed, and one change that would do, confirmed by asking
once more with that change made."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil, floor, inf

from crib.cutters import kind_of
from crib.cutters.base import Cutter, Unknown
from crib.lengths import show
from crib.planning.advice import NO_CHANGE, Refusal, Warning
from crib.planning.draft import Draft
from crib.planning.jobs import Jobs
from crib.planning.rules import judge
from crib.planning.rules.passes import never_opens
from crib.planning.tools import NO_POSITION, TYPICAL, Tool, at_kindest, ready, unknowns
from crib.planning.ways.base import Job
from crib.planning.ways.from_above import MOST_BITES, bites_down
from crib.planning.ways.under_a_lip import levels, limits
from crib.section.outline import Room
from crib.section.reach import Gap, Metal, gaps, reach_at
from crib.section.region import NOTHING

NEVER_HERE = ("MT1", "CD1", "G10")
"""Rules that keep a cutter from this work whatever its sizes are."""

_THINNEST = 0.1
"""A neck or face under this share of the diameter isn't offered as a change."""


def refusals(jobs: Jobs, cutters: Iterable[Cutter], used: set[int]) -> tuple[Refusal, ...]:
    """Every cutter that can do no room whole, nearest miss first: those for the last room, which is the one that
    fewest can do, before those for the others. Cutters that plans use are passed over."""
    found = [ranked for cutter in cutters if cutter.id not in used and (ranked := _refusal(jobs, cutter))]
    found.sort(key=lambda ranked: (ranked[0], ranked[1].short_mm, ranked[1].cutter.id))
    return tuple(refusal for _, refusal in found)


def _refusal(jobs: Jobs, cutter: Cutter) -> tuple[int, Refusal] | None:
    """The refusal of a cutter, and how many rooms from the last it is for; None where it can do one."""
    asked = unknowns(cutter)
    tool = _ready(jobs, at_kindest(cutter), cutter) if asked else jobs.tool(cutter)
    rooms = jobs.question.outline.rooms
    if tool is None or "along" not in tool.kind.ways:
        return len(rooms), _other_kind(cutter)
    known = jobs.tool(cutter)
    if asked and known and any(_Case(jobs, known, room).miss() is None for room in rooms):
        return None
    misses: list[tuple[int, Refusal]] = []
    for place, room in enumerate(reversed(rooms)):
        if misses and never_opens(jobs.question, tool, room.name):
            continue
        case = _Case(jobs, tool, room)
        miss = case.miss()
        if miss is None:
            return (place, case.to_measure(asked)) if asked else None
        misses.append((place, miss))
    return min(misses, key=lambda ranked: ranked[1].short_mm)


def _ready(jobs: Jobs, cutter: Cutter, owned: Cutter | None = None) -> Tool | None:
    return ready(cutter, jobs.question.shop, jobs.question.material, owned)


def _other_kind(cutter: Cutter) -> Refusal:
    kind = kind_of(cutter)
    if kind.form is not None:
        return Refusal(cutter, "measure first", "G7", "its size isn't known", fix="mic the diameter")
    article = "an" if kind.words[0] in "aeiou" else "a"
    return Refusal(cutter, "cannot", "KD1", f"{article} {kind.words} isn't reckoned with for this", short_mm=inf)


@dataclass(frozen=True)
class _Case:
    """One tool in one room."""

    jobs: Jobs
    tool: Tool
    room: Room

    def miss(self) -> Refusal | None:
        """Why the tool can't do the room; None where it can."""
        job = self.jobs.does(self.tool, self.room)
        idle = Draft(self.jobs.question, (Job(self.tool, self.room.name, (), NOTHING, ""),))
        for warning in judge(idle):
            if warning.severity == "stop" and warning.rule in NEVER_HERE:
                return self._no(warning.rule, self._bare(warning), short=0.0 if job else inf)
        if job is None:
            return self.geometry()
        held = self.tool.held
        for warning in judge(Draft(self.jobs.question, (job,))):
            if warning.severity != "stop":
                continue
            if warning.rule == "HD1":
                return self._no(warning.rule, held.says, held.has, held.needs, held.fix, short=0.0)
            if warning.rule == "SP1":
                slow = f"a spindle speed of {self.tool.wanted_rpm * 1.5:.0f} or less"
                return self._no(warning.rule, self._bare(warning), fix=slow, short=0.0)
            return self._no(warning.rule, self._bare(warning), short=inf if warning.rule == "BU1" else 0.0)
        return None

    def _bare(self, warning: Warning) -> str:
        """What a rule says, without the name of the cutter that it is said of."""
        return warning.says.removeprefix(self.tool.owned.label).lstrip(": ")

    def geometry(self) -> Refusal:
        """What of the tool is in the way, in the order in which a machinist would look."""
        diameter, most = self.tool.cutter.diameter_mm or 0.0, self.room.most.width / 1e6
        if diameter > most and "right" not in self.room.open:
            words = f"{{has}} across is more than the {self.room.name} may be, {{needs}}"
            return self._changed("SZ3", "diameter_mm", diameter, most, words, "a cutter of {needs} or less would go in")
        return self._from_above() if "top" in self.room.open else self._under()

    def _under(self) -> Refusal:
        name, tool, tallest = self.room.name, self.tool, limits(self.room)[1]
        face, most = tool.form.height / 1e6, tallest / 1e6
        if tool.form.height > tallest:
            if not tool.kind.buried:
                return self._no("FC1", f"its teeth run up past the lip of the {name}", face, most, short=face - most)
            words = f"the face, {{has}}, is taller than the {name} may be, {{needs}}"
            return self._changed("FC1", "face_mm", face, most, words, "a face of {needs} or less would go in")
        heights = levels(tool.form.height, tool.overlap, self.room) or (self.room.aim.low,)
        allowed = self.jobs.question.shop.most_levels
        if len(heights) > allowed:
            says = f"the {name} would take {len(heights)} levels, {allowed} at the most"
            return self._no("FC2", says, face, short=self.room.aim.height / 1e6 - face)
        return self._blocked(max(0, self.room.least.right - tool.form.radius), heights)

    def _from_above(self) -> Refusal:
        outline, room, radius = self.jobs.question.outline, self.room, self.tool.form.radius
        if (bites := bites_down(self.tool, room)) > MOST_BITES:
            says = f"so slender a cutter would take {bites} bites to get down, {MOST_BITES} at the most"
            return self._no("RE4", says, short=-room.aim.low / 1e6)
        wall = room.aim.left + radius if "right" in room.open else max(0, room.aim.right - radius)
        clear = Metal(outline.keep, (outline.stock - room.aim.region) | outline.obstacles)
        if not any(left <= wall <= right for left, right in reach_at(self.tool.form, clear, room.least.low)):
            return self._blocked(wall, (room.least.low,))
        has, may = self.tool.cutter.corner_radius_mm or 0.0, self.jobs.question.feature.request.floor_radius
        if has <= may:
            return self._blocked(wall, (room.least.low,))
        said = self._said(has)
        fix = f"would go if the floor radius may be {said}"
        return self._no("G11", f"it leaves a radius of {said} in the floor corners", has, may, fix, has - may)

    def _blocked(self, x: int, heights: Sequence[int]) -> Refusal:
        """The part that meets metal where the tool would have to stand."""
        outline = self.jobs.question.outline
        cleared = self.jobs.before(self.room) | (self.room.aim.region if "top" in self.room.open else NOTHING)
        standing = (outline.stock - cleared) | outline.obstacles
        near = [gap for z in heights for gap in gaps(self.tool.form.clear, standing, x, z)]
        worst = min(near, key=lambda gap: gap.slack, default=None)
        if worst is None or worst.slack >= 0:
            return self._no("G5", f"it doesn't reach all of the {self.room.name}", short=self.room.aim.height / 1e6)
        if "neck" in worst.part.name:
            return self._neck(worst)
        return self._too_short(worst)

    def _neck(self, worst: Gap) -> Refusal:
        fillet = 2 * worst.part.radius_low / 1e6 - (self.tool.cutter.neck_mm or 0.0)
        has = 2 * worst.part.radius_low / 1e6 - fillet
        needs = 2 * (worst.part.radius_low + worst.slack) / 1e6 - fillet
        room = self._said(self.jobs.question.shop.neck_clearance_mm)
        words = (f"the {worst.part.name} meets the lip of the {self.room.name}: neck {{has}}, "
                 f"{{needs}} is the most that clears by {room} a side")
        return self._changed("NK1", "neck_mm", has, needs, words, "a neck of {needs} or less would clear")

    def _too_short(self, worst: Gap) -> Refusal:
        """The shank or the spindle nose comes down on the work, or on what stands beside it."""
        has, needs = worst.part.low / 1e6, (worst.part.low + worst.rise) / 1e6
        if "shank" not in worst.part.name:
            where = "the work" if worst.z <= worst.part.end else "what stands beside the work"
            says = (f"the {worst.part.name} comes down on {where}: it stands out {self._said(has)}, "
                    f"{self._said(needs)} is needed")
            return self._no("G6", says, has, needs, f"would go if it stood out {self._said(needs)}", needs - has)
        rule, key, name = ("RE2", "reach_mm", "reach") if self.tool.kind.buried else (
            "RE1", "length_of_cut_mm", "length of cut")
        top = "the top of the work" if worst.z <= worst.part.end else "what stands beside the work"
        words = f"the shank meets {top}: {name} {{has}}, {{needs}} is needed"
        return self._changed(rule, key, has, needs, words, f"a {name} of {{needs}} or more would do", up=True)

    def to_measure(self, asked: Sequence[Unknown]) -> Refusal:
        """What to measure, and for a neck or a reach the size at which it turns."""
        asks = [ask for ask in asked if not self._may_be_worst(ask)] or list(asked)
        turns = next((text for ask in asks if (text := self._turns(ask))), None)
        says = "; ".join(ask.ask for ask in asks)
        return Refusal(self.tool.owned, "measure first", "G7", says, fix=turns, short_mm=0.0)

    def _at_worst(self, ask: Unknown) -> _Case | None:
        if ask.key not in NO_POSITION:
            return None
        tool = _ready(self.jobs, at_kindest(self.tool.cutter.but(**{ask.key: ask.worst})))
        return _Case(self.jobs, tool, self.room) if tool else None

    def _may_be_worst(self, ask: Unknown) -> bool:
        """Whether a size may be at its worst, all else being kind, and no position hangs on it."""
        worse = self._at_worst(ask)
        return bool(worse and self.jobs.does(worse.tool, self.room))

    def _turns(self, ask: Unknown) -> str | None:
        """The change that would do, if the size were at its worst."""
        worse = self._at_worst(ask)
        miss = worse.geometry() if worse else None
        return miss.fix if miss and miss.rule in ("NK1", "RE1", "RE2") and miss.fix != NO_CHANGE else None

    def _said(self, mm: float) -> str:
        return show(mm, self.jobs.question.shop.units)

    def _no(self, rule: str, says: str, has: float | None = None, needs: float | None = None, fix: str | None = None,
            short: float = inf) -> Refusal:
        return Refusal(self.tool.owned, "cannot", rule, says, has, needs, fix, short)

    def _changed(self, rule: str, key: str, has: float, needs: float, words: str, fix: str,
                 up: bool = False) -> Refusal:
        """A refusal that one other size would cure; that is named only where it alone would do."""
        near = _rounded(needs, self.jobs.question.shop.units, up)
        enough = up or needs > _THINNEST * (self.tool.cutter.diameter_mm or 0.0)
        again = _ready(self.jobs, at_kindest(self.tool.cutter.but(**{key: near}))) if enough else None
        cures = again is not None and self.jobs.does(again, self.room) is not None
        known = getattr(self.tool.owned, key) is not None or key in TYPICAL
        says = words.format(
            has=self._said(has) if known else "not known", needs=self._said(near) if needs > 0 else "nothing"
        )
        change = fix.format(needs=self._said(near)) if cures else NO_CHANGE
        return self._no(rule, says, has if known else None, needs, change, abs(needs - has))


def _rounded(mm: float, units: str, up: bool) -> float:
    """A limit [mm], rounded in the user's units to the side that still holds.

    >>> round(_rounded(6.4770, "in", False), 6), round(_rounded(6.4771, "in", True), 6)
    (6.477, 6.5024)
    """
    scale = 25.4 if units == "in" else 1.0
    value = round(mm / scale * 1000, 4)
    return (ceil(value) if up else floor(value)) / 1000 * scale

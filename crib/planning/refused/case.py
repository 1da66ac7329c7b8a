"""One tool in one room: by how much it falls short, why, and the one change that would do, confirmed by asking once
more with that change made."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil, floor, inf

from crib.cutters.base import Cutter, Unknown
from crib.findings.finding import NO_CHANGE, Finding, Grade
from crib.findings.message import Fact, Mm, Text, apart, filled, said, unaddressed
from crib.geometry.outline import Room
from crib.light.records import dataclass, replace
from crib.machining.methods import why_not
from crib.machining.methods.base import Limit
from crib.machining.tool import TYPICAL, Tool, at_kindest, ready, sets_position, unknowns
from crib.planning.search.jobs import Jobs
from crib.planning.told.advice import Refusal, refused
from crib.rules.catalogue import ids
from crib.rules.holding import unfit

_BY_STEEL, _BY_SIZE = ids("by_steel"), ids("by_size")
NEAR_LIMITS = "it may do, with walls near their limits"
"""In place of the size at which it turns, where it does nothing with walls at their aim."""

_HALVINGS = 16
_THINNEST = 0.1
"""A neck or face under this share of the diameter isn't offered as a change."""


@dataclass(frozen=True)
class Case:
    """One tool in one room."""

    jobs: Jobs
    tool: Tool
    room: Room

    def short(self) -> float | None:
        """By how much the tool falls short [mm]; None where it can do the room."""
        does = self.jobs.is_feasible(self.tool, self.room)
        if self.jobs.never_here(self.tool):
            return 0.0 if does else inf
        if sharp := self._sharp():
            return sharp.short() or 0.0
        if not does:
            return self._why_not().short
        stop = next(iter(self.jobs.stops(self.tool, self.room)), None)
        return stop.short_mm if stop else None

    def can(self) -> bool:
        """Whether the tool can do the room: it falls short of nothing."""
        return not (self.jobs.never_here(self.tool) or self._sharp()) and bool(
            self.jobs.is_feasible(self.tool, self.room)) and not self.jobs.stops(self.tool, self.room)

    def miss(self) -> Refusal | None:
        """Why the tool can't do the room; None where it can."""
        does = self.jobs.is_feasible(self.tool, self.room)
        if never := self.jobs.never_here(self.tool):
            return self._forbidden(never, 0.0 if does else inf)
        if sharp := self._sharp():
            return sharp.miss() or self._forbidden(unfit(self.tool, self.room.name))
        if not does:
            return self.geometry()
        stop = next(iter(self.jobs.stops(self.tool, self.room)), None)
        if stop is None:
            return None
        no = self._forbidden(stop, stop.short_mm)
        return replace(no, unsure=stop.unsure)

    def _forbidden(self, stop: Finding, short: float = 0.0) -> Refusal:
        """What a rule says that forbids the tool, without its name, and the change that would do."""
        says = unaddressed(stop.says, self.tool.owned.label)
        fix = in_hss(self.jobs, self.tool, stop) or stop.fix
        return self._no(stop.id, says, stop.has_mm, stop.needs_mm, fix, short)

    def _sharp(self) -> Case | None:
        """The same with its edges as they should be, where as they are it may only rough; None where they may do."""
        if self.tool.can_finish:
            return None
        sharp = made_ready(self.jobs, self.tool.cutter.but(condition="sharp", note=None, marking=None), self.tool.owned)
        return Case(self.jobs, sharp, self.room) if sharp else None

    def _why_not(self) -> Limit:
        jobs, room = self.jobs, self.room
        across = jobs.does_across(self.tool, room) if jobs.question.layers else None
        if across:
            from crib.planning.refused.between_ends import why_not as why_not_closed

            return why_not_closed(jobs.question, across, room)
        return why_not(self.tool, jobs.question.outline, room, jobs.before(room), jobs.limits)

    def geometry(self) -> Refusal:
        """What of the tool is in the way, in the order in which a machinist would look."""
        miss = self._why_not()
        if miss.key is not None:
            return self._changed(miss)
        near = None if miss.needs is None else _rounded(miss.needs, self.jobs.question.shop.units, miss.up)
        says, fix = (text and self._filled(text, miss, near) for text in (miss.says, miss.fix))
        return self._no(miss.id, says or "", miss.has, miss.needs, fix, miss.short)

    def _filled(self, text: Text, miss: Limit, needs: float | None) -> Text:
        has, least = _apart(miss.has, needs)
        return filled(text, has=has, needs=least, side=Mm(miss.side))

    def to_measure(self, asked: Sequence[Unknown]) -> Refusal:
        """What to measure, and the size at which it turns; near the walls' limits that hangs on who makes these."""
        asks = [ask for ask in asked if not self._may_be_worst(ask)] or list(asked)
        turns = NEAR_LIMITS if self.jobs.wide else next(
            (text for ask in asks if (text := self._turns(ask) or self._turns_between(ask))), None)
        says = "; ".join(ask.ask for ask in asks)
        return refused(self.tool.owned, "G7", says, fix=turns or "it may do", short_mm=0.0, unsure=True)

    def _at_worst(self, ask: Unknown) -> Case | None:
        if sets_position(ask):
            return None
        tool = made_ready(self.jobs, kindest(self.jobs, self.tool.cutter.but(**{ask.key: ask.worst})))
        return Case(self.jobs, tool, self.room) if tool else None

    def _may_be_worst(self, ask: Unknown) -> bool:
        """Whether a size may be at its worst, all else being kind, and no position hangs on it."""
        worse = self._at_worst(ask)
        return bool(worse and self.jobs.is_feasible(worse.tool, self.room))

    def _turns(self, ask: Unknown) -> Text | None:
        """The change that would do, if the size were at its worst."""
        worse = self._at_worst(ask)
        miss = worse.geometry() if worse else None
        return miss.fix if miss and miss.id in _BY_SIZE and miss.fix != NO_CHANGE else None

    def _turns_between(self, ask: Unknown) -> Text | None:
        """The size between its kindest and its worst up to which the tool could do the room, found by halving."""
        if not ask.key.endswith("_mm") or self._could_be(ask, ask.worst) or not self._could_be(ask, ask.kindest):
            return None
        well, ill = ask.kindest, ask.worst
        for _ in range(_HALVINGS):
            middle = (well + ill) / 2
            well, ill = (middle, ill) if self._could_be(ask, middle) else (well, middle)
        up = ask.kindest > ask.worst
        limit = Mm(_rounded(well, self.jobs.question.shop.units, up))
        name = ask.key.removesuffix("_mm").replace("_", " ")
        more = "more" if up else "less"
        return said("a {name} of {limit} or {more} would do", name=name, limit=limit, more=more)

    def _could_be(self, ask: Unknown, value: float) -> bool:
        tool = made_ready(self.jobs, kindest(self.jobs, self.tool.cutter.but(**{ask.key: value})))
        return tool is not None and self.jobs.is_feasible(tool, self.room)

    def _no(self, rule: str, says: Text, has: float | None = None, needs: float | None = None, fix: Text | None = None,
            short: float = inf) -> Refusal:
        return refused(self.tool.owned, rule, says, has, needs, fix, short)

    def _taken_as(self, key: str) -> float | None:
        """What is told in place of a size that isn't known [mm]: of a reground cutter its mark, of a face the least
        that it could be; None for others."""
        if key == "face_mm":
            return self.tool.cutter.face_mm
        return self.tool.owned.nominal_mm if key == "diameter_mm" else None

    def _changed(self, miss: Limit) -> Refusal:
        """A refusal that one other size would cure; that is named only where it alone would do."""
        key, needs = miss.key or "", miss.needs or 0.0
        known = getattr(self.tool.owned, key) is not None or key in TYPICAL
        has = miss.has or 0.0 if known else self._taken_as(key)
        near = _rounded(needs, self.jobs.question.shop.units, miss.up)
        enough = miss.up or needs > _THINNEST * (self.tool.cutter.diameter_mm or 0.0)
        again = made_ready(self.jobs, kindest(self.jobs, self.tool.cutter.but(**{key: near}))) if enough else None
        cures = again is not None and self.jobs.is_feasible(again, self.room)
        told, least = _apart(has, needs)
        says = filled(miss.says, has=told if known else _not_known(key, told), side=Mm(miss.side),
                      needs=least if needs > 0 else "nothing")
        change = self._filled(miss.fix or "", miss, near) if cures else NO_CHANGE
        short = abs(needs - (miss.has or 0.0 if has is None else has))
        return self._no(miss.id, says, has, needs, change, short)


def _not_known(key: str, told: Fact) -> Text:
    """A size that isn't known, in words, with what is told in its place."""
    if not told:
        return "not known"
    return said("{face} at the best", face=told) if key == "face_mm" else said("{nominal} by its mark", nominal=told)


def _apart(has: float | None, needs: float | None) -> tuple[Fact, Fact]:
    """Two sizes with as many places as tell them apart, as far as both are known."""
    if has is None or needs is None:
        return ("" if has is None else Mm(has)), ("" if needs is None else Mm(needs))
    return apart(has, needs)


def _rounded(mm: float, units: str, up: bool) -> float:
    """A limit [mm], rounded in the user's units to the side that still holds.

    >>> round(_rounded(6.4770, "in", False), 6), round(_rounded(6.4771, "in", True), 6)
    (6.477, 6.5024)
    """
    scale = 25.4 if units == "in" else 1.0
    value = round(mm / scale * 1000, 4)
    return (ceil(value) if up else floor(value)) / 1000 * scale


def in_hss(jobs: Jobs, tool: Tool, stop: Finding) -> str | None:
    """What would do for a cutter whose material nobody knows, where its steel forbids it and high-speed steel may turn
    so fast."""
    if stop.id not in _BY_STEEL or tool.cutter.material != "unknown":
        return None
    again = made_ready(jobs, tool.cutter.but(material="hss"))
    runs = again is not None and not jobs.never_here(again) and (
        again.step is None or again.step.grade != Grade.STOP)
    return "find out what it is made of: one of high-speed steel would do" if runs else None


def as_kind(jobs: Jobs, cutter: Cutter) -> Tool | None:
    """The tool that a cutter is with what isn't known of it at its kindest."""
    return made_ready(jobs, kindest(jobs, cutter), cutter) if unknowns(cutter) else jobs.tool(cutter)


def made_ready(jobs: Jobs, cutter: Cutter, owned: Cutter | None = None) -> Tool | None:
    """The tool that a cutter is in this shop and metal; `owned`: the one on record that it stands for."""
    return ready(cutter, jobs.question.shop, jobs.question.material, owned)


def kindest(jobs: Jobs, cutter: Cutter) -> Cutter:
    """A cutter with what isn't known of it at its kindest."""
    return at_kindest(cutter, jobs.question.feature.kindest)

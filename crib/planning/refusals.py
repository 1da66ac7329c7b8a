"""Why a cutter can't: the rule, what it has, what would be needed, and one change that would do, confirmed by asking
once more with that change made."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from heapq import heapify, heappop
from math import ceil, floor, inf

from crib.cutters import kind_of
from crib.cutters.base import Cutter, Motion, Unknown
from crib.findings.finding import NO_CHANGE, Finding, Grade
from crib.findings.message import Fact, Mm, Text, apart, filled, said, unaddressed
from crib.findings.verdicts import Verdict
from crib.geometry.outline import Room
from crib.machining.methods import can_try, why_not
from crib.machining.methods.base import Limit
from crib.machining.sizes import Sizing
from crib.machining.tool import TYPICAL, Tool, at_kindest, ready, sets_position, unknowns
from crib.planning.advice import Refusal, refused
from crib.planning.jobs import Jobs
from crib.planning.refused_down import RefusedDown
from crib.planning.sieve import Least, Sieve, Sieves, alike
from crib.planning.wrong_kind import wrong_kind
from crib.records import NamedTuple, dataclass, replace
from crib.rules.catalogue import ids
from crib.rules.holding import unfit
from crib.rules.passes import never_opens

_BY_STEEL, _BY_SIZE = ids("by_steel"), ids("by_size")
_HALVINGS = 16
_THINNEST = 0.1
"""A neck or face under this share of the diameter isn't offered as a change."""


@dataclass(frozen=True)
class Refused:
    """How many are refused, the nearest of them, and whether measuring could help any; `says`: what that comes to where
    nothing makes it, if that is known."""

    count: int
    nearest: tuple[Refusal, ...]
    unsure: bool
    says: Text = ""


class _Rank(NamedTuple):
    """Where a refusal stands: whether it is for a room that others do, how many rooms from the last that is, by how
    much it falls short, whether it is no cutter of the kind that the room calls for which may do, of which cutter;
    whether it is for a size that isn't known, and in which set-up."""

    spare: bool
    place: int
    short: float
    other: bool
    number: int
    unsure: bool
    setup: int = 0


def refusals(every: Sequence[Jobs], cutters: Iterable[Cutter], used: set[int], most: int | None = None) -> Refused:
    """Every cutter that can do no room whole in any set-up, nearest miss first: where there is no plan those for rooms
    that nothing does first of all, then those for the last room, which is the one that fewest can do; told in full of
    so many at the `most`. Cutters that plans use are passed over."""
    if method := every[0].down:
        down = RefusedDown(every[0], method, frozenset(used))
        unsure = any(one.answer == Verdict.MEASURE_FIRST and one.short_mm == 0 for one in down.all)
        return Refused(len(down.all), down.all[:most], unsure, "" if used else down.says)
    wanting = frozenset() if used else undone(every)
    found = _Ranked(every, wanting, [cutter for cutter in cutters if int(cutter.id) not in used])
    told = (_told(every, rank, cutter, wanting) for rank, cutter in found.told(most))
    return Refused(found.count, tuple(one for one in told if one), not used and found.is_any_unsure)


class _Ranked:
    """The cutters that are refused, the nearest first: where each stands is worked out of those alone of which that may
    be asked, the others are counted."""

    def __init__(self, every: Sequence[Jobs], wanting: frozenset[str], cutters: Iterable[Cutter]) -> None:
        self.every, self.wanting = every, wanting
        question = every[0].question
        sizing = Sizing(question.shop, question.material)
        sieves = Sieves([Sieve(jobs, sizing, in_order(jobs, wanting)) for jobs in every], sizing, bool(wanting))
        self.known: dict[tuple[tuple[str, object], ...], _Rank | None] = {}
        self.found: list[tuple[_Rank, Cutter]] = []
        self.heap: list[tuple[Least, int, Cutter]] = []
        for cutter in cutters:
            least = sieves.least(cutter)
            if least is None:
                self._look(cutter)
            elif least:
                self.heap.append((least, cutter.id, cutter))
        heapify(self.heap)

    @property
    def count(self) -> int:
        """How many are refused."""
        return len({int(cutter.id) for _, cutter in self.found} | {int(number) for _, number, _ in self.heap})

    def _look(self, cutter: Cutter) -> None:
        if rank := self._rank(cutter):
            self.found.append((rank, cutter))

    def _rank(self, cutter: Cutter) -> _Rank | None:
        """Where a cutter stands, worked out once for all that are alike."""
        like = alike(cutter)
        if like not in self.known:
            self.known[like] = nearest(self.every, cutter, self.wanting)
        rank = self.known[like]
        return rank and rank._replace(number=cutter.id)

    def told(self, most: int | None) -> list[tuple[_Rank, Cutter]]:
        """So many of the nearest, all of them where it isn't said."""
        while most is None and self.heap:
            self._look(self.heap.pop()[-1])
        self.found.sort(key=lambda ranked: ranked[0])
        once = list(_once(self.found))
        while most is not None and self.heap and (len(once) < most or (
                most and self._may_stand_before(once[most - 1][0]))):
            self._look(heappop(self.heap)[-1])
            self.found.sort(key=lambda ranked: ranked[0])
            once = list(_once(self.found))
        return once[:most]

    def _may_stand_before(self, rank: _Rank) -> bool:
        """Whether the first that isn't worked out may stand before a rank."""
        least, number, _ = self.heap[0]
        return (*least, True, number) < rank[:5]

    @property
    def is_any_unsure(self) -> bool:
        """Whether measuring might help any of them."""
        if any(rank.unsure for rank, _ in self.found):
            return True
        ranks = (self._rank(cutter) for _, _, cutter in self.heap if unknowns(cutter) or
                 cutter.shank_mm is None or cutter.overruled)
        return any(rank.unsure for rank in ranks if rank)


def _once(found: Iterable[tuple[_Rank, Cutter]]) -> Iterator[tuple[_Rank, Cutter]]:
    """Of a double-ender the end that comes nearest."""
    told: set[int] = set()
    for rank, cutter in found:
        if int(cutter.id) not in told:
            told.add(int(cutter.id))
            yield rank, cutter


def undone(every: Sequence[Jobs]) -> frozenset[str]:
    """The rooms that nothing owned clears as it is on record, in any set-up."""
    rooms = zip(*(jobs.question.outline.rooms for jobs in every), strict=True)
    return frozenset(here[0].name for here in rooms if not any(
        jobs.is_feasible(tool, room) and not jobs.stops(tool, room)
        for jobs, room in zip(every, here, strict=True) for tool in jobs.tools))


def in_order(jobs: Jobs, wanting: frozenset[str]) -> list[tuple[bool, int, Room]]:
    """Whether others do it, its place and the room, from the last on; those that nothing does before the others."""
    rooms = enumerate(reversed(jobs.question.outline.rooms))
    return sorted(((_is_spare(room, wanting), place, room) for place, room in rooms), key=lambda one: one[0])


def _is_spare(room: Room, wanting: frozenset[str]) -> bool:
    """Whether there are rooms that nothing does, and this is none of them."""
    return bool(wanting) and room.name not in wanting


def nearest(every: Sequence[Jobs], cutter: Cutter, wanting: frozenset[str]) -> _Rank | None:
    """Where the refusal of a cutter stands in the set-up in which it comes nearest, one in which measuring may help
    before all others; None where it can do a room in one."""
    found = []
    for place, jobs in enumerate(every):
        rank = _rank(jobs, cutter, wanting)
        if rank is None:
            return None
        found.append(rank._replace(setup=place))
    return min(found, key=lambda rank: (not rank.unsure, rank))


def _told(every: Sequence[Jobs], rank: _Rank, cutter: Cutter, wanting: frozenset[str]) -> Refusal | None:
    """The refusal of a cutter in the set-up in which it comes nearest, which is named where it isn't the usual one."""
    jobs = every[rank.setup]
    refusal = _refusal(jobs, cutter, wanting)
    if refusal is not None and rank.spare:
        refusal = replace(refusal, helps=False)
    if refusal is None or jobs.question.setup == every[0].question.setup or refusal.answer != Verdict.CANNOT:
        return refusal
    return replace(refusal, says=said("{setup}, {says}", setup=jobs.question.setup.name, says=refusal.says))


def _rank(jobs: Jobs, cutter: Cutter, wanting: frozenset[str]) -> _Rank | None:
    """Where the refusal of a cutter stands; None where it can do a room. The same as `_refusal` finds, without the
    words and without asking again."""
    asked = unknowns(cutter)
    tool, rooms = _as_kind(jobs, cutter, asked), jobs.question.outline.rooms
    if tool is None or not any(_is_of_its_sort(tool, room) for room in rooms):
        refusal = _other_kind(jobs, cutter, tool is None)
        return _Rank(bool(wanting), len(rooms), refusal.short_mm, True, cutter.id,
                     refusal.answer == Verdict.MEASURE_FIRST)
    known = jobs.tool(cutter)
    if asked and known and any(_Case(jobs, known, room).short() is None for room in rooms
                               if not _is_spare(room, wanting)):
        return None
    found: list[_Rank] = []
    for spare, place, room in in_order(jobs, wanting):
        if found and never_opens(jobs.question, tool, room.name):
            continue
        short = _Case(jobs, tool, room).short()
        if short is None and spare:
            continue
        if short is None:
            other = cutter.kind not in jobs.question.feature.calls_for[room.name].kinds
            return _Rank(spare, place, 0.0, other, cutter.id, True) if asked else None
        found.append(_Rank(spare, place, short, True, cutter.id, short == 0.0 and tool.held.unsure))
    return min(found, key=lambda rank: (rank.spare, rank.short))


def _refusal(jobs: Jobs, cutter: Cutter, wanting: frozenset[str]) -> Refusal | None:
    """The refusal of a cutter; None where it can do a room."""
    asked = unknowns(cutter)
    tool, rooms = _as_kind(jobs, cutter, asked), jobs.question.outline.rooms
    if tool is None or not any(_is_of_its_sort(tool, room) for room in rooms):
        return _other_kind(jobs, cutter, tool is None)
    known = jobs.tool(cutter)
    if asked and known and any(_Case(jobs, known, room).miss() is None for room in rooms
                               if not _is_spare(room, wanting)):
        return None
    misses: list[tuple[bool, Refusal]] = []
    for spare, _, room in in_order(jobs, wanting):
        if misses and never_opens(jobs.question, tool, room.name):
            continue
        case = _Case(jobs, tool, room)
        miss = case.miss()
        if miss is None and spare:
            continue
        if miss is None:
            return case.to_measure(asked) if asked else None
        misses.append((spare, miss))
    return min(misses, key=lambda ranked: (ranked[0], ranked[1].short_mm))[1]


def _as_kind(jobs: Jobs, cutter: Cutter, asked: Sequence[Unknown]) -> Tool | None:
    """The tool that a cutter is with what isn't known of it at its kindest."""
    return _ready(jobs, _kindest(jobs, cutter), cutter) if asked else jobs.tool(cutter)


def _ready(jobs: Jobs, cutter: Cutter, owned: Cutter | None = None) -> Tool | None:
    return ready(cutter, jobs.question.shop, jobs.question.material, owned)


def _kindest(jobs: Jobs, cutter: Cutter) -> Cutter:
    return at_kindest(cutter, jobs.question.feature.kindest)


def _is_of_its_sort(tool: Tool, room: Room) -> bool:
    """Whether it is worth saying of a tool why it can't do a room: it can move so, or it cuts along."""
    return can_try(tool, room) or Motion.ALONG in tool.kind.motions


def _other_kind(jobs: Jobs, cutter: Cutter, unknown: bool) -> Refusal:
    """A cutter of a kind that isn't tried here, with the kinds that the work calls for."""
    kind = kind_of(cutter)
    if kind.form is not None and unknown:
        return refused(cutter, "G7", "its size isn't known", fix="mic the diameter", unsure=True)
    called = dict.fromkeys(name for calls in jobs.question.feature.calls_for.values() for name in calls.kinds)
    return wrong_kind(cutter, tuple(called))


@dataclass(frozen=True)
class _Case:
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
        fix = (self._in_hss() if stop.id in _BY_STEEL else None) or stop.fix
        return self._no(stop.id, says, stop.has_mm, stop.needs_mm, fix, short)

    def _in_hss(self) -> str | None:
        """What would do for a cutter whose material nobody knows, if high-speed steel may turn so fast."""
        if self.tool.cutter.material != "unknown":
            return None
        again = _ready(self.jobs, self.tool.cutter.but(material="hss"))
        runs = again is not None and not self.jobs.never_here(again) and (
            again.step is None or again.step.grade != Grade.STOP)
        return "find out what it is made of: one of high-speed steel would do" if runs else None

    def _sharp(self) -> _Case | None:
        """The same with its edges as they should be, where as they are it may only rough; None where they may do."""
        if self.tool.can_finish:
            return None
        sharp = _ready(self.jobs, self.tool.cutter.but(condition="sharp"), self.tool.owned)
        return _Case(self.jobs, sharp, self.room) if sharp else None

    def _why_not(self) -> Limit:
        jobs, room = self.jobs, self.room
        across = jobs.does_across(self.tool, room) if jobs.question.layers else None
        if across:
            from crib.planning.closed.why_not import why_not as why_not_closed

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
        """What to measure, and the size at which it turns."""
        asks = [ask for ask in asked if not self._may_be_worst(ask)] or list(asked)
        turns = next((text for ask in asks if (text := self._turns(ask) or self._turns_between(ask))), None)
        says = "; ".join(ask.ask for ask in asks)
        return refused(self.tool.owned, "G7", says, fix=turns or "it may do", short_mm=0.0, unsure=True)

    def _at_worst(self, ask: Unknown) -> _Case | None:
        if sets_position(ask):
            return None
        tool = _ready(self.jobs, _kindest(self.jobs, self.tool.cutter.but(**{ask.key: ask.worst})))
        return _Case(self.jobs, tool, self.room) if tool else None

    def _may_be_worst(self, ask: Unknown) -> bool:
        """Whether a size may be at its worst, all else being kind, and no position hangs on it."""
        worse = self._at_worst(ask)
        return bool(worse and self.jobs.does(worse.tool, self.room))

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
        tool = _ready(self.jobs, _kindest(self.jobs, self.tool.cutter.but(**{ask.key: value})))
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
        again = _ready(self.jobs, _kindest(self.jobs, self.tool.cutter.but(**{key: near}))) if enough else None
        cures = again is not None and self.jobs.does(again, self.room) is not None
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

"""Which cutters can't, the nearest first: each counted, and told of those that are asked for."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from heapq import heapify, heappop

from crib.cutters import kind_of
from crib.cutters.alike import alike
from crib.cutters.base import Cutter, Motion
from crib.findings.message import Text, said
from crib.findings.verdicts import Verdict
from crib.geometry.outline import Room
from crib.light.hints import TYPE_CHECKING
from crib.light.modules import later
from crib.light.records import dataclass, replace
from crib.light.tuples import NamedTuple
from crib.machining.methods import can_try
from crib.machining.tool import Tool, unknowns
from crib.planning.large_cribs.sieve import Least, Sieve
from crib.planning.large_cribs.sieves import Sieves
from crib.planning.refused.case import Case, as_kind
from crib.planning.search.jobs import Jobs
from crib.planning.told.advice import Refusal, refused
from crib.planning.told.later import Later
from crib.rules.passes import never_opens

if TYPE_CHECKING:
    from crib.planning.refused import near_limits
else:
    near_limits = later("crib.planning.refused.near_limits")


@dataclass(frozen=True)
class Refused:
    """How many are refused, the nearest of them, and whether measuring could help any; `says`: what that comes to where
    nothing makes it, if that is known."""

    count: int
    nearest: Sequence[Refusal]
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
    so many at the `most`, once somebody looks at them. Cutters that plans use are passed over. Where there is no plan
    those that walls near their limits let in, once they are measured, are told so."""
    if method := every[0].down:
        from crib.planning.refused.refused_down import RefusedDown

        down = RefusedDown(every[0], method, frozenset(used))
        unsure = any(one.answer == Verdict.MEASURE_FIRST and one.short_mm == 0 for one in down.all)
        return Refused(len(down.all), down.all[:most], unsure, "" if used else down.says)
    wanting = frozenset() if used else undone(every)
    others = [cutter for cutter in cutters if int(cutter.id) not in used]
    wide = () if used else near_limits.wider(every)
    found = _Ranked(every, wanting, others, wide)
    if not used:
        found.look()
    told = Later(lambda: filter(None, (_told((*every, *wide), rank, cutter, wanting)
                                      for rank, cutter in found.told(most))))
    return Refused(found.count, told, not used and found.is_any_unsure)


class _Ranked:
    """The cutters that are refused, the nearest first: where each stands is worked out once somebody asks, and of those
    alone of which that may be asked; the others are counted."""

    def __init__(self, every: Sequence[Jobs], wanting: frozenset[str], cutters: Sequence[Cutter],
                 wide: Sequence[Jobs]) -> None:
        self.every, self.wanting, self.wide = every, wanting, wide
        sieves = Sieves([Sieve(jobs, in_order(jobs, wanting)) for jobs in every], bool(wanting))
        self.known: dict[tuple[object, ...], _Rank | None] = {}
        self.found: list[tuple[_Rank, Cutter]] = []
        told = list(zip(sieves.told(cutters), cutters, strict=True))
        likely = near_limits.let_in(wide, [cutter for least, cutter in told if least]) if wide else ()
        self.close = [cutter for least, cutter in told if least is None or (least and cutter.id in likely)]
        self.sure = [(least, cutter) for least, cutter in told if least and cutter.id not in likely]

    @cached_property
    def heap(self) -> list[tuple[Least, bool, int, Cutter]]:
        """Those that surely are, where they stand at the least: put in order when somebody asks who they are."""
        heap = [(least, least[2] > 0 or not unknowns(cutter), cutter.id, cutter) for least, cutter in self.sure]
        heapify(heap)
        return heap

    @property
    def count(self) -> int:
        """How many are refused."""
        known: dict[tuple[object, ...], bool] = {}
        for cutter in self.close:
            if (like := alike(cutter)) not in known:
                known[like] = all(is_refused(jobs, cutter) for jobs in self.every)
        close = {int(cutter.id) for cutter in self.close if known[alike(cutter)]}
        shown = {int(cutter.id) for _, cutter in self.found}
        return len(shown | {int(cutter.id) for _, cutter in self.sure} | close)

    def look(self) -> None:
        """Work out where those stand of which nothing was told beforehand."""
        while self.close:
            self._look(self.close.pop(0))

    def _look(self, cutter: Cutter) -> None:
        if rank := self._rank(cutter):
            self.found.append((rank, cutter))

    def _rank(self, cutter: Cutter) -> _Rank | None:
        """Where a cutter stands, worked out once for all that are alike."""
        like = alike(cutter)
        if like not in self.known:
            self.known[like] = nearest(self.every, cutter, self.wanting, self.wide)
        rank = self.known[like]
        return rank and rank._replace(number=cutter.id)

    def told(self, most: int | None) -> list[tuple[_Rank, Cutter]]:
        """So many of the nearest, all of them where it isn't said."""
        self.look()
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
        """Whether the first that isn't worked out may stand before a rank: those first of which some size isn't known,
        and which may be what the room calls for."""
        least, other, number, _ = self.heap[0]
        return (*least, other, number) < rank[:5]

    @property
    def is_any_unsure(self) -> bool:
        """Whether measuring might help any of them: one that it might help falls short by nothing in some room, so that
        those needn't be looked at that stand behind all such."""
        if any(rank.unsure for rank, _ in self.found):
            return True
        last = max((spare, place, 0.0) for spare, place, _ in in_order(self.every[0], self.wanting))
        behind = (cutter for least, _, _, cutter in self.heap if least <= last and near_limits.may_turn(cutter))
        return any(rank.unsure for rank in map(self._rank, behind) if rank)


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
        for jobs, room in zip(every, here, strict=True) for tool in jobs.bare.may_clear(jobs.tools, room)))


def in_order(jobs: Jobs, wanting: frozenset[str]) -> list[tuple[bool, int, Room]]:
    """Whether others do it, its place and the room, from the last on; those that nothing does before the others."""
    rooms = enumerate(reversed(jobs.question.outline.rooms))
    return sorted(((_is_spare(room, wanting), place, room) for place, room in rooms), key=lambda one: one[0])


def _is_spare(room: Room, wanting: frozenset[str]) -> bool:
    """Whether there are rooms that nothing does, and this is none of them."""
    return bool(wanting) and room.name not in wanting


def nearest(every: Sequence[Jobs], cutter: Cutter, wanting: frozenset[str], wide: Sequence[Jobs] = ()) -> _Rank | None:
    """Where the refusal of a cutter stands in the set-up in which it comes nearest, one in which measuring may help
    before all others; None where it can do a room in one. Where measuring helps in none it may do so with walls nearer
    their limits (`wide`), which stand behind those set-ups."""
    found = []
    for place, jobs in enumerate(every):
        rank = _rank(jobs, cutter, wanting)
        if rank is None:
            return None
        found.append(rank._replace(setup=place))
    if wide and near_limits.may_turn(cutter) and not any(rank.unsure for rank in found):
        ranks = (_rank(jobs, cutter, wanting) for jobs in wide)
        found += [rank._replace(setup=place) for place, rank in enumerate(ranks, len(every)) if rank and rank.unsure]
    return min(found, key=lambda rank: (not rank.unsure, rank))


def is_refused(jobs: Jobs, cutter: Cutter) -> bool:
    """Whether a cutter is refused in a set-up in which each room is done by others: as `_rank` tells it, but for how
    far off it is."""
    asked = unknowns(cutter)
    tool, rooms = as_kind(jobs, cutter), jobs.question.outline.rooms
    if tool is None or not any(_is_of_its_sort(tool, room) for room in rooms):
        return True
    if asked:
        known = jobs.tool(cutter)
        return known is None or not any(Case(jobs, known, room).can() for room in rooms)
    tried = False
    for room in reversed(rooms):
        if tried and never_opens(jobs.question, tool, room.name):
            continue
        if Case(jobs, tool, room).can():
            return False
        tried = True
    return True


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
    tool, rooms = as_kind(jobs, cutter), jobs.question.outline.rooms
    if tool is None or not any(_is_of_its_sort(tool, room) for room in rooms):
        refusal = _other_kind(jobs, cutter, tool is None)
        return _Rank(bool(wanting), len(rooms), refusal.short_mm, True, cutter.id,
                     refusal.answer == Verdict.MEASURE_FIRST)
    known = jobs.tool(cutter)
    if asked and known and any(Case(jobs, known, room).short() is None for room in rooms
                               if not _is_spare(room, wanting)):
        return None
    found: list[_Rank] = []
    for spare, place, room in in_order(jobs, wanting):
        if found and never_opens(jobs.question, tool, room.name):
            continue
        short = Case(jobs, tool, room).short()
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
    tool, rooms = as_kind(jobs, cutter), jobs.question.outline.rooms
    if tool is None or not any(_is_of_its_sort(tool, room) for room in rooms):
        return _other_kind(jobs, cutter, tool is None)
    known = jobs.tool(cutter)
    if asked and known and any(Case(jobs, known, room).miss() is None for room in rooms
                               if not _is_spare(room, wanting)):
        return None
    misses: list[tuple[bool, Refusal]] = []
    for spare, _, room in in_order(jobs, wanting):
        if misses and never_opens(jobs.question, tool, room.name):
            continue
        case = Case(jobs, tool, room)
        miss = case.miss()
        if miss is None and spare:
            continue
        if miss is None:
            return case.to_measure(asked) if asked else None
        misses.append((spare, miss))
    return min(misses, key=lambda ranked: (ranked[0], ranked[1].short_mm))[1]


def _is_of_its_sort(tool: Tool, room: Room) -> bool:
    """Whether it is worth saying of a tool why it can't do a room: it can move so, or it cuts along."""
    return can_try(tool, room) or Motion.ALONG in tool.kind.motions


def _other_kind(jobs: Jobs, cutter: Cutter, unknown: bool) -> Refusal:
    """A cutter of a kind that isn't tried here, with the kinds that the work calls for."""
    kind = kind_of(cutter)
    if kind.form is not None and unknown:
        return refused(cutter, "G7", "its size isn't known", fix="mic the diameter", unsure=True)
    from crib.planning.refused.wrong_kind import wrong_kind

    called = dict.fromkeys(name for calls in jobs.question.feature.calls_for.values() for name in calls.kinds)
    return wrong_kind(cutter, tuple(called))

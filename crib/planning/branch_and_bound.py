"""Which cutters together: the best plans with one to three cutters, in the order of the ranking, none missed.

A draft grows cutter by cutter, each doing what it can in the section as the others left it. Everything that a draft is
ranked by can only get worse as it grows, so the first complete draft to leave the heap is the best there is.
"""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Hashable, Iterator, Sequence
from functools import partial, reduce
from itertools import count

from crib.cutters.base import Down
from crib.findings.finding import Finding, Grade
from crib.findings.message import Text, nameless
from crib.findings.verdicts import ANSWERS, Verdict
from crib.geometry.region import Region
from crib.light.records import dataclass, field, replace
from crib.machining.chain import Chain
from crib.machining.draft import Draft
from crib.machining.ends import with_courses
from crib.machining.tool import Tool
from crib.machining.words import MEANT_TO_FOLLOW
from crib.planning import steps_first
from crib.planning.abilities import GIVEN_AWAY
from crib.planning.cost import SCRAP, WEAR, Reckoning, reckon, scrap_class
from crib.planning.jobs import Jobs
from crib.planning.judged import Judged, judged
from crib.planning.lower_bounds import MOST_CUTTERS, Bounds, Branch, PartialPlan
from crib.planning.pareto import LowerBound, ParetoFront, Rank
from crib.planning.verdict import complete
from crib.planning.watch import Watch
from crib.rules import is_stopped
from crib.rules.catalogue import ids

Key = tuple[int, bool, bool, float, float, tuple[float, ...], tuple[int, ...]]
"""Verdict, whether any rule cautions, whether cutters share a room, chance of scrap where hours are at stake, cost,
what decides among equals, the cutters' numbers. Equals along the work are told apart by stiffness. Down an axis they
are equal to the cent, wear left out, and told apart by how well the hole suits, then by the last of the cost."""


@dataclass(frozen=True)
class Weighed:
    """A draft with all that it is ranked by."""

    draft: Draft
    warnings: tuple[Finding, ...]
    deviations: tuple[Finding, ...]
    reckoning: Reckoning
    answer: Verdict
    key: Key

    @property
    def sure_cost(self) -> float:
        """What it costs, the chance of scrap left out."""
        return sum(line.money for line in self.reckoning.lines if line.what != SCRAP)

    @property
    def so_far(self) -> PartialPlan:
        """What it comes to so far, for the bounds."""
        least = LowerBound(self.key[0], self.key[2], self.sure_cost, 1 - self.reckoning.scrap, self.key[1])
        return PartialPlan(self.draft, least, frozenset(self.warnings))

    @property
    def chances(self) -> list[tuple[str, str, Text]]:
        """What makes scrap likelier, whichever cutters it is said of."""
        names = [tool.owned.label for tool in self.draft.tools]
        said = [w for w in self.warnings if w.grade != Grade.NOTE]
        bare = [(w.id, w.grade, reduce(nameless, names, w.says)) for w in said]
        return [*bare, *(("miss", "", deviation.says) for deviation in self.deviations)]

    @property
    def last(self) -> int:
        """The number of the cutter that decides."""
        return self.draft.jobs[-1].tool.id

    @property
    def sign(self) -> Hashable:
        """What tells one way from another: how the work lies, and which cutter does what, in order; but not which drill
        opens the way for a mill or a boring bar, nor at which height of several it is aimed."""
        draft = self.draft
        return draft.question.setup.name, tuple(dict.fromkeys(
            (job.room, job.cuts[0].role, bool(job.cuts[0].round_mm), None if _opens(draft, place) else job.tool.id)
            for place, job in enumerate(draft.jobs)))

    @property
    def stopped(self) -> bool:
        """Whether a rule forbids it."""
        return any(warning.grade == Grade.STOP for warning in self.warnings)


def _opens(draft: Draft, place: int) -> bool:
    """Whether a job's drill only opens the way for a mill or a boring bar, which takes all that it leaves."""
    room = draft.jobs[place].room
    kinds = [job.tool.kind for job in draft.jobs[place:] if job.room == room]
    after = next((kind for kind in kinds if Down.DRILLING not in kind.down), kinds[0])
    return Down.DRILLING in kinds[0].down and not after.down.isdisjoint((Down.MILLING, Down.BORING))


def weigh(draft: Draft, finished: bool) -> Weighed:
    """Judge, reckon and rank a draft; what an unfinished one leaves isn't held against it."""
    return weighed(draft, judged(draft, finished))


def weighed(draft: Draft, said: Judged) -> Weighed:
    """Reckon and rank a draft of which so much is said."""
    warnings, gives_away, verdict, timed = said
    misses = 0 if draft.is_round else len(gives_away)  # there a caution has counted them
    reckoning = reckon(draft, warnings, misses, timed)
    hours = draft.question.feature.request.hours
    scrap = scrap_class(reckoning.scrap, hours)
    cautioned = any(warning.grade == Grade.CAUTION and (warning.id in _OF_WAY or not draft.is_round)
                    for warning in warnings)
    money = round(reckoning.cost, 6)
    among_equals: tuple[float, ...] = (-_stiffness(draft),)
    if isinstance(draft, Chain):
        among_equals = (draft.suits, money)
        money = round(sum(line.money for line in reckoning.lines if line.what != WEAR), 2)
    ids = tuple(tool.id for tool in draft.tools)
    key = (ANSWERS.index(verdict), cautioned, _shares(draft), scrap, money, among_equals, ids)
    return Weighed(draft, warnings, gives_away, reckoning, verdict, key)


def _stiffness(draft: Draft) -> float:
    """The thinnest neck, or cutter, of all [mm]."""
    return min((tool.cutter.neck_mm or tool.cutter.diameter_mm or 0.0) for tool in draft.tools)


def _shares(draft: Draft) -> bool:
    """Whether some cutter left a room that it was in for others to clear; down an axis they are meant to follow."""
    if draft.is_round:
        return False
    outline = draft.question.outline
    rooms = {room.name: room for room in outline.rooms}
    return any(not outline.is_waived(outline.rest(rooms[job.room], job.removed)) for job in draft.jobs
               if job.manner not in MEANT_TO_FOLLOW)


_OF_WAY = ids("of_way")
"""Rules whose cautions tell one hole from another; the others go for whatever is drilled there."""

_CENTS_ROUNDED = 1e-6
"""What a least may be over a cost for being rounded."""

WORTH_TELLING = 1.5
"""A runner-up is told of up to this many times the cost of the best plan, and with the same verdict."""


@dataclass
class Shortlist:
    """What was found so far, and what is still worth finding: plans of the same verdict, not much dearer, each with
    another cutter at the end, which is in the room that fewest can do; down an axis, where they are all worked out
    anyhow, every way there is. `least`: the verdict, as it is ranked, from
    which on nothing is worth finding, None where everything is. `under`: the key from which on nothing is, either;
    `at_least`: what is known of every plan, its money aside; `new`: tools of which a plan has one at least. `watch`:
    where it is written what the search is at."""

    best: Weighed | None = None
    last: set[int] = field(default_factory=set)
    keys: list[Key] = field(default_factory=list)
    signs: set[Hashable] = field(default_factory=set)
    told: int = 0  # of chains down an axis
    unproved: int = 0
    least: int | None = None
    under: Key | None = None
    at_least: Rank | None = None
    new: frozenset[int] = frozenset()
    watch: Watch = field(default_factory=Watch)

    def add(self, weighed: Weighed) -> None:
        """One more plan that was told."""
        self.best = self.best or weighed
        self.last.add(weighed.last)
        self.keys.append(weighed.key)
        self.signs.add(weighed.sign)
        self.told += weighed.draft.is_round
        self.watch.found += 1

    @property
    def count(self) -> int:
        """How many were told that differ."""
        return self.told or len(self.last)

    def is_over(self, key: Key) -> bool:
        """Whether nothing with this key or a worse one is worth finding. Raises `OutOfPatience`."""
        self.watch.check()
        if self.least is not None and key[0] >= self.least:
            return True
        if self.under is not None and (*key[:4], key[4] - _CENTS_ROUNDED, *key[5:]) >= self.under:
            return True
        return self.best is not None and not self.best.draft.is_round and key[:3] > self.best.key[:3]

    def passes_over(self, key: Key, last: int) -> bool:
        """Whether a draft that ends, or goes on, with a cutter isn't worth working out."""
        return last in self.last or self.is_dear(key)

    def is_dear(self, key: Key) -> bool:
        """Whether it costs so much more than the best that it isn't worth telling."""
        return self.best is not None and key[4] > WORTH_TELLING * self.best.reckoning.cost

    def leaves_undone(self, draft: Draft, bounds: Bounds) -> bool:
        """Whether a draft lacks a room that only cutters can do which are up or aren't gone on with any more. What
        stands of one that was begun may go with another."""
        if not self.last:
            return False
        over, rooms = self.last | {tool.id for tool in draft.tools}, bounds.missing(draft)
        begun = {job.room for job in draft.jobs} if len(rooms) > 1 else ()
        return any(bounds.shares[room.name].keys() <= over for room in rooms if room.name not in begun)


def explore(jobs: Jobs, told: Shortlist, every: bool = False) -> Iterator[tuple[Key, Weighed | None]]:
    """Complete drafts that no rule forbids, best first: only the best and what is worth telling after it, if whoever
    asks adds to `told` what was told. Between them keys alone, which nothing that is still to come is better than: so
    that who searches elsewhere too knows where to go on. `every` draft is looked at, also those that another is as good
    as."""
    return _chains(jobs, told) if jobs.down else _grown_from_nothing(jobs, told, every)


def _grown_from_nothing(jobs: Jobs, told: Shortlist, every: bool) -> Iterator[tuple[Key, Weighed | None]]:
    bounds = jobs.bounds(told.new, told.at_least)
    in_vain = None if told.under else _long_in_vain(bounds, 1) if jobs.wide else 0
    open_drafts = _Frontier(bounds, told.under, in_vain=in_vain, likely=told.watch.told_by)
    reached = (0, False, False, 0.0)
    if bounds.can_be:
        open_drafts.begin()
    while open_drafts.heap:
        if open_drafts.grew_in_vain:
            if not bounds.look(open_drafts.looked - 1, MOST_CUTTERS):
                told.watch.told_by = open_drafts.looked
                return
            if bounds.least_verdict:
                open_drafts.begin()
        key = open_drafts.heap[0][0]
        if told.is_over(key):
            return
        if key[:4] > reached:
            reached = key[:4]
            yield key, None
        key, _, weighed, open_ = heapq.heappop(open_drafts.heap)
        if weighed is not None and not told.passes_over(key, weighed.last):
            yield key, weighed
            open_drafts.was_told(told.best is not None)
        if open_ is None or told.leaves_undone(open_.draft, bounds):
            continue
        if open_.listed is None:
            open_drafts.push(open_.listing(bounds))
            continue
        open_drafts.push(replace(open_, place=open_.place + 1))
        if told.passes_over(key, open_.tool.id) or not open_.is_to_grow(jobs):
            continue
        if (closer := open_.closer(bounds)) and closer.floor(bounds) > key:
            open_drafts.push(closer)
            continue
        open_.grown.add(open_.tool.id)
        for here in jobs.grew(open_.draft, open_.tool, partial(_grown, jobs, open_)):
            told.watch.step()
            open_drafts.take(here, every)


_IN_VAIN = ((2, 128), (8, 32), (48, 1))
"""After so many drafts without a plan it is asked whether there can be any, and then again, more and more closely;
where there was none with walls at their aim it is asked at once. With many tools it takes as long to ask: then after
one draft for each so many."""

_REFUSED = 24
"""A proof that doesn't hold takes as long as so many drafts."""

_MORE_ROOMS = 6
"""For each room beyond the first it is asked so many drafts later: those come to no plan before another cutter has
been in each."""


def _long_in_vain(bounds: Bounds, looked: int) -> int:
    """After how many drafts it is asked for the first time, the second and so on."""
    return _IN_VAIN[looked][0] + _MORE_ROOMS * (len(bounds.question.outline.rooms) - 1)


_MOST_CLOSELY = 250
"""Of more tools than this it isn't asked closely: some of them do."""


@dataclass
class _Frontier:
    """Drafts to go on from and plans to tell, the best first. `in_vain`: how many drafts were tried since one came out
    that gives nothing away, None once a plan was told or it was asked whether there can be any. `refused`: whether
    proofs refused what came out, so that it counts no more; `likely`: how closely it was asked where that told last
    that there is none. `under`: nothing is worth finding that isn't better."""

    bounds: Bounds
    under: Key | None = None
    heap: list[tuple[Key, int, Weighed | None, SearchNode | None]] = field(default_factory=list)
    seen: DominanceFilter = field(default_factory=lambda: DominanceFilter())
    turn: Iterator[int] = field(default_factory=count)
    in_vain: int | None = 0
    looked: int = 0
    refused: bool = False
    likely: int = 0

    def begin(self) -> None:
        """From nothing, anew."""
        self.heap, self.seen = [], DominanceFilter()
        opened = _opened(PartialPlan(Draft(self.bounds.question), self.bounds.start))
        self.push(*(one for one in opened if not one.may_share or self.bounds.may_share_under(self.under)))

    def was_told(self, is_plan: bool) -> None:
        """One that came out was told, and is a plan or was refused: then it is time to ask."""
        if is_plan:
            self.in_vain = None
        elif self.in_vain is not None:
            self.refused = True
            self.in_vain += _REFUSED

    def push(self, *opens: SearchNode) -> None:
        """Drafts to go on from, as far as there is any way on."""
        for open_ in opens:
            if open_.is_left and open_.to_come(self.bounds):
                heapq.heappush(self.heap, (open_.floor(self.bounds), next(self.turn), None, open_))

    def take(self, here: Weighed | None, every: bool) -> None:
        """What a draft grew into: a plan, one more to go on from, or nothing; `every`: also one that another is as good
        as."""
        if self.in_vain is not None:
            self.in_vain += 1
        if here is None:
            return
        if complete(here.draft):
            if self.bounds.is_wanting(here.draft.tools):
                return
            if self.in_vain is not None and here.key[0] < GIVEN_AWAY and not self.refused:
                self.in_vain = 0
            heapq.heappush(self.heap, (here.key, next(self.turn), here, None))
        elif len(here.draft.tools) < MOST_CUTTERS and (every or self.seen.is_new(here)):
            self.push(*_opened(here.so_far, here))

    @property
    def grew_in_vain(self) -> bool:
        """Whether so many drafts were tried that it is time to ask whether any can do; True once each time."""
        most = 3 if self.bounds.able_count <= _MOST_CLOSELY else 2
        if self.in_vain is None or self.looked >= most:
            return False
        if self.looked < self.likely <= most and self.in_vain >= _long_in_vain(self.bounds, 0):
            self.looked = self.likely
            return True
        is_time = self.in_vain >= max(_long_in_vain(self.bounds, self.looked),
                                      self.bounds.able_count // _IN_VAIN[self.looked][1])
        self.looked += is_time
        return is_time


def _chains(jobs: Jobs, told: Shortlist) -> Iterator[tuple[Key, Weighed | None]]:
    """The chains down an axis, best first: each is complete as it is."""
    found = []
    for chain in jobs.chains:
        told.watch.step()
        found.append(weigh(chain, True))
    for one in sorted((one for one in found if not one.stopped), key=lambda one: one.key):
        yield one.key, one


def _opened(so_far: PartialPlan, weighed: Weighed | None = None) -> Iterator[SearchNode]:
    """A draft to go on from, each tool doing its rooms alone, and with rooms shared."""
    grown: set[int] = set()
    for may_share in (True,) if so_far.least.shared else (False, True):
        yield SearchNode(so_far, weighed, may_share, grown)


def _grown(jobs: Jobs, open_: SearchNode) -> Iterator[Weighed | None]:
    """What the next tool makes of a draft, as far as no rule forbids it; None for what is never a plan."""
    for choice in jobs.of(open_.tool, open_.draft.removed):
        if _leaves_something(open_.draft, choice[-1].removed):
            yield None
            continue
        if open_.draft.question.layers and is_stopped(open_.draft.then(*choice)):
            continue  # ways in between closed ends are dear to find
        stepped = (open_.draft.then(*first) for first in steps_first.ways(jobs, open_.draft, choice))
        for draft in (*with_courses(open_.draft, choice), *stepped):
            here = weighed(draft, jobs.judged(draft))
            if not here.stopped:
                yield here


def _leaves_something(draft: Draft, removed: Region) -> bool:
    """Whether no tool may come after the next and so much is gone then that it is no plan, whatever its ways in are:
    told before these are looked for. What may be roughed or stepped before is still a plan's beginning."""
    outline = draft.question.outline
    return (len(draft.tools) == MOST_CUTTERS - 1 and not any(room.lean for room in outline.rooms)
            and not outline.is_waived(outline.left(removed)))


@dataclass(frozen=True)
class SearchNode:
    """A draft that can go on, each tool doing its rooms alone unless they may be shared. `listed`: the tools that it
    can go on with, None before anyone asked; `place`: which of them is next; `grown`: those that went on already;
    `is_close`: whether what is still to come is reckoned in the section as it stands."""

    so_far: PartialPlan
    weighed: Weighed | None
    may_share: bool
    grown: set[int]
    listed: Sequence[Branch] | None = None
    place: int = 0
    is_close: bool = False

    @property
    def draft(self) -> Draft:
        """What is there already."""
        return self.so_far.draft

    @property
    def next(self) -> Branch:
        """What is next of what is listed."""
        assert self.listed is not None
        return self.listed[self.place]

    @property
    def tool(self) -> Tool:
        """The tool that is next."""
        return self.next.tool

    @property
    def is_left(self) -> bool:
        """Whether there may be any more to go on with."""
        return self.listed is None or self.place < len(self.listed)

    def listing(self, bounds: Bounds) -> SearchNode:
        """The same with its tools listed."""
        return replace(self, listed=bounds.next_tools(bounds.missing(self.draft), self.so_far, self.may_share))

    def to_come(self, bounds: Bounds) -> ParetoFront:
        """The least that is still to come with the next of its tools; nothing where it can't go on."""
        if self.listed is not None:
            return self.next.to_come
        return (LowerBound(shared=self.may_share),) if self.draft.jobs else bounds.first(self.may_share)

    def floor(self, bounds: Bounds) -> Key:
        """The least that its key can come to with the next of its tools."""
        ids = self.weighed.key[-1] if self.weighed else ()
        return (*bounds.rank(self.so_far.least, self.to_come(bounds)), (), ids)

    def is_to_grow(self, jobs: Jobs) -> bool:
        """Whether the tool that is next goes on from here now: it isn't up already, didn't before, and unless a room is
        to be shared, it can do some room whole."""
        tool = self.tool
        if tool.id in self.grown or tool.id in {other.id for other in self.draft.tools}:
            return False
        return self.is_close or self.may_share or jobs.could_do_any(tool, self.draft.removed)

    def closer(self, bounds: Bounds) -> SearchNode | None:
        """The same with the next tool alone, its least reckoned in the section as it stands; None where that tells
        nothing new."""
        rooms = bounds.missing(self.draft)
        if self.is_close or self.may_share or not self.weighed or len(rooms) != 1:
            return None
        to_come = bounds.now(self.tool, rooms[0], self.so_far)
        if not to_come:
            return None
        return replace(self, listed=(self.next._replace(to_come=to_come),), place=0, is_close=True)


@dataclass
class DominanceFilter:
    """Unfinished drafts by what they have come to. Whatever goes on from one that is no better in anything than
    another does no better either, so it needn't be looked at."""

    drafts: dict[tuple[Hashable, frozenset[str], int, Text], list[Weighed]] = field(default_factory=dict)

    def is_new(self, weighed: Weighed) -> bool:
        """Whether no draft that was seen is as good in everything; it is remembered if so."""
        draft = weighed.draft
        rooms = frozenset(job.room for job in draft.jobs)
        others = self.drafts.setdefault((draft.state, rooms, len(draft.tools), draft.tools[-1].held.label), [])
        if any(_is_as_good(other, weighed) for other in others):
            return False
        others.append(weighed)
        return True


def _is_as_good(one: Weighed, other: Weighed) -> bool:
    if one.key[:3] > other.key[:3] or (one.sure_cost, one.key[5]) > (other.sure_cost, other.key[5]):
        return False
    return not Counter(one.chances) - Counter(other.chances)

"""Which cutters together: the best plans with one to three cutters, in the order of the ranking, none missed.

A draft grows cutter by cutter, each doing what it can in the section as the others left it. Everything that a draft is
ranked by can only get worse as it grows, so the first complete draft to leave the heap is the best there is.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from functools import partial
from itertools import count

from crib.geometry.region import Region
from crib.light.records import dataclass, field, replace
from crib.machining.draft import Draft
from crib.machining.ends import with_courses
from crib.machining.methods.cuts import Job
from crib.planning.bounds.each_tool import GIVEN_AWAY
from crib.planning.bounds.lower_bounds import MOST_CUTTERS, Bounds, PartialPlan
from crib.planning.search.jobs import Jobs
from crib.planning.search.search_nodes import DominanceFilter, SearchNode, opened
from crib.planning.search.shortlist import Shortlist
from crib.planning.search.watch import Watch
from crib.planning.search.weighed import Key, Weighed, weigh, weighed
from crib.planning.told.verdict import complete
from crib.rules import is_stopped


def explore(jobs: Jobs, told: Shortlist, every: bool = False) -> Iterator[tuple[Key, Weighed | None]]:
    """Complete drafts that no rule forbids, best first: only the best and what is worth telling after it, if whoever
    asks adds to `told` what was told. Between them keys alone, which nothing that is still to come is better than: so
    that who searches elsewhere too knows where to go on. `every` draft is looked at, also those that another is as good
    as."""
    return _chains(jobs, told) if jobs.down else _grown_from_nothing(jobs, told, every)


def _grown_from_nothing(jobs: Jobs, told: Shortlist, every: bool) -> Iterator[tuple[Key, Weighed | None]]:
    bounds = jobs.bounds(told.new, told.at_least, told.widened)
    in_vain = None if told.under and told.least is None else _long_in_vain(bounds, 1) if jobs.wide else 0
    open_drafts = _Frontier(bounds, told.under, in_vain=in_vain, likely=told.watch.told_by,
                            at_once=[] if told.any_does else None)
    reached = _NOTHING
    if not (told.widened and _is_over(bounds, told)) and bounds.can_be:
        open_drafts.begin()
    while open_drafts.heap:
        if open_drafts.grew_in_vain:
            if not bounds.look(open_drafts.looked - 1, MOST_CUTTERS):
                told.watch.told_by = open_drafts.looked
                return
            if bounds.least_verdict or bounds.least_caution:
                open_drafts.begin()
        if open_drafts.is_over(told):
            return
        key = open_drafts.heap[0][0][1]
        if told.any_does or key[:4] > reached:
            reached = key[:4]
            yield open_drafts.turn_at(key), None
        (_, key), _, weighed, open_ = heapq.heappop(open_drafts.heap)
        if weighed is not None and not told.passes_over(key, weighed.last):
            yield key, weighed
            open_drafts.was_told(told.best is not None)
        if open_ is None or told.leaves_undone(open_.draft, bounds):
            continue
        if open_.listed is None:
            open_drafts.push(*open_.listings(bounds))
            continue
        open_drafts.push(replace(open_, place=open_.place + 1))
        if told.passes_over(key, open_.tool.id) or _is_done_at_the_aim(jobs, told, open_, key) or (
                not open_.is_to_grow(jobs, bounds, told.least)):
            open_drafts.push(open_.twins(open_.at_least))
            continue
        if (closer := open_.closer(bounds)) and closer.floor(bounds) > key:
            open_drafts.push(closer)
            continue
        open_drafts.grow(open_, jobs, told.watch, every)
        yield from open_drafts.told_at_once(told)


def _is_done_at_the_aim(jobs: Jobs, told: Shortlist, open_: SearchNode, key: Key) -> bool:
    """Whether whatever comes of a draft and its next tool with walls nearer their limits is done at the aim by some of
    the same cutters."""
    return told.aimed is not None and jobs.aimed is not None and told.does_at_the_aim(
        jobs.aimed.question, {open_.tool.id, *(tool.id for tool in open_.draft.tools)}, key)


_NOTHING = (0, False, False, 0.0)


def _is_over(bounds: Bounds, told: Shortlist) -> bool:
    """Whether nothing is worth finding, told of all rooms at once before any tool is listed."""
    ranks = (bounds.rank_of_all(may_share) for may_share in (False, True))
    return all(rank is None or told.is_over((*rank, (), ())) for rank in ranks)


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
    """Drafts to go on from and plans to tell, the best first; where any plan does those that have most tools, for they
    are nearest to one. `in_vain`: how many drafts were tried since one came out
    that gives nothing away, None once a plan was told or it was asked whether there can be any. `refused`: whether
    proofs refused what came out, so that it counts no more; `likely`: how closely it was asked where that told last
    that there is none. `under`: nothing is worth finding that isn't better. `at_once`: where any plan does, those that
    came out and weren't told yet; None where they are told the best first. `grown`: how many were gone on with."""

    bounds: Bounds
    under: Key | None = None
    heap: list[tuple[tuple[int, Key], int, Weighed | None, SearchNode | None]] = field(default_factory=list)
    seen: DominanceFilter = field(default_factory=lambda: DominanceFilter())
    turn: Iterator[int] = field(default_factory=count)
    in_vain: int | None = 0
    looked: int = 0
    refused: bool = False
    likely: int = 0
    at_once: list[Weighed] | None = None
    grown: int = 0

    def begin(self) -> None:
        """From nothing, anew."""
        self.heap, self.seen = [], DominanceFilter(self.at_once is not None)
        begun = opened(PartialPlan(Draft(self.bounds.question), self.bounds.start))
        self.push(*(one for one in begun if not one.may_share or self.bounds.may_share_under(self.under)))

    def was_told(self, is_plan: bool) -> None:
        """One that came out was told, and is a plan or was refused: then it is time to ask."""
        if is_plan:
            self.in_vain = None
        elif self.in_vain is not None:
            self.refused = True
            self.in_vain += _REFUSED

    def told_at_once(self, told: Shortlist) -> Iterator[tuple[Key, Weighed]]:
        """What came out just now, where any plan does."""
        while self.at_once:
            here = self.at_once.pop()
            if not told.is_over(here.key):
                yield here.key, here
                self.was_told(told.best is not None)

    def is_over(self, told: Shortlist) -> bool:
        """Whether nothing is worth finding any more; where any plan does, what isn't is left out until something is."""
        while self.heap and told.is_over(self.heap[0][0][1]):
            if self.at_once is None:
                return True
            heapq.heappop(self.heap)
        return not self.heap

    def turn_at(self, key: Key) -> Key:
        """The key by which whoever searches elsewhere too knows whose turn it is: where any plan does, by how much was
        tried."""
        return key if self.at_once is None else (*_NOTHING, float(self.grown), (), ())

    def push(self, *opens: SearchNode) -> None:
        """Drafts to go on from, as far as there is any way on."""
        for open_ in opens:
            if open_.is_left and open_.to_come(self.bounds):
                before = 0 if self.at_once is None else -len(open_.draft.tools)
                heapq.heappush(self.heap, ((before, open_.floor(self.bounds)), next(self.turn), None, open_))

    def grow(self, open_: SearchNode, jobs: Jobs, watch: Watch, every: bool) -> None:
        """What the next tool of a draft makes of it; of its twins no more is tried until that may be the best."""
        open_.grown.add(open_.tool.id)
        self.grown += 1
        grown = list[Weighed | None]()
        for here in (_grown(jobs, open_, self.bounds) if self.bounds.aimed else
                     jobs.grew(open_.draft, open_.tool, partial(_grown, jobs, open_, self.bounds))):
            watch.step()
            grown.append(here)
            self.take(here, every)
        if open_.next.twins and (least := open_.least_of(grown, self.bounds)):
            self.push(open_.twins(least))

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
            if self.at_once is None:
                heapq.heappush(self.heap, ((0, here.key), next(self.turn), here, None))
            else:
                self.at_once.append(here)
        elif len(here.draft.tools) < MOST_CUTTERS and (every or self.seen.is_new(here)):
            self.push(*opened(here.so_far, here))

    @property
    def grew_in_vain(self) -> bool:
        """Whether so many drafts were tried that it is time to ask whether any can do; True once each time."""
        if (self.in_vain is None or self.in_vain < _long_in_vain(self.bounds, 0)
                or not self._may_be_looked(self.looked + 1)):
            return False
        if self.looked < self.likely and self._may_be_looked(self.likely):
            self.looked = self.likely
            return True
        is_time = self.in_vain >= _long_in_vain(self.bounds, self.looked) and self._is_able_at_most(
            (self.in_vain + 1) * _IN_VAIN[self.looked][1] - 1)
        self.looked += is_time
        return is_time

    def _may_be_looked(self, closely: int) -> bool:
        """Whether it may be asked so closely."""
        return closely < len(_IN_VAIN) or (closely == len(_IN_VAIN) and self._is_able_at_most(_MOST_CLOSELY))

    def _is_able_at_most(self, count: int) -> bool:
        """Whether no more tools than so can do anything; told without looking what each does where there are no more of
        them."""
        return len(self.bounds.tools) <= count or self.bounds.able_count <= count


def _chains(jobs: Jobs, told: Shortlist) -> Iterator[tuple[Key, Weighed | None]]:
    """The chains down an axis, best first: each is complete as it is."""
    found = []
    for chain in jobs.chains:
        told.watch.step()
        found.append(weigh(chain, True))
    for one in sorted((one for one in found if not one.stopped), key=lambda one: one.key):
        yield one.key, one


def _grown(jobs: Jobs, open_: SearchNode, bounds: Bounds) -> Iterator[Weighed | None]:
    """What the next tool makes of a draft, as far as no rule forbids it; None for what is never a plan."""
    for choice in jobs.of(open_.tool, open_.draft.removed, open_.draft):
        if bounds.aimed and bounds.is_as_aimed(open_.draft.then(*choice)):
            continue
        if _leaves_something(jobs, open_.draft, choice[-1].removed) or _is_shut(jobs, open_.draft.then(*choice)):
            yield None
            continue
        if open_.draft.question.layers and is_stopped(open_.draft.then(*choice)):
            continue  # ways in between closed ends are dear to find
        for draft in (*with_courses(open_.draft, choice), *_stepped(jobs, open_.draft, choice)):
            here = weighed(draft, jobs.judged(draft))
            if not here.stopped:
                yield here


def _stepped(jobs: Jobs, draft: Draft, choice: Sequence[Job]) -> Iterator[Draft]:
    """The same with the steps of a disc before it, where it may go under flanks."""
    if not draft.question.outline.leaning_over:
        return
    from crib.planning.search.steps_first import ways

    yield from (draft.then(*first) for first in ways(jobs, draft, choice))


def _is_shut(jobs: Jobs, draft: Draft) -> bool:
    """Whether nobody gets in a room that is lacking, where no more than one may come after this: whoever opens it
    further isn't the one that does it."""
    if draft.question.layers is None or len(draft.tools) != MOST_CUTTERS - 1:
        return False
    return any(jobs.abilities.is_shut_to_all(draft, room) for room in draft.lacking)


def _leaves_something(jobs: Jobs, draft: Draft, removed: Region) -> bool:
    """Whether so few tools may come after the next that what is then left is no plan, whatever its ways in are: told
    before these are looked for. What may be roughed or stepped before is still a plan's beginning."""
    outline, more = draft.question.outline, MOST_CUTTERS - 1 - len(draft.tools)
    if more > (1 if jobs.abilities.is_asked_together else 0) or any(room.lean for room in outline.rooms):
        return False
    left = outline.left(removed)
    return not (outline.is_waived(left) or (more and jobs.abilities.together.one_may_take(left)))

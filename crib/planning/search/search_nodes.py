"""Drafts to go on from, each with the tools that may come next and the least that they come to."""

from __future__ import annotations

from collections import Counter
from collections.abc import Hashable, Iterable, Iterator, Sequence

from crib.findings.message import Text
from crib.light.records import dataclass, field, replace
from crib.machining.draft import Draft
from crib.machining.tool import Tool
from crib.planning.bounds.lower_bounds import MOST_CUTTERS, Bounds, PartialPlan
from crib.planning.bounds.pareto import LowerBound, ParetoFront
from crib.planning.bounds.who_comes import Branch
from crib.planning.search.jobs import Jobs
from crib.planning.search.weighed import Key, Weighed
from crib.planning.told.verdict import complete


def opened(so_far: PartialPlan, weighed: Weighed | None = None) -> Iterator[SearchNode]:
    """A draft to go on from, each tool doing its rooms alone, and with rooms shared."""
    grown: set[int] = set()
    for may_share in (True,) if so_far.least.shared else (False, True):
        yield SearchNode(so_far, weighed, may_share, grown)


@dataclass(frozen=True)
class SearchNode:
    """A draft that can go on, each tool doing its rooms alone unless they may be shared. `listed`: the tools that it
    can go on with, None before anyone asked; `place`: which of them is next; `grown`: those that went on already;
    `is_close`: whether what is still to come is reckoned in the section as it stands; `change`: what it costs to change
    what holds the last tool for any of these; `at_least`: what came of their twin."""

    so_far: PartialPlan
    weighed: Weighed | None
    may_share: bool
    grown: set[int]
    listed: Sequence[Branch] | None = None
    place: int = 0
    is_close: bool = False
    change: float = 0.0
    at_least: Key | None = None

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

    def listings(self, bounds: Bounds) -> Iterator[SearchNode]:
        """The same with its tools listed: those that the same holds as the last one, and those for which it is
        changed."""
        listed, up = bounds.next_tools(bounds.missing(self.draft), self.so_far, self.may_share), self.draft.tools
        if not up or not bounds.comers.change:
            yield replace(self, listed=listed)
            return
        same, others = bounds.comers.by_holder(listed, up[-1].held.label)
        yield replace(self, listed=same)
        yield replace(self, listed=others, change=bounds.comers.change)

    def to_come(self, bounds: Bounds) -> ParetoFront:
        """The least that is still to come with the next of its tools; nothing where it can't go on."""
        if self.listed is not None:
            change, front = self.change, self.next.to_come
            return tuple(one._replace(money=one.money + change) for one in front) if change else front
        return (LowerBound(shared=self.may_share),) if self.draft.jobs else bounds.first(self.may_share)

    def floor(self, bounds: Bounds) -> Key:
        """The least that its key can come to with the next of its tools."""
        ids = self.weighed.key[-1] if self.weighed else ()
        floor = (*bounds.rank(self.so_far.least, self.to_come(bounds)), (), ids)
        return max(floor, self.at_least) if self.at_least else floor

    def twins(self, at_least: Key | None) -> SearchNode:
        """The same with the twins of the next of its tools alone; `at_least`: what came of that."""
        twins = self.next.twins
        return replace(self, listed=[twins[0]._replace(twins=twins[1:])] if twins else [], place=0, at_least=at_least)

    def least_of(self, grown: Iterable[Weighed | None], bounds: Bounds) -> Key | None:
        """What comes at the least of the drafts that the next tool made of this one, whatever goes on from there; None
        where nothing does. What comes of a twin is no better: its number is higher."""
        return min((key for one in grown if one for key in _leasts(one, bounds)), default=None)

    def is_to_grow(self, jobs: Jobs, bounds: Bounds, least: int | None = None) -> bool:
        """Whether the tool that is next goes on from here now: it isn't up already, didn't before, and unless a room is
        to be shared, it can do some room whole; where no more than one may come after it, they may take all, with a
        verdict that ranks before `least`."""
        tool = self.tool
        if tool.id in self.grown or tool.id in {other.id for other in self.draft.tools}:
            return False
        if not (self.is_close or self.may_share or jobs.could_do_any(tool, self.draft.removed)):
            return False
        return not jobs.abilities.is_asked_together or bounds.may_take_all(self.draft, tool, least)

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


def _leasts(weighed: Weighed, bounds: Bounds) -> Iterator[Key]:
    """What a draft comes to at the least with any of the tools that may come next; what it comes to, where it is
    complete."""
    if complete(weighed.draft):
        yield weighed.key
    elif len(weighed.draft.tools) < MOST_CUTTERS:
        for one in opened(weighed.so_far, weighed):
            yield from (listed.floor(bounds) for listed in one.listings(bounds) if listed.is_left)


@dataclass
class DominanceFilter:
    """Unfinished drafts by what they have come to. Whatever goes on from one that is no better in anything than
    another does no better either, so it needn't be looked at. `any_does`: whether what a plan costs is nothing to it,
    only what it gives away and what the rules say."""

    any_does: bool = False
    drafts: dict[tuple[Hashable, frozenset[str], int, Text], list[Weighed]] = field(default_factory=dict)

    def is_new(self, weighed: Weighed) -> bool:
        """Whether no draft that was seen is as good in everything; it is remembered if so."""
        draft = weighed.draft
        rooms, held = frozenset(job.room for job in draft.jobs), "" if self.any_does else draft.tools[-1].held.label
        others = self.drafts.setdefault((draft.state, rooms, len(draft.tools), held), [])
        if any(_is_as_good(other, weighed, self.any_does) for other in others):
            return False
        others.append(weighed)
        return True


def _is_as_good(one: Weighed, other: Weighed, whatever_it_costs: bool) -> bool:
    if whatever_it_costs:
        is_worse = one.key[0] > other.key[0]
    else:
        is_worse = one.key[:3] > other.key[:3] or (one.sure_cost, one.key[5]) > (other.sure_cost, other.key[5])
    if is_worse:
        return False
    return not Counter(one.chances) - Counter(other.chances)

"""Which cutters together: the best plans with one to three cutters, in the order of the ranking, none missed.

A draft grows cutter by cutter, each doing what it can in the section as the others left it. Everything that a draft is
ranked by can only get worse as it grows, so the first complete draft to leave the heap is the best there is.
"""

from __future__ import annotations

import heapq
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import reduce
from itertools import count

from crib.planning.advice import ANSWERS, Deviation, Warning
from crib.planning.bounds import Bounds, Next
from crib.planning.cost import SCRAP, Reckoning, reckon
from crib.planning.draft import Draft, Question
from crib.planning.jobs import Jobs
from crib.planning.rules import judge
from crib.planning.tools import Tool
from crib.planning.verdict import answer, complete, deviations
from crib.section.region import Region

MOST_CUTTERS = 3
HOURS_THAT_COUNT = 4

Key = tuple[int, bool, float, float, float, tuple[int, ...]]
"""Verdict, caution, chance of scrap where hours are at stake, cost, less stiffness, the cutters' numbers."""


@dataclass(frozen=True)
class Weighed:
    """A draft with all that it is ranked by."""

    draft: Draft
    warnings: tuple[Warning, ...]
    deviations: tuple[Deviation, ...]
    reckoning: Reckoning
    answer: str
    key: Key

    @property
    def sure_cost(self) -> float:
        """What it costs, the chance of scrap left out."""
        return sum(line.money for line in self.reckoning.lines if line.what != SCRAP)

    @property
    def chances(self) -> list[tuple[str, str, str]]:
        """What makes scrap likelier, whichever cutters it is said of."""
        names = [tool.owned.label for tool in self.draft.tools]
        said = [w for w in self.warnings if w.severity != "note"]
        bare = [(w.rule, w.severity, reduce(lambda text, name: text.replace(name, ""), names, w.says)) for w in said]
        return [*bare, *(("miss", "", deviation.what) for deviation in self.deviations)]

    @property
    def last(self) -> int:
        """The number of the cutter that ends it."""
        return self.draft.jobs[-1].tool.id

    @property
    def stopped(self) -> bool:
        """Whether a rule forbids it."""
        return any(warning.severity == "stop" for warning in self.warnings)


def weigh(draft: Draft, finished: bool) -> Weighed:
    """Judge, reckon and rank a draft; what an unfinished one leaves isn't held against it."""
    warnings = judge(draft)
    gives_away = deviations(draft, finished)
    verdict = answer(draft, warnings, bool(gives_away))
    reckoning = reckon(draft, warnings, len(gives_away))
    hours = draft.question.feature.request.hours
    scrap = round(reckoning.scrap / 0.02) * 0.02 if hours >= HOURS_THAT_COUNT else 0.0
    unusual = any(warning.rule == "BU1" for warning in warnings)
    stiffness = -min((tool.cutter.neck_mm or tool.cutter.diameter_mm or 0.0) for tool in draft.tools)
    ids = tuple(tool.id for tool in draft.tools)
    key = (ANSWERS.index(verdict), unusual, scrap, round(reckoning.cost, 6), stiffness, ids)
    return Weighed(draft, warnings, gives_away, reckoning, verdict, key)


WORTH_TELLING = 1.5
"""A runner-up is told of up to this many times the cost of the best plan, and with the same verdict."""


@dataclass
class Told:
    """What was found so far, and what is still worth finding: plans of the same verdict, not much dearer, each with
    another cutter at the end, which is in the room that fewest can do."""

    best: Weighed | None = None
    last: set[int] = field(default_factory=set)
    unproved: int = 0

    def add(self, weighed: Weighed) -> None:
        """One more plan that was told."""
        self.best = self.best or weighed
        self.last.add(weighed.last)

    def is_over(self, key: Key) -> bool:
        """Whether nothing with this key or a worse one is worth finding."""
        return self.best is not None and key[:2] > self.best.key[:2]

    def passes_over(self, key: Key, last: int) -> bool:
        """Whether a draft that ends, or goes on, with a cutter isn't worth working out."""
        if self.best is None:
            return False
        return last in self.last or key[3] > WORTH_TELLING * self.best.reckoning.cost


def search(
    question: Question, tools: Sequence[Tool], jobs: Jobs | None = None, told: Told | None = None, every: bool = False
) -> Iterator[Weighed]:
    """Complete drafts that no rule forbids, best first. With `told`, only the best and what is worth telling after it,
    if whoever asks adds to it what it has told. `every` draft is looked at, and not only those that none is as good
    as."""
    told, jobs, seen = told or Told(), jobs or Jobs(question, tools), Seen()
    bounds, turn = Bounds(question, tools), count()
    heap: list[tuple[Key, int, Weighed | None, _Open | None]] = []

    def push(open_: _Open) -> None:
        if open_.place < len(open_.listed):
            heapq.heappush(heap, (_floor(question, open_), next(turn), None, open_))

    push(_open(bounds, Draft(question), None))
    while heap:
        key, _, weighed, open_ = heapq.heappop(heap)
        if told.is_over(key):
            return
        if weighed is not None and not told.passes_over(key, weighed.last):
            yield weighed
        if open_ is None:
            continue
        push(replace(open_, place=open_.place + 1))
        if told.passes_over(key, open_.tool.id) or open_.tool.id in {tool.id for tool in open_.draft.tools}:
            continue
        for here in _grown(jobs, open_):
            if complete(here.draft):
                heapq.heappush(heap, (here.key, next(turn), here, None))
            elif len(here.draft.tools) < MOST_CUTTERS and (every or seen.is_new(here)):
                push(_open(bounds, here.draft, here))


def _open(bounds: Bounds, draft: Draft, weighed: Weighed | None) -> _Open:
    """A draft with the tools that it can go on with."""
    is_last = len(draft.tools) + 1 == MOST_CUTTERS
    drawn = weighed is None or weighed.answer == ANSWERS[0]
    return _Open(draft, weighed, bounds.next_tools(bounds.missing(draft), draft, is_last, drawn), 0)


def _grown(jobs: Jobs, open_: _Open) -> Iterator[Weighed]:
    """What the next tool makes of a draft, as far as no rule forbids it."""
    for choice in jobs.of(open_.tool, open_.draft.removed):
        grown = open_.draft.then(*choice)
        here = weigh(grown, complete(grown))
        if not here.stopped:
            yield here


@dataclass(frozen=True)
class _Open:
    """A draft that can go on with the tools listed, from a place on."""

    draft: Draft
    weighed: Weighed | None
    listed: Sequence[Next]
    place: int

    @property
    def tool(self) -> Tool:
        """The tool that is next."""
        return self.listed[self.place].tool


@dataclass
class Seen:
    """Unfinished drafts by what they have come to. Whatever goes on from one that is no better in anything than
    another does no better either, so it needn't be looked at."""

    drafts: dict[tuple[Region, frozenset[str], int, str], list[Weighed]] = field(default_factory=dict)

    def is_new(self, weighed: Weighed) -> bool:
        """Whether no draft that was seen is as good in everything; it is remembered if so."""
        draft = weighed.draft
        rooms = frozenset(job.room for job in draft.jobs)
        others = self.drafts.setdefault((draft.removed, rooms, len(draft.tools), draft.tools[-1].held.label), [])
        if any(_is_as_good(other, weighed) for other in others):
            return False
        others.append(weighed)
        return True


def _is_as_good(one: Weighed, other: Weighed) -> bool:
    if one.key[:2] > other.key[:2] or one.sure_cost > other.sure_cost or one.key[4] > other.key[4]:
        return False
    return not Counter(one.chances) - Counter(other.chances)


def _floor(question: Question, open_: _Open) -> Key:
    """The least that a draft's key can come to with the next of its tools."""
    weighed, following = open_.weighed, open_.listed[open_.place]
    verdict, unusual, scrap, cost, _, ids = weighed.key if weighed else (0, False, 0.0, 0.0, 0.0, ())
    minutes = following.minutes + (0.0 if weighed else question.shop.setup_minutes)
    worst = max(verdict, int(following.gives_up))
    return (worst, unusual, scrap, cost + minutes / 60 * question.shop.hour_rate, float("-inf"), ids)

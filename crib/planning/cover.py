"""Which cutters together: the best plans with one to three cutters, in the order of the ranking, none missed.

A draft grows cutter by cutter, each doing what it can in the section as the others left it. Everything that a draft is
ranked by can only get worse as it grows, so the first complete draft to leave the heap is the best there is.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import count

from crib.planning.advice import ANSWERS, Deviation, Warning
from crib.planning.bounds import Bounds
from crib.planning.cost import Reckoning, reckon
from crib.planning.draft import Draft, Question
from crib.planning.jobs import Jobs
from crib.planning.rules import judge
from crib.planning.tools import Tool
from crib.planning.verdict import answer, complete, deviations

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
    gives_away = deviations(draft) if finished else ()
    verdict = answer(draft, warnings, bool(gives_away))
    reckoning = reckon(draft, warnings)
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
    question: Question, tools: Sequence[Tool], jobs: Jobs | None = None, told: Told | None = None
) -> Iterator[Weighed]:
    """Complete drafts that no rule forbids, best first. With `told`, only the best and what is worth telling after it,
    if whoever asks adds to it what it has told."""
    told = told or Told()
    jobs, bounds = jobs or Jobs(question, tools), Bounds(question, tools)
    turn = count()
    heap: list[tuple[Key, int, Draft, Tool | None, Weighed | None]] = []

    def offer(draft: Draft, weighed: Weighed | None) -> None:
        used = {tool.id for tool in draft.tools}
        is_last = len(draft.tools) + 1 == MOST_CUTTERS
        rooms, begun = bounds.missing(draft), frozenset(job.room for job in draft.jobs)
        for tool in tools:
            if tool.id in used or (is_last and not bounds.can_end(rooms, draft, tool)):
                continue
            found = bounds.with_tool(rooms, begun, tool)
            if found and (floor := _floor(question, weighed, *found)):
                heapq.heappush(heap, (floor, next(turn), draft, tool, None))

    offer(Draft(question), None)
    while heap:
        key, _, draft, tool, weighed = heapq.heappop(heap)
        if told.is_over(key):
            return
        if weighed is not None and not told.passes_over(key, weighed.last):
            yield weighed
        if tool is None or told.passes_over(key, tool.id):
            continue
        for choice in jobs.of(tool, draft.removed):
            grown = draft.then(*choice)
            finished = complete(grown)
            here = weigh(grown, finished)
            if here.stopped:
                continue
            if finished:
                heapq.heappush(heap, (here.key, next(turn), grown, None, here))
            elif len(grown.tools) < MOST_CUTTERS:
                offer(grown, here)


def _floor(question: Question, weighed: Weighed | None, minutes: float, called_for: bool) -> Key:
    """The least that a draft's key can come to with so many minutes more."""
    verdict, unusual, scrap, cost, _, ids = weighed.key if weighed else (0, False, 0.0, 0.0, 0.0, ())
    if weighed is None:
        minutes += question.shop.setup_minutes
    worst = max(verdict, 0 if called_for else 1)
    return (worst, unusual, scrap, cost + minutes / 60 * question.shop.hour_rate, float("-inf"), ids)

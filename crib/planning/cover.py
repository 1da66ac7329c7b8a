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
from crib.planning.cost import Reckoning, pass_minutes, reckon
from crib.planning.draft import Draft, Question
from crib.planning.rules import judge
from crib.planning.tools import Tool
from crib.planning.verdict import answer, complete, deviations
from crib.planning.ways import clear
from crib.planning.ways.base import Job, needs
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


@dataclass
class Jobs:
    """What a tool can do in a section as it stands, kept so that it is worked out once."""

    question: Question
    known: dict[tuple[int, Region], tuple[tuple[Job, ...], ...]] = field(default_factory=dict)

    def of(self, tool: Tool, removed: Region) -> tuple[tuple[Job, ...], ...]:
        """Every choice of rooms and manners in which a tool can take metal away now."""
        place = (tool.id, removed)
        if place not in self.known:
            self.known[place] = tuple(self._choices(tool, removed))
        return self.known[place]

    def _choices(self, tool: Tool, removed: Region) -> Iterator[tuple[Job, ...]]:
        outline, levels = self.question.outline, self.question.shop.most_levels
        begun: list[tuple[Job, ...]] = [()]
        for room in outline.rooms:
            grown = []
            for jobs in begun:
                gone = jobs[-1].removed if jobs else removed
                if needs(outline, room, gone):
                    grown += [(*jobs, job) for job in clear(tool, outline, room, gone, levels)]
            yield from grown
            begun += grown


def search(question: Question, tools: Sequence[Tool], jobs: Jobs | None = None) -> Iterator[Weighed]:
    """Complete drafts that no rule forbids, best first."""
    jobs = jobs or Jobs(question)
    turn = count()
    heap: list[tuple[Key, int, Weighed | None, Draft, Tool | None]] = []
    nothing = Draft(question)
    for tool in tools:
        heapq.heappush(heap, (_floor(None, tool), next(turn), None, nothing, tool))
    while heap:
        _, _, weighed, draft, tool = heapq.heappop(heap)
        if tool is not None:
            for choice in jobs.of(tool, draft.removed):
                grown = draft.then(*choice)
                finished = complete(grown)
                here = weigh(grown, finished)
                if here.stopped:
                    continue
                heapq.heappush(heap, (here.key, next(turn), here, grown, None))
        elif weighed is not None and complete(draft):
            yield weighed
        elif weighed is not None and len(draft.tools) < MOST_CUTTERS:
            used = {each.id for each in draft.tools}
            for other in tools:
                if other.id not in used:
                    heapq.heappush(heap, (_floor(weighed, other), next(turn), None, draft, other))


def _floor(weighed: Weighed | None, tool: Tool) -> Key:
    """The least that a draft's key can come to with one more tool."""
    if weighed is None:
        return (0, False, 0.0, 0.0, float("-inf"), ())
    verdict, unusual, scrap, cost, _, ids = weighed.key
    question = weighed.draft.question
    more = question.shop.cutter_minutes + tool.touch_minutes + pass_minutes(tool, question.feature.length)
    return (verdict, unusual, scrap, cost + more / 60 * question.shop.hour_rate, float("-inf"), ids)

"""The least that a draft can still cost: what lets the search stop early without missing anything.

Nothing here may ever be more than what comes out in the end.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property
from itertools import combinations
from typing import NamedTuple

from crib.planning.cost import pass_minutes
from crib.planning.draft import Draft, Question
from crib.planning.rules.passes import never_opens
from crib.planning.tools import Tool
from crib.planning.verdict import calls_for
from crib.planning.ways import fewest
from crib.section.outline import Room


class Next(NamedTuple):
    """A tool that could go on: whether it gives up `as drawn`, the least minutes still to come, its number."""

    gives_up: bool
    minutes: float
    number: int
    tool: Tool


@dataclass
class Bounds:
    """For each tool and room the fewest minutes that its passes can take: with it alone, and with any share of it.

    A tool whose minutes alone are infinite never touches the room's far walls or its floor, whoever else is at work.
    """

    question: Question
    tools: Sequence[Tool]
    known: dict[tuple[int, str], tuple[float, float] | None] = field(default_factory=dict)
    listed: dict[tuple[frozenset[str], frozenset[str], frozenset[str], bool, bool], list[Next]] = field(
        default_factory=dict
    )

    def of(self, tool: Tool, room: Room) -> tuple[float, float] | None:
        """Least minutes to do a whole room alone (infinite where it can't), and to do any of it; None where it can do
        nothing there."""
        place = (tool.id, room.name)
        if place not in self.known:
            self.known[place] = self._of(tool, room)
        return self.known[place]

    def _of(self, tool: Tool, room: Room) -> tuple[float, float] | None:
        if never_opens(self.question, tool, room.name):
            return None
        each = pass_minutes(tool, self.question.feature.length)
        passes = fewest(tool, self.question.outline, room, self.question.limits)
        return None if passes is None else (passes * each, each)

    @cached_property
    def _put_up(self) -> float:
        """Least minutes to put up one more cutter and touch it off."""
        return self.question.shop.cutter_minutes + min((tool.touch_minutes for tool in self.tools), default=0.0)

    def rest(self, rooms: Sequence[Room], begun: frozenset[str]) -> float:
        """Least minutes to clear these rooms with cutters that aren't up yet."""
        return self._put_up + sum(self._cheapest(room, room.name in begun) for room in rooms) if rooms else 0.0

    def _cheapest(self, room: Room, begun: bool) -> float:
        place = (-1, f"{room.name} {begun}")
        if place not in self.known:
            found = [bound for tool in self.tools if (bound := self.of(tool, room))]
            shared = self._put_up
            least = min((any_ if begun else min(alone, any_ + shared) for alone, any_ in found), default=float("inf"))
            self.known[place] = (least, least)
        return (self.known[place] or (0.0, 0.0))[0]

    def with_tool(self, rooms: Sequence[Room], begun: frozenset[str], tool: Tool) -> tuple[float, bool] | None:
        """Least further minutes of a draft that lacks these rooms and has begun some, with this tool next, and whether
        it may stay as drawn; None where the tool can do nothing there."""
        put_up = self.question.shop.cutter_minutes + tool.touch_minutes
        choices = []
        for count in range(1, len(rooms) + 1):
            for mine in combinations(rooms, count):
                bounds = [self.of(tool, room) for room in mine]
                if any(bound is None for bound in bounds):
                    continue
                others = [room for room in rooms if room not in mine]
                pairs = zip(bounds, mine, strict=True)
                own = sum(self._share(bound, room.name in begun) for bound, room in pairs if bound)
                called = all(calls_for(self.question, room.name, tool) for room in mine)
                choices.append((put_up + own + self.rest(others, begun), called))
        if not choices:
            return None
        return min(minutes for minutes, _ in choices), any(called for _, called in choices)

    def next_tools(self, rooms: Sequence[Room], draft: Draft, is_last: bool, drawn: bool) -> Sequence[Next]:
        """The tools that could go on from a draft that lacks these rooms, the cheapest first; those that may keep it as
        drawn before the others where it is `drawn` so far. The last one must be able to end it."""
        begun = frozenset(job.room for job in draft.jobs)
        ended = frozenset(room.name for room in rooms if any(self._ends(tool, room) for tool in draft.tools))
        place = (frozenset(room.name for room in rooms), begun, ended, is_last, drawn)
        if place not in self.listed:
            found = []
            for tool in self.tools:
                if is_last and not self._can_end(rooms, ended, tool):
                    continue
                bound = self.with_tool(rooms, begun, tool)
                if bound is not None:
                    found.append(Next(not bound[1] if drawn else False, bound[0], tool.id, tool))
            self.listed[place] = sorted(found, key=lambda each: each[:3])
        return self.listed[place]

    def _can_end(self, rooms: Sequence[Room], ended: frozenset[str], tool: Tool) -> bool:
        """Whether what lacks these rooms could be complete with this tool as its last."""
        return all(self.of(tool, room) is not None and (room.name in ended or self._ends(tool, room)) for room in rooms)

    def _ends(self, tool: Tool, room: Room) -> bool:
        bound = self.of(tool, room)
        return bound is not None and bound[0] < float("inf")

    def _share(self, bound: tuple[float, float], begun: bool) -> float:
        alone, any_ = bound
        return any_ if begun else min(alone, any_ + self._put_up)

    def missing(self, draft: Draft) -> tuple[Room, ...]:
        """The rooms that aren't clear yet."""
        outline, gone = self.question.outline, draft.removed
        return tuple(room for room in outline.rooms if not outline.is_waived(outline.rest(room, gone)))

"""Where hours are at stake the chance of scrap goes before money: what rules surely warn of beside what floors tell of
every plan, and who does a room without it. Told closely of all that may do it, so only where that is asked."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from math import inf

from crib.findings.finding import Finding, Grade
from crib.light.records import dataclass, replace
from crib.machining.methods import pass_bounds
from crib.machining.tools import some_of
from crib.planning.large_cribs.doers import Doer
from crib.planning.large_cribs.floors import Floors
from crib.planning.large_cribs.surely_said import surely_said
from crib.planning.reckoning.cost import scrap_chance, scrap_class
from crib.planning.search.jobs import Jobs

HALF_A_CLASS = 0.01
"""Half a step of the chance of scrap, as it is ranked by."""

BOTH_WALLS = Finding("CL2", Grade.WARN, "both walls at once")


@dataclass
class AtStake:
    """The same of a question in one set-up, of plans in which each room is done by one cutter alone."""

    floors: Floors

    @cached_property
    def loud(self) -> frozenset[int]:
        """The places of the discs that surely cut both walls of some room at once, by more than they bear in their
        middle, and do no other room."""
        return frozenset(one.place for room in self._of_discs for one in self._doers(room)
                         if self._is_loud(one, room) and sum(money < inf for money in one.rooms) == 1)

    @cached_property
    def least(self) -> float:
        """The chance of scrap at the least, as it is ranked by."""
        return self._class(self.said)

    @cached_property
    def with_the_loud(self) -> float:
        """The same of a plan with one of those."""
        return self._class((*self.said, *(() if BOTH_WALLS in self.said else (BOTH_WALLS,))))

    @cached_property
    def said(self) -> tuple[Finding, ...]:
        """What is said of every plan."""
        said, rooms = self.floors.said, self._of_discs
        if not rooms:
            return said
        every = surely_said(self.floors.jobs.question, next(self._doers(rooms[0])).tool, True)
        is_loud = any(all(self._is_loud(one, room) or not self._may_do(one, room) for one in self._doers(room))
                      for room in rooms)
        return (*every, BOTH_WALLS) if is_loud else every

    @property
    def quiet(self) -> Jobs:
        """The question without those."""
        jobs, loud = self.floors.jobs, self.loud
        places = [place for place in range(len(jobs.tools)) if place not in loud]
        return replace(jobs, tools=some_of(jobs.tools, places), all_discs=jobs.discs)

    def _class(self, said: tuple[Finding, ...]) -> float:
        question = self.floors.jobs.question
        return scrap_class(scrap_chance(said, shop=question.shop), question.feature.request.hours)

    @cached_property
    def _of_discs(self) -> list[int]:
        """The rooms that only discs do which are buried in the cut."""
        if self.floors.beside or not self.floors.is_sure:
            return []
        return [room for room in range(len(self.floors.rooms)) if any(True for _ in self._doers(room)) and all(
            one.tool.kind.buried or not self._may_do(one, room) for one in self._doers(room))]

    def _doers(self, room: int) -> Iterator[Doer]:
        """Those that may do a room, as far as bare sizes tell."""
        doers = self.floors.doers
        for number, some in enumerate(doers.every):
            if some.rooms[room] < inf:
                yield from (one for one in doers.of(number) if one.rooms[room] < inf)

    def _may_do(self, one: Doer, room: int) -> bool:
        """Whether one may do a room alone, as its passes tell."""
        jobs = self.floors.jobs
        return any(found.passes < inf or found.helped
                   for found in pass_bounds(one.tool, jobs.question.outline, self.floors.rooms[room][0], jobs.limits))

    def _is_loud(self, one: Doer, room: int) -> bool:
        """Whether a disc that does a room alone surely cuts both walls at once at half the feed (see the rule CL2)."""
        door, sizing, tool = self.floors.rooms[room][1], self.floors.sizing, one.tool
        if door is None or door.closely is None or not tool.kind.buried:
            return False
        sizes = sizing.of(tool.known)
        return sizes is not None and door.closely(sizes, sizing.as_run(tool.known, tool.kind, sizes)).slow > 0

"""Whether every plan in a set-up surely gives something away, told of the tools that there are before any is tried."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from math import inf

from crib.cutters.alike import alike
from crib.geometry.outline import Opening, Room
from crib.light.records import dataclass, field
from crib.machining.batches import Batch
from crib.machining.gate import SLACK
from crib.machining.methods import method_of
from crib.machining.methods.base import PassBound
from crib.machining.tool import Tool
from crib.machining.words import Manner
from crib.planning.bounds.each_tool import GIVEN_AWAY
from crib.planning.bounds.least_of_sizes import surely_given_away
from crib.planning.large_cribs.floors import Floors
from crib.planning.search.jobs import Jobs
from crib.rules.surely_sized import surely_missed
from crib.units import NM

_MOST = 60
"""Of more tools than this, no two alike, it isn't told one by one."""


def is_given_away(floors: Floors) -> bool:
    """Whether every plan gives something away: whoever is the last in the only room misses a size there, or whoever
    does it alone leans beside its first cut, and one who may do it is in every plan."""
    question = floors.jobs.question
    if surely_given_away(question):
        return True
    room = question.outline.rooms[0]
    if len(floors.rooms) > 1 or question.layers is not None or not floors.is_sure or (
            room.lean or room.rounded or room.hollow or not room.open & {Opening.TOP, Opening.RIGHT}):
        return False
    here = _OneRoom(floors, room)
    return here.all_miss or here.all_lean


@dataclass
class _OneRoom:
    """The only room of a question, and what is told of tools there; `known`: whether those give something away that
    were asked one by one."""

    floors: Floors
    room: Room
    known: dict[tuple[object, ...], bool] = field(default_factory=dict)

    @property
    def all_miss(self) -> bool:
        """Whether each that takes anything misses a size where it is the last. Those that step to the walls do so
        alike, whoever they are, and those that go in from the side; the others are asked one by one."""
        if not self._misses(1 if self.room.opens(Opening.TOP) else 2):
            return False
        places: list[int] = []
        for batch in self.floors.batches:
            if self._moves_so(batch):
                places += [batch.places[at] for at in self._by_themselves(batch)]
        tools = self.floors.jobs.tools
        return self._all_give_away([tools[place] for place in sorted(places)])

    @property
    def all_lean(self) -> bool:
        """Whether each that may do the room alone is a saw that takes more cuts than one."""
        here = self.floors.in_rooms[0]
        if not all(doer.tool.kind.saws for _, doer in here.up_to(inf, 1)):
            return False
        tools = [doer.tool for _, doer in here.up_to(inf)]
        return bool(tools) and all(tool.kind.saws for tool in tools) and self._all_give_away(tools)

    def _misses(self, levels: int) -> bool:
        """Whether a size is missed by those that step to the walls from above, or go in from the side in so many
        levels: whatever their own sizes are."""
        manner = Manner.STEPPED if self.room.opens(Opening.TOP) else (
            Manner.FROM_THE_SIDE_IN_LEVELS if levels > 1 else Manner.FROM_THE_SIDE)
        so = PassBound(inf, levels=levels, stepped=True, manner=manner)
        return any(surely_missed(self.floors.jobs.question, self.room.name, self.floors.jobs.tools[0], so))

    def _moves_so(self, batch: Batch) -> bool:
        method, kind = method_of(self.room), batch.kind
        return kind is not None and (method.motion in kind.motions or method.also in kind.motions)

    def _by_themselves(self, batch: Batch) -> Sequence[int]:
        """Those of a batch that may make a size otherwise: as wide as they are, or in one level."""
        door = self.floors.rooms[0][1]
        if door is None or not batch.is_bare:
            return range(len(batch.cutters))
        within = [at for at, short in enumerate(door.limits(batch)) if not short]
        if not self.room.opens(Opening.TOP):
            return [] if self._misses(1) else self._in_one_level(batch, within)
        if self.room.open & {Opening.LEFT, Opening.RIGHT}:
            return []
        least, diameters = self.room.least.width / NM - SLACK, batch.diameters
        return [at for at in within if not 0 < diameters[at] < least]

    def _in_one_level(self, batch: Batch, within: Sequence[int]) -> list[int]:
        """Those of some that go in at one level, told once of all that are as tall."""
        least, heights, tools = self.room.height[0] if self.room.height else self.room.least.height, batch.heights, (
            self.floors.jobs.tools)
        are: dict[float, bool] = {}
        for at in within:
            tall = heights[at]
            if tall not in are:
                are[tall] = not 0 < tall < least / NM - SLACK and tools[batch.places[at]].form.height >= least
        return [at for at in within if are[heights[at]]]

    def _all_give_away(self, tools: Iterable[Tool]) -> bool:
        """Whether each of these gives something away, or takes nothing, as the bounds of the search tell it."""
        for tool in tools:
            like = alike(tool.owned)
            if like not in self.known:
                if len(self.known) >= _MOST:
                    return False
                self.known[like] = self._gives_away(tool)
            if not self.known[like]:
                return False
        return True

    def _gives_away(self, tool: Tool) -> bool:
        jobs = self.floors.jobs
        abilities = Jobs(jobs.question, (tool,), all_discs=jobs.discs).abilities
        able = abilities.of(self.room).get(tool.id)
        return able is None or able.verdict >= GIVEN_AWAY or bool(abilities.missed(tool, self.room))

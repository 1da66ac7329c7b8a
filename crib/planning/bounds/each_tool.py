"""What each tool can do in each room by itself, at the least: whoever else is there and whatever an hour is worth, that
stays so, and with more tools only theirs is new."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property
from math import inf

from crib.findings.finding import Grade
from crib.findings.verdicts import ANSWERS, Verdict
from crib.geometry.outline import Room
from crib.geometry.region import NOTHING
from crib.light.hints import TYPE_CHECKING, TypeVar
from crib.light.records import dataclass, field, replace
from crib.light.tuples import NamedTuple
from crib.machining.draft import Draft
from crib.machining.ends import ends_stand, has_corners, leaves_corners, misses_corners, never_in
from crib.machining.floor_edge import leaves_edge
from crib.machining.methods import pass_bounds, ways
from crib.machining.methods.base import Limits, PassBound
from crib.machining.methods.cuts import Job
from crib.machining.overruled import may_be
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Manner
from crib.planning.bounds.bare import Bare
from crib.planning.told.verdict import calls_for
from crib.rules import judge, stops
from crib.rules.passes import never_opens
from crib.rules.sizes import surely_leans
from crib.rules.surely_sized import least_said, surely_missed
from crib.rules.ways_of_cutting import makes_size

if TYPE_CHECKING:
    from typing import Self

T = TypeVar("T")

DRAWN, EXTRA, GIVEN_AWAY = map(ANSWERS.index, (Verdict.AS_DRAWN, Verdict.EXTRA_PASSES, Verdict.COMPROMISE))


class Manners(NamedTuple):
    """One manner in which a tool does a room alone: its passes at the least, how many sizes it holds with care only and
    how many it misses, how many warnings it surely earns, whether a rule surely cautions, and the verdict at the least.
    """

    passes: PassBound
    careful: int
    missed: int
    warned: int
    cautioned: bool
    verdict: int


class Able(NamedTuple):
    """What a tool can do of a room: all of it in some manners (none where it can't), or any of it beside another, with
    the verdict at the least and whether a rule surely cautions. `both`: whether some pass surely cuts both walls at
    once, where it does the room alone; not where another may rough it. `helped`: whether it may leave no more of it
    than what is gone when another room is.
    """

    alone: tuple[Manners, ...]
    verdict: int
    cautioned: bool
    both: bool
    helped: bool = False

    @property
    def ends(self) -> bool:
        """Whether it can end the room, by itself or but for what is gone with another."""
        return self.helped or bool(self.alone)


@dataclass
class EachTool:
    """Of some tools, what each can do in each room. `before`: the same of other tools; of those that are among these it
    stands. `narrow`: the same with walls at their aim. No tool is looked at in a room before somebody asks."""

    question: Question
    tools: Sequence[Tool]
    limits: Limits
    before: Self | None = None
    narrow: Self | None = None
    found: dict[str, dict[int, Able]] = field(default_factory=dict)
    left: dict[str, list[Tool]] = field(default_factory=dict)
    likelies: dict[str, Sequence[Tool]] = field(default_factory=dict)
    passes: dict[tuple[int, str], tuple[PassBound, ...]] = field(default_factory=dict)
    misses: dict[tuple[int, str], frozenset[str] | None] = field(default_factory=dict)
    forbidden: dict[int, bool] = field(default_factory=dict)
    kept_out: dict[tuple[int, str], bool] = field(default_factory=dict)
    missed_corners: dict[tuple[int, str], bool] = field(default_factory=dict)
    cautioned: dict[tuple[int, str, Manner], bool] = field(default_factory=dict)

    @cached_property
    def bare(self) -> Bare:
        """What is told of tools before they are made."""
        before = self.before
        is_alike = before and before.question is self.question and before.limits == self.limits
        return before.bare if before and is_alike else Bare(self.question, self.limits)

    def of(self, room: Room) -> Mapping[int, Able]:
        """What the tools that can do anything in a room can do, by their numbers."""
        found = self._begun(room)
        for _ in self._looked_at(room):
            pass
        return found

    def likely(self, room: Room) -> Sequence[Tool]:
        """The tools that may do anything in a room, as far as limits tell, in their order: of thousands the others
        aren't looked at one by one."""
        if room.name not in self.likelies:
            is_known = self.before is not None and self.before.bare is self.bare
            self.likelies[room.name] = self._likely(room) if is_known else self.bare.in_order(self.tools, room)
        return self.likelies[room.name]

    def _likely(self, room: Room) -> Sequence[Tool]:
        """The same by what was told of those that were there before."""
        known = self.before.likely(room) if self.before else ()
        may = {id(tool) for tool in (*known, *self.bare.in_order(self.new, room))}
        return [tool for tool in self.tools if id(tool) in may]

    def _begun(self, room: Room) -> dict[int, Able]:
        """What was found till now."""
        if room.name not in self.found:
            self.found[room.name] = self._standing(self.before.of(room)) if self.before else {}
            self.left[room.name] = [tool for tool in reversed(self.likely(room)) if tool.id not in self.old]
        return self.found[room.name]

    def _looked_at(self, room: Room) -> Iterator[tuple[int, Able]]:
        """What is found of the tools that nobody looked at yet, with their numbers, one by one; of one at which it is
        interrupted nobody knows yet."""
        left = self.left[room.name]
        while left:
            tool = left[-1]
            able = self._of(tool, room)
            left.pop()
            if able:
                self.found[room.name][tool.id] = able
                yield tool.id, able

    def _standing(self, known: Mapping[int, T]) -> dict[int, T]:
        """Of what is known by the numbers of tools, what is of these."""
        return {number: one for number, one in known.items() if number in self.old}

    @cached_property
    def by_number(self) -> dict[int, Tool]:
        """The tools by their numbers."""
        return {tool.id: tool for tool in self.tools}

    @cached_property
    def old(self) -> frozenset[int]:
        """The tools of which it was known before."""
        if self.before is None:
            return frozenset()
        known = self.before.by_number
        return frozenset(tool.id for tool in self.tools if known.get(tool.id) is tool)

    @property
    def new(self) -> list[Tool]:
        """The others."""
        return [tool for tool in self.tools if tool.id not in self.old]

    def _of(self, tool: Tool, room: Room) -> Able | None:
        """What a tool can do of a room; None where it can do nothing there. Walls nearer their limits are one manner
        more where there are two, and change nothing else but who gets in between closed ends."""
        is_between_walls = room.name in self.question.between_walls
        if self.narrow and (is_between_walls or self.question.layers is None):
            aimed = self.narrow.of(room).get(tool.id)
            return self._widened(tool, room, aimed) if aimed and is_between_walls else aimed
        found = self._passes(tool, room)
        if not found or self._is_forbidden(tool):
            return None
        return Able(
            self.manners(tool, room, found),
            GIVEN_AWAY if all(surely_leans(tool, one.levels) for one in found) else self._verdict(tool, room),
            all(self._is_cautioned(tool, room, one.manner) for one in found),
            all(one.both for one in found) and not has_corners(self.question, room),
            any(one.helped for one in found),
        )

    def _widened(self, tool: Tool, room: Room, aimed: Able) -> Able:
        """What it can do there too with walls nearer their limits."""
        found = pass_bounds(tool, self.question.outline, room, replace(self.limits, aimed=False))
        return aimed._replace(alone=(*aimed.alone, *self.manners(tool, room, found))) if found else aimed

    def _passes(self, tool: Tool, room: Room) -> tuple[PassBound, ...]:
        """What each manner of a tool takes at the least in a room; nothing where it can do nothing there."""
        place = (tool.id, room.name)
        if place not in self.passes:
            never = self._is_kept_out(tool, room)
            self.passes[place] = () if never else pass_bounds(tool, self.question.outline, room, self.limits)
        return self.passes[place]

    def ways(self, tool: Tool, room: Room) -> tuple[PassBound, ...]:
        """The same without counting any."""
        place = (tool.id, room.name)
        if place in self.passes:
            return self.passes[place]
        return () if self._is_kept_out(tool, room) else ways(tool, self.question.outline, room, self.limits)

    def _is_kept_out(self, tool: Tool, room: Room) -> bool:
        """Whether a tool surely does nothing in a room, told before its limits are looked at."""
        place = (tool.id, room.name)
        if place not in self.kept_out:
            self.kept_out[place] = (
                self.bare.breaks_limit(tool, room) or self.bare.is_too_fast(tool)
                or never_opens(self.question, tool, room.name) or never_in(self.question, self.limits, tool, room))
        return self.kept_out[place]

    def missed(self, tool: Tool, room: Room) -> frozenset[str] | None:
        """The sizes that come out outside of their limits where a tool is the last that makes them, in a room, whoever
        was before; None where it can do nothing there."""
        if self.before and tool.id in self.old:
            return self.before.missed(tool, room)
        if self.narrow and self.question.layers is None and room.name not in self.question.between_walls:
            return self.narrow.missed(tool, room)
        place = (tool.id, room.name)
        if place not in self.misses:
            found = [frozenset(surely_missed(self.question, room.name, tool, one)) for one in self.ways(tool, room)]
            self.misses[place] = frozenset.intersection(*found) if found and not self._is_forbidden(tool) else None
        return self.misses[place]

    def missed_within(self, tool: Tool, room: Room, widest: float) -> frozenset[str] | None:
        """The same of a room under a lip that never comes out any wider than so [mm]."""
        if (missed := self.missed(tool, room)) is None:
            return None
        every = [set(surely_missed(self.question, room.name, tool, one, widest)) for one in self.ways(tool, room)]
        return missed.union(set.intersection(*every) if every else ())

    def misses_here(self, tool: Tool, room: Room) -> bool:
        """Whether any of the sizes that a tool misses as the last there is made in no other room."""
        return any(self._made_in[name] == [room.name] for name in self.missed(tool, room) or ())

    @cached_property
    def _made_in(self) -> dict[str, list[str]]:
        """By size the rooms in which it is made."""
        rooms = [room.name for room in self.question.outline.rooms]
        return {size.name: [name for name in rooms if makes_size(name, size)] for size in self.question.dimensions}

    def misses_corners(self, tool: Tool, room: Room) -> bool:
        """Whether a room's corners, seen from above, come out beyond the drawing where a tool is the largest in
        them, however near their limits walls are."""
        if self.narrow:
            return self.narrow.misses_corners(tool, room)
        place = (tool.id, room.name)
        if place not in self.missed_corners:
            self.missed_corners[place] = misses_corners(self.question, tool, room)
        return self.missed_corners[place]

    def manners(self, tool: Tool, room: Room, found: Sequence[PassBound]) -> tuple[Manners, ...]:
        """The manners in which a tool does a room alone, by the passes that each takes at the least."""
        left = leaves_edge(tool, self.question.outline, room)
        called = GIVEN_AWAY if left else self._verdict(tool, room)
        return tuple(self._alone(tool, room, one, called) for one in found if one.passes < inf)

    def _verdict(self, tool: Tool, room: Room) -> int:
        """The verdict that a tool in a room comes to at the least."""
        if leaves_corners(self.question, tool, room):
            return GIVEN_AWAY
        return DRAWN if calls_for(self.question, room.name, tool) else EXTRA

    def _alone(self, tool: Tool, room: Room, one: PassBound, called: int) -> Manners:
        careful, missed = least_said(self.question, room.name, tool, one)
        gives_away = missed or surely_leans(tool, one.levels) or ends_stand(
            self.question, self.limits, room, (tool,))
        verdict = GIVEN_AWAY if gives_away else max(called, EXTRA if one.levels > 1 else DRAWN)
        both = one.slow > 0 and tool.kind.buried  # of a mill under a lip CL2 says nothing
        warned = (both and self.stands(tool, "CL2")) + (one.levels > 2 and self.stands(tool, "FC2"))
        cautioned = (one.rubs and self.stands(tool, "SZ2")) or self._is_cautioned(tool, room, one.manner)
        return Manners(one, careful, missed, warned, cautioned, verdict)

    def stands(self, tool: Tool, rule: str) -> bool:
        """Whether a rule surely holds of a tool, whatever the owner's word is."""
        return not may_be(self.question.shop, tool.owned, rule)

    def _is_cautioned(self, tool: Tool, room: Room, manner: Manner) -> bool:
        """Whether a rule cautions against a tool in a room, whatever its passes. Of walls that are stepped none speaks
        otherwise for their being nearer their limits."""
        if manner is Manner.WIDE:
            manner = Manner.STEPPED
        if self.narrow:
            return self.narrow._is_cautioned(tool, room, manner)
        place = (tool.id, room.name, manner)
        if place not in self.cautioned:
            idle = Draft(self.question, (Job(tool, room.name, (), NOTHING, manner),))
            self.cautioned[place] = any(warning.grade == Grade.CAUTION for warning in judge(idle))
        return self.cautioned[place]

    def _is_forbidden(self, tool: Tool) -> bool:
        """Whether a rule keeps a tool from any work here, whatever its passes."""
        if tool.id not in self.forbidden:
            idle = Draft(self.question, (Job(tool, "", (), NOTHING, Manner.IDLE),))
            self.forbidden[tool.id] = bool(stops(idle))
        return self.forbidden[tool.id]

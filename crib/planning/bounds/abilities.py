"""What each tool can do in each room by itself, at the least: whoever else is there and whatever an hour is worth, that
stays so, and with more tools only theirs is new."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping, Sequence
from functools import cached_property
from math import inf

from crib.findings.finding import Grade
from crib.findings.verdicts import ANSWERS, Verdict
from crib.geometry.outline import Opening, Room
from crib.geometry.region import NOTHING, Region, union
from crib.light.hints import TYPE_CHECKING, TypeVar
from crib.light.records import dataclass, field, replace
from crib.light.tuples import NamedTuple
from crib.machining.draft import Draft
from crib.machining.ends import (
    corners_stay,
    ends_stand,
    has_corners,
    is_shut,
    is_shut_to_all,
    is_shut_under,
    kept_out_under,
    least_needed,
    leaves_corners,
    misses_corners,
    never_in,
    rubs_at_an_end,
)
from crib.machining.floor_edge import leaves_edge
from crib.machining.methods import begins, keeps_to_all, method_of, never_ends, pass_bounds, ways
from crib.machining.methods.base import Limits, PassBound
from crib.machining.methods.cuts import Job
from crib.machining.overruled import may_be
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Manner
from crib.planning.bounds.bare import Bare
from crib.planning.reckoning.rule_effects import RuleEffects
from crib.planning.told.verdict import calls_for
from crib.rules import judge, stops
from crib.rules.passes import never_opens
from crib.rules.sizes import least_said, surely_leans, surely_missed

if TYPE_CHECKING:
    from crib.planning.bounds.what_can_go import Together, Told

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
class Abilities:
    """Of some tools, what each can do in each room. `before`: the same of other tools; of those that are among these it
    stands. No tool is looked at in a room before somebody asks. `togethers`: what was told of the same metal;
    `spots`: see `Together`; `missed_by_all`: the verdict that every plan comes to at the least by its sizes, once that
    was asked."""

    question: Question
    tools: Sequence[Tool]
    limits: Limits
    before: Abilities | None = None
    narrow: Abilities | None = None
    found: dict[str, dict[int, Able]] = field(default_factory=dict)
    left: dict[str, list[Tool]] = field(default_factory=dict)
    likelies: dict[str, Sequence[Tool]] = field(default_factory=dict)
    passes: dict[tuple[int, str], tuple[PassBound, ...]] = field(default_factory=dict)
    misses: dict[tuple[int, str], frozenset[str] | None] = field(default_factory=dict)
    outside: dict[str, frozenset[int]] = field(default_factory=dict)
    needed: dict[str, float] = field(default_factory=dict)
    forbidden: dict[int, bool] = field(default_factory=dict)
    kept_out: dict[tuple[int, str], bool] = field(default_factory=dict)
    missed_by_all: int | None = None
    missed_corners: dict[tuple[int, str], bool] = field(default_factory=dict)
    cautioned: dict[tuple[int, str, Manner], bool] = field(default_factory=dict)
    togethers: dict[object, Together] = field(default_factory=dict)
    spots: list[Region] = field(default_factory=list)

    @cached_property
    def bare(self) -> Bare:
        """What is told of tools before they are made."""
        return Bare(self.question, self.limits)

    def of(self, room: Room) -> Mapping[int, Able]:
        """What the tools that can do anything in a room can do, by their numbers."""
        found = self._begun(room)
        for _ in self._looked_at(room):
            pass
        return found

    def is_ended(self, room: Room) -> bool:
        """Whether some tool that may make a size can end a room, and doesn't rub at a closed end: the rule CD1 forbids
        what another leaves clear, and no proof lets a face stand that such a one made."""
        is_ended = any(map(self._makes_size, self._begun(room).items())) or any(
            map(self._makes_size, self._looked_at(room)))
        return is_ended and self._may_be_begun(room)

    def _may_be_begun(self, room: Room) -> bool:
        """Whether some tool may be the first in a room: what goes before another goes beside a way that it has."""
        if method_of(room).begins is None:
            return True
        outline, limits = self.question.outline, self.limits
        return any(begins(tool, outline, room, limits) for tool in self.likely(room) if self._ways(tool, room))

    def _makes_size(self, found: tuple[int, Able]) -> bool:
        tool, able = self.by_number[found[0]], found[1]
        return able.helped or (able.ends and self._may_make_size(tool))

    def _may_make_size(self, tool: Tool) -> bool:
        return tool.can_finish and not any(
            rubs_at_an_end(self.question, tool, room) for room in self.question.outline.rooms)

    @property
    def can_be(self) -> bool:
        """Whether for every room there is some tool that can end it and that gets in, and to every corner some that
        gets there: without one nobody does."""
        rooms = self.question.outline.rooms
        return all(map(self.is_ended, rooms)) and not (
            any(map(self._is_shut, rooms)) or self.leave_corners or self._is_told)

    @property
    def _is_told(self) -> bool:
        """Whether it was told before of the same metal and the same tools that they leave what no owner lets stand."""
        is_waived = self.question.outline.is_waived
        known = {asked for asked, some in self.togethers.items() if not all(map(is_waived, some.asked.values()))}
        return bool(known) and self._asked_of in known

    def _is_shut(self, room: Room) -> bool:
        """Whether of those that make a size none gets into a room."""
        return self.question.layers is not None and (is_shut(self.question, room, self._able(room)) or is_shut_under(
            self.question, self.limits, room, self._able))

    def shut_out(self, room: Room) -> frozenset[int]:
        """The numbers of those that never get in a room between its ends, whoever of the others opens it."""
        if room.name not in self.outside:
            tools = [self.by_number[number] for number in self.of(room)]
            self.outside[room.name] = kept_out_under(self.question, self.limits, room, tools, self._able)
        return self.outside[room.name]

    def is_shut_to_all(self, draft: Draft, room: Room) -> bool:
        """Whether nobody gets in a room under a lip after what was done, but who opens it further."""
        return is_shut_to_all(draft, self.limits, room, lambda: self._needed(room))

    def _needed(self, room: Room) -> float:
        """How far each side of the middle a room under a lip must be opened for anybody who doesn't open it too."""
        if room.name not in self.needed:
            others = [self.of(other) for other in self.question.outline.rooms if other.opens(Opening.TOP)]
            tools = [self.by_number[number] for number in self.of(room) if number not in self.shut_out(room)]
            opens = any(tool.id in here for tool in tools for here in others)
            self.needed[room.name] = 0.0 if opens else least_needed(self.question, self.limits, room, tools)
        return self.needed[room.name]

    def _able(self, room: Room) -> Iterator[Tool]:
        """The tools that can do anything in a room, those first of which it is known."""
        yield from [self.by_number[number] for number in self._begun(room)]
        yield from (self.by_number[number] for number, _ in self._looked_at(room))

    def may_end(self, room: Room) -> bool:
        """The same told sooner, of passes alone: where none may, none does."""
        outline, limits = self.question.outline, self.limits
        return self._may_be_begun(room) and any(
            one.helped or (one.passes < inf and self._may_make_size(tool))
            for tool in self.likely(room) if not never_ends(tool, outline, room, limits)
            for one in self._ways(tool, room))

    def _begun(self, room: Room) -> dict[int, Able]:
        """What was found till now."""
        if room.name not in self.found:
            self.found[room.name] = self._standing(self.before.of(room)) if self.before else {}
            self.left[room.name] = [tool for tool in reversed(self.likely(room)) if tool.id not in self.old]
        return self.found[room.name]

    def likely(self, room: Room) -> Sequence[Tool]:
        """The tools that may do anything in a room, as far as limits tell, in their order: of thousands the others
        aren't looked at one by one."""
        if room.name not in self.likelies:
            self.likelies[room.name] = self.bare.in_order(self.tools, room)
        return self.likelies[room.name]

    def _standing(self, known: Mapping[int, T]) -> dict[int, T]:
        """Of what is known by the numbers of tools, what is of these."""
        return {number: one for number, one in known.items() if number in self.old}

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

    @cached_property
    def said(self) -> RuleEffects:
        """What the rules say of each tool that can do anything."""
        if self.narrow and self.question.layers is None:
            return self.narrow.said
        rooms = self.question.outline.rooms
        every = [self.of(room) for room in rooms]
        able = {tool.id: tool for tool in self.new if any(tool.id in here for here in every)}
        both = frozenset(number for number in able if all(here[number].both for here in every if number in here))
        known = self._standing(self.before.said.of) if self.before else {}
        return RuleEffects(self.question, able, both, known)

    @cached_property
    def together(self) -> Together:
        """What all of them leave, whatever they do."""
        able, asked = self._may_do, self._asked_of
        if asked not in self.togethers:
            fewer = self.before if self.before and len(self.old) == len(self.before.tools) else self.narrow
            from crib.planning.bounds.what_can_go import Together

            self.togethers[asked] = Together(self.question.outline, able, self.limits,
                                             fewer.together if fewer else None, told=self.told, begun=self._roughed,
                                             spots=self.spots)
        return self.togethers[asked]

    @property
    def is_asked_together(self) -> bool:
        """Whether it was asked before what all of them leave: a search that soon finds a plan has no use for it."""
        return "together" in self.__dict__

    @cached_property
    def _may_do(self) -> list[tuple[Tool, Room]]:
        """The tools that can do anything, each with a room in which it can."""
        return [(tool, room) for room in self.question.outline.rooms for tool in self.likely(room)
                if self.missed(tool, room) is not None and tool.id not in self.shut_out(room)]

    @property
    def _asked_of(self) -> object:
        """Of what metal and which tools it is told what they leave together."""
        able = tuple((tool.id, room.name) for tool, room in self._may_do)
        return self.question.outline, self.limits, self._roughed, able

    @cached_property
    def loosely(self) -> Together:
        """What those leave that keep to a room's limits, whatever they can do there: told before anybody's passes are
        counted. What these leave no plan takes, for whoever is in `together` is among them."""
        return self._loosely(self.narrow.loosely if self.narrow else None, lambda tool, room: True)

    @cached_property
    def as_called_for(self) -> Together | None:
        """The same of those that are called for in the very room that they are put to: what these leave is in no plan
        that comes out as drawn, for each of its jobs is such a one. None where others may go before them."""
        if self.question.has_corners or any(room.lean for room in self.question.outline.rooms):
            return None
        return self._loosely(self.narrow.as_called_for if self.narrow else None,
                             lambda tool, room: calls_for(self.question, room.name, tool))

    def _loosely(self, fewer: Together | None, counts: Callable[[Tool, Room], bool]) -> Together:
        from crib.planning.bounds.what_can_go import Together

        able = [(tool, room) for room in self.question.outline.rooms for tool in self.likely(room)
                if counts(tool, room) and not self._is_kept_out(tool, room)
                and keeps_to_all(tool, self.question.outline, room, self.limits)]
        return Together(self.question.outline, able, self.limits, fewer, told=self.told, begun=self._roughed,
                        spots=self.spots)

    @cached_property
    def _roughed(self) -> Region:
        """What mills may rough that are too round to do more."""
        return union(one.job.removed for one in self.question.roughers)

    @cached_property
    def as_drawn(self) -> Together:
        """What those leave with which a plan may give nothing away: whoever else goes round a room's corners leaves
        them too round, whatever others do there, unless it only roughs."""
        from crib.planning.bounds.what_can_go import Together

        every = self.together
        able = [(tool, room) for tool, room in every.able if not leaves_corners(self.question, tool, room)]
        return every if len(able) == len(every.able) else Together(self.question.outline, able, self.limits,
                                                                   told=self.told, begun=self._roughed)

    @cached_property
    def leave_corners(self) -> bool:
        """Whether they leave something in a room's round corners, seen from above, that no owner lets stand, even where
        all is gone that may be."""
        return self._leave_corners(self.question.outline.most)

    @cached_property
    def ever_leave_corners(self) -> bool:
        """The same with no more gone than they can ever clear."""
        return self.question.has_corners and (self.leave_corners or self._leave_corners(self.together.ever))

    def _leave_corners(self, gone: Region) -> bool:
        if not self.question.has_corners:
            return False  # no tool is made to tell it
        rooms = self.question.outline.rooms
        some = [tool for tool in self.tools if not all(self._is_kept_out(tool, room) for room in rooms)]
        tallest = sorted(some, key=lambda tool: -tool.form.height)
        return corners_stay(self.question, self.limits, (tool for tool in tallest if any(
            self.missed(tool, room) is not None for room in rooms)), gone)

    @cached_property
    def told(self) -> Told:
        """What is known of the metal itself, from whoever was asked about the same."""
        from crib.planning.bounds.what_can_go import Told

        alike = self.before and self.before.limits == self.limits and (
            self.before.question.outline == self.question.outline)
        return self.before.told if self.before and alike else Told()

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

    def _ways(self, tool: Tool, room: Room) -> tuple[PassBound, ...]:
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
            found = [frozenset(surely_missed(self.question, room.name, tool, one)) for one in self._ways(tool, room)]
            self.misses[place] = frozenset.intersection(*found) if found and not self._is_forbidden(tool) else None
        return self.misses[place]

    def missed_within(self, tool: Tool, room: Room, widest: float) -> frozenset[str] | None:
        """The same of a room under a lip that never comes out any wider than so [mm]."""
        if (missed := self.missed(tool, room)) is None:
            return None
        every = [set(surely_missed(self.question, room.name, tool, one, widest)) for one in self._ways(tool, room)]
        return missed.union(set.intersection(*every) if every else ())

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

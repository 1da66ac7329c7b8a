"""What tools can do together, at the least, from what each can do by itself: whether each room is ended by somebody,
who gets in, what all of them leave."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import cached_property
from math import inf

from crib.geometry.outline import Opening, Room
from crib.geometry.region import NOTHING, Region, union
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass, field
from crib.machining.draft import Draft
from crib.machining.ends import (
    corners_stay,
    is_shut,
    is_shut_to_all,
    is_shut_under,
    kept_out,
    least_needed,
    leaves_corners,
    rubs_at_an_end,
)
from crib.machining.methods import begins, clear, keeps_to_all, method_of, never_ends
from crib.machining.tool import Tool
from crib.planning.bounds.each_tool import Able, EachTool
from crib.planning.reckoning.rule_effects import RuleEffects
from crib.planning.told.verdict import calls_for

if TYPE_CHECKING:
    from crib.planning.bounds.what_can_go import Together, Told


@dataclass
class Abilities(EachTool):
    """Of some tools, what each can do, and what follows of all of them. `togethers`: what was told of the same metal;
    `spots`: see `Together`; `missed_by_all`: the verdict that every plan comes to at the least by its sizes, once that
    was asked."""

    outside: dict[str, frozenset[int]] = field(default_factory=dict)
    needed: dict[str, float] = field(default_factory=dict)
    missed_by_all: int | None = None
    togethers: dict[object, Together] = field(default_factory=dict)
    spots: list[Region] = field(default_factory=list)

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
        return any(begins(tool, outline, room, limits) for tool in self.likely(room) if self.ways(tool, room))

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
        if self.question.layers is None:
            return frozenset()  # nobody is looked at to tell it
        if room.name not in self.outside:
            tools = [self.by_number[number] for number in self.of(room)]
            self.outside[room.name] = kept_out(self.question, self.limits, room, tools, self._able)
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
            for one in self.ways(tool, room))

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
        if self.narrow:
            known |= self.narrow.said.of_those(able, both)
            able = {number: tool for number, tool in able.items() if number not in known}
        return RuleEffects(self.question, able, both, known)

    @cached_property
    def together(self) -> Together:
        """What all of them leave, whatever they do."""
        able, asked = self._may_do, self._asked_of
        if asked not in self.togethers:
            fewer = self.before if self.before and len(self.old) == len(self.before.tools) else self.narrow
            from crib.planning.bounds.what_can_go import Together

            self.togethers[asked] = Together(self.question.outline, able, self.limits,
                                             fewer.together if fewer else None, told=self.told, begun=self.roughed,
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
        return self.question.outline, self.limits, self.roughed, able

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
        return Together(self.question.outline, able, self.limits, fewer, told=self.told, begun=self.roughed,
                        spots=self.spots)

    @cached_property
    def roughed(self) -> Region:
        """What mills may rough that are too round to do more."""
        return union(one.job.removed for one in self.question.roughers)

    @cached_property
    def as_drawn(self) -> Together:
        """What those leave with which a plan may give nothing away: whoever else goes round a room's corners leaves
        them too round, whatever others do there, unless it only roughs, and whoever clears a room at once and misses a
        size there does so."""
        from crib.planning.bounds.what_can_go import Together

        every = self.together
        able = [(tool, room) for tool, room in every.able
                if not (leaves_corners(self.question, tool, room) or self.misses_at_once(tool, room))]
        return every if len(able) == len(every.able) else Together(self.question.outline, able, self.limits,
                                                                   told=self.told, begun=self.roughed)

    def misses_at_once(self, tool: Tool, room: Room) -> bool:
        """Whether a tool misses a size in a room as the last there, which it is if it does anything: in each manner it
        clears a room that is open at the top with its first cut, and nobody has work in a room that is clear."""
        if not room.opens(Opening.TOP) or room.lean or room.rounded or room.hollow or self.question.has_corners:
            return False
        if not self.misses_here(tool, room):
            return False
        outline = self.question.outline
        jobs = clear(tool, outline, room, NOTHING, self.limits)
        return bool(jobs) and all(outline.is_waived(outline.rest(room, job.removed)) for job in jobs)

    @cached_property
    def leave_corners(self) -> bool:
        """Whether they leave something in a room's round corners, seen from above, that no owner lets stand, even where
        all is gone that may be; with walls nearer their limits no more stays than at their aim."""
        return (self.narrow is None or self.narrow.leave_corners) and self._leave_corners(self.question.outline.most)

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

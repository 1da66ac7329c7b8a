"""What is counted of whoever comes into a draft, and of whoever must still come: what it costs to put them up and to
change what holds them, what the rules say of them, which are alike."""

from __future__ import annotations

from collections.abc import Hashable, Sequence
from functools import cached_property

from crib.cutters.alike import alike
from crib.findings.finding import Finding
from crib.findings.message import Text
from crib.geometry.outline import Room
from crib.light.records import dataclass, field
from crib.light.tuples import NamedTuple
from crib.machining.tool import Tool
from crib.planning.bounds.abilities import Abilities
from crib.planning.bounds.in_one_room import InOneRoom, Shares
from crib.planning.bounds.pareto import ParetoFront
from crib.planning.reckoning.cost import wear_share


class Branch(NamedTuple):
    """A tool that could go on, and what is still to come at the least with it next; others that are its twins: alike in
    all that counts and as dear, so that what comes of them is the same but for the number."""

    number: int
    tool: Tool
    to_come: ParetoFront
    twins: tuple[Branch, ...] = ()


@dataclass
class Comers:
    """The tools that can do anything in some room. `new`: those of which a plan must have one at least."""

    abilities: Abilities
    shares: Shares
    in_one_room: InOneRoom
    new: frozenset[int]
    ups: dict[int, float] = field(default_factory=dict)
    least_ups: dict[str, float] = field(default_factory=dict)
    least_saids: dict[str, dict[frozenset[Finding], float]] = field(default_factory=dict)
    held: dict[tuple[int, Text], tuple[list[Branch], list[Branch]]] = field(default_factory=dict)
    gists: dict[int, Hashable] = field(default_factory=dict)

    def _able(self, room: Room) -> list[Tool]:
        """Those that can do anything in a room."""
        return [self.abilities.by_number[number] for number in self.shares[room.name]]

    def up(self, tool: Tool) -> float:
        """What it costs to put a tool up, touch it off and use it."""
        if tool.id not in self.ups:
            self.ups[tool.id] = self._putting_up(tool)
        return self.ups[tool.id]

    def _putting_up(self, tool: Tool) -> float:
        question, price = self.abilities.question, tool.owned.price or 0.0
        wear: float = getattr(question.shop, wear_share(tool.kind.buried, question.material)[0])
        return self.in_one_room.money(question.shop.cutter_minutes + tool.touch_minutes) + wear * price

    def least_up(self, rooms: Sequence[Room]) -> float:
        """What it costs at the least to put up whoever does anything in some rooms: for each of them somebody comes who
        can, and for all it may be the same."""
        for room in rooms:
            if room.name not in self.least_ups:
                self.least_ups[room.name] = min(map(self.up, self._able(room)), default=self.in_one_room.put_up)
        return max((self.least_ups[room.name] for room in rooms), default=0.0)

    def most_left_by(self, rooms: Sequence[Room], said: frozenset[Finding]) -> float:
        """What is left at the most of the chance where one tool may do several rooms, by what rules say of it beyond
        what was `said`: for each of them somebody comes who can, and for all it may be the same."""
        if len(rooms) < 2:
            return 1.0  # there it is told of each who can
        left_of = self.abilities.said.left_of
        return min(max((own * left_of(shared - said) for shared, own in self._least_said(room).items()), default=1.0)
                   for room in rooms)

    def _least_said(self, room: Room) -> dict[frozenset[Finding], float]:
        """By what is said of many alike who can do anything in a room, what is left at the most by what is said of each
        by its name."""
        if room.name not in self.least_saids:
            found: dict[frozenset[Finding], float] = {}
            for tool in self._able(room):
                own, shared = self.abilities.said.of[tool.id]
                found[shared] = max(found.get(shared, 0.0), own)
            self.least_saids[room.name] = found
        return self.least_saids[room.name]

    @cached_property
    def change(self) -> float:
        """What it costs to change what holds a tool: a plan pays it once for each tool that is held otherwise than the
        one before it, whatever goes between two that are held otherwise."""
        return self.in_one_room.money(self.abilities.question.shop.collet_minutes)

    def by_holder(self, listed: list[Branch], label: Text) -> tuple[list[Branch], list[Branch]]:
        """Of some tools those that this holds, and the others, each in their order; kept as long as the list is."""
        place = id(listed), label
        if place not in self.held:
            same = [one.tool.held.label == label for one in listed]
            self.held[place] = ([one for one, is_same in zip(listed, same, strict=True) if is_same],
                                [one for one, is_same in zip(listed, same, strict=True) if not is_same])
        return self.held[place]

    def wants_other_holder(self, tool: Tool, rooms: Sequence[Room]) -> bool:
        """Whether of some rooms there is one that nobody can do anything in who is held as a tool is: so that whoever
        does, whenever that comes, isn't."""
        return any(tool.held.label not in self._holders[room.name] for room in rooms)

    @cached_property
    def _holders(self) -> dict[str, frozenset[Text]]:
        """By room, what holds those that can do anything there."""
        tools = self.abilities.by_number
        return {name: frozenset(tools[number].held.label for number in found) for name, found in self.shares.items()}

    def once_of_twins(self, found: Sequence[Branch]) -> list[Branch]:
        """Of tools that are twins the first, with the others."""
        every: dict[Hashable, list[Branch]] = {}
        for one in found:
            every.setdefault(self._gist(one.tool), []).append(one)
        return [one._replace(twins=tuple(twins)) if twins else one for one, *twins in every.values()]

    def _gist(self, tool: Tool) -> Hashable:
        """All that is the same of twins; a new tool is none of one that isn't."""
        if tool.id not in self.gists:
            own, is_new = tool.owned, tool.id in self.new
            self.gists[tool.id] = is_new, own.price, alike(own), tool.known is own or alike(tool.known)
        return self.gists[tool.id]

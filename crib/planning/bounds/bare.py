"""What is told of a tool before it is made: of a large crib most break a limit of every room by their bare sizes."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from crib.geometry.outline import Room
from crib.geometry.region import Region
from crib.light.records import dataclass, field
from crib.machining.batches import Batch
from crib.machining.gate import Gate
from crib.machining.methods import can_try, gate, method_of
from crib.machining.methods.base import Limits, Site
from crib.machining.question import Question
from crib.machining.sizes import Sizes
from crib.machining.tool import Tool

_MANY = 30
"""From so many on tools are looked at together."""


@dataclass
class Bare:
    """What the rooms of a question ask of bare sizes, where so much is `allowed`; `cleared`: what is gone before each,
    all that may be where it isn't said."""

    question: Question
    allowed: Limits
    cleared: Mapping[str, Region] = field(default_factory=dict)
    gates: dict[str, Gate | None] = field(default_factory=dict)

    def breaks_limit(self, tool: Tool, room: Room) -> bool:
        """Whether a tool surely takes nothing out of a room: it moves otherwise, or its teeth break a limit there."""
        if not can_try(tool, room):
            return True
        door, sizes = self._gate(room), self._sizes(tool)
        return door is not None and sizes is not None and door.limit(sizes) > 0

    def falls_short(self, tool: Tool, room: Room) -> bool:
        """Whether a tool surely doesn't clear a room."""
        if not can_try(tool, room):
            return True
        door, sizes = self._gate(room), self._sizes(tool)
        return door is not None and sizes is not None and door.shortfall(sizes) > 0

    def in_order(self, tools: Sequence[Tool], room: Room) -> Sequence[Tool]:
        """Of many tools, in their order, those that may take anything out of a room, as far as limits tell; all of a
        few."""
        return tools if len(tools) < _MANY else [tools[place] for place in sorted(self._not_short(tools, room))]

    def _not_short(self, tools: Sequence[Tool], room: Room) -> Iterator[int]:
        """Where they stand among all."""
        door, method, shop = self._gate(room), method_of(room), self.question.shop
        for batch in self.question.sizing.batches(tools):
            kind = batch.kind
            if kind is None or (method.motion not in kind.motions and method.also not in kind.motions):
                continue
            is_told = door and batch.is_bare and not (shop.overruled or shop.this_time or batch.one.overruled)
            shorts = door.limits(batch) if door and is_told else [0.0] * len(batch.places)
            yield from (place for place, short in zip(batch.places, shorts, strict=True) if not short)

    def may_clear(self, tools: Sequence[Tool], room: Room) -> Iterator[Tool]:
        """Those of some tools that may clear a room, in their order: of which `falls_short` doesn't tell that they
        don't."""
        method, sizing = method_of(room), self.question.sizing
        places: list[int] = []
        for batch in sizing.batches(tools):
            kind = batch.kind
            if kind is not None and (method.motion in kind.motions or method.also in kind.motions):
                places += self._places(batch, room)
        return (tools[place] for place in sorted(places))

    def _places(self, batch: Batch, room: Room) -> Sequence[int]:
        """The places of those of a batch."""
        door, shop = self._gate(room), self.question.shop
        if door is None or not batch.is_bare or shop.overruled or shop.this_time or batch.one.overruled:
            return batch.places
        from crib.machining.columns import in_the_way

        unknown = [place for place, across in zip(batch.places, batch.diameters, strict=True) if not across]
        within = [at for at, short in enumerate(door.limits(batch)) if not short and batch.diameters[at]]
        shorts = in_the_way(door, self.question.sizing, batch, within)
        return unknown + [batch.places[at] for at, short in zip(within, shorts, strict=True) if not short]

    def is_too_fast(self, tool: Tool) -> bool:
        """Whether the slowest that the spindle goes is surely too fast for a tool."""
        sizes = self._sizes(tool)
        return sizes is not None and self.question.sizing.is_too_fast(tool.known, tool.kind)

    def _gate(self, room: Room) -> Gate | None:
        if room.name not in self.gates:
            outline = self.question.outline
            site = Site(outline, room, self.allowed, self.cleared.get(room.name, outline.most))
            self.gates[room.name] = gate(site)
        return self.gates[room.name]

    def _sizes(self, tool: Tool) -> Sizes | None:
        """The sizes of a tool; None where these don't tell, or the owner's word may go before a limit."""
        shop = self.question.shop
        if tool.kind.stem is None or shop.overruled or shop.this_time or tool.owned.overruled:
            return None
        return self.question.sizing.of(tool.known)

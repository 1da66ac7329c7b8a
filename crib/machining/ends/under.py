"""Who gets under a lip between closed ends: told of the widest that what opens the room is ever cut, before it is."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from math import sqrt

from crib.geometry.layers import Layers
from crib.geometry.outline import Opening, Room
from crib.geometry.rounded_box import RoundedBox
from crib.handbook.bites import MOST_ALLOWANCE_MM
from crib.light.tuples import NamedTuple
from crib.machining.draft import Draft
from crib.machining.ends.entry import SPARE, let_in_by_a_hole
from crib.machining.methods import stands_in
from crib.machining.methods.base import Limits
from crib.machining.question import Question
from crib.machining.sizes import Sizes
from crib.machining.tool import Tool
from crib.units import NM, nm

_FINE = 300
"""What is no more than this isn't counted [nm]: shapes are held to half a nanometre, ways are proved to fifty."""

_PLAIN = 1_000
"""What stands out more than this plainly does [nm]."""

Able = Callable[[Room], Iterable[Tool]]
"""The tools that can do anything in a room, one by one."""


class Under(NamedTuple):
    """A room under a lip, and the one room that opens it from above."""

    question: Question
    limits: Limits
    room: Room
    opening: Room

    @staticmethod
    def of(question: Question, limits: Limits, room: Room) -> Under | None:
        """The room with what opens it; None where more than one room does, or something but entry holes is open before.
        """
        rooms, layers = question.outline.rooms, question.layers
        openings = [other for other in rooms if other.opens(Opening.TOP)]
        is_plain = len(openings) == 1 and not any(one.across or one.lean or one.opens(Opening.LEFT, Opening.RIGHT)
                                                  for one in rooms)
        if room in openings or not is_plain or layers is None or any(
                one.shape not in layers.holes for one in layers.before):
            return None
        return Under(question, limits, room, openings[0])

    @property
    def most(self) -> int:
        """How far each side of the middle the lip may be cut away at the most [nm]."""
        middle = self.opening.aim.middle
        return max(self.opening.most.right - middle, middle - self.opening.most.left)

    def needs(self, tool: Tool) -> float:
        """How far each side of the middle the lip must be cut away at the least for a tool to do anything under it
        [nm].

        It is lowered in the middle, or in a hole, and each of its jobs passes over all that the room must come out as,
        so that some pass is as far out as that lets it; what of it stands in the lip's height there, a neck with its
        room, has no more than what was opened before, where no hole is. How high its levels are hangs on nothing that
        others did.
        """
        radius, middle = tool.form.radius, self.room.aim.middle
        off = self._off_the_holes(tool)
        widest = max((max(one.high - middle, middle - one.low) + one.radius for one in self._must
                      if not off or max(one.right, -one.left) >= off), default=0)
        lowered = 0 if let_in_by_a_hole(self._layers, radius) else radius + SPARE
        return max(lowered, max(0, widest - radius) + self._least_beside_the_lip(tool)) - _FINE

    def cut_away(self, draft: Draft) -> int:
        """How far each side of the middle the lip is cut away by now [nm]."""
        middle = self.opening.aim.middle
        return max((abs(cut.x - middle) + job.tool.form.radius for job in draft.jobs if job.room == self.opening.name
                    for cut in job.cuts), default=0)

    def _off_the_holes(self, tool: Tool) -> int:
        """From how far along no tool that cuts there stands in a hole with anything of it [nm]; nought where there is
        no hole."""
        ends = (max(hole.right, -hole.left) + hole.radius for hole in self._layers.holes)
        return max((end + self.beside(tool) + tool.form.radius for end in ends), default=0)

    @property
    def _layers(self) -> Layers:
        assert self.question.layers is not None
        return self.question.layers

    def is_too_short(self, tool: Tool) -> bool:
        """Whether a room surely doesn't come out as long as it must with a tool: its axis goes no farther along than
        what of it stands in the lip's height is let by what opens the room."""
        layers = self._layers
        middle, opened = layers.ends[self.room.name].middle, layers.ends[self.opening.name]
        longest = max((max(one.right - middle, middle - one.left) + one.radius for one in self._must), default=0)
        run = min(opened.right - middle, middle - opened.left) - self._least_beside_the_lip(tool)
        return max(0, longest - tool.form.radius) - _FINE > run

    @property
    def short_ends(self) -> Iterator[tuple[float, float]]:
        """The corners of what is asked for under the lip, seen from above, that an owner may let stand, where what
        opens the room, or a hole, doesn't come near them."""
        layers, opening = self._layers, self.opening
        kept, ends, (left, _, right, _) = layers.kept, layers.ends[opening.name], opening.most
        half = ends.most // 2
        gone = (RoundedBox(ends.middle - half, left, ends.middle + half, right, 0), *layers.holes)
        for low, high, shape in layers.least if kept is not None else ():
            out = shape.radius * sqrt(0.5)
            at = shape.right + out, shape.high + out
            if (low, high) == (self.room.least.low, self.room.least.high) and all(
                    one.off(*at) > _PLAIN for one in gone):
                yield at

    def stands_off(self, tool: Tool, at: tuple[float, float]) -> bool:
        """Whether a tool surely doesn't come to a place, seen from above: its axis goes no farther along than where the
        room is to end less its radius, and no farther across than where a wall is aimed."""
        ends, aim, radius = self._layers.ends[self.room.name], self.room.aim, tool.form.radius
        along, across = max(0, ends.half - radius), max(0, aim.width // 2 + 1 - radius)
        middle = aim.middle
        return RoundedBox(ends.middle - along, middle - across, ends.middle + along, middle + across, radius).off(
            *at) > _PLAIN

    @property
    def _must(self) -> Iterator[RoundedBox]:
        """What of the room must go, seen from above."""
        room = self.room
        return (one.shape for one in self._layers.must if one.low < room.least.high and one.high > room.least.low)

    def _least_beside_the_lip(self, tool: Tool) -> int:
        """How much room what doesn't cut of a tool asks for from its axis where the lip is, at the height at which that
        is least [nm]."""
        outline = self.question.outline
        stands = stands_in(tool, outline, self.room, self.limits, outline.most)
        necks = [self._beside_the_lip(tool, stand.low) if stand.low == stand.high else 0 for stand in stands]
        return min(necks, default=0)

    def _beside_the_lip(self, tool: Tool, z: int) -> int:
        """How much room what doesn't cut of a tool at a height asks for from the axis, where the lip is [nm]."""
        layers, room = self._layers, self.room
        tallest = room.height[1] if room.height else room.most.height
        low = max(room.most.high, room.aim.low + tallest)
        return max((part.widest + part.side for part in tool.form.clear
                    if z + part.high + part.end > low + _FINE and z + part.low - part.end < layers.top - _FINE),
                   default=0)

    def runs(self, radius: int, beside: int) -> int:
        """How far each way from the middle every pass of a tool goes at the least, where nobody was in the room before
        [nm]; `beside`: how much room what doesn't cut of it asks for from its axis. Nought where a hole is in the
        middle.

        Whatever opens the room is no wider than the lip may be cut away, and goes so near to both of its ends, but for
        what is left to finish there. So between these places the metal that stands beside is the same: what clears it
        in the middle clears it as far as it stays between them.
        """
        layers = self._layers
        if layers.holes:
            return 0
        opened = layers.ends[self.opening.name].half - self.most - nm(MOST_ALLOWANCE_MM)
        return max(0, min(layers.ends[self.room.name].half - radius, opened - beside))

    def beside(self, tool: Tool) -> int:
        """How much room what doesn't cut of a tool asks for from its axis at the most, under the top [nm]."""
        top, low = self._layers.top, self.room.aim.low
        return max((part.widest + part.side for part in tool.form.clear if low + part.low - part.end < top), default=0)

    def opened(self, able: Able) -> Iterator[int]:
        """How far each side of the middle each of some tools cuts the lip away at the most [nm]."""
        outline, middle = self.question.outline, self.opening.aim.middle
        for tool in able(self.opening):
            stands = stands_in(tool, outline, self.opening, self.limits, outline.most)
            yield max((max(one.right - middle, middle - one.left) + tool.form.radius for one in stands), default=0)


def ends_stand(question: Question, limits: Limits, room: Room, tools: Sequence[Tool]) -> bool:
    """Whether something stands at the ends of a room under a lip whichever of some tools are there, as they all are."""
    under = Under.of(question, limits, room)
    return under is not None and any(all(under.stands_off(tool, at) for tool in tools) for at in under.short_ends)


def least_run(question: Question, limits: Limits, tool: Tool, room: Room) -> int:
    """How far each way from the middle every pass of a disc in a room goes at the least, where nobody was there before
    [nm]; nought where that isn't told."""
    under = Under.of(question, limits, room)
    return under.runs(tool.form.radius, under.beside(tool)) if under and tool.kind.buried else 0


def least_run_of(question: Question, limits: Limits, room: Room, sizes: Sizes) -> int:
    """The same told of the bare sizes of a disc."""
    under = Under.of(question, limits, room)
    if under is None or question.layers is None:
        return 0
    deep = (question.layers.top - room.aim.low) / NM + _HAIR_MM
    beside = max((beside for low, _, beside, end, _ in sizes.pieces if low - end < deep), default=0.0)
    return under.runs(nm(sizes.diameter / 2) + _FINE, nm(beside) + _FINE)


_HAIR_MM = 1e-5


def is_never_in(question: Question, limits: Limits, tool: Tool, room: Room) -> bool:
    """Whether a tool never gets in a room under a lip, not even where what opens it is as wide as it may be, or never
    goes as far along there as it must."""
    under = Under.of(question, limits, room)
    return under is not None and (under.needs(tool) > under.most or under.is_too_short(tool))


def is_not_in_yet(draft: Draft, limits: Limits, tool: Tool, room: Room) -> bool:
    """Whether a tool surely doesn't get in a room under a lip now, for want of a wider opening."""
    under = Under.of(draft.question, limits, room)
    return under is not None and under.needs(tool) > under.cut_away(draft)


def least_needed(question: Question, limits: Limits, room: Room, tools: Iterable[Tool]) -> float:
    """How far each side of the middle what opens a room under a lip must be cut away for any of some tools [nm]."""
    under = Under.of(question, limits, room)
    return min(map(under.needs, tools), default=0.0) if under else 0.0


def is_narrower(draft: Draft, limits: Limits, room: Room, needed: float) -> bool:
    """Whether what opens a room under a lip isn't cut away so far each side of the middle yet [nm]."""
    under = Under.of(draft.question, limits, room)
    return under is not None and under.cut_away(draft) < needed


def is_shut(question: Question, limits: Limits, room: Room, able: Able) -> bool:
    """Whether none of the tools that can do anything in a room under a lip ever gets in there, whoever of them opens it
    before."""
    under = Under.of(question, limits, room)
    if under is None:
        return False
    widest, opened = 0.0, under.opened(able)
    for tool in able(room):
        if (needs := under.needs(tool)) > under.most:
            continue
        while widest < needs and (more := next(opened, None)) is not None:
            widest = max(widest, more)
        if needs <= widest:
            return False
    return True


def kept_out(question: Question, limits: Limits, room: Room, tools: Iterable[Tool], able: Able) -> frozenset[int]:
    """Of some tools the numbers of those that never get in a room under a lip, whoever of those that are able opens it
    before."""
    under = Under.of(question, limits, room)
    if under is None:
        return frozenset()
    needs = sorted(((under.needs(tool), tool.id) for tool in tools), reverse=True)
    widest, opened = 0.0, under.opened(able)
    while needs and widest < needs[0][0] and (more := next(opened, None)) is not None:
        widest = max(widest, more)
    return frozenset(number for need, number in needs if need > widest)

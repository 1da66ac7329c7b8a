"""What it takes at the least to go under flanks with a disc before another cutter, told of the discs that there are."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from math import inf

from crib.cutters.base import Motion
from crib.geometry.outline import Opening, Outline, Room
from crib.geometry.region import NOTHING
from crib.handbook.bites import bites_needed
from crib.handbook.dovetails import LAST_BITE_MM
from crib.light.records import dataclass, field
from crib.light.tuples import NamedTuple
from crib.machining.draft import Draft
from crib.machining.methods.along_a_flank import least_metal
from crib.machining.methods.base import Attempt, Limits
from crib.machining.methods.cuts import Job, side_bites
from crib.machining.methods.under_a_flank import flanks, may_step, most_steps
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Manner
from crib.planning.cost import wear_share
from crib.planning.minutes import pass_minutes
from crib.rules import stops
from crib.units import nm


class Taken(NamedTuple):
    """So many steps of a disc with so many passes on the floor: the minutes at the least, the least metal that stays
    under a step, and the most by which there is less than before [nm]."""

    minutes: float
    stays: int
    less: int

    def left(self, metal: int) -> int:
        """What is left at the floor of so much metal at the least."""
        return max(self.stays, metal - self.less)


@dataclass
class Discs:
    """The discs among some tools that may take steps first for a question, and what they take of each room. `leasts`:
    what each costs at the least before others, by what that hangs on."""

    question: Question
    tools: Sequence[Tool]
    fronts: dict[tuple[str, bool], list[Taken]] = field(default_factory=dict)
    leasts: dict[tuple[object, ...], list[tuple[float, int, Tool]]] = field(default_factory=dict)

    @cached_property
    def all(self) -> Sequence[Tool]:
        """Every disc that no rule forbids."""
        question = self.question
        if question.layers is not None or not flanks(question.outline):
            return ()
        return [tool for tool in self.tools if may_step(tool) and not stops(
            Draft(question, (Job(tool, "", (), NOTHING, Manner.STEPS_FIRST),)))]

    def least(self, tool: Tool, room: Room, levels: int, allowed: Limits) -> float:
        """The least money that a room takes with a tool after the steps of some disc; infinite where there is none."""
        question = self.question
        if Motion.FLANK not in tool.kind.motions or not self.all or room not in flanks(question.outline):
            return inf
        metal = least_metal(Attempt(tool, question.outline, room, allowed))
        each = pass_minutes(tool, question.feature.length) * question.feature.number
        minutes = min((one.minutes + fewest(room) * each * bites(tool, one.left(metal))
                       for one in self._front(room, levels == 1)), default=inf) + (levels - 1) * each
        full, easy = (float(getattr(question.shop, wear_share(buried, question.material)[0]))
                      for buried in (True, False))
        spared = max(0.0, full - easy) * (tool.owned.price or 0.0) / len(flanks(question.outline))
        return minutes / 60 * question.shop.hour_rate - spared

    def _front(self, room: Room, is_one_level: bool) -> list[Taken]:
        """What none takes more of in as little time."""
        place = room.name, is_one_level
        if place not in self.fronts:
            best = list[Taken]()
            for one in sorted(self._taken(room, is_one_level)):
                if not any(other.stays <= one.stays and other.less >= one.less for other in best):
                    best.append(one)
            self.fronts[place] = best
        return self.fronts[place]

    def _taken(self, room: Room, is_one_level: bool) -> Iterator[Taken]:
        """What each disc takes in a room, in each number of steps and of passes on the floor. One disc may do all the
        rooms."""
        question, shop = self.question, self.question.shop
        for disc in self.all:
            up = (shop.cutter_minutes + disc.touch_minutes) / len(flanks(question.outline))
            each = pass_minutes(disc, question.feature.length) * question.feature.number
            for count in range(1, 1 + min(question.limits.most_levels, most_steps(disc, room))):
                stays, most = left_by(disc, room, count)
                free = at_once(question.outline, disc, room)
                for passes in range(1, 1 + max(1, bites_needed(most, disc.side))):
                    less = passes * disc.side + free
                    less = min(less, most) if is_one_level else less
                    yield Taken(up + (count - 1 + fewest(room) * passes) * each, stays, less)


def left_by(disc: Tool, room: Room, count: int) -> tuple[int, int]:
    """How much so many steps of a disc leave under them, and by how much there is less at the most over them."""
    assert room.lean is not None
    top = disc.form.height + (count - 1) * (disc.form.height - disc.overlap)
    return room.lean.over(disc.form.height) + disc.finish, room.lean.over(top)


def at_once(outline: Outline, disc: Tool, room: Room) -> int:
    """How far beyond what opens a room a disc wider than that cuts at each side in the middle."""
    if fewest(room) == 1:
        return 0
    opening = min((other.least.right for other in outline.rooms if other.opens(Opening.TOP)), default=0)
    return max(0, disc.form.radius - opening)


def passes_of(disc: Tool, room: Room, count: int, metal: int, left: int) -> int:
    """The fewest passes of so many steps of a disc, so that of so much metal no more is left at the bottom of any."""
    assert room.lean is not None
    step, sides = disc.form.height - disc.overlap, fewest(room)
    return sum([max(1, sides * bites_needed(max(0, metal - room.lean.over(k * step) - left), disc.side))
                for k in range(count)])


def most_in(tool: Tool, passes: int) -> int:
    """The most metal that a tool takes of a flank in so many passes."""
    last = nm(LAST_BITE_MM) if tool.can_finish else 0
    return max(2 * last, (passes - 1) * tool.side + (last or tool.side))


def fewest(room: Room) -> int:
    """At how many sides a room has a flank."""
    return 1 if room.opens(Opening.LEFT) or room.opens(Opening.RIGHT) else 2


def bites(tool: Tool, metal: int) -> int:
    """In how many passes a tool does a flank with so much metal."""
    return len(side_bites(metal, tool.side, nm(LAST_BITE_MM) if tool.can_finish else 0))

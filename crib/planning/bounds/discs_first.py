"""What it takes at the least to go under flanks with a disc before another cutter, told of the discs that there are."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import cached_property
from math import inf

from crib.cutters import kind_of
from crib.cutters.base import Motion
from crib.findings.finding import Finding, Grade
from crib.geometry.outline import Opening, Outline, Room
from crib.geometry.region import NOTHING
from crib.handbook.bites import bites_needed
from crib.handbook.dovetails import LAST_BITE_MM
from crib.light.records import dataclass, field
from crib.light.tuples import NamedTuple
from crib.machining.draft import Draft
from crib.machining.methods.base import Attempt, Limits
from crib.machining.methods.cuts import GRAIN, Job, side_bites
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.tools import sieved
from crib.machining.words import Manner
from crib.planning.reckoning.cost import chance_of, wear_share
from crib.planning.reckoning.minutes import pass_minutes
from crib.rules import judge, stops
from crib.units import nm

Said = Counter[tuple[str, Grade]]
"""How often something is said that makes scrap likelier, or forbids it, by rule and grade."""


class Steps(NamedTuple):
    """Some steps of a disc under the flank of a room: the minutes to put it up and of each pass, the least metal that
    stays under a step, by how much there is less at the most over all of them, how far beyond what opens the room it
    cuts at once, and by how much there is less at the bottom of each step [nm]."""

    disc: Tool
    up: float
    each: float
    stays: int
    over: int
    free: int
    falls: tuple[int, ...]

    @property
    def many(self) -> int:
        """How many there are."""
        return len(self.falls)

    def passes(self, metal: int, left: int, sides: int) -> int:
        """The fewest passes of the disc so that of so much metal no more is left at the bottom of any step."""
        side, most = self.disc.side, metal - self.free - left
        return sum([max(1, sides * bites_needed(max(0, most - fall), side)) for fall in self.falls])

    def stays_of(self, metal: int, levels: int) -> int:
        """What is left at the floor of so much metal at the least; a cutter that does a flank at one height finds all
        that stands over the steps."""
        return max(self.stays, metal - self.over) if levels == 1 else self.stays


@dataclass
class Discs:
    """The discs among some tools that may take steps first for a question, and what they take of each room. `leasts`:
    what each costs at the least before others, by what that hangs on; `sooner`: those with which others may need less
    time, and how much, by the same; `chances`: what is said of each that makes scrap likelier; `told`: the
    same by rule and grade, and what forbids it; `goes`: which steps each disc may take at all."""

    question: Question
    tools: Sequence[Tool]
    every: dict[str, dict[tuple[int, int], Steps]] = field(default_factory=dict)
    ordered: dict[str, list[tuple[float, Steps]]] = field(default_factory=dict)
    sooner: dict[tuple[object, ...], tuple[tuple[frozenset[Finding], float], ...]] = field(default_factory=dict)
    chances: dict[int, frozenset[Finding]] = field(default_factory=dict)
    leasts: dict[tuple[object, ...], list[tuple[float, int, Tool]]] = field(default_factory=dict)
    told: dict[int, Said] = field(default_factory=dict)
    goes: dict[tuple[int, str, int], bool] = field(default_factory=dict)

    @cached_property
    def all(self) -> Sequence[Tool]:
        """Every disc lower than some flank that no rule forbids; of thousands the others aren't even made."""
        question, rooms = self.question, self.question.outline.leaning_over
        if question.layers is not None or not rooms:
            return ()
        from crib.machining.methods.under_a_flank import may_step

        highest = max(room.aim.height for room in rooms)
        discs = sieved(self.tools, lambda kind: kind_of(kind).buried)
        low = (tool for tool in discs if nm(tool.known.face_mm or 0.0) < highest)
        return [tool for tool in low if may_step(tool) and not stops(
            Draft(question, (Job(tool, "", (), NOTHING, Manner.STEPS_FIRST),)))]

    def _said(self, disc: Tool) -> frozenset[Finding]:
        """What the rules say of a disc before others, whatever its passes, that makes scrap likelier."""
        if disc.id not in self.chances:
            idle = Draft(self.question, (Job(disc, "", (), NOTHING, Manner.STEPS_FIRST),))
            self.chances[disc.id] = frozenset(one for one in judge(idle) if chance_of(one))
        return self.chances[disc.id]

    def steps(self, room: Room) -> dict[tuple[int, int], Steps]:
        """What each disc takes in a room, by its number and how many steps it goes up."""
        if room.name not in self.every:
            from crib.machining.methods.under_a_flank import most_steps

            question = self.question
            number, most = question.feature.number, question.limits.most_levels
            self.every[room.name] = {
                (disc.id, count): Steps(disc, question.shop.cutter_minutes + disc.touch_minutes,
                                        pass_minutes(disc, question.feature.length) * number,
                                        *_left_by(disc, room, count), _at_once(question.outline, disc, room),
                                        _falls(disc, room, count))
                for disc in self.all for count in range(1, 1 + min(most, most_steps(disc, room)))}
        return self.every[room.name]

    def goes_in(self, room: Room, steps: Steps) -> bool:
        """Whether a disc may take some steps in a room, however much is gone; False for none that ever do."""
        from crib.machining.methods.under_a_flank import may_take

        place = (steps.disc.id, room.name, steps.many)
        if place not in self.goes:
            self.goes[place] = may_take(steps.disc, self.question.outline, room, self.question.limits, steps.many)
        return self.goes[place]

    def cheaper(self, tool: Tool, room: Room, levels: int, allowed: Limits, alone: float
                ) -> tuple[tuple[float, frozenset[Finding]], ...]:
        """What a room may take at the least with a tool after the steps of some disc, where that is less money than it
        does `alone`, with what is said of the disc. One disc may do all the rooms."""
        question = self.question
        if Motion.FLANK not in tool.kind.motions or not self.all or room not in question.outline.leaning_over:
            return ()
        from crib.machining.methods.along_a_flank import least_metal

        full, easy = (float(getattr(question.shop, wear_share(buried, question.material)[0]))
                      for buried in (True, False))
        spared = max(0.0, full - easy) * (tool.owned.price or 0.0) / len(question.outline.leaning_over)
        rate = question.shop.hour_rate / 60
        longest = (alone + spared) / rate if rate else inf
        metal = least_metal(Attempt(tool, question.outline, room, allowed))
        mine = pass_minutes(tool, question.feature.length) * question.feature.number
        place = room.name, levels, metal, tool.side, tool.can_finish, mine, longest
        if place not in self.sooner:
            found: dict[frozenset[Finding], float] = {}
            for minutes, disc in self._sooner(tool, room, levels, metal, mine, longest):
                said = self._said(disc)
                found[said] = min(found.get(said, inf), minutes)
            self.sooner[place] = tuple(found.items())
        return tuple((minutes * rate - spared, said) for said, minutes in self.sooner[place])

    def _sooner(self, tool: Tool, room: Room, levels: int, metal: int, mine: float, longest: float
                ) -> Iterator[tuple[float, Tool]]:
        """The discs with which a tool may need less time, and how much at the least. In so many passes of the tool no
        more may be left anywhere than they take; in more than it takes without steps, no disc has less to do. A tool as
        wide as the floor does both flanks in one."""
        share, most = len(self.question.outline.leaning_over), max(1, bites(tool, metal))
        sides = fewest(room) if metal > GRAIN else 1
        again = (levels - 1) * mine
        for soonest, one in self.in_order(room):
            if soonest + sides * mine + again >= longest:
                break
            least = inf
            for passes in range(max(1, min(most, bites(tool, one.stays_of(metal, levels)))), 1 + most):
                own = sides * mine * passes
                if own + one.each * one.many >= least:
                    break
                least = min(least, own + one.each * one.passes(metal, most_in(tool, passes), sides))
            if (least := least + one.up / share + again) < longest and self.goes_in(room, one):
                yield least, one.disc

    def in_order(self, room: Room) -> list[tuple[float, Steps]]:
        """The steps of each disc with the minutes that they take if one pass does each, those that take least first."""
        if room.name not in self.ordered:
            share = len(self.question.outline.leaning_over)
            some = [(one.up / share + one.each * one.many, one) for one in self.steps(room).values()]
            self.ordered[room.name] = sorted(some, key=lambda each: each[0])
        return self.ordered[room.name]


def _left_by(disc: Tool, room: Room, count: int) -> tuple[int, int]:
    """How much so many steps of a disc leave under them, and by how much there is less at the most over them."""
    assert room.lean is not None
    top = disc.form.height + (count - 1) * (disc.form.height - disc.overlap)
    return room.lean.over(disc.form.height) + disc.finish, room.lean.over(top)


def _falls(disc: Tool, room: Room, count: int) -> tuple[int, ...]:
    """By how much there is less metal at the bottom of each of so many steps."""
    assert room.lean is not None
    return tuple(room.lean.over(k * (disc.form.height - disc.overlap)) for k in range(count))


def _at_once(outline: Outline, disc: Tool, room: Room) -> int:
    """How far beyond what opens a room a disc wider than that cuts at each side in the middle."""
    if fewest(room) == 1:
        return 0
    opening = min((other.least.right for other in outline.rooms if other.opens(Opening.TOP)), default=0)
    return max(0, disc.form.radius - opening)


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

"""The least that one tool takes in one room, of all that may come before it there too."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from math import inf

from crib.geometry.outline import Room
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass, field
from crib.light.tuples import NamedTuple
from crib.machining.ends import after_a_chain, after_a_rougher, cuts_on_centre
from crib.machining.methods.base import PassBound
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Manner
from crib.planning.bounds.abilities import Abilities
from crib.planning.bounds.each_tool import GIVEN_AWAY, Able, Manners
from crib.planning.bounds.pareto import LowerBound, ParetoFront, non_dominated
from crib.planning.reckoning.buried import least_stops
from crib.planning.reckoning.minutes import (
    least_descent,
    least_minutes,
    least_return,
    least_round_corners,
    least_way,
)

if TYPE_CHECKING:
    from crib.planning.bounds.discs_first import Discs
    from crib.planning.closed.before_rounds import BeforeRounds


class Share(NamedTuple):
    """What a tool can do of a room: all of it alone (nothing where it can't), or any of it, sharing it with another, as
    the last there too; whether it may leave no more of it than what is gone when another room is; whether it may do all
    of it alone in a manner that isn't among those."""

    alone: ParetoFront
    any_: LowerBound
    last: LowerBound
    helped: bool = False
    otherwise: bool = False

    @property
    def ends(self) -> bool:
        """Whether it can end the room, by itself or but for what is gone with another."""
        return self.helped or self.otherwise or bool(self.alone)


Shares = dict[str, dict[int, Share]]
"""By room, what each tool that can do anything there can do."""


@dataclass
class InOneRoom:
    """What each tool can do of each room, and the least that it takes. `first`: what may take steps first, where that
    isn't among the tools alone; `before`: what goes before rounds along the walls of rooms with round corners."""

    abilities: Abilities
    question: Question
    first: Discs | None = None
    before: dict[str, BeforeRounds] = field(default_factory=dict)

    def of(self, tool: Tool, room: Room, able: Able) -> Share:
        """What a tool can do of a room, by what it is able to there."""
        each = least_minutes(self.question, tool)
        any_ = LowerBound(able.verdict, True, self.money(each * self.question.feature.number), caution=able.cautioned)
        last = any_._replace(verdict=max(any_.verdict, self._as_the_last(tool, room)))
        return Share(self._alone(tool, room, able, each), any_, last, able.helped)

    def widened(self, tool: Tool, room: Room, able: Able, aimed: Share) -> Share:
        """The same where all of it is done alone only with walls nearer their limits, by what is known of these at
        their aim."""
        wide = tuple(one for one in able.alone if one.passes.manner == Manner.WIDE)
        alone = self._alone(tool, room, able._replace(alone=wide), least_minutes(self.question, tool)) if wide else ()
        return aimed._replace(alone=alone, last=aimed.any_, otherwise=len(wide) < len(able.alone))

    def _alone(self, tool: Tool, room: Room, able: Able, each: float) -> ParetoFront:
        """The least of doing a room alone in any of the manners in which a tool is able to, and after whoever goes
        before it there."""
        solid = 0.0 if tool.kind.buried else least_descent(
            self.question, room, cuts_on_centre(tool.kind, tool.cutter), tool.feed,
            least_way(self.question, tool.form.radius + tool.finish) if self.question.layers else 0.0)
        back = least_return(self.question, self.abilities.limits, tool, room)
        whole = [self.alone(tool, one, each, solid + one.passes.returns * back + self.stopped(room, one) + (
            least_round_corners(self.question, tool, room, one.passes.strips, one.passes.sides))) for one in able.alone]
        others = (*self._after_a_rougher(tool, room, able), *self._after_a_chain(tool, room, able, each),
                  *self._after_steps(tool, room, able, each)) if whole else ()
        return non_dominated((*whole, *others))

    def _as_the_last(self, tool: Tool, room: Room) -> int:
        """The verdict that a plan comes to at the least in which a tool is the last in a room: it may miss sizes that
        are made in no other."""
        return GIVEN_AWAY if self.abilities.misses_here(tool, room) else 0

    def _after_a_chain(self, tool: Tool, room: Room, able: Able, each: float) -> ParetoFront:
        """The least of a room in which a chain of holes is drilled for this tool."""
        found = after_a_chain(self.question, tool, room)
        if found is None:
            return ()
        minutes, levels = found
        first = LowerBound(money=self.money(self.question.shop.cutter_minutes + minutes))
        fewer = (one._replace(passes=one.passes._replace(passes=min(levels, one.passes.passes), checks=1))
                 for one in able.alone)
        return tuple(self.alone(tool, one, each).and_(first) for one in fewer)

    def _after_steps(self, tool: Tool, room: Room, able: Able, each: float) -> Iterator[LowerBound]:
        """The least of a flank under which a disc took steps before this tool, where it may be less than without. What
        is said of a disc is said once of all flanks."""
        if not room.leans_over:
            return
        share = 1 / len(self.question.outline.leaning_over)
        for one in able.alone:
            passes, bare = one.passes, self.alone(tool, one._replace(passes=one.passes._replace(passes=0)), each)
            alone = self.money(passes.passes * each * self.question.feature.number)
            for money, said in self.discs.cheaper(tool, room, passes.levels, self.abilities.limits, alone):
                more = said - self.abilities.said.of[tool.id][1]
                yield bare.and_(LowerBound(money=money, left=self.abilities.said.left_of(more)**share))

    @cached_property
    def discs(self) -> Discs:
        """What may take steps first."""
        from crib.planning.bounds.discs_first import Discs

        return self.first or Discs(self.question, self.abilities.tools)

    def _after_a_rougher(self, tool: Tool, room: Room, able: Able) -> ParetoFront:
        """The least of a room that another mill, too round for its corners, roughs for this one; with a drill for the
        corners and without. Its walls are finished and measured as where it does the room alone, stepped off both: of
        how often it measures there once is for the depth, and once it may be for the floor, which the other makes."""
        if (each := after_a_rougher(self.question, tool, room)) is None:
            return ()
        found, first, manner = list[LowerBound](), self._before_rounds(room), None
        walls = max([0, *(one.passes.checks - 2 for one in able.alone if one.passes.manner is Manner.STEPPED)])
        for drilled, rounds in enumerate(each):
            money = first.money(tool, bool(drilled))
            if money == inf:
                continue
            fewest = PassBound(rounds.passes, 0, 1, first.checks + walls, stepped=True, manner=Manner.STEPPED)
            if manner is None:  # nothing that is said hangs on how many passes there are
                [manner] = self.abilities.manners(tool, room, (fewest,))
                manner = manner._replace(warned=manner.warned + (first.warned and self.abilities.stands(tool, "JN1")))
            one = manner._replace(passes=fewest)
            found.append(self.alone(tool, one, rounds.minutes(tool) / rounds.passes).and_(LowerBound(money=money)))
        return tuple(found)

    def _before_rounds(self, room: Room) -> BeforeRounds:
        """What goes before the rounds along the walls of a room."""
        if room.name not in self.before:
            from crib.planning.closed.before_rounds import BeforeRounds

            self.before[room.name] = BeforeRounds.of(self.question, room)
        return self.before[room.name]

    def alone(self, tool: Tool, manner: Manners, each: float, besides: float = 0.0) -> LowerBound:
        """The least of doing it in one manner, `each` pass taking so many minutes, and its ways `besides`."""
        shop, fewest = self.question.shop, manner.passes
        minutes = fewest.passes * each + max(1, fewest.checks) * shop.measure_minutes  # the first depth in a room
        minutes += besides
        if fewest.slow:
            minutes += fewest.slow * (least_minutes(self.question, tool, slow=True) - each)
        minutes *= self.question.feature.number
        left = (1 - shop.careful_chance) ** manner.careful * (1 - shop.miss_chance) ** manner.missed
        return LowerBound(manner.verdict, False, self.money(minutes), left * (1 - shop.warn_chance) ** manner.warned,
                          manner.cautioned)

    def stopped(self, room: Room, manner: Manners) -> float:
        """The minutes in which a room's passes stop for their chips at the least."""
        both = manner.passes.levels if manner.passes.both else 0
        return least_stops(self.question, room, both) * self.question.shop.chip_stop_minutes

    def money(self, minutes: float) -> float:
        """What these minutes cost."""
        return minutes / 60 * self.question.shop.hour_rate

    @cached_property
    def put_up(self) -> float:
        """Least money to put up one more cutter and touch it off."""
        shop = self.question.shop
        sorts = {tool.kind.buried for tool in self.abilities.tools}  # no tool is made to tell it
        least = min((shop.touch_disc_minutes if buried else shop.touch_minutes for buried in sorts), default=0.0)
        return self.money(shop.cutter_minutes + least)

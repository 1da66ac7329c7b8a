"""A groove in a face round an axis: an end mill of its width, or a smaller one at two settings, with the work turned
under it on a rotary table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from math import ceil, pi
from typing import ClassVar

from crib.cutters import goes_down, kind_of
from crib.cutters.base import Cutter, Down
from crib.features import down
from crib.findings.finding import Figure
from crib.findings.message import Mm, Text, a, apart, said
from crib.findings.verdicts import Verdict
from crib.handbook.closed_ends import ramp_strokes
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple
from crib.machining.chain import Chain
from crib.machining.methods.base import Limit
from crib.machining.methods.cuts import LEAST_BITE, Job
from crib.machining.methods.down_the_axis import on_a_table
from crib.machining.methods.down_the_axis.sizes import SLACK, unknown
from crib.machining.methods.down_the_axis.trepanning import Trepanning
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Role
from crib.units import nm

TRUE_ON_IT = ("indicator on a bore, a boss or the edge that the groove goes round, the rotary table turned: tap the "
              "work until it reads alike; a line of the layout under a pointer where it has none; clamp, and try again")

_SHARE = 0.85
"""How far beside a turn the next one is, of what the mill is across [-]. Common practice."""


class Turn(NamedTuple):
    """One turn: where the axis stands beside the middle, how deep it is [nm], what of it is new metal beside and down
    [nm], and how it is made."""

    at: int
    z: int
    beside: int
    down: int
    role: Role
    says: Text
    times: int = 1


@dataclass(frozen=True)
class RingGrooves:
    """Grooves in faces."""

    question: Question
    asked: down.RingGroove
    cutters: Sequence[Cutter]
    calls_for: ClassVar[tuple[Down, ...]] = (Down.MILLING, Down.TREPANNING)
    answer: ClassVar[Verdict | None] = None
    says: ClassVar[str] = ""
    without: ClassVar[str] = ""

    def chains(self) -> Iterator[Chain]:
        """One for each end mill that can, and for a tool that a boring head carries round."""
        for cutter in self.cutters:
            if goes_down(cutter, Down.TREPANNING):
                yield from self._by_a_head.chains(cutter)
            elif goes_down(cutter, Down.MILLING) and self.why_not(cutter) is None:
                tool = on_a_table.sized(self.question, cutter)[0]
                if tool:
                    yield self._chain(tool)

    @property
    def _by_a_head(self) -> Trepanning:
        return Trepanning(self.question, self.asked, self.cutters)

    def why_not(self, cutter: Cutter) -> Limit | None:
        """Its size, its corners, its teeth; then that there is no rotary table."""
        known = self._told.get(cutter.id)
        if known is None or known[0] is not cutter:
            known = self._told[cutter.id] = (cutter, self._why_not(cutter))
        return known[1]

    @cached_property
    def _told(self) -> dict[int, tuple[Cutter, Limit | None]]:
        """What was told of each cutter before: it is asked for the ways, and again for who has no part in any."""
        return {}

    def _why_not(self, cutter: Cutter) -> Limit | None:
        if goes_down(cutter, Down.TREPANNING):
            return self._by_a_head.why_not(cutter)
        if not goes_down(cutter, Down.MILLING):
            return Limit("KD1", said("{kind} isn't for this work", kind=a(kind_of(cutter).words)),
                         fix="an end mill of the groove's width, or a trepanning tool in a boring head")
        if cutter.diameter_mm is None:
            return unknown()
        return on_a_table.why_not(self.question, cutter, self.asked.outside.mid, self._short_of)

    def _short_of(self, tool: Tool) -> Limit | None:
        return self._across(tool) or self._corner(tool) or self._teeth(tool)

    def _across(self, tool: Tool) -> Limit | None:
        has, most = 2 * tool.form.radius / 1e6, self.asked.width.hi
        if has <= most + SLACK:
            return None
        have, needs = apart(has, most)
        return Limit("SZ3", said("{has} across is more than the groove may be wide, {needs}", has=have, needs=needs),
                     has, most, said("an end mill of {needs} or less would go in", needs=needs), has - most)

    def _corner(self, tool: Tool) -> Limit | None:
        corner, most = tool.cutter.corner_radius_mm or 0.0, self.question.feature.request.floor_radius
        if corner <= most + SLACK:
            return None
        has, needs = apart(corner, most)
        return Limit("G11", said("it leaves a radius of {has} in the floor's corners, {needs} may be", has=has,
                                 needs=needs), corner, most,
                     said("would go if the floor radius may be {has}", has=has), corner - most)

    def _teeth(self, tool: Tool) -> Limit | None:
        """What is over the teeth and is no thinner stays out of the groove."""
        deep, half = self._floor / -1e6, nm(self.asked.width.lo / 2)
        for part in tool.form.clear:
            if part.widest + part.side > max(half, tool.form.radius) and (part.low - part.end) / 1e6 < deep - SLACK:
                has, least = part.low / 1e6, deep + part.end / 1e6
                have, needs = apart(has, least)
                return Limit("RE1", said("its {part} begins {has} over its end and doesn't go into the groove: {needs} "
                                         "is needed", part=part.name, has=have, needs=needs), has, least,
                             "longer teeth would do", least - has)
        return None

    @property
    def _step(self) -> int:
        return on_a_table.step_of(self.question.shop)

    @property
    def _floor(self) -> int:
        """Where the lower end stands at the floor [nm]."""
        return on_a_table.nearest(-nm(self.asked.depth.mid), self._step)

    def _chain(self, tool: Tool) -> Chain:
        is_own = 2 * tool.form.radius >= nm(self.asked.width.lo)
        outer, inner = self._walls(tool)
        turns = tuple(self._of_its_width(tool, outer) if is_own else self._stepped(tool, outer, inner))
        figures = [Figure("offset of the spindle for the outside, (outside - cutter) / 2", outer / 1e6)]
        if not is_own:
            figures.append(Figure("offset for the inside, (inside + cutter) / 2", inner / 1e6))
        return Chain(
            self.question, tuple(self._jobs(tool, turns)),
            way=f"the work turned on a rotary table under the {tool.owned.label}"
                + ("" if is_own else ", at two settings"),
            at_best=Verdict.AS_DRAWN if is_own else Verdict.EXTRA_PASSES, figures=tuple(figures), held=on_a_table.HELD,
            turned=True, brought=(on_a_table.TABLE_FIRST, TRUE_ON_IT, BESIDE))

    def _walls(self, tool: Tool) -> tuple[int, int]:
        """Where the axis stands when it makes the outer and the inner wall [nm]."""
        outer, radius = nm(self.asked.outside.mid / 2), tool.form.radius
        return (on_a_table.nearest(outer - radius, self._step),
                on_a_table.nearest(outer - nm(self.asked.width.mid) + radius, self._step))

    def _depths(self, tool: Tool) -> list[int]:
        """The lower end after each bite down [nm]."""
        count = max(1, ceil(-self._floor / tool.bite - 1e-9))
        return [*(self._floor * k // count // self._step * self._step for k in range(1, count)), self._floor]

    def _of_its_width(self, tool: Tool, at: int) -> Iterator[Turn]:
        before = 0
        for z in self._depths(tool):
            yield Turn(at, z, 2 * tool.form.radius, before - z, Role.GROOVE, self._down(tool, at, before - z),
                       self._ramped(tool, at, before - z))
            before = z

    def _stepped(self, tool: Tool, outer: int, inner: int) -> Iterator[Turn]:
        """Roughed a little off both walls, then each wall at full depth."""
        off = min(tool.finish, (outer - inner) // 2)
        places, before = self._places(tool, outer - off, inner + off), 0
        for z in self._depths(tool):
            for number, at in enumerate(places):
                beside = 2 * tool.form.radius if not number else abs(at - places[number - 1])
                says, times = ("", 1) if number else (self._down(tool, at, before - z),
                                                      self._ramped(tool, at, before - z))
                yield Turn(at, z, beside, before - z, Role.GROOVE, says, times)
            before = z
        yield Turn(outer, self._floor, max(0, outer - places[0]), -self._floor, Role.FINISH,
                   "the outer wall: the work counter-clockwise from above")
        yield Turn(inner, self._floor, max(0, places[-1] - inner), -self._floor, Role.FINISH,
                   "the inner wall: the work clockwise from above; measure the width before it")

    def _places(self, tool: Tool, outer: int, inner: int) -> list[int]:
        """Where it stands side by side, the outermost first [nm]; in the middle alone where a second turn beside the
        first would only rub."""
        if outer - inner <= max(self._step, LEAST_BITE):
            return [on_a_table.nearest((outer + inner) / 2, self._step)]
        count = ceil((outer - inner) / (_SHARE * 2 * tool.form.radius))
        return [on_a_table.nearest(outer - (outer - inner) * k / count, self._step) for k in range(count + 1)]

    def _ramped(self, tool: Tool, at: int, drop: int) -> int:
        """How many turns it takes to its depth and once round there."""
        return 1 if tool.cutter.centre_cutting else 1 + ramp_strokes(drop / 1e6, 2 * pi * at / 1e6)

    def _down(self, tool: Tool, at: int, drop: int) -> Text:
        """How it gets down."""
        if tool.cutter.centre_cutting:
            return "down, then the work once round, counter-clockwise from above"
        turns = self._ramped(tool, at, drop) - 1
        return said("its middle doesn't cut, as far as is known: let it down {drop} on its way round, {turns} turn{s}, "
                    "then once round at its depth", drop=Mm(drop / 1e6), turns=turns, s="" if turns == 1 else "s")

    def _jobs(self, tool: Tool, turns: Sequence[Turn]) -> Iterator[Job]:
        turn = on_a_table.one_turn(self.question.shop, tool, self.asked.outside.mid)
        for number, one in enumerate(turns):
            says = said("{says}; a turn is {turn}", says=one.says, turn=turn) if not number else one.says
            yield on_a_table.round_once(
                tool, "groove", one.at, one.z, one.beside, one.times * self.asked.outside.mid, says, start=one.at,
                on_from=False, role=one.role, is_measured=number == len(turns) - 1, axial=one.down,
                cranked=one.times * on_a_table.cranked(self.question.shop))

    def wanted(self) -> Text:
        """What would make it."""
        low, high = (Mm(mm) for mm in (self.asked.width.lo, self.asked.width.hi))
        return said("nothing in the crib makes a groove round an axis there: an end mill of {low} to {high} would, "
                    "with the work on a rotary table, or a trepanning tool in a boring head", low=low, high=high)


BESIDE = "set Z on the face, the table anywhere over it, then go out to the first place"

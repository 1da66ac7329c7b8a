"""A counterbore: one of the size on its pilot, an end mill plunged, where the hole doesn't let its middle by after a
drill that does, a drill ground flat."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.features import down
from crib.findings.finding import Figure
from crib.findings.message import Fact, Mm, Text, apart, said
from crib.findings.verdicts import Verdict
from crib.handbook.boring import BEFORE_BORING_MM
from crib.handbook.deviations import plunged_round_left
from crib.light.hints import ClassVar
from crib.light.records import dataclass
from crib.machining.chain import Chain
from crib.machining.cores import ROOM_MM, core_mm, lets_by, taken_as, unlike
from crib.machining.holes import MILLED, drill_hole
from crib.machining.methods.base import Limit
from crib.machining.methods.cuts import Job
from crib.machining.methods.down_the_axis.drilling import reaches, tip
from crib.machining.methods.down_the_axis.flat_holes import flat_floor
from crib.machining.methods.down_the_axis.sizes import (
    by_condition,
    is_ground_flat,
    is_within,
    leaves_a_radius,
    limit_of,
    unknown,
    unseen,
)
from crib.machining.methods.down_the_axis.strokes import held, stroke, tool_for
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Role

LOOSE_MM = 0.010 * 25.4
"""How loose a pilot may be in its hole [mm]. Common practice."""


@dataclass(frozen=True)
class Counterbores:
    """Counterbores with one stroke of a cutter, at the most after a drill for its core."""

    question: Question
    asked: down.Counterbore
    cutters: Sequence[Cutter]
    calls_for: ClassVar[tuple[Down, ...]] = (Down.COUNTERBORING, Down.MILLING)
    answer: ClassVar[Verdict | None] = None
    says: ClassVar[str] = ""
    without: ClassVar[str] = ""

    def chains(self) -> Iterator[Chain]:
        """One for each cutter that makes the size."""
        room = self.question.outline.rooms[0].name
        for cutter in self.cutters:
            size = cutter.diameter_mm or 0.0
            if not _is_for_it(cutter) or self.why_not(cutter):
                continue
            tool = tool_for(self.question, cutter, Down.COUNTERBORING, size, size + MILLED)
            if tool is None:
                continue
            how = _how(cutter, "depth" in self.question.feature.request.sizes)
            called = cutter.kind in self.question.feature.calls_for[room].kinds
            last = stroke(tool, Role(self.asked.called), room, -self.asked.deep_mm, how)
            for before in self._before(cutter):
                drill = before[0].tool if before else tool
                is_plain = called and not before and not is_loose(cutter, self.asked)
                after = f" after {drill.owned.label}" if before else ""
                yield Chain(
                    self.question,
                    (*before, last),
                    way=f"{self.asked.called} with the {cutter.label}{after}",
                    at_best=Verdict.AS_DRAWN if is_plain else Verdict.EXTRA_PASSES,
                    warnings=tuple(flat_floor(drill, self._deepest - self._least)) if before else (),
                    figures=(Figure("diameter expected", size + MILLED),),
                    assumed=(*self._hole_there(), *taken_as(cutter)),
                )

    def _before(self, cutter: Cutter) -> Iterator[tuple[Job, ...]]:
        """What goes before a cutter: nothing, or a drill for the core that the hole doesn't let by."""
        if self._core(core_mm(cutter)) is None:
            yield ()
            return
        for drill in unlike(self._cored(cutter)):
            if job := self._opened(drill, cutter):
                yield (job,)

    def _cored(self, mill: Cutter) -> list[Cutter]:
        """The drills that open the hole for a core and leave the floor right: those ground flat before those with a
        point, the smallest first, which leave the least cone."""
        own = self.question.shop.own
        widest = (mill.diameter_mm or 0.0) - BEFORE_BORING_MM
        return [drill for drill, _ in self._drills.values() if lets_by(drill, mill, own) and drill_hole(
            drill.diameter_mm or 0.0, own) <= widest and self._opened(drill, mill)]

    @cached_property
    def _drills(self) -> dict[int, tuple[Cutter, Tool]]:
        """The drills that are held, in the order in which they are thought of, with the tools that they are."""
        drills = [one for one in self.cutters if goes_down(one, Down.DRILLING)]
        drills.sort(key=lambda drill: (not is_ground_flat(drill), drill.diameter_mm or 0.0, drill.id))
        found = [(drill, held(self.question, drill, Down.DRILLING, drill.diameter_mm or 0.0)) for drill in drills]
        return {id(drill): (drill, tool) for drill, tool in found if tool}

    def _opened(self, drill: Cutter, mill: Cutter) -> Job | None:
        """The stroke of a drill that opens the hole for a core: its cone inside the depth's limits from the hole to
        beyond the core, in their middle; None where it isn't, or the drill can't go in."""
        (_, tool), hole = self._drills[id(drill)], self.asked.hole
        if hole is None:
            return None
        inner, outer = hole.lo / 2, (core_mm(mill) + ROOM_MM) / 2
        rise = tip(tool, 0.0, False) / (drill.diameter_mm or 1.0) * 2
        deep = self.asked.deep_mm + rise * (inner + outer) / 2
        spare = 2 * self.question.shop.readout_mm
        if rise * (outer - inner) + spare > self._deepest - self._least or not reaches(tool.cutter, deep):
            return None
        says = said("open the hole for the middle of the {cutter}, which doesn't cut; the drill follows the hole",
                    cutter=mill.label)
        return stroke(tool, Role.DRILL, self.question.outline.rooms[0].name, -deep, says, is_measured=False)

    @property
    def _least(self) -> float:
        """The least depth [mm]."""
        return -self.question.outline.rooms[0].least.low / 1e6

    @property
    def _deepest(self) -> float:
        """The greatest depth [mm]."""
        return -self.question.outline.rooms[0].most.low / 1e6

    def _hole_there(self) -> Iterator[Text]:
        hole = self.asked.hole
        if hole and hole.given:
            yield f"the hole, {hole.text}, is there"
        elif hole:
            yield said("the hole is there, {least} to {most} as a drill of {drill} leaves it", least=Mm(hole.lo),
                       most=Mm(hole.hi), drill=hole.text)

    def why_not(self, cutter: Cutter) -> Limit | None:
        """Its size, its middle, its corners, its pilot."""
        size, asked = cutter.diameter_mm, self.asked
        if not _is_for_it(cutter):
            return None
        if size is None:
            return unknown()
        makes, most = size + MILLED, self.question.feature.request.floor_radius
        if round_ := leaves_a_radius(cutter, most, is_within(makes, asked.diameter)):
            return round_
        if bad := by_condition(cutter):
            return bad
        if not is_within(makes, asked.diameter):
            limit, _, side = limit_of(makes, asked.diameter)
            has, needs = apart(makes, limit)
            return Limit("SZ3", _too_small(has, needs, cutter, asked.diameter.mid), makes, limit,
                         said("one of {right} {side} would do", right=Mm(limit - MILLED, places=4), side=side),
                         abs(makes - limit))
        if core_mm(cutter) and (miss := self._core(core_mm(cutter))) and not self._cored(cutter):
            return unseen(miss) if cutter.centre_cutting is None else miss
        if cutter.pilot_mm is not None and not asked.hole:
            return Limit("CB1", said("its pilot, {has}, wants a hole, and none is there", has=Mm(cutter.pilot_mm)),
                         cutter.pilot_mm, 0.0, "drill the hole first, then it would go in", cutter.pilot_mm)
        if cutter.pilot_mm is not None and asked.hole and cutter.pilot_mm > asked.hole.hi + 1e-6:
            has, needs = apart(cutter.pilot_mm, asked.hole.hi)
            return Limit("CB1", said("its pilot, {has}, doesn't enter the hole, {needs} at the most", has=has,
                                     needs=needs), cutter.pilot_mm, asked.hole.hi,
                         said("a pilot of {needs} or less would go in", needs=needs),
                         cutter.pilot_mm - asked.hole.hi)
        return None

    def _core(self, core: float) -> Limit | None:
        """That a middle which doesn't cut stands on metal; None where the hole leaves it room, or there is none."""
        if not core:
            return None
        hole = self.asked.hole
        if hole is None:
            return Limit("EN1", said("its middle, about {has}, doesn't cut, and no hole is there", has=Mm(core)), core,
                         0.0, "one that cuts on centre would do", core)
        room = hole.lo - ROOM_MM
        if core <= room:
            return None
        has, needs = apart(core, room)
        fix = said("one that cuts on centre would do, or a drill ground flat, {least} or a little more, before it",
                   least=Mm(core + ROOM_MM))
        return Limit("EN1", said("its middle doesn't cut, about {has}: the hole leaves room for {needs}", has=has,
                                 needs=needs), core, room, fix, core - room)

    def wanted(self) -> Text:
        """The counterbore that would make it."""
        return said("nothing in the crib makes a flat floor {size} across: a counterbore of it would",
                    size=Mm(self.asked.diameter.mid))


_PLUNGES = 12
"""Places on a circle that a round is plunged in by table and cross. Common practice."""


def _too_small(has: Fact, needs: Fact, cutter: Cutter, across_mm: float) -> Text:
    """What it makes; of a mill that covers the middle, what it would leave of the round, plunged in places on a
    circle: no round seat."""
    size = cutter.diameter_mm or 0.0
    if not goes_down(cutter, Down.MILLING) or not across_mm / 2 <= size < across_mm:
        return said("makes {has}, the limit is {needs}", has=has, needs=needs)
    return said("makes {has}, the limit is {needs}; plunged in {plunges} places on a circle it would leave {left} "
                "between them", has=has, needs=needs, plunges=_PLUNGES,
                left=Mm(plunged_round_left(across_mm, size, _PLUNGES), places=4))


def _is_for_it(cutter: Cutter) -> bool:
    """Whether a cutter has a flat end."""
    flat = goes_down(cutter, Down.DRILLING) and is_ground_flat(cutter)
    return flat or goes_down(cutter, Down.COUNTERBORING) or goes_down(cutter, Down.MILLING)


def _how(cutter: Cutter, has_depth: bool) -> Text:
    """How it goes in; a seat of no depth is taken till it is clean and no deeper."""
    far = "to the depth" if has_depth else "till it is clean all round: the depth is a guess"
    if goes_down(cutter, Down.COUNTERBORING):
        return said("slowly, {far}", far=far)
    if goes_down(cutter, Down.MILLING):
        how = "plunge slowly, table and cross locked, the axis on the hole"
        return how if has_depth else said("{how}; {far}", how=how, far=far)
    return "the flat drill follows the hole: slowly, or it chatters"


def is_loose(cutter: Cutter, asked: down.Counterbore) -> bool:
    """Whether what is meant to have a pilot isn't centred by it, as far as is known."""
    if not goes_down(cutter, Down.COUNTERBORING):
        return False
    return cutter.pilot_mm is None or (asked.hole is not None and asked.hole.mid - cutter.pilot_mm > LOOSE_MM)

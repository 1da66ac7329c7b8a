"""A thread down an axis: spot, drill, countersink, tap; for a gib's screws with a land and a dimple."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from math import inf, pi

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.cutters.tap import CHAMFER
from crib.features import down
from crib.features.tapped_hole import RIM_MM
from crib.findings.finding import Figure, off_drawing
from crib.findings.message import Text, Torque, apart, said
from crib.findings.verdicts import Verdict
from crib.light.hints import ClassVar
from crib.light.records import dataclass
from crib.machining.chain import Chain
from crib.machining.holes import drill_hole
from crib.machining.methods.base import Limit
from crib.machining.methods.cuts import Job
from crib.machining.methods.down_the_axis.drilling import hole_jobs
from crib.machining.methods.down_the_axis.sizes import by_condition, unknown
from crib.machining.methods.down_the_axis.strokes import countersink, spot, stroke, that_help, tool_for
from crib.machining.question import Question
from crib.machining.words import Role
from crib.tapping.advise import advise_tap
from crib.tapping.depth import budget
from crib.tapping.lands import dimpled, landed
from crib.tapping.shape import Asking, Depth, JudgedHole, TapAdvice
from crib.tapping.taps import hand_of, thread_of

_MOST_WAYS = 3


@dataclass(frozen=True)
class Threads:
    """Tapped holes, as `crib tap` would advise on the same."""

    question: Question
    asked: down.Thread
    cutters: Sequence[Cutter]
    calls_for: ClassVar[tuple[Down, ...]] = (Down.DRILLING, Down.TAPPING)

    @cached_property
    def advice(self) -> TapAdvice:
        """What `crib tap` would say of the same hole."""
        question, asked, request = self.question, self.asked, self.question.feature.request
        asking = Asking(asked.reading, asked.class_name, question.material.name, asked.deep_mm, asked.through,
                        request.below, use=request.use, mating=request.mating)
        return advise_tap(asking, self.cutters, question.shop)

    @property
    def answer(self) -> Verdict | None:
        """Where there is none, or none is sure."""
        return self.advice.answer if self.advice.answer in (Verdict.CANNOT, Verdict.MEASURE_FIRST) else None

    @property
    def says(self) -> Text:
        """What decides then."""
        return self.advice.says if self.answer else ""

    @property
    def without(self) -> Text:
        """What it costs to do without the right drill; without a tap that would serve nothing."""
        return "" if self.answer and not self.advice.taps else self.advice.without

    def chains(self) -> Iterator[Chain]:
        """One for each hole that serves, the best first."""
        if self.advice.answer == Verdict.CANNOT or self.advice.depth is None:
            return
        for verdict in [v for v in (*self.advice.drills, *self.advice.other_ways) if v.serves][:_MOST_WAYS]:
            if (depth := self._depth_with(verdict)) and (chain := self._chain(verdict, depth)):
                yield chain

    @cached_property
    def _helpers(self) -> list[Cutter]:
        return that_help(self.cutters)

    def _depth_with(self, verdict: JudgedHole) -> Depth | None:
        """The depth as the taps and this very drill want it; None where it doesn't go."""
        advice, below = self.advice, self.question.feature.request.below
        if advice.depth is None or not advice.depth.taps:
            return None
        cutter = verdict.hole.cutter
        angle = cutter.angle_deg if cutter and goes_down(cutter, Down.DRILLING) else None
        found = budget(advice.thread, advice.depth.full_thread_mm, advice.depth.through, advice.depth.taps[-1],
                       advice.taps, verdict.hole.diameter_mm, angle, None if advice.depth.through else below)
        return None if found.short_mm else found

    def _chain(self, verdict: JudgedHole, depth: Depth) -> Chain | None:
        question, cutters, gib, size = self.question, self._helpers, self.asked.gib, verdict.hole.expected_mm
        full = depth.full_thread_mm if depth.through else depth.hole_mm
        hole = hole_jobs(question, verdict.hole, full, depth.through, cutters)
        if not hole:
            return None
        made = (*spot(question, cutters, size), *hole)
        if gib:
            made = (*landed(question, self.cutters, gib, made), *dimpled(gib, hole))
        lands = sum(job.cuts[0].deep_mm for job in made if job.room == "land")
        filed = gib if gib and not lands else None
        mouth = countersink(question, cutters, size, self.advice.thread.major_mm + RIM_MM, lands)
        return Chain(
            question,
            (*made, *mouth, *self._taps(depth)),
            way=self._way(verdict),
            at_best=verdict.answer,
            hole=verdict.hole,
            warnings=self.advice.warnings,
            beyond=(off_drawing("HF1", "no cutter for the nut's land: file it", filed.land_deep_mm,
                                of_mm=filed.land_deep_mm),) if filed else (),
            filed_mm2=pi / 4 * filed.land_mm**2 if filed else 0.0,
            figures=tuple(self._figures(verdict)),
            assumed=self.advice.assumed,
            suits=verdict.score,
        )

    def _way(self, verdict: JudgedHole) -> str:
        used, number = self.advice.depth.taps if self.advice.depth else (), self.question.feature.number
        taps = " then ".join(dict.fromkeys(tap.tap_chamfer or "plug" for tap in used))
        way = f"{verdict.hole.way} {verdict.hole.label.removesuffix(' drill')}, tap {self.advice.thread.designation} "
        return f"{number} holes: {way}{taps}" if self.asked.gib else way + taps

    def _taps(self, depth: Depth) -> Iterator[Job]:
        thread = self.advice.thread
        for number, tap in enumerate(depth.taps):
            found = tool_for(self.question, tap, Down.TAPPING, thread.major_mm)
            if found is None:
                continue
            chamfer = max((part.high for part in found.form.sure if part.name == CHAMFER), default=0) / 1e6
            last = number == len(depth.taps) - 1
            if depth.through:
                z = depth.full_thread_mm + chamfer + thread.pitch_mm
            else:
                z = depth.full_thread_mm + (depth.chamfer_mm if last else min(chamfer, depth.chamfer_mm))
            yield stroke(found, Role.TAP, "thread", -z, self._by_hand(tap, not number, depth.through),
                         turns=1.5 * z / thread.pitch_mm)

    def _by_hand(self, tap: Cutter, is_first: bool, through: bool) -> str:
        """How a tap is turned: what breaks its chips is turned back, what pushes them on isn't; where chips can't fall
        through they jam it. Common practice."""
        clear = "" if through else "the chips out of the hole; "
        starts = "start it square from the spindle, power off" if is_first else "find the thread that is there"
        way = "against the clock" if self.advice.hand == "left" else "with the clock"
        goes_on = tap.tap_point == "spiral point" or tap.tap_form == "forming"
        turns = "never back" if goes_on else "half a turn on, a quarter back"
        return f"{clear}{starts}; by hand {way}, {turns}; {self.advice.fluid}"

    def _figures(self, verdict: JudgedHole) -> Iterator[Figure]:
        advice, depth = self.advice, self.advice.depth
        yield Figure("hole expected", verdict.hole.expected_mm)
        if verdict.percent_expected is not None:
            yield Figure("percent of thread by it", value=f"{verdict.percent_expected:.0f}")
        if advice.limits.least is not None and advice.limits.most is not None:
            yield Figure(f"least by {advice.limits.name}", advice.limits.least)
            yield Figure(f"most by {advice.limits.name}", advice.limits.most)
        if depth and not depth.through:
            yield Figure("full diameter to", depth.hole_mm)
            yield Figure("drill's tip to", depth.tip_mm)
        if advice.torque_nm is not None:
            yield Figure("torque about", value=said("{torque}", torque=Torque(advice.torque_nm, of_a_tap=True)))

    def why_not(self, cutter: Cutter) -> Limit | None:
        """By the thread that it cuts, or the hole that it makes."""
        if goes_down(cutter, Down.TAPPING):
            return self._tap(cutter)
        if not goes_down(cutter, Down.DRILLING):
            return None
        judged = next((one for one in self.advice.drills if one.hole.cutter == cutter), None)
        if cutter.diameter_mm is None:
            return unknown()
        return self._judged(judged) if judged else self._far_off(cutter.diameter_mm)

    def _judged(self, verdict: JudgedHole) -> Limit | None:
        if verdict.serves:
            return None
        limits, thread, made = self.advice.limits, self.advice.thread, verdict.hole.expected_mm
        over, under = made - (limits.most or thread.major_mm), (limits.least or thread.minor_basic_mm) - made
        return Limit("TH1", verdict.says, made, limits.most if over > 0 else limits.least, verdict.fix or None,
                          max(over, under), unsure=verdict.answer == Verdict.MEASURE_FIRST)

    def _far_off(self, across: float) -> Limit:
        """A drill that is nowhere near what the thread wants."""
        limits, thread = self.advice.limits, self.advice.thread
        made = drill_hole(across, self.question.shop.own)
        least, most = limits.least or thread.minor_basic_mm, limits.most or thread.major_mm
        limit, word = (most, "over the most") if made > most else (least, "under the least")
        has, needs = apart(made, limit, 4)
        return Limit("TH1", said("makes {has}, {word} for the thread, {needs}", has=has, word=word, needs=needs), made,
                     limit, short=abs(made - limit))

    def _tap(self, cutter: Cutter) -> Limit | None:
        cut, wanted = thread_of(cutter), self.question.feature.request.said.get("thread", "")
        if cut is None:
            return Limit("G7", "its thread isn't known", fix="measure it across and its pitch", unsure=True)
        if not cut.same_as(self.advice.thread):
            return Limit("TP1", said("it cuts {cuts}, not {wanted}", cuts=cut.designation, wanted=wanted),
                         fix=said("a tap for {wanted}", wanted=wanted))
        if hand_of(cutter) != self.advice.hand:
            return Limit("G10", said("it cuts a {hand}-hand thread, this one is {wanted}-hand", hand=hand_of(cutter),
                                     wanted=self.advice.hand),
                         fix=said("a {wanted}-hand tap", wanted=self.advice.hand), short=inf)
        return by_condition(cutter)

    def wanted(self) -> str:
        """The drill and the tap that would make it."""
        return f"nothing in the crib makes it: a drill and a tap for {self.advice.thread.designation} would"

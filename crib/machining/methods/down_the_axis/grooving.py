"""A groove in a bore by a bar with a grooving tooth: a boring head sets it out, the spindle stopped, a little at a
time; a facing head feeds it out by itself as it turns."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from crib.cutters.base import Cutter, Down
from crib.cutters.boring_bar import reach
from crib.cutters.grooving_bar import least_hole
from crib.features import down
from crib.features.internal_groove import ENTERS_MM
from crib.findings.finding import Figure, Finding, Grade
from crib.findings.message import ByUnits, Mm, Text, apart, said
from crib.findings.verdicts import Verdict
from crib.geometry.region import NOTHING
from crib.geometry.silhouette import Silhouette
from crib.handbook.bites import level_heights
from crib.handbook.boring import FACING_FEED_MM, groove_step
from crib.holders.heads import Head, hold
from crib.light.records import dataclass, replace
from crib.machining.chain import Chain
from crib.machining.methods.base import Limit
from crib.machining.methods.cuts import Cut, Job
from crib.machining.methods.down_the_axis.boring import at_its_speed, dial_step, heads_of, untold_head
from crib.machining.methods.down_the_axis.on_a_table import asks, least_face, levels_of, nearest, step_of
from crib.machining.methods.down_the_axis.sizes import SLACK, by_condition, tooth_too_wide
from crib.machining.methods.down_the_axis.strokes import tool_for
from crib.machining.question import Question
from crib.machining.tool import Tool, unknowns
from crib.machining.words import Fed, Manner, Role, Side
from crib.units import nm

_DWELL_TURNS = 3
"""Turns at the stop, for the floor to come out round. Common practice."""

BROUGHT = (said("indicator in the spindle, its point on the bore's wall: table and cross until it reads alike within "
                "{true}, all round; set table 0 and cross 0, lock both", true=ByUnits(".0005", "0.01")),
           "for the height move off by the table, over the face beside the bore, and come back to 0")


@dataclass(frozen=True)
class Grooving:
    """Grooves in bores with a bar in a boring head."""

    question: Question
    asked: down.InsideGroove
    cutters: Sequence[Cutter]

    def why_not(self, cutter: Cutter) -> Limit | None:
        """What isn't known of the bar, else its sizes against bore and groove."""
        if unknowns(cutter):
            return asks(cutter)
        found = (self._goes_in(cutter), self._face(cutter), self._stands_out(cutter), by_condition(cutter))
        return next((limit for limit in found if limit), None)

    def _goes_in(self, cutter: Cutter) -> Limit | None:
        has, most = least_hole(cutter), self.asked.bore.lo - 2 * self.question.shop.neck_clearance_mm
        if has <= most + SLACK:
            return None
        have, needs = apart(has, most)
        return Limit("SZ3", said("bar and tooth are {has} across together, {needs} is the most that goes down the bore",
                                 has=have, needs=needs), has, most, "a thinner bar", has - most)

    def _face(self, cutter: Cutter) -> Limit | None:
        has, width = cutter.face_mm or 0.0, self.asked.width
        if wide := tooth_too_wide(has, width.hi):
            return wide
        count = len(self._heights(cutter))
        if count <= (most := self.question.shop.most_levels):
            return None
        least = least_face(width.mid, most)
        have, needs = apart(has, least)
        return Limit("FC2", said("with a tooth {has} wide the groove would take {count} levels, {most} at the most",
                                 has=have, count=count, most=most), has, least,
                     said("a tooth of {needs} or more would do", needs=needs), least - has)

    def _stands_out(self, cutter: Cutter) -> Limit | None:
        """The bar keeps off the bore's wall when the tooth is at the floor; and it reaches down to it."""
        deep, keep = (self.asked.diameter.hi - self.asked.bore.lo) / 2, self.question.shop.neck_clearance_mm
        out, under = cutter.length_of_cut_mm or 0.0, -min(self._heights(cutter)) / 1e6
        if out < deep + keep - SLACK:
            has, needs = apart(out, deep + keep)
            return Limit("NK2", said("its tooth stands {has} out of the bar: {needs} is needed, for the groove and for "
                                     "the bar to clear the bore's wall", has=has, needs=needs), out, deep + keep,
                         said("a tooth that stands {needs} out would do", needs=needs), deep + keep - out)
        if reach(cutter) < under - SLACK:
            has, needs = apart(reach(cutter), under)
            return Limit("RE3", said("it goes {has} deep, the groove's lower side is {needs} down", has=has,
                                     needs=needs), reach(cutter), under, "a longer bar", under - reach(cutter))
        return None

    def _heights(self, cutter: Cutter) -> list[int]:
        """Where the tooth's lower side stands at each level, the lowest first [nm]."""
        face, asked, step = cutter.face_mm or 0.0, self.asked, step_of(self.question.shop)
        if face >= asked.width.lo - SLACK:
            return [nearest(-nm(asked.from_face.mid + face), step)]
        lowest = asked.from_face.mid + asked.width.mid
        heights = level_heights(lowest, asked.width.mid, face, levels_of(asked.width.mid, face))
        return [nearest(nm(z), step) for z in heights]

    def chains(self, cutter: Cutter) -> Iterator[Chain]:
        """The way with a bar; where no head takes it, one that says so."""
        question, across = self.question, self.asked.diameter.mid
        if self.why_not(cutter) is not None:
            return
        tool = tool_for(question, cutter, Down.GROOVING, across)
        if tool is None:
            return
        heads = heads_of(question.shop, self.cutters)
        goes_in, head = hold(cutter, self._enters, heads, True, untold_head(question.shop, self.cutters, cutter))
        if head is not None:
            goes_in, head = hold(cutter, across, [one for one in heads if one.least <= self._enters <= one.most], True)
        tool, head = at_its_speed(question.shop, tool, goes_in, head)
        faces = head is not None and head.faces
        is_its_own = faces and len(self._heights(tool.cutter)) == 1
        yield Chain(question, tuple(self._jobs(tool, head)),
                    way=f"a {'facing head feeds' if faces else 'boring head sets'} out the {tool.owned.label}",
                    at_best=Verdict.AS_DRAWN if is_its_own else Verdict.EXTRA_PASSES, brought=BROUGHT,
                    warnings=() if faces else tuple(_warns(tool)),
                    figures=(Figure("across the tooth, to go in and to come out", self._enters),))

    @property
    def _enters(self) -> float:
        """Across the tooth as it goes down the bore, on a whole step of the dial [mm]."""
        step = dial_step(self.question.shop)
        return int((self.asked.bore.lo - ENTERS_MM) / step + 1e-6) * step

    def _jobs(self, tool: Tool, head: Head | None) -> Iterator[Job]:
        for z in self._heights(tool.cutter):
            yield from self._level(tool, head, z)

    def _level(self, tool: Tool, head: Head | None, z: int) -> Iterator[Job]:
        """Down with the tooth in, then out a step at a time."""
        counts, enters = head.counts if head else 2, self._enters
        yield self._at(tool, enters, enters, z, Role.ENTER, said(
            "spindle stopped: the head to {across} across the tooth, then down, and round once by hand: it must clear",
            across=Mm(enters)))
        if head is not None and head.faces:
            yield self._fed_out(tool, z)
            return
        ladder = self._ladder()
        for place, across in enumerate(ladder):
            before = ladder[place - 1] if place else enters
            yield self._at(tool, across, before, z, Role.GROOVE, _says(
                place, place == len(ladder) - 1, across, enters, (across - before) / 2 * counts))

    def _fed_out(self, tool: Tool, z: int) -> Job:
        """Out to the floor in one go by the head's own feed, up to its stop."""
        across, enters = self.asked.diameter.mid, self._enters
        job = self._at(tool, across, enters, z, Role.GROOVE, said(
            "the head's stop set for {across} across the tooth, proved in scrap; start it, its feed in, out to the "
            "stop and three turns more; then the spindle stopped, the head back to {enters}, and only then up",
            across=Mm(across, fine=True), enters=Mm(enters)))
        turns = ceil((across - enters) / 2 / FACING_FEED_MM) + _DWELL_TURNS
        return replace(job, cuts=tuple(replace(cut, turns=turns) for cut in job.cuts))

    def _ladder(self) -> list[float]:
        """Across the tooth after each step, on whole steps of a dial but for the last [mm]."""
        dial, asked = dial_step(self.question.shop), self.asked
        each = 2 * groove_step(self.question.material.group)
        each = max(dial, int(each / dial + 1e-6) * dial)
        start = int(asked.bore.lo / dial + 1e-6) * dial
        count = ceil((asked.diameter.mid - start) / each - 1e-9)
        return [*(start + each * k for k in range(1, count)), asked.diameter.mid]

    def _at(self, tool: Tool, across: float, before: float, z: int, role: Role, says: Text) -> Job:
        is_in = role is Role.ENTER
        radial = 0 if is_in else nm((across - before) / 2)
        cut = Cut(0, z, role, "groove", Side.AXIS, radial, tool.form.height, says=says, diameter_mm=across,
                  start=0, on_from=not is_in, fed=Fed.OUT,
                  is_measured=across == self.asked.diameter.mid)
        return Job(set_to(tool, across), "groove", (cut,), NOTHING, Manner.DOWN)


def set_to(tool: Tool, across_mm: float) -> Tool:
    """The tool with its tooth set out to a diameter: the bar goes round as far off its middle as it is set out."""
    bar, out = tool.cutter.diameter_mm or 0.0, tool.cutter.length_of_cut_mm or 0.0
    off = abs(across_mm / 2 - bar / 2 - out)
    teeth = tuple(part._replace(radius_low=nm(across_mm / 2), radius_high=nm(across_mm / 2)) for part in tool.form.sure)
    clear = tuple(part._replace(radius_low=nm(bar / 2 + off), radius_high=nm(bar / 2 + off)) if part.name == "shank"
                  else part for part in tool.form.clear)
    return replace(tool, form=Silhouette(teeth, teeth, clear))


def _says(place: int, is_end: bool, across_mm: float, enters_mm: float, on_mm: float) -> Text:
    """What the head is set to for a step, and what then."""
    to = said("to {to_}: ", to_=Mm(across_mm, fine=is_end))
    if is_end:
        return said("{to}the head's dial {on} on, let it turn until it takes nothing more; then the spindle stopped, "
                    "the head back to {across} across the tooth, and only then up", to=to, on=Mm(on_mm, fine=True),
                    across=Mm(enters_mm))
    if place:
        return said("{to}the head's dial {on} on with the spindle stopped, round by hand until it is free, then start "
                    "it; chips out", to=to, on=Mm(on_mm))
    return said("{to}the head's dial {on} on with the spindle stopped, past the touch on the wall; round by hand until "
                "it is free, then start it", to=to, on=Mm(on_mm))


def _warns(tool: Tool) -> Iterator[Finding]:
    """IG2: a plain head feeds nothing out while it turns."""
    yield Finding("IG2", Grade.WARN, said(
        "{cutter}: a plain boring head feeds nothing out as it turns: each step is dialled with the spindle stopped, "
        "and starts with the tooth in the metal", cutter=tool.owned.label), "common practice", tool.id)

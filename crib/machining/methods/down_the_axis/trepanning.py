"""A groove in a face round an axis by a tooth that a boring head carries round, fed down by the quill."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil

from crib.cutters.base import Cutter, Down
from crib.features import down
from crib.findings.finding import Figure
from crib.findings.message import ByUnits, Mm, Text, apart, said
from crib.findings.verdicts import Verdict
from crib.geometry.region import NOTHING
from crib.handbook.boring import LAST_FEED_MM
from crib.holders.heads import Head
from crib.light.records import dataclass, replace
from crib.machining.chain import Chain
from crib.machining.methods.base import Limit
from crib.machining.methods.cuts import Cut, Job
from crib.machining.methods.down_the_axis.boring import at_its_speed, held_in_head
from crib.machining.methods.down_the_axis.on_a_table import asks, nearest, step_of
from crib.machining.methods.down_the_axis.sizes import SLACK, by_condition, tooth_too_wide
from crib.machining.methods.down_the_axis.strokes import tool_for
from crib.machining.question import Question
from crib.machining.tool import Tool, unknowns
from crib.machining.words import Manner, Role, Side
from crib.units import nm

BROUGHT = (said("indicator in the spindle, round a bore, a boss or the edge that the groove goes round: table and "
                "cross until it reads alike within {true}; set table 0 and cross 0, lock both",
                true=ByUnits(".001", "0.02")),)

_SHARE = 0.85
"""How far beside a setting the next one is, of the tooth's width [-]. Common practice."""


@dataclass(frozen=True)
class Trepanning:
    """Grooves in faces with a tooth in a boring head."""

    question: Question
    asked: down.RingGroove
    cutters: Sequence[Cutter]

    def why_not(self, cutter: Cutter) -> Limit | None:
        """What isn't known of it, else its tooth against the groove."""
        if unknowns(cutter):
            return asks(cutter)
        found = (self._face(cutter), self._heel(cutter), self._long(cutter), by_condition(cutter))
        return next((limit for limit in found if limit), None)

    def _face(self, cutter: Cutter) -> Limit | None:
        has, width = cutter.face_mm or 0.0, self.asked.width
        if wide := tooth_too_wide(has, width.hi):
            return wide
        most = self.question.shop.most_levels
        if (count := len(self._settings(cutter))) <= most:
            return None
        least = width.mid / (1 + _SHARE * (most - 1))
        have, needs = apart(has, least)
        return Limit("FC2", said("with a tooth {has} wide the groove would take {count} settings, {most} at the most",
                                 has=have, count=count, most=most), has, least,
                     said("a tooth of {needs} or more would do", needs=needs), least - has)

    def _heel(self, cutter: Cutter) -> Limit | None:
        """The heel of its tooth clears the outer wall, which comes round behind it."""
        has, outside = cutter.min_hole_mm or 0.0, self.asked.outside.lo
        if has <= outside + SLACK:
            return None
        have, needs = apart(has, outside)
        return Limit("SZ3", said("its heel clears the wall of a groove {has} across or more, this one is {needs}",
                                 has=have, needs=needs), has, outside,
                     said("a heel ground for {needs} would clear", needs=needs), has - outside)

    def _long(self, cutter: Cutter) -> Limit | None:
        has, least = cutter.length_of_cut_mm or 0.0, self.asked.depth.mid + self.question.shop.end_clearance_mm
        if has >= least - SLACK:
            return None
        have, needs = apart(has, least)
        return Limit("RE1", said("its tooth stands {has} out below the bar: {needs} is needed for the depth", has=have,
                                 needs=needs), has, least,
                     said("a tooth that stands {needs} out would do", needs=needs), least - has)

    def _settings(self, cutter: Cutter) -> list[float]:
        """Across the outside of the tooth at each setting, the groove's outside first [mm]."""
        face, outside = cutter.face_mm or 0.0, self.asked.outside.mid
        rest = self.asked.width.mid - face
        if face >= self.asked.width.lo - SLACK or face <= 0:
            return [outside]
        count = ceil(rest / (_SHARE * face) - 1e-9)
        return [outside - 2 * rest * k / count for k in range(count + 1)]

    def chains(self, cutter: Cutter) -> Iterator[Chain]:
        """The way with a tool; where no head takes it, one that says so."""
        question, outside = self.question, self.asked.outside.mid
        tool = None if self.why_not(cutter) else tool_for(question, cutter, Down.TREPANNING, outside)
        if tool is None:
            return
        held, head = held_in_head(question.shop, cutter, outside, self.cutters)
        tool, head = at_its_speed(question.shop, tool, held, head)
        tool = replace(tool, feeding=replace(tool.feeding, feed=tool.rpm * LAST_FEED_MM))
        settings = self._settings(cutter)
        yield Chain(question, tuple(self._jobs(tool, head, settings)),
                    way=f"a boring head carries the {tool.owned.label} round",
                    at_best=Verdict.AS_DRAWN if len(settings) == 1 else Verdict.EXTRA_PASSES, brought=BROUGHT,
                    figures=(Figure("across the tooth's outside", settings[0]),))

    def _jobs(self, tool: Tool, head: Head | None, settings: Sequence[float]) -> Iterator[Job]:
        counts, z = head.counts if head else 2, nearest(-nm(self.asked.depth.mid), step_of(self.question.shop))
        for number, across in enumerate(settings):
            before = settings[number - 1] if number else across
            at = nm(across / 2) - tool.form.radius
            cut = Cut(at, z, Role.GROOVE, "groove", Side.AXIS, nm((before - across) / 2), -z, start=at,
                      says=_says(number, across, (before - across) / 2 * counts), diameter_mm=across,
                      is_measured=number == len(settings) - 1)
            yield Job(tool, "groove", (cut,), NOTHING, Manner.DOWN)


def _says(number: int, across_mm: float, in_mm: float) -> Text:
    """What the head is set to, and how it is fed."""
    if number:
        return said("to {to_}: the head's dial {on} back, then down as before", to_=Mm(across_mm), on=Mm(in_mm))
    return said("to {to_}: across the outside of the tooth, by a ring scratched and measured; down by the quill, back "
                "out every few turns for the chips", to_=Mm(across_mm))

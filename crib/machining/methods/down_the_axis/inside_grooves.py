"""A groove round the wall of a bore: by a disc of teeth on a neck with the work turned on a rotary table, or by a bar
with a grooving tooth that a boring head sets out."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property

from crib.cutters import goes_down, kind_of
from crib.cutters.base import Cutter, Down, Motion
from crib.features import down
from crib.features.internal_groove import ENTERS_MM
from crib.findings.finding import Figure
from crib.findings.message import ByUnits, Mm, Text, a, apart, said
from crib.findings.verdicts import Verdict
from crib.handbook.bites import level_heights
from crib.handbook.deviations import widest_head
from crib.light.hints import ClassVar
from crib.light.records import dataclass
from crib.machining.chain import Chain
from crib.machining.methods.base import Limit
from crib.machining.methods.cuts import LAST_BITE, Job, side_bites
from crib.machining.methods.down_the_axis import on_a_table
from crib.machining.methods.down_the_axis.grooving import Grooving
from crib.machining.methods.down_the_axis.sizes import SLACK
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.units import nm

TRUE_ON_IT = said("indicator on the bore's wall, the rotary table turned round: tap the work until it reads alike "
                  "within {true}; clamp, and try again", true=ByUnits(".001", "0.02"))


@dataclass(frozen=True)
class InsideGrooves:
    """Grooves in bores."""

    question: Question
    asked: down.InsideGroove
    cutters: Sequence[Cutter]
    calls_for: ClassVar[tuple[Down, ...]] = (Down.GROOVING,)
    answer: ClassVar[Verdict | None] = None
    says: ClassVar[str] = ""
    without: ClassVar[str] = ""

    def chains(self) -> Iterator[Chain]:
        """One for each cutter that can, and for a bar one for each that a head may hold."""
        for cutter in self.cutters:
            if goes_down(cutter, Down.GROOVING):
                yield from self._by_a_head.chains(cutter)
            elif is_a_disc(cutter) and self.why_not(cutter) is None:
                tool = on_a_table.sized(self.question, cutter)[0]
                if tool:
                    yield self._chain(tool)

    @property
    def _by_a_head(self) -> Grooving:
        return Grooving(self.question, self.asked, self.cutters)

    def why_not(self, cutter: Cutter) -> Limit | None:
        """What keeps a disc from it: its sizes, then that there is no rotary table; of a bar what its head says."""
        known = self._told.get(cutter.id)
        if known is None or known[0] is not cutter:
            known = self._told[cutter.id] = (cutter, self._why_not(cutter))
        return known[1]

    @cached_property
    def _told(self) -> dict[int, tuple[Cutter, Limit | None]]:
        """What was told of each cutter before: it is asked for the ways, and again for who has no part in any."""
        return {}

    def _why_not(self, cutter: Cutter) -> Limit | None:
        if goes_down(cutter, Down.GROOVING):
            return self._by_a_head.why_not(cutter)
        if not is_a_disc(cutter):
            words = kind_of(cutter).words
            return Limit("KD1", said("{kind} isn't for this work", kind=a(words)), fix="a keyseat cutter on a "
                         "neck, or a grooving bar in a boring head")
        if too_big := self._across(cutter.diameter_mm or 0.0) or self._tall(cutter.face_mm or 0.0):
            return too_big
        return on_a_table.why_not(self.question, cutter, self.asked.diameter.mid, self._short_of)

    def _short_of(self, tool: Tool) -> Limit | None:
        """The first of its sizes by which it doesn't go in, or doesn't make it."""
        across, face = 2 * tool.form.radius / 1e6, tool.form.height / 1e6
        return self._across(across) or self._tall(face) or self._levels(tool, face) or next(self._beside(tool), None)

    def _across(self, has: float) -> Limit | None:
        most = self.asked.bore.lo - ENTERS_MM
        if has <= most + SLACK:
            return None
        have, needs = apart(has, most)
        return Limit("SZ3", said("{has} across doesn't go down the bore: {needs} is the most, {air} less than it",
                                 has=have, needs=needs, air=Mm(ENTERS_MM)), has, most,
                     said("one of {needs} or less would go in", needs=needs), has - most)

    def _tall(self, has: float) -> Limit | None:
        most = self.asked.width.hi
        if has <= most + SLACK:
            return None
        have, needs = apart(has, most)
        return Limit("FC1", said("its face, {has}, is taller than the groove may be wide, {needs}", has=have,
                                 needs=needs), has, most, said("a face of {needs} or less would go in", needs=needs),
                     has - most)

    def _levels(self, tool: Tool, has: float) -> Limit | None:
        count, allowed = len(self._heights(tool)), self.question.shop.most_levels
        if count <= allowed:
            return None
        needs_mm = on_a_table.least_face(self.asked.width.mid, allowed)
        have, needs = apart(has, needs_mm)
        return Limit("FC2", said("with a face of {has} the groove would take {count} levels, {most} at the most",
                                 has=have, count=count, most=allowed), has, needs_mm,
                     said("a face of {needs} or more would do", needs=needs), needs_mm - has)

    def _beside(self, tool: Tool) -> Iterator[Limit]:
        """What stands over the teeth keeps off the wall of the bore with the axis as far out as it goes."""
        out, deepest = self._out(tool), min(self._heights(tool))
        for part in tool.form.clear:
            room = nm(self.asked.bore.lo / 2) - out - part.side - part.widest
            if room >= 0 or deepest + part.low - part.end >= 0:
                continue
            if "neck" in part.name or "fillet" in part.name:
                deep = (2 * tool.form.radius - 2 * part.widest) / 2e6 - part.side / 1e6
                has, needs = apart(deep, self.asked.deep_mm)
                yield Limit("NK2", said("its {part} comes to the bore's wall when the teeth are {has} in, the groove "
                                        "is {needs} deep", part=part.name, has=has, needs=needs), deep,
                            self.asked.deep_mm,
                            said("a neck of {most} or less would clear", most=Mm(2 * (part.widest + room) / 1e6)),
                            self.asked.deep_mm - deep)
            else:
                long, least = part.low / 1e6, (part.end - deepest) / 1e6
                has, needs = apart(long, least)
                yield Limit("G6", said("its {part} begins {has} over the lower face of the teeth and comes down on the "
                                       "work: {needs} is needed", part=part.name, has=has, needs=needs), long, least,
                            "a longer one would go in", least - long)

    def _out(self, tool: Tool) -> int:
        """How far the axis stands from the middle of the bore at the floor of the groove [nm]."""
        return on_a_table.nearest(nm(self.asked.diameter.mid / 2) - tool.form.radius,
                                  on_a_table.step_of(self.question.shop))

    def _heights(self, tool: Tool) -> list[int]:
        """Where the lower face stands at each level, the lowest first [nm]."""
        asked, face = self.asked, tool.form.height / 1e6
        if face >= asked.width.lo - SLACK:
            below = [asked.from_face.mid + face]
        else:
            count = on_a_table.levels_of(asked.width.mid, face)
            lowest = asked.from_face.mid + asked.width.mid
            below = [-z for z in level_heights(lowest, asked.width.mid, face, count)]
        return [on_a_table.nearest(-nm(mm), on_a_table.step_of(self.question.shop)) for mm in below]

    def _chain(self, tool: Tool) -> Chain:
        question, bore, across = self.question, self.asked.bore, tool.cutter.diameter_mm or 0.0
        heights = self._heights(tool)
        jobs = tuple(job for z, below in zip(heights, (None, *heights), strict=False)
                     for job in self._level(tool, z, tool.form.height if below is None else z - below,
                                            z == heights[-1]))
        neck = tool.cutter.neck_mm
        figures = [Figure("offset of the spindle, (groove - cutter) / 2", self._out(tool) / 1e6)]
        if neck is not None:
            figures.append(Figure("widest groove that its neck clears here", widest_head(
                across, bore.lo, neck, question.shop.neck_clearance_mm)))
        return Chain(question, jobs, way=f"the work turned on a rotary table under the {tool.owned.label}",
                     figures=tuple(figures), held=on_a_table.HELD, turned=True,
                     brought=(on_a_table.TABLE_FIRST, TRUE_ON_IT, BESIDE))

    def _level(self, tool: Tool, z: int, high: int, is_last: bool) -> Iterator[Job]:
        """The turns at a height, where so much of the face meets metal: from the wall out, a bite for each, the last
        one light."""
        step, out, asked = on_a_table.step_of(self.question.shop), self._out(tool), self.asked
        wall = nm(asked.bore.lo / 2) - tool.form.radius
        bites = side_bites(out - wall, tool.side * tool.form.height // max(1, high), LAST_BITE)
        places = on_a_table.settings(wall, out, bites, step)
        turn = on_a_table.one_turn(self.question.shop, tool, asked.diameter.mid)
        for number, at in enumerate(places):
            before, is_end = places[number - 1] if number else wall, number == len(places) - 1
            yield on_a_table.round_once(
                tool, "groove", at, z, at - before, asked.diameter.mid, _says(number, is_end, turn),
                start=places[number - 1] if number else 0, on_from=number > 0, is_measured=is_end and is_last,
                axial=high, cranked=on_a_table.cranked(self.question.shop))

    def wanted(self) -> Text:
        """What would make it."""
        return said("nothing in the crib makes a groove in a bore: a grooving bar in a boring head would, or a "
                    "keyseat cutter of {most} or less with the work on a rotary table; a lathe does where the part "
                    "swings in it",
                    most=Mm(self.asked.bore.lo - ENTERS_MM))


BESIDE = "for the height move off by the table, over the face beside the bore, and come back to 0"


def is_a_disc(cutter: Cutter) -> bool:
    """Whether a cutter is a disc of teeth that is fed along with its whole face."""
    kind = kind_of(cutter)
    return kind.form is not None and kind.buried and Motion.ALONG in kind.motions and cutter.angle_deg is None


def _says(number: int, is_end: bool, turn: Text) -> Text:
    """How a turn goes: the work counter-clockwise, so that teeth which turn the other way are met conventionally."""
    first = "" if number else said("down in the middle of the bore, feed out by the table, lock it, then turn the work "
                                   "once round, counter-clockwise from above: {turn}; chips out", turn=turn)
    last = ("back to table 0 before Z is touched: it comes up in the middle of the bore only" if is_end else "")
    return said("{first}; {last}", first=first, last=last) if first and last else first or last

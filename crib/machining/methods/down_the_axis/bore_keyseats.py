"""A keyseat in a bore: a broach pushed through in a press, or one point pushed through by the quill, stroke by stroke,
with the spindle locked; the point is a tool of its own, or ground on a blank."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import ClassVar

from crib.cutters import goes_down, kind_of
from crib.cutters.base import Cutter, Down
from crib.cutters.slotting_tool import ground, reach, stands_out
from crib.features import down
from crib.findings.finding import Figure, Finding, Grade
from crib.findings.message import InWords, Mm, Text, apart, said
from crib.findings.verdicts import Verdict
from crib.geometry.silhouette import Silhouette
from crib.handbook.slotting import LAST_MM, LAST_STROKES, OUT_CAUTION, OUT_STOP, STROKE_MM, pushes, strokes
from crib.holders.base import Held
from crib.holders.chucks import PRESS
from crib.light.records import dataclass, replace
from crib.machining.chain import Chain
from crib.machining.methods.base import Limit
from crib.machining.methods.cuts import Job
from crib.machining.methods.down_the_axis.sizes import SLACK, by_condition, is_within, limit_of
from crib.machining.methods.down_the_axis.strokes import stroke, tool_for
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Role
from crib.units import nm

ON_THE_PRESS = "on the plate of the press, its bore over the gap, its face flat"
UPRIGHT_IN_IT = "bushing and broach upright in the bore: look at it from two sides before the first push"

PAST_MM, AIR_MM = 2.5, 0.5
"""How far a point goes out at the far side, and the air that a bar keeps on either side in the bore [mm]. From
memory."""


@dataclass(frozen=True)
class BoreKeyseats:
    """Keyseats in a bore."""

    question: Question
    asked: down.BoreKeyseat
    cutters: Sequence[Cutter]
    calls_for: ClassVar[tuple[Down, ...]] = (Down.BROACHING, Down.SLOTTING)
    answer: ClassVar[Verdict | None] = None
    says: ClassVar[str] = ""
    without: ClassVar[str] = ""

    def chains(self) -> Iterator[Chain]:
        """One for each broach of the width, for each slotting tool of it, and for each blank that gives one."""
        for cutter in self.cutters:
            if self.why_not(cutter):
                continue
            if goes_down(cutter, Down.BROACHING):
                yield from self._broached(cutter)
            elif goes_down(cutter, Down.SLOTTING):
                yield from self._slotted(cutter, False)
            elif point := self._on_a_blank(cutter):
                yield from self._slotted(point, True)

    def _on_a_blank(self, cutter: Cutter) -> Cutter | None:
        if not kind_of(cutter).is_blank:
            return None
        return ground(cutter, self.asked.width.mid, self._beyond + AIR_MM)

    @property
    def _beyond(self) -> float:
        """How far the floor lies beyond the edges of the keyseat at the most [mm]."""
        return self.asked.depth.hi

    def _broached(self, cutter: Cutter) -> Iterator[Chain]:
        found = tool_for(self.question, cutter, Down.BROACHING, cutter.diameter_mm or 0.0)
        if found is None:
            return
        times, asked = pushes(self.asked.depth.mid), self.asked
        tool = replace(self._reaching(found, asked.edge_mm + asked.depth.mid, 0.0), held=Held(True, PRESS))
        says = said("{times} times through its bushing, a shim more behind it each time, oil on its teeth; measure "
                    "from its floor to the far wall", times=times)
        job = stroke(tool, Role.BROACH, self._room, -asked.hub_mm - PAST_MM, says, turns=float(times))
        shims = said("a bushing for a bore of {bore} and shims for {deep} with it, and a press", bore=InWords(
            asked.bore.mid), deep=Mm(asked.depth.mid))
        yield Chain(self.question, (job,), way=f"keyseat broached with the {cutter.label}", at_best=Verdict.AS_DRAWN,
                    assumed=(shims,), held=ON_THE_PRESS, brought=(UPRIGHT_IN_IT,))

    def _slotted(self, cutter: Cutter, is_ground: bool) -> Iterator[Chain]:
        """Strokes from the bore's wall out: rough ones to a little before the floor, the last ones, those for its
        spring."""
        found = tool_for(self.question, cutter, Down.SLOTTING, cutter.face_mm or 0.0)
        if found is None:
            return
        deep, edge, out = self.asked.depth.mid, self.asked.edge_mm, stands_out(cutter) or 0.0
        rough, last = strokes(deep)
        yield Chain(
            self.question,
            tuple(self._strokes(found, edge, deep, out, rough, last)),
            way=f"keyseat slotted with the {cutter.label}, the spindle locked",
            at_best=Verdict.EXTRA_PASSES,
            warnings=tuple(self._warnings(cutter, is_ground)),
            figures=(Figure("strokes", value=float(rough + last)), Figure("set on for each, rough", STROKE_MM),
                     Figure("set on in all, from the touch", deep)),
            is_ground=is_ground,
        )

    def _strokes(self, tool: Tool, edge: float, deep: float, out: float, rough: int, last: int) -> Iterator[Job]:
        z, before = -self.asked.hub_mm - PAST_MM, deep - LAST_STROKES * LAST_MM
        touch = said("the quill's stop lets the point out {past} at the far side; its corners just touch the wall, "
                     "cross at nought", past=Mm(PAST_MM))
        if rough:
            says = said("{touch}; {rough} strokes, {each} of cross on for each, to {to}, drawn off the floor on every "
                        "way up; measure", touch=touch, rough=rough, each=Mm(STROKE_MM, places=4),
                        to=Mm(before, places=4))
            yield stroke(self._reaching(tool, edge + before, out), Role.SLOT, self._room, z, says, turns=float(rough),
                         diameter_mm=2 * (edge + before), x=nm(before))
        says = said("{start}{last} strokes of {each} to {to}, then {more} with nothing set on; measure from its floor "
                    "to the far wall", start="" if rough else said("{touch}; ", touch=touch), last=LAST_STROKES,
                    each=Mm(LAST_MM), to=Mm(deep, places=4), more=last - LAST_STROKES)
        yield stroke(self._reaching(tool, edge + deep, out), Role.SLOT, self._room, z, says, turns=float(last),
                     diameter_mm=2 * (edge + deep), x=nm(deep))

    @property
    def _room(self) -> str:
        return self.question.outline.rooms[0].name

    @staticmethod
    def _reaching(tool: Tool, to_mm: float, out_mm: float) -> Tool:
        """The tool with its point out to a distance from the bore's axis, its bar as far behind it as it stands out."""
        point, bar = nm(to_mm), nm(max(to_mm - out_mm, 0.0))
        teeth = tuple(part._replace(radius_low=point, radius_high=point) for part in tool.form.sure)
        clear = tuple(part._replace(radius_low=bar, radius_high=bar) for part in tool.form.clear if part.name == "bar")
        return replace(tool, form=Silhouette(teeth, teeth, clear))

    def _warnings(self, cutter: Cutter, is_ground: bool) -> Iterator[Finding]:
        """SL1, SL2, SL3."""
        yield Finding("SL1", Grade.NOTE, "lock the spindle against turning, its power off: a brake alone creeps; the "
                      "point must stand square to the bore in every stroke", cutter_id=cutter.id)
        if (ratio := self._out_ratio(cutter)) > OUT_CAUTION:
            yield Finding("SL2", Grade.CAUTION, said("{cutter}: it stands out {ratio:.1f} of its own thickness: it "
                                                     "springs, and the seat comes out shallow at the far end; take "
                                                     "less a stroke", cutter=cutter.label,
                                                     ratio=ratio), cutter_id=cutter.id)
        if is_ground:
            yield Finding("SL3", Grade.NOTE, said("{cutter}: its point {wide} wide, relieved on both sides and in "
                                                  "front; whoever grinds wears eye protection, the rest close to the "
                                                  "wheel, and cools it often", cutter=cutter.label,
                                                  wide=Mm(cutter.face_mm or 0.0, places=4)), cutter_id=cutter.id)

    def _out_ratio(self, cutter: Cutter) -> float:
        return (self.asked.hub_mm + PAST_MM) / (cutter.diameter_mm or 1e9)

    def why_not(self, cutter: Cutter) -> Limit | None:
        """Its width; of a tool that slots its bar, how far its point stands out, how deep it goes."""
        if goes_down(cutter, Down.BROACHING):
            return self._wide(cutter, cutter.diameter_mm, "diameter") or by_condition(cutter)
        if goes_down(cutter, Down.SLOTTING):
            return self._wide(cutter, cutter.face_mm, "face") or self._bar(cutter) or by_condition(cutter)
        if kind_of(cutter).is_blank:
            point = self._on_a_blank(cutter)
            return self._bar(point) if point else self._too_thin(cutter)
        return Limit("KD1", "it turns, and a keyseat in a bore has no round", fix="a broach or a slotting tool",
                     short=1e3)

    def _too_thin(self, cutter: Cutter) -> Limit:
        size, needs = cutter.diameter_mm or cutter.shank_mm, max(self.asked.width.mid, 2 * (self._beyond + AIR_MM))
        if size is None:
            return Limit("G7", "its size isn't known", fix="mic it", unsure=True)
        has, want = apart(size, needs)
        return Limit("SZ3", said("ground to a point it would be too thin behind it: {has}, {needs} at the least",
                                 has=has, needs=want), size, needs, "a thicker blank", needs - size)

    def _wide(self, cutter: Cutter, across: float | None, what: str) -> Limit | None:
        size = self.asked.width
        if across is None:
            return Limit("G7", "its width isn't known", fix=f"mic its width and say it: --{what}", unsure=True)
        if is_within(across, size):
            return None
        limit, word, _ = limit_of(across, size)
        has, needs = apart(across, limit, 4)
        return Limit("SZ3", said("it cuts {has} wide, {word}, {needs}", has=has, word=word, needs=needs), across, limit,
                     said("one of {low} to {high}", low=Mm(size.lo, places=4), high=Mm(size.hi, places=4)),
                     abs(across - limit))

    def _bar(self, cutter: Cutter) -> Limit | None:
        """What doesn't turn goes into the bore with air beside it, its point out as far as the seat is deep."""
        asked, out, bar = self.asked, stands_out(cutter), cutter.diameter_mm
        if out is None or bar is None:
            return Limit("G7", "how far its point stands out of its bar isn't known", unsure=True,
                         fix="mic the bar, and across bar and point: that is its smallest hole")
        if out < self._beyond + AIR_MM - SLACK:
            has, needs = apart(out, self._beyond + AIR_MM)
            return Limit("RE2", said("its point stands {has} out of the bar, {needs} is needed", has=has, needs=needs),
                         out, self._beyond + AIR_MM, "a point that stands out further", self._beyond + AIR_MM - out)
        room = 2 * asked.bore.lo / 2 - AIR_MM
        if bar + out > room + SLACK:
            has, needs = apart(bar + out, room)
            return Limit("SZ3", said("bar and point are {has} across, {needs} is the most that goes into the bore",
                                     has=has, needs=needs), bar + out, room, "a thinner bar", bar + out - room)
        deep, goes = asked.hub_mm + PAST_MM, reach(cutter)
        if goes is not None and goes < deep - SLACK:
            has, needs = apart(goes, deep)
            return Limit("RE3", said("it reaches {has}, {needs} is needed to come out at the far side", has=has,
                                     needs=needs), goes, deep, "a longer one", deep - goes)
        if (ratio := self._out_ratio(cutter)) > OUT_STOP:
            has, needs = apart(bar, deep / OUT_STOP)
            return Limit("SL2", said("its stem, {has}, would stand out {ratio:.1f} times its thickness and spring "
                                     "away, {needs} is the least", has=has, ratio=ratio, needs=needs), bar,
                         deep / OUT_STOP, "a thicker bar", deep / OUT_STOP - bar)
        return None

    def wanted(self) -> Text:
        """What would make it."""
        return said("nothing in the crib makes it: a broach of {wide} with a bushing for the bore and a press would, "
                    "or a point ground to that width", wide=InWords(self.asked.width.mid))

"""A countersink: one stroke of a point of the head's angle; of a point whose angle is a little off, with what the head
then does."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import radians, tan

from crib.cutters import goes_down, in_doubt
from crib.cutters.base import Cutter, Down
from crib.features import down
from crib.features.countersink import ANY_DEG, SQUARE_DEG
from crib.findings.finding import Figure, Finding, off_drawing
from crib.findings.message import ByUnits, Mm, Text, apart, said
from crib.findings.verdicts import Verdict
from crib.handbook.points import countersink_travel, point_length
from crib.light.hints import ClassVar
from crib.light.records import dataclass
from crib.machining.chain import Chain, dialled
from crib.machining.methods.base import Limit
from crib.machining.methods.down_the_axis.sizes import by_condition, unknown
from crib.machining.methods.down_the_axis.strokes import stroke, tool_for
from crib.machining.question import Question
from crib.machining.words import Role
from crib.units import nm


def stands_proud(rim_mm: float, hole_mm: float, head_deg: float, cutter_deg: float) -> float:
    """How far a head stands proud in a seat of the same rim that is cut blunter than it is [mm].

    (R - r) (1 / tan(A / 2) - 1 / tan(B / 2))

    Parameters: rim, hole across [mm]; angle A of the head, B of the cutter [deg]. Returns: height [mm].
    References: geometry.

    >>> round(stands_proud(0.385, 0.201, 82, 90), 4)
    0.0138
    """
    return (rim_mm - hole_mm) / 2 * (1 / tan(radians(head_deg) / 2) - 1 / tan(radians(cutter_deg) / 2))


def across_at(z_mm: float, cutter: Cutter) -> float:
    """How wide a point cuts at the surface with its lower end at z, negative downwards [mm]."""
    return (cutter.tip_mm or 0.0) - 2 * z_mm * tan(radians(cutter.angle_deg or 0.0) / 2)


@dataclass(frozen=True)
class Countersinks:
    """Countersinks with one stroke of a cutter."""

    question: Question
    asked: down.Countersink
    cutters: Sequence[Cutter]
    calls_for: ClassVar[tuple[Down, ...]] = (Down.COUNTERSINKING,)
    answer: ClassVar[Verdict | None] = None
    says: ClassVar[str] = ""
    without: ClassVar[str] = ""

    def chains(self) -> Iterator[Chain]:
        """One for each point that is wide enough and of the angle, or nearly."""
        room, rim = self.question.outline.rooms[0].name, self.asked.diameter.mid
        for cutter in self.cutters:
            if not goes_down(cutter, Down.COUNTERSINKING) or self.why_not(cutter):
                continue
            tool = tool_for(self.question, cutter, Down.COUNTERSINKING, rim)
            if tool is None:
                continue
            angle, beyond = cutter.angle_deg or 0.0, tuple(self._beyond(cutter))
            z = self._dialled_mm(cutter)
            called = cutter.kind in self.question.feature.calls_for[room].kinds
            yield Chain(
                self.question,
                (stroke(tool, Role.COUNTERSINK, room, z, self._says(cutter, across_at(z, cutter)), is_measured=True),),
                way=f"{self.question.feature.words} with the {cutter.label}",
                at_best=Verdict.AS_DRAWN if called else Verdict.EXTRA_PASSES,
                beyond=beyond,
                figures=(Figure("rim aimed at", rim),),
                assumed=(f"the hole, {self.asked.hole.text}, is there",),
                suits=abs(angle - self.asked.angle_deg),
            )

    def _dialled_mm(self, cutter: Cutter) -> float:
        """How deep its lower end goes for the rim aimed at, as it is set [mm, negative downwards]."""
        deep = point_length(self.asked.diameter.mid, cutter.angle_deg or 0.0, cutter.tip_mm or 0.0)
        return dialled(nm(-deep), self.question.shop) / 1e6

    def _says(self, cutter: Cutter, rim_mm: float) -> Text:
        """What to go by: the rim that comes of the depth as it is set, not the one aimed at."""
        if self.asked.between:
            says = said("down to {rim} across, the speed low", rim=Mm(rim_mm))
        else:
            says = said("down to {rim} across; try the screw, and last {bit} at a time", rim=Mm(rim_mm),
                        bit=ByUnits("a thou", "0.02"))
        if cutter.tip_mm is not None:
            return says
        travel = countersink_travel(rim_mm, self.asked.hole.mid, cutter.angle_deg or 90.0)
        return said("{says}; {down} down from where it touches the hole: Z is a sharp point's, its tip isn't on record",
                    says=says, down=Mm(travel))

    def _beyond(self, cutter: Cutter) -> Iterator[Finding]:
        """What the head does in a seat of another angle."""
        angle, asked = cutter.angle_deg or 0.0, self.asked
        if asked.between or abs(angle - asked.angle_deg) <= SQUARE_DEG:
            return
        if angle > asked.angle_deg:
            proud = stands_proud(asked.diameter.mid, asked.hole.mid, asked.angle_deg, angle)
            says = ("{cutter} is {angle:g} degrees for {wants:g}: sunk deeper it is flush with a ring round it; as it "
                    "is the head bears at the hole alone and stands proud by")
        else:
            proud = -stands_proud(asked.diameter.mid, asked.hole.mid, asked.angle_deg, angle)
            says = ("{cutter} is {angle:g} degrees for {wants:g}: the head bears on its rim alone, off the seat at the "
                    "hole by")
        yield off_drawing("AN2", said(says, cutter=cutter.label, angle=angle, wants=asked.angle_deg), proud,
                          of_mm=asked.diameter.mid - asked.hole.mid)

    def why_not(self, cutter: Cutter) -> Limit | None:
        """Its size, its angle, its tip, its edges."""
        if not goes_down(cutter, Down.COUNTERSINKING):
            return None
        asked, size, angle = self.asked, cutter.diameter_mm, cutter.angle_deg
        if size is None:
            return unknown()
        if (doubt := in_doubt.question(cutter)) or angle is None:
            return Limit("G7", "its angle isn't known" if angle is None else doubt or "",
                         fix="measure the angle between its edges with a gauge", short=0.0, unsure=True)
        loaded = "load" in (self.question.feature.request.use or "").lower()
        if asked.between and not asked.between[0] <= angle <= asked.between[1]:
            low, high = asked.between
            says = said("it is {has:g} degrees, the chamfer's {low:g} to {high:g}", has=angle, low=low, high=high)
            return Limit("AN2", says, fix=said("one of {low:g} to {high:g} degrees would do", low=low, high=high))
        if not asked.between and abs(angle - asked.angle_deg) > (SQUARE_DEG if loaded else ANY_DEG):
            why = "under load it must bear all over" if loaded else "it would bear on one edge of its seat"
            return Limit("AN2", said("its angle is {has:g} degrees, the head's {needs:g}: {why}", has=angle, why=why,
                                     needs=asked.angle_deg),
                         fix=said("one of {needs:g} degrees would do", needs=asked.angle_deg))
        if size < asked.diameter.lo - 1e-6:
            has, needs = apart(size, asked.diameter.lo)
            return Limit("SZ3", said("{has} across, the rim is {needs}", has=has, needs=needs), size, asked.diameter.lo,
                         said("one of {needs} or more would do", needs=needs), asked.diameter.lo - size)
        tip = cutter.tip_mm or 0.0
        if tip > asked.hole.lo:
            has, needs = apart(tip, asked.hole.lo)
            return Limit("SZ3", said("its end is flat, {has} across, the hole {needs}", has=has, needs=needs), tip,
                         asked.hole.lo, said("one with a smaller end would do"), tip - asked.hole.lo)
        return by_condition(cutter)

    def wanted(self) -> Text:
        """The countersink that would make it."""
        if self.asked.between:
            return said("nothing in the crib chamfers a hole to {rim}: a countersink of that or more would",
                        rim=Mm(self.asked.diameter.lo))
        return said("nothing in the crib sinks a head of {angle:g} degrees: a countersink of {rim} or more would",
                    angle=self.asked.angle_deg, rim=Mm(self.asked.diameter.lo))

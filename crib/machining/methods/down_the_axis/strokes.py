"""Single strokes: a cutter made ready for one, the spot that a drill starts in, the bevel at a mouth."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from crib.cutters import goes_down, in_doubt, kind_of
from crib.cutters.base import Cutter, Down
from crib.features.down import HOLE
from crib.findings.finding import Grade
from crib.findings.message import InWords, Mm, Text, said
from crib.geometry.region import NOTHING
from crib.handbook.points import countersink_travel, point_length
from crib.holders.heads import is_head
from crib.light.hints import Any
from crib.light.records import replace
from crib.machining.holes import usable
from crib.machining.methods.cuts import Cut, Job
from crib.machining.overruled import SPEED, may_be
from crib.machining.question import Question
from crib.machining.tool import Descent, Tool, ready
from crib.machining.words import Manner, Role, Side
from crib.units import nm

_SPOT_SHARE = 0.6
"""The spot is this much of the hole's diameter, so that the drill starts on its lips [-]. Common practice."""

_SINK_ANGLES = (60.0, 120.0)

_HELP = frozenset((Down.SPOTTING, Down.DRILLING, Down.COUNTERSINKING))


def stroke(tool: Tool, role: Role, room: str, z_mm: float, says: Text, **more: Any) -> Job:
    """A cutter that comes down to z [mm, negative downwards], with whatever else is known of its cut."""
    cut = Cut(0, nm(z_mm), role, room, Side.AXIS, 0, -nm(z_mm), says=says)
    return Job(tool, room, (replace(cut, **more),), NOTHING, Manner.DOWN)


def tool_for(question: Question, cutter: Cutter, what: Down, across_mm: float, makes_mm: float | None = None
             ) -> Tool | None:
    """The tool that a cutter is for this, its speed counted at so wide, making so wide a hole [mm]."""
    return ready(cutter, question.shop, question.material, down=Descent(what, across_mm, makes_mm))


def held(question: Question, cutter: Cutter, what: Down, across_mm: float) -> Tool | None:
    """The same, where something holds it and it is whole."""
    found = tool_for(question, cutter, what, across_mm) if usable(cutter) else None
    return found if found and found.held.ok else None


def that_help(cutters: Iterable[Cutter]) -> list[Cutter]:
    """Those of some cutters of which something is asked whatever makes the hole: what spots it, pilots it, bevels its
    mouth, sets a bar out. Of thousands they are few."""
    return [cutter for cutter in cutters if is_head(cutter) or not kind_of(cutter).down.isdisjoint(_HELP)]


def spot(question: Question, cutters: Sequence[Cutter], hole_mm: float) -> Iterator[Job]:
    """A spot for the drill to start in, with the first that is owned for it, a whole point before a centre drill's;
    nothing where nothing is."""
    spotters = [cutter for cutter in cutters if goes_down(cutter, Down.SPOTTING)]
    for cutter in sorted(spotters, key=lambda one: not goes_down(one, Down.COUNTERSINKING)):
        found = held(question, cutter, Down.DRILLING, hole_mm)
        if found is None or (cutter.tip_mm or 0.0) >= hole_mm or _is_too_fast(question, found):
            continue
        depth = _to_reach(found, min(_SPOT_SHARE * hole_mm, cutter.diameter_mm or 0.0))
        if depth is not None:
            yield stroke(found, Role.SPOT, HOLE, -depth, "spot the place: the drill starts in it")
            return


def _to_reach(found: Tool, across_mm: float) -> float | None:
    """How deep a silhouette goes until it is so wide at the surface [mm]."""
    radius = across_mm / 2 * 1e6
    for part in found.form.sure:
        if part.widest >= radius:
            run = part.radius_high - part.radius_low
            share = (radius - part.radius_low) / run if run > 0 else 0.0
            return (part.low + max(0.0, share) * (part.high - part.low)) / 1e6
    return None


def countersink(question: Question, cutters: Sequence[Cutter], hole_mm: float, rim_mm: float, below_mm: float = 0.0
                ) -> Iterator[Job]:
    """A bevel at the mouth, which lies so far below the surface, with the point nearest to 90 degrees that is wide
    enough; nothing where none is, or each would go too fast: the hole does without it."""
    def off_square(cutter: Cutter) -> tuple[float, int]:
        return abs((cutter.angle_deg or 90.0) - 90), cutter.id

    for cutter in sorted((one for one in cutters if _sinks(one, hole_mm, rim_mm)), key=off_square):
        found = held(question, cutter, Down.COUNTERSINKING, rim_mm)
        if found is None or _is_too_fast(question, found):
            continue
        angle, says = cutter.angle_deg or 90.0, said("bevel the mouth to {rim} across", rim=InWords(rim_mm))
        if cutter.tip_mm is None:
            says = said("{says}, {down} down from where it touches the hole: Z is a sharp point's, its tip isn't on "
                        "record", says=says, down=Mm(countersink_travel(rim_mm, hole_mm, angle)))
        deep = point_length(rim_mm, angle, cutter.tip_mm or 0.0) + below_mm
        yield stroke(found, Role.COUNTERSINK, "mouth", -deep, says)
        return


def _is_too_fast(question: Question, tool: Tool) -> bool:
    """Whether no step of the spindle is slow enough for a tool, whose owner says nothing else."""
    return bool(tool.step and tool.step.grade == Grade.STOP) and not may_be(question.shop, tool.owned, SPEED)


def _sinks(cutter: Cutter, hole_mm: float, rim_mm: float) -> bool:
    """Whether a cutter's point is one for a mouth so wide, as far as it is known."""
    wide_enough = (cutter.diameter_mm or 0.0) >= rim_mm and (cutter.tip_mm or 0.0) < hole_mm
    return (goes_down(cutter, Down.COUNTERSINKING) and wide_enough and not in_doubt.question(cutter)
            and _SINK_ANGLES[0] <= (cutter.angle_deg or 90.0) <= _SINK_ANGLES[1])

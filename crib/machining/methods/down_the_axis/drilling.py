"""Drilling, and what follows a drill into its hole: the strokes to a depth at full diameter."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters import goes_down, kind_of
from crib.cutters.base import Cutter, Down
from crib.cutters.drill import flutes_of
from crib.cutters.reamer import LEAD_MM, lead_mm
from crib.features.down import HOLE
from crib.findings.message import Mm, Text, said
from crib.handbook.reaming import HAND_FEED_MM, settings_by_hand
from crib.light.records import replace
from crib.machining.holes import Hole, drill_hole, drilled_hole
from crib.machining.methods.cuts import Job
from crib.machining.methods.down_the_axis.boring import bored
from crib.machining.methods.down_the_axis.strokes import held, stroke, tool_for
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Making, Role

LARGE_MM, PILOT = 12.7, (0.2, 0.5)
"""Drills over this want a pilot, of so much of their own diameter, as wide as the web is thick [mm, -]. Common
practice."""

THROUGH_MM = 1.0
"""How far a drill goes beyond its point through the far side [mm]. Common practice."""

FROM_SOLID = "plunge slowly, table and cross locked; up and clear it every half diameter"
"""How an end mill goes down where no drill went before it. Common practice."""

_HOW: dict[Making, tuple[Down, Role, str]] = {
    Making.DRILL: (Down.DRILLING, Role.DRILL, "drill to size"),
    Making.TWO_DRILLS: (Down.DRILLING, Role.DRILL, "open to size: it follows the smaller hole"),
    Making.REAM: (Down.REAMING, Role.REAM, "ream in one go, never turning back"),
    Making.END_MILL: (Down.MILLING, Role.PLUNGE, "plunge slowly, table and cross locked"),
}


def hole_jobs(question: Question, hole: Hole, full_mm: float, through: bool, cutters: Sequence[Cutter] = ()
              ) -> tuple[Job, ...]:
    """The strokes that make a hole to a depth at full diameter, a reamer's lead beyond it, a pilot before a large drill
    where one of the cutters is for it; none where a cutter for it can't be used."""
    if hole.cutter is None:
        return ()
    if hole.way is Making.REAM and kind_of(hole.cutter).by_hand(hole.cutter):
        return tuple(_by_hand(question, hole, full_mm, cutters)) if through else ()
    full_mm += LEAD_MM if hole.way is Making.REAM else 0.0
    before: tuple[Job, ...] = ()
    if hole.first is not None and hole.first.diameter_mm is not None:
        made = drill_hole(hole.first.diameter_mm, question.shop.own)
        if (first := tool_for(question, hole.first, Down.DRILLING, hole.first.diameter_mm, made)) is None:
            return ()
        under = stroke(first, Role.DRILL, HOLE, -tip(first, full_mm, through), "drill under size first")
        before = (*pilot(question, cutters, first, full_mm, through), under)
    if hole.way is Making.BORE:
        start = before[-1].tool.form.radius / 5e5 if before else 0.0
        cuts = tuple(bored(question, hole, hole.cutter, start, full_mm + THROUGH_MM * through, cutters))
        return (*before, *cuts) if cuts else ()
    if hole.bored and hole.bored.cutter:
        start, deep = before[-1].tool.form.radius / 5e5, full_mm + THROUGH_MM * through
        if not (cuts := tuple(bored(question, hole.bored, hole.bored.cutter, start, deep, cutters))):
            return ()
        before = (*before, *cuts)
    what, role, says = _HOW[hole.way]
    if (last := tool_for(question, hole.cutter, what, hole.diameter_mm, hole.expected_mm)) is None:
        return ()
    if hole.way is Making.END_MILL and hole.first is None:
        says = FROM_SOLID
    if hole.way is Making.DRILL:
        before = tuple(pilot(question, cutters, last, full_mm, through))
    return (*before, stroke(last, role, HOLE, -tip(last, full_mm, through), says))


def _by_hand(question: Question, hole: Hole, full_mm: float, cutters: Sequence[Cutter]) -> Iterator[Job]:
    """A reamer that is turned by hand, after the hole that is drilled, or bored, for it: its turns, and where it is set
    out, how often and to what at last. Its lead goes through the far side."""
    if hole.cutter is None or (reamer := tool_for(question, hole.cutter, Down.REAMING, hole.diameter_mm,
                                                  hole.expected_mm)) is None:
        return
    before = _before_a_hand(question, hole, full_mm, cutters)
    if not before:
        return
    yield from before
    least, most = reamer.kind.sizes(reamer.owned)
    made = before[-1].cuts[-1].diameter_mm or 2 * before[-1].tool.form.radius / 1e6
    times = settings_by_hand(hole.diameter_mm, made, least)
    says: Text = "by hand, the spindle off: tap wrench, a centre in the spindle on its end; never turn it back"
    if least < most:
        says = said("{says}; set it out in {times} settings, at last to {size}: a trial hole or a ring tells",
                    says=says, times=times, size=Mm(hole.diameter_mm, places=4))
    deep = full_mm + lead_mm(hole.cutter) + THROUGH_MM
    yield stroke(reamer, Role.REAM, HOLE, -deep, says, turns=times * deep / HAND_FEED_MM)


def _before_a_hand(question: Question, hole: Hole, full_mm: float, cutters: Sequence[Cutter]) -> tuple[Job, ...]:
    """What makes the hole for it."""
    if hole.bored:
        return hole_jobs(question, hole.bored, full_mm, True, cutters)
    drill = hole.first
    if drill is None or drill.diameter_mm is None:
        return ()
    hole = drilled_hole(drill, drill.label, drill.diameter_mm, question.shop.own)
    jobs = hole_jobs(question, hole, full_mm, True, cutters)
    return (*jobs[:-1], *(replace(job, cuts=(replace(job.cuts[0], says="drill under size first"),))
                          for job in jobs[-1:]))


def pilot(question: Question, cutters: Sequence[Cutter], drill: Tool, full_mm: float, through: bool) -> Iterator[Job]:
    """The hole for a large drill's web: the smallest drill that is as wide as the web and reaches; nothing where none
    is, or where it isn't large."""
    size = drill.cutter.diameter_mm or 0.0
    if size <= LARGE_MM + 1e-6:
        return
    for cutter in sorted(cutters, key=lambda c: (c.diameter_mm or 0.0, c.id)):
        across = cutter.diameter_mm or 0.0
        if not goes_down(cutter, Down.DRILLING) or not PILOT[0] * size <= across <= PILOT[1] * size:
            continue
        found = held(question, cutter, Down.DRILLING, across)
        z = tip(found, full_mm, True) if found and through else full_mm
        if found is not None and reaches(found.cutter, z):
            says = said("a pilot for the web of the {cutter}", cutter=drill.owned.label)
            yield stroke(found, Role.DRILL, HOLE, -z, says, is_measured=False)
            return


def reaches(cutter: Cutter, deep_mm: float) -> bool:
    """Whether a drill's flutes go so deep, reckoned at their usual where they aren't on record."""
    return (cutter.length_of_cut_mm or flutes_of(cutter).usual) >= deep_mm - 1e-6


def tip(tool: Tool, full_mm: float, through: bool) -> float:
    """How deep a cutter's tip goes for a depth at full diameter [mm]."""
    point = max((part.high for part in tool.form.sure if part.name == "point"), default=0) / 1e6
    return full_mm + point + THROUGH_MM * through

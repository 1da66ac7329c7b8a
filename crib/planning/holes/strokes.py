"""The strokes that plans are made of: which spot drill, which countersink, how deep each goes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.cutters import in_doubt
from crib.cutters.base import Cutter, Down
from crib.cutters.drill import flutes_of
from crib.cutters.reamer import LEAD_MM
from crib.findings.message import InWords, Mm, Text, said
from crib.handbook.points import countersink_travel, point_length
from crib.machining.tool import Descent, Tool, ready
from crib.planning.holes.boring import bored_strokes
from crib.planning.holes.draft import Question, Stroke
from crib.tapping.holes import drill_hole
from crib.tapping.shape import Hole

LARGE_MM, PILOT = 12.7, (0.2, 0.5)
"""Drills over this want a pilot, of so much of their own diameter, as wide as the web is thick [mm, -]. Common
practice."""

THROUGH_MM = 1.0
"""How far a drill goes beyond its point through the far side [mm]. Common practice."""

_SPOT_SHARE = 0.6
"""The spot is this much of the hole's diameter, so that the drill starts on its lips [-]. Common practice."""

_SPOTTERS = ("spot-drill", "centre-drill")
_SINKS = ("countersink", "spot-drill")
_SINK_ANGLES = (60.0, 120.0)
_BAD = ("chipped", "burnt", "bent")

OPERATIONS = {"drill": Down.DRILLING, "two drills": Down.DRILLING, "ream": Down.REAMING, "bore": Down.BORING,
              "end mill": Down.MILLING}
ROLES = {"drill": "drill", "two drills": "drill", "ream": "ream", "bore": "bore", "end mill": "plunge"}


def tool(question: Question, cutter: Cutter, operation: Down, across_mm: float, makes_mm: float | None = None
         ) -> Tool | None:
    """The tool that a cutter is for this."""
    return ready(cutter, question.shop, question.material, down=Descent(operation, across_mm, makes_mm))


def held(question: Question, cutter: Cutter, operation: Down, across_mm: float) -> Tool | None:
    """The same, where something holds it and it is whole."""
    if cutter.condition in _BAD or cutter.diameter_mm is None:
        return None
    found = tool(question, cutter, operation, across_mm)
    return found if found and found.held.ok else None


def spot(question: Question, cutters: Sequence[Cutter], hole_mm: float) -> Iterator[Stroke]:
    """A spot for the drill to start in, with the best that is owned for it; nothing where nothing is."""
    for kind in _SPOTTERS:
        for cutter in cutters:
            found = held(question, cutter, Down.DRILLING, hole_mm) if cutter.kind == kind else None
            if found is None or (cutter.tip_mm or 0.0) >= hole_mm:
                continue
            across = min(_SPOT_SHARE * hole_mm, cutter.diameter_mm or 0.0)
            depth = _to_reach(found, across)
            if depth is not None:
                yield Stroke(found, "spot", "hole", -depth, "spot the place: the drill starts in it")
                return


def countersink(question: Question, cutters: Sequence[Cutter], hole_mm: float, rim_mm: float) -> Iterator[Stroke]:
    """A bevel at the mouth, with the point nearest to 90 degrees that is wide enough; nothing where none is."""
    best: tuple[float, int, Stroke] | None = None
    for cutter in cutters:
        angle = cutter.angle_deg or 90.0
        wide_enough = (cutter.diameter_mm or 0.0) >= rim_mm and (cutter.tip_mm or 0.0) < hole_mm
        suits = cutter.kind in _SINKS and wide_enough and _SINK_ANGLES[0] <= angle <= _SINK_ANGLES[1]
        if not suits or in_doubt.question(cutter):
            continue
        found = held(question, cutter, Down.COUNTERSINKING, rim_mm)
        if found is None:
            continue
        depth = point_length(rim_mm, angle, cutter.tip_mm or 0.0)
        says: Text = said("bevel the mouth to {rim} across", rim=InWords(rim_mm))
        if cutter.tip_mm is None:
            down = Mm(countersink_travel(rim_mm, hole_mm, angle))
            says = said("{says}, {down} down from where it touches the hole: Z is a sharp point's, its tip isn't on "
                        "record", says=says, down=down)
        stroke = Stroke(found, "countersink", "mouth", -depth, says)
        rank = (abs(angle - 90), cutter.id, stroke)
        if best is None or rank[:2] < best[:2]:
            best = rank
    if best:
        yield best[2]


def _to_reach(found: Tool, across_mm: float) -> float | None:
    """How deep a silhouette goes until it is so wide at the surface [mm]."""
    radius = across_mm / 2 * 1e6
    for part in found.form.sure:
        if part.widest >= radius:
            run = part.radius_high - part.radius_low
            share = (radius - part.radius_low) / run if run > 0 else 0.0
            return (part.low + max(0.0, share) * (part.high - part.low)) / 1e6
    return None


def hole_strokes(question: Question, hole: Hole, full_mm: float, through: bool, cutters: Sequence[Cutter] = ()
                 ) -> list[Stroke] | None:
    """The strokes that make a hole to a depth at full diameter, a reamer's lead beyond it, a pilot before a large drill
    where one of the cutters is for it; None where a cutter for it can't be used."""
    strokes: list[Stroke] = []
    full_mm += LEAD_MM if hole.way == "ream" else 0.0
    if hole.first is not None and hole.first.diameter_mm is not None:
        made = drill_hole(hole.first.diameter_mm, question.shop.own)
        first = tool(question, hole.first, Down.DRILLING, hole.first.diameter_mm, made)
        if first is None:
            return None
        strokes += [*pilot(question, cutters, first, full_mm, through),
                    Stroke(first, "drill", "hole", -tip(first, full_mm, through), "drill under size first")]
    if hole.cutter is None:
        return None
    if hole.way == "bore":
        start = strokes[-1].tool.form.radius / 5e5 if strokes else 0.0
        bored = bored_strokes(question, hole, hole.cutter, start, full_mm + (THROUGH_MM if through else 0.0))
        return [*strokes, *bored] if bored else None
    last = tool(question, hole.cutter, OPERATIONS[hole.way], hole.diameter_mm, hole.expected_mm)
    if last is None:
        return None
    z = -tip(last, full_mm, through) if last.cutter.kind == "drill" else -(full_mm + (THROUGH_MM if through else 0.0))
    before = pilot(question, cutters, last, full_mm, through) if hole.way == "drill" else ()
    return [*strokes, *before, Stroke(last, ROLES[hole.way], "hole", z, _says(hole))]


def pilot(question: Question, cutters: Sequence[Cutter], drill: Tool, full_mm: float, through: bool
          ) -> Iterator[Stroke]:
    """The hole for a large drill's web: the smallest drill that is as wide as the web and reaches; nothing where none
    is, or where it isn't large."""
    size = drill.cutter.diameter_mm or 0.0
    if size <= LARGE_MM + 1e-6:
        return
    for cutter in sorted(cutters, key=lambda c: (c.diameter_mm or 0.0, c.id)):
        across = cutter.diameter_mm or 0.0
        if cutter.kind != "drill" or not PILOT[0] * size <= across <= PILOT[1] * size:
            continue
        found = held(question, cutter, Down.DRILLING, across)
        z = tip(found, full_mm, True) if found and through else full_mm
        if found is not None and reaches(found.cutter, z):
            says = f"a pilot for the web of the {drill.owned.label}"
            yield Stroke(found, "drill", "hole", -z, says, is_measured=False)
            return


def reaches(cutter: Cutter, deep_mm: float) -> bool:
    """Whether a drill's flutes go so deep, reckoned at their usual where they aren't on record."""
    return (cutter.length_of_cut_mm or flutes_of(cutter).usual) >= deep_mm - 1e-6


def tip(found: Tool, full_mm: float, through: bool) -> float:
    """How deep a drill's tip goes for a depth at full diameter [mm]."""
    point = max((part.high for part in found.form.sure if part.name == "point"), default=0) / 1e6
    return full_mm + point + (THROUGH_MM if through else 0.0)


def _says(hole: Hole) -> str:
    return {"drill": "drill to size", "two drills": "open to size: it follows the smaller hole",
            "ream": "ream in one go, never turning back",
            "end mill": "plunge slowly, table and cross locked"}[hole.way]

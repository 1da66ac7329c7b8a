"""Rules on size: what the way of cutting can hold, what isn't measured, what is assumed."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Motion
from crib.features.base import Dimension
from crib.findings.finding import Figure, Finding, Grade, off_drawing
from crib.findings.message import Mm, Reading, said
from crib.handbook.bands import Band
from crib.handbook.deviations import PAPER_MM, saw_lean
from crib.machining.draft import Draft
from crib.machining.methods.cuts import LEAST_BITE, rubs
from crib.machining.tool import Tool
from crib.machining.words import BY_THE_AXIS, SIZED, Role
from crib.rules.catalogue import PRACTICE
from crib.rules.ways_of_cutting import (
    OWN_SIZE,
    SAWN,
    SLACK,
    comes_out,
    is_set_once,
    is_under,
    kept_by,
    makes_size,
    set_to,
    ways,
)

IS_MEANT = "is that meant?"
"""In a question that is open about a size of a cutter, as intake asks it: it can hardly be meant."""


def measured(draft: Draft) -> Iterator[Finding]:
    """PR1: a size that places a wall, or makes a hole, is better measured than stated."""
    sized = {job.tool.id for job, cut in draft.passes() if cut.is_measured and cut.role in SIZED}
    for tool in draft.tools:
        if tool.id not in sized if draft.is_round else Motion.ALONG not in tool.kind.motions:
            continue
        if "diameter_mm" not in tool.owned.measured:
            has_walls = any(face.upright for face in draft.question.outline.faces)
            mic = "over the margins first" if draft.is_round else "before the walls" if has_walls else "first"
            yield Finding("PR1", Grade.NOTE, said("{cutter}: the diameter isn't measured; mic it {mic}",
                                                  cutter=tool.owned.label, mic=mic),
                          cutter_id=tool.id)
        typical = [key for key in tool.cutter.assumed if key in ("length_of_cut_mm", "shank_mm", "neck_mm")]
        if typical and not draft.is_round:
            words = ", ".join(key.removesuffix("_mm").replace("_", " ") for key in typical)
            yield Finding("PR1", Grade.WARN, said("{cutter}: {words} taken as usual for its kind; measure first",
                                                  cutter=tool.owned.label, words=words),
                          "from memory", tool.id)


def doubted(draft: Draft) -> Iterator[Finding]:
    """PR1: a size that can hardly be meant, and that nobody has confirmed, isn't cut by."""
    for tool in draft.tools:
        for question in tool.owned.questions:
            if IS_MEANT in question:
                asks = question.split("?")[0] + "?"
                yield Finding("PR1", Grade.CAUTION, said("{cutter}: {asks} Measure first", cutter=tool.owned.label,
                                                         asks=asks), PRACTICE, tool.id)


def rubbing(draft: Draft) -> Iterator[Finding]:
    """SZ2: a cutter that is nearly the size of the slot takes a hair off each wall, and under the least bite it
    rubs."""
    for job, cut in draft.passes():
        if rubs(cut):
            least = Mm(LEAST_BITE / 1e6)
            yield Finding("SZ2", Grade.CAUTION, said("{cutter} is so near the size of the {room} that {radial} a side "
                                                     "is left: under {least} a side it rubs: freshly sharp, slow, or "
                                                     "one pass",
                                                     cutter=job.tool.owned.label, room=job.room,
                                                     radial=Mm(cut.radial / 1e6, places=4),
                                                     least=least), PRACTICE, job.tool.id)
            return
        if cut.role == Role.FINISH and job.manner in BY_THE_AXIS and cut.radial <= LEAST_BITE:
            yield Finding("SZ2", Grade.WARN, said("{cutter} is nearly the width: the side passes take a hair, sharp "
                                                  "teeth only", cutter=job.tool.owned.label), "from "
                                                                                              "memory", job.tool.id)
            return


def holds(draft: Draft) -> Iterator[Finding]:
    """G12: the way of cutting holds the drawing's band."""
    for dimension, way, jobs in ways(draft):
        yield from with_care(dimension, way, jobs[-1].tool.cutter.diameter_mm or 0.0,
                             set_to(dimension, jobs, draft.question.outline))


def with_care(dimension: Dimension, way: Band, diameter: float, aimed: float) -> Iterator[Finding]:
    """What is said of a dimension that a way holds with care only: of a cutter so large, set to so much [mm]."""
    if kept_by(dimension, way, diameter, aimed) != "with care":
        return
    name, times = _told(dimension)
    least, most = (Reading(times * mm) for mm in (dimension.size.lo, dimension.size.hi))
    limits = said("{least} to {most}", least=least, most=most)
    if dimension.size.band < SLACK:
        low, high = comes_out(way, diameter, dimension.size.mid, careful=False)
        usual = said("{way} usually holds {high}", way=way.way, high=Mm(times * (high - low)))
        yield Finding("G12", Grade.WARN, said("{name} without a tolerance counts as exact; {usual}",
                                              name=name, usual=usual), way.source)
    else:
        yield Finding("G12", Grade.WARN, said("{name} {limits} holds with care only: {way}", name=name,
                                              limits=limits, way=way.way), way.source)


def _told(dimension: Dimension) -> tuple[str, int]:
    """By what name a dimension is told, and how many times its size: one that is half of what lies across by that."""
    return (dimension.across, 2) if dimension.across else (dimension.name, 1)


def misses(draft: Draft) -> Iterator[Finding]:
    """What the way can't hold even with care: how far it may come out beyond the nearer limit."""
    for dimension, way, jobs in ways(draft):
        yield from missed(dimension, way, jobs[-1].tool.cutter.diameter_mm or 0.0,
                          set_to(dimension, jobs, draft.question.outline))


def missed(dimension: Dimension, way: Band, diameter: float, aimed: float) -> Iterator[Finding]:
    """The same of one that a way can't hold."""
    if kept_by(dimension, way, diameter, aimed) == "no":
        low, high = comes_out(way, diameter, aimed, careful=True)
        over = max(high - dimension.size.hi, dimension.size.lo - low)
        name, times = _told(dimension)
        yield off_drawing("G12", said("{size} may come out outside its limits", size=name), times * over,
                          beyond=True, of_mm=times * (dimension.size.band or dimension.size.mid))


def off_paper(draft: Draft) -> Iterator[Finding]:
    """TO1: a depth, or a wall, to a thou or two that comes in one bite counts from paper, or from the edge finder,
    alone: nothing was measured before it."""
    for dimension, _, jobs in ways(draft):
        if not SLACK < dimension.size.band < 2 * PAPER_MM - SLACK:
            continue
        cuts = [cut for job in jobs for cut in job.cuts]
        if dimension.follows is not None:
            continue
        if dimension.sort == "depth":
            rooms = (room for room in draft.question.outline.rooms if makes_size(room.name, dimension))
            is_once = len({cut.z for cut in cuts}) == 1 or is_under(rooms)
        else:
            is_once = is_set_once(draft.question, dimension) and not any(
                cut.wall and cut.role is Role.FINISH for cut in cuts)
        if is_once:
            yield Finding("TO1", Grade.NOTE, said(
                "{name} {least} to {most} comes in one bite: off {where} it may be {off} out either way; stop short by "
                "that or more, measure, then set what is left", name=dimension.name,
                where="paper" if dimension.sort == "depth" else "the edge finder",
                least=Mm(dimension.size.lo, places=4), most=Mm(dimension.size.hi, places=4), off=Mm(PAPER_MM)),
                PRACTICE)


def one_cut(draft: Draft) -> Iterator[Figure]:
    """How wide it comes out where a cutter's own size makes it: a mill in one pass, a saw in one cut."""
    for dimension, way, jobs in ways(draft):
        if way.way not in (OWN_SIZE, SAWN):
            continue
        low, high = comes_out(way, jobs[-1].tool.cutter.diameter_mm or 0.0,
                               set_to(dimension, jobs, draft.question.outline), careful=False)
        known = (draft.question.shop.mill_runout_mm if way.way == OWN_SIZE else draft.question.shop.saw_runout_mm)
        what = "{name}: comes out in one cut{known}"
        yield Figure(said(what, name=dimension.name, known="" if known is None else ", by its run-out"),
                     value=said("{low} to {high}", low=Mm(low, places=4), high=Mm(high, places=4)))


def leans(draft: Draft) -> Iterator[Finding]:
    """SW1: a saw that cuts on one side only leans away from the metal; so does the second of two cuts side by side."""
    for job in draft.jobs:
        if surely_leans(job.tool, job.levels):
            depth = next(room.aim.width for room in draft.question.outline.rooms if room.name == job.room) / 1e6
            says = said("the {room} leans where {cutter} cuts beside its first cut, from memory about", room=job.room,
                        cutter=job.tool.owned.label)
            yield off_drawing("SW1", says, saw_lean(depth), of_mm=_across(draft, job.room))


def _across(draft: Draft, room: str) -> float:
    """The tolerance of a room's width, of one that has none the width [mm]."""
    widths = [one.size for one in draft.question.dimensions if one.sort == "width" and makes_size(room, one)]
    return widths[0].band or widths[0].mid if widths else 0.0


def surely_leans(tool: Tool, levels: int) -> bool:
    """Whether a tool that goes in so many levels leans beside its first cut, whoever else is there (see SW1)."""
    return levels > 1 and tool.kind.saws


TOOLS = (measured, doubted)
RULES = (measured, doubted, rubbing, holds, off_paper)

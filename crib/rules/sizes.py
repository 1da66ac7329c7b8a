"""Rules on size: what the way of cutting can hold, what isn't measured, what is assumed."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from crib.cutters.base import Motion
from crib.features.base import Dimension
from crib.findings.finding import Figure, Finding, Grade, off_drawing
from crib.findings.message import Mm, Reading, said
from crib.geometry.outline import Opening, Outline, Room
from crib.handbook.bands import Band, band, one_pass, sawn
from crib.handbook.deviations import PAPER_MM, saw_lean
from crib.machining.draft import Draft
from crib.machining.methods.cuts import LEAST_BITE, Job, rubs
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import BY_ITS_WIDTH, BY_THE_AXIS, LEANING, PREPARES, SIDEWAYS, SIZED, Role
from crib.rules.catalogue import PRACTICE

IS_MEANT = "is that meant?"
"""In a question that is open about a size of a cutter, as intake asks it: it can hardly be meant."""

OWN_SIZE, _SAWN = "own size", "saw"
"""Ways that come out over the size of the cutter itself."""

SLACK = 1e-6
"""What is less than this is nothing [mm]."""

SAME_FIGURE = 0.0005
"""A band is a round figure of thousandths: what keeps .001 in keeps .025 mm [mm]. Common practice."""

_A_HAIR_COUNTS = 0.004 * 25.4
"""Of limits farther apart, what a disc cuts over its own face is nothing [mm]. From memory."""

BY_NO_BAND = ("corner", "face")
"""Sorts of dimensions that no band of a process is told for."""


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
    for dimension, way, jobs in _ways(draft):
        yield from with_care(dimension, way, jobs[-1].tool.cutter.diameter_mm or 0.0,
                             _aimed(dimension, jobs, draft.question.outline))


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
    for dimension, way, jobs in _ways(draft):
        yield from missed(dimension, way, jobs[-1].tool.cutter.diameter_mm or 0.0,
                          _aimed(dimension, jobs, draft.question.outline))


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
    for dimension, _, jobs in _ways(draft):
        if not SLACK < dimension.size.band < 2 * PAPER_MM - SLACK:
            continue
        cuts = [cut for job in jobs for cut in job.cuts]
        if dimension.follows is not None:
            continue
        if dimension.sort == "depth":
            rooms = (room for room in draft.question.outline.rooms if makes_size(room.name, dimension))
            is_once = len({cut.z for cut in cuts}) == 1 or _is_under(rooms)
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
    for dimension, way, jobs in _ways(draft):
        if way.way not in (OWN_SIZE, _SAWN):
            continue
        low, high = comes_out(way, jobs[-1].tool.cutter.diameter_mm or 0.0,
                               _aimed(dimension, jobs, draft.question.outline), careful=False)
        known = (draft.question.shop.mill_runout_mm if way.way == OWN_SIZE else draft.question.shop.saw_runout_mm)
        what = "{name}: comes out in one cut{known}"
        yield Figure(said(what, name=dimension.name, known="" if known is None else ", by its run-out"),
                     value=said("{low} to {high}", low=Mm(low, places=4), high=Mm(high, places=4)))


_last: tuple[Draft | None, list[tuple[Dimension, Band, list[Job]]]] = None, []
"""The draft that was asked of last, with its ways: the rules ask of one after the other."""


def _ways(draft: Draft) -> list[tuple[Dimension, Band, list[Job]]]:
    """Each dimension of a finished room that a way of cutting decides, with that way and the jobs that make it."""
    global _last
    asked, ways = _last
    if asked is not draft:
        ways = list(_decided(draft))
        _last = draft, ways
    return ways


def _decided(draft: Draft) -> Iterator[tuple[Dimension, Band, list[Job]]]:
    outline = draft.question.outline
    if not any(job.cuts for job in draft.jobs):
        return
    undone = [room.name for room in outline.rooms if not outline.is_waived(outline.rest(room, draft.removed))]
    for dimension in draft.question.dimensions:
        if is_by_no_band(dimension):
            continue
        jobs = [job for job in draft.jobs if makes_size(job.room, dimension) and job.manner not in PREPARES]
        if not any(job.cuts for job in jobs) or jobs[-1].room in undone:
            continue
        last = jobs[-1]
        makes = jobs if last.manner in LEANING else [last]  # between two flanks lies what both were set to
        stepped = last.manner in (*BY_THE_AXIS, *SIDEWAYS) or _is_narrower(last, outline) or (
            len({cut.x for job in makes for cut in job.cuts}) > 1)
        way = way_of(draft.question, dimension, last.levels, last.manner in BY_ITS_WIDTH, stepped)
        if dimension.sort == "height" and last.cuts and last.levels == 1:
            way = (sawn(draft.question.shop.saw_runout_mm) if last.tool.kind.saws
                   else band("own face") if dimension.size.band < _A_HAIR_COUNTS else None)
        if way is not None:
            yield dimension, way, jobs


def _is_narrower(job: Job, outline: Outline) -> bool:
    """Whether a tool under a lip is narrower than its room must be: its walls were stepped to, be it by another before,
    or by this one at the wall that still stood."""
    return any(room.name == job.room and not (room.open or room.lean)
               and 2 * job.tool.form.radius < room.least.width for room in outline.rooms)


def is_by_no_band(dimension: Dimension) -> bool:
    """Whether no way of cutting decides a dimension."""
    return dimension.sort in BY_NO_BAND and dimension.follows is None


def makes_size(room: str, dimension: Dimension) -> bool:
    """Whether passes in a room make a dimension."""
    return room in dimension.rooms if dimension.rooms else dimension.name.startswith(room)


def way_of(question: Question, dimension: Dimension, levels: int, own_size: bool, stepped: bool) -> Band | None:
    """The band of the way in which a dimension comes about, where a way decides it."""
    if dimension.follows is not None:
        return _following(question, dimension.follows)
    sort, once = dimension.sort, band("one setting, measured before it") if is_set_once(question, dimension) else None
    if once and dimension.across:
        return band("opposite flats at one setting, measured across and mended by half")
    if sort == "depth":
        return once
    if sort == "height":
        return band("two levels") if levels > 1 else None
    if own_size and sort != "length":
        return one_pass(question.shop.mill_runout_mm)
    return band("stepped by readout" if question.shop.dro else "stepped by dials") if (
        stepped or sort == "length") else once


def _following(question: Question, follows: tuple[float, float]) -> Band:
    """The band of what grows so much for so much that slanted faces are set deeper: geometry."""
    once = band("one setting, measured before it")
    times = follows[any(face.turned for face in question.outline.faces)]
    low, high = once.usual_mm
    return Band(once.way, (times * low, times * high), (times * low, times * high), once.source)


def is_set_once(question: Question, dimension: Dimension) -> bool:
    """Whether one setting of a slide or the knee makes it to limits: a floor from the surface, a wall from the edge."""
    if dimension.sort not in ("width", "depth") or dimension.size.band < SLACK:
        return False
    rooms = [room for room in question.outline.rooms if makes_size(room.name, dimension)]
    if dimension.sort == "width" and (len(dimension.faces) != 1 or _is_under(rooms)):
        return False
    return bool(rooms) and not any(room.lean for room in rooms)


def _is_under(rooms: Iterable[Room]) -> bool:
    """Whether any of these rooms isn't open at the top: whoever makes it was never measured on its way down."""
    return not all(room.opens(Opening.TOP) for room in rooms)


def kept_by(dimension: Dimension, way: Band, diameter: float, aimed: float) -> str:
    """Whether a way keeps to a dimension's limits: `usual`, `with care`, or `no`. Nothing keeps to an exact one."""
    size = dimension.size
    for careful, kept in ((False, "usual"), (True, "with care")):
        low, high = comes_out(way, diameter, aimed, careful)
        if size.lo - SAME_FIGURE <= low and high <= size.hi + SAME_FIGURE:
            return kept
    return "with care" if size.band < SLACK else "no"


def comes_out(way: Band, diameter: float, aimed: float, careful: bool) -> tuple[float, float]:
    """From what to what a dimension comes out [mm]."""
    low, high = way.careful_mm if careful else way.usual_mm
    from_there = diameter if way.way == OWN_SIZE else aimed
    return from_there + low, from_there + high


def _aimed(dimension: Dimension, jobs: list[Job], outline: Outline) -> float:
    """The size that the passes are set to [mm]."""
    cuts = [cut for job in jobs for cut in job.cuts]
    if dimension.sort == "height":
        return (max(cut.z for cut in cuts) + jobs[-1].tool.form.height - min(cut.z for cut in cuts)) / 1e6
    if dimension.sort in ("length", "depth") or dimension.follows is not None:
        return middle(dimension)
    if len(dimension.faces) == 1 or dimension.rooms:
        return dimension.size.mid - _short(dimension, jobs, outline)
    is_leaning = jobs[-1].manner in LEANING
    edges = [(cut.x, job.tool.form.base if is_leaning else job.tool.form.radius) for job in jobs for cut in job.cuts]
    return (max(x + reach for x, reach in edges) - min(x - reach for x, reach in edges)) / 1e6


def middle(dimension: Dimension) -> float:
    """What a size comes out about that is set once [mm]; a depth that is aimed at the height of teeth, to make a flank
    at once, is asked for where its limits are."""
    size = dimension.size
    return (size.lo + size.hi) / 2 if dimension.sort == "depth" else size.mid


def _short(dimension: Dimension, jobs: list[Job], outline: Outline) -> float:
    """How far a wall that cutters come up to from the side stays short of its aim [mm]."""
    if jobs[-1].manner not in SIDEWAYS:
        return 0.0
    aim = next(face.aim for face in outline.faces if face.name == dimension.faces[0])
    return (min(cut.x - job.tool.form.radius for job in jobs for cut in job.cuts) - aim) / 1e6


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

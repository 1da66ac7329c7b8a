"""In what way each size of a plan comes about, and from what to what it comes out so."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from crib.features.base import Dimension
from crib.geometry.outline import Opening, Outline, Room
from crib.handbook.bands import Band, band, one_pass, sawn
from crib.machining.draft import Draft
from crib.machining.methods.cuts import Job
from crib.machining.question import Question
from crib.machining.words import BY_ITS_WIDTH, BY_THE_AXIS, LEANING, PREPARES, SIDEWAYS

OWN_SIZE, SAWN = "own size", "saw"
"""Ways that come out over the size of the cutter itself."""

SLACK = 1e-6
"""What is less than this is nothing [mm]."""

SAME_FIGURE = 0.0005
"""A band is a round figure of thousandths: what keeps .001 in keeps .025 mm [mm]. Common practice."""

_A_HAIR_COUNTS = 0.004 * 25.4
"""Of limits farther apart, what a disc cuts over its own face is nothing [mm]. From memory."""

BY_NO_BAND = ("corner", "face")
"""Sorts of dimensions that no band of a process is told for."""


_last: tuple[Draft | None, list[tuple[Dimension, Band, list[Job]]]] = None, []
"""The draft that was asked of last, with its ways: the rules ask of one after the other."""


def ways(draft: Draft) -> list[tuple[Dimension, Band, list[Job]]]:
    """Each dimension of a finished room that a way of cutting decides, with that way and the jobs that make it."""
    global _last
    asked, found = _last
    if asked is not draft:
        found = list(_decided(draft))
        _last = draft, found
    return found


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
    if dimension.sort == "width" and (len(dimension.faces) != 1 or is_under(rooms)):
        return False
    return bool(rooms) and not any(room.lean for room in rooms)


def is_under(rooms: Iterable[Room]) -> bool:
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


def set_to(dimension: Dimension, jobs: list[Job], outline: Outline) -> float:
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

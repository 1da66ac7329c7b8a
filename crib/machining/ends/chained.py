"""Chain drilling: a row of holes down a slot between closed ends with a thin web between two, so that none runs into
the one before; a mill breaks the webs out and finishes. Where the holes are full it goes as much deeper at a time as
they leave it less metal."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import pi

from crib.geometry.operation import Point
from crib.geometry.outline import Room
from crib.geometry.plan_view import nearest
from crib.handbook.bites import bites_needed
from crib.handbook.closed_ends import DRILLED_MM
from crib.light.records import replace
from crib.light.tuples import NamedTuple
from crib.machining.draft import Draft
from crib.machining.methods.cuts import Course, Cut, Job, after, deeper
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Entry, Manner, Role, Side
from crib.units import nm

WEB = nm(25.4 / 64)
"""What stands between two holes of a row: thinner it bends, and the drill runs into the hole before. Common practice,
no source."""

_LEAST_DRILL = 0.85
"""Of less than this part of the width holes leave most of the metal; a pass is so many diameters deep at the most.
From memory."""


class Row(NamedTuple):
    """A row of holes: how wide, how many, how far apart in the middle."""

    wide: int
    number: int
    pitch: int

    def share(self, width: int) -> float:
        """What it leaves of the metal of a slot so wide."""
        return 1 - pi / 4 * self.wide**2 / (self.pitch * width)


def row(drill: Tool, room: Room, question: Question) -> Row | None:
    """As many holes of a drill as go into a slot, their ends in its round ends; None where it is too wide, too narrow
    or too short for it, or would be less than two."""
    layers, wide, width = question.layers, 2 * drill.form.radius, room.aim.width
    if layers is None or not _LEAST_DRILL * width <= wide <= width - nm(DRILLED_MM):
        return None
    length = drill.cutter.length_of_cut_mm
    if length is not None and length < -room.aim.low / 1e6:
        return None
    span = 2 * layers.ends[room.name].half - width
    count = span // (wide + WEB) + 1
    return Row(wide, count, span // (count - 1)) if count > 1 else None


def ways(draft: Draft, job: Job, room: Room, alone: tuple[Cut, ...] | None) -> Iterator[tuple[Job, Job]]:
    """A row of holes and the job after it, without its ways, where that may take less time than the job does alone."""
    question, layers = draft.question, draft.question.layers
    rough = [cut for cut in job.cuts if cut.role is Role.ROUGH and not cut.wall]
    if draft.jobs or layers is None or not rough or alone is None or not job.tool.can_finish:
        return
    passes = min(_minutes(job.tool, cut) for cut in alone)
    for drill in question.drills:
        if (holes := row(drill, room, question)) is None:
            continue
        after_it = _after_holes(draft, job, rough, drill, holes.share(room.aim.width))
        saved = (len(job.cuts) - len(after_it.cuts)) * passes
        top = layers.top
        drilled = _drilled(drill, job, places(holes, room, question), top, draft)
        if saved <= minutes(drill, holes.number, (top - drilled.cuts[0].z) / 1e6) + question.shop.cutter_minutes:
            continue
        one = drilled.cuts[0].operation(drill)
        if not any(spot.slack < 0 for spot in nearest(draft.cleared.grown((one,)), one)):
            yield drilled, after_it


def minutes(drill: Tool, count: int, deep_mm: float) -> float:
    """How long so many holes take at the least."""
    return count * (deep_mm / drill.feed + drill.pass_minutes)


def _minutes(tool: Tool, cut: Cut) -> float:
    way = pairwise(cut.course.path) if cut.course else ()
    return sum(abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in way) / 1e6 / tool.feed + tool.pass_minutes


def places(holes: Row, room: Room, question: Question) -> tuple[Point, ...]:
    """Where they stand, from the left."""
    layers = question.layers
    assert layers is not None
    middle, first = layers.ends[room.name].middle, -holes.pitch * (holes.number - 1) // 2
    return tuple((middle + first + holes.pitch * k, room.aim.middle) for k in range(holes.number))


def _after_holes(draft: Draft, job: Job, rough: list[Cut], drill: Tool, share: float) -> Job:
    """A job with fewer rough passes where the holes are full; over their points it takes its usual bites."""
    outline, low = draft.question.outline, min(cut.z for cut in rough)
    top = outline.stock.bounds()[3]
    point = max((part.high for part in drill.form.sure if part.name == "point"), default=0)
    full = min(top, max(low, min(cut.z for cut in job.cuts) + point))
    heights = [*_levels(top, full, deeper(job.tool, share)), *_levels(full, low, max(1, job.tool.bite))]
    across = [cut for cut in rough if cut.z == rough[0].z]
    roughs = [replace(cut, z=z, axial=before - z) for before, z in pairwise((top, *heights)) for cut in across]
    cuts = (*roughs, *(cut for cut in job.cuts if cut not in rough))
    return replace(job, cuts=cuts, removed=after(job.tool, outline, cuts, draft.removed))


def _levels(top: int, low: int, bite: int) -> Iterator[int]:
    count = bites_needed(top - low, bite)
    return (top - (top - low) * k // count for k in range(1, count + 1))


def least(question: Question, tool: Tool, room: Room) -> tuple[float, int] | None:
    """What a row takes at the least [min], and in how many levels a tool then clears the room at the least; None where
    no drill makes one."""
    if (found := least_of_rows(question, room)) is None:
        return None
    drilled, share, deep = found
    return drilled, bites_needed(deep, deeper(tool, share))


def least_of_rows(question: Question, room: Room) -> tuple[float, float, int] | None:
    """What a row in a room takes at the least [min], the least that one leaves of its metal, and how deep it goes [nm];
    None where no drill makes one."""
    if room.name not in question.rows:
        layers = question.layers
        rows = [(drill, one) for drill in question.drills if (one := row(drill, room, question))]
        deep = layers.top - room.least.low if layers else 0
        question.rows[room.name] = (
            min(minutes(drill, one.number, deep / 1e6) + drill.touch_minutes for drill, one in rows),
            min(one.share(room.aim.width) for _, one in rows), deep) if rows else None
    return question.rows[room.name]


def _drilled(drill: Tool, job: Job, at: tuple[Point, ...], top: int, draft: Draft) -> Job:
    low = min(cut.z for cut in job.cuts)
    cuts = tuple(Cut(y, low, Role.DRILL, job.room, Side.AXIS, 0, top - low,
                     course=Course(((x, y),), Entry.PLUNGE, 0, drop=top - low)) for x, y in at)
    return Job(drill, job.room, cuts, draft.removed, Manner.IN_A_ROW)

"""Ends of a room that is open at the top: bites along it, a little short where the ends are to be finished, then round
its walls clockwise, through both ends."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.geometry.layers import Ends, Layers
from crib.geometry.operation import Path, Point
from crib.light.records import dataclass, replace
from crib.machining.ends.entry import Opened, Ways, goes_on, rubs_within, ways
from crib.machining.methods.base import FINE_BAND
from crib.machining.methods.cuts import Course, Cut, Job
from crib.machining.words import Side


@dataclass(frozen=True)
class Stops:
    """How far the axis goes both ways from the middle along: while roughing, and at the last."""

    middle: int
    rough: int
    last: int


def stops_of(job: Job, ends: Ends, top: int) -> Stops | None:
    """The stops of a job in a room that opens at a height and is to end so; None where the cutter is longer. The ends
    are left for the last passes where those reach all the way up and the length is to be held closely."""
    tool, last = job.tool, ends.half - job.tool.form.radius
    if last < 0:
        return None
    short = max(0, last - tool.finish)
    if not tool.can_finish:
        return Stops(ends.middle, short, short)
    low = min(cut.z for cut in job.cuts)
    reaches_up = any(cut.wall for cut in job.cuts) or low + tool.form.height >= top
    if ends.most - ends.least <= FINE_BAND and reaches_up and any(cut.z > low for cut in job.cuts):
        return Stops(ends.middle, short, last)
    return Stops(ends.middle, last, last)


def rubs(job: Job, stops: Stops, ends: Ends, layers: Layers) -> bool:
    """Whether what is wider than the teeth of a job, with its clearance, meets an end of the only room there is: nobody
    takes anything beyond where ends are aimed, and the last passes go there."""
    lowest = min(cut.z for cut in job.cuts)
    goes_last = any(_is_last(job, cut) for cut in job.cuts if cut.z == lowest)
    return rubs_within(job.tool, lowest, ends.half - (stops.last if goes_last else stops.rough), layers)


def ways_down(job: Job, stops: Stops) -> Ways:
    """How the tool of a job may get down."""
    return ways(job.tool, 2 * stops.rough)


def passes(job: Job, stops: Stops, opened: Opened) -> Iterator[Cut]:
    """The passes with their courses, up to the first that can't get down."""
    down, opened = ways_down(job, stops), opened.grown(())
    before: Cut | None = None
    for place, cut in enumerate(job.cuts):
        path = _path(job, place, stops)
        course: Course | None
        if before is not None and before.z == cut.z and before.course is not None:
            course = goes_on(elbowed([before.course.path[-1], *path]))
        else:
            course = down.course(opened, elbowed([begins(job, place, stops), *path]), cut.z)
        if course is None:
            return
        before = replace(cut, course=course)
        yield before
        opened.take(before.operation(job.tool))


def begins(job: Job, place: int, stops: Stops) -> Point:
    """Where a pass comes down that doesn't go on from another: one along a wall in the middle."""
    return (stops.middle, job.cuts[0].x) if job.cuts[place].wall else _path(job, place, stops)[0]


def _path(job: Job, place: int, stops: Stops) -> list[Point]:
    """The way of a pass, from its start along, and through the end where it is the last along its wall."""
    cut = job.cuts[place]
    stop = stops.last if _is_last(job, cut) else stops.rough
    way = -1 if cut.side == Side.FRONT else 1
    start, end = stops.middle - way * stop, stops.middle + way * stop
    return [(start, cut.x), (end, cut.x), *_through_the_end(job, place, end)]


def _is_last(job: Job, cut: Cut) -> bool:
    """Whether a pass goes as far as the end is aimed."""
    return cut.wall or (cut.z == job.cuts[-1].z and not any(other.wall for other in job.cuts))


def _through_the_end(job: Job, place: int, end: int) -> Iterator[Point]:
    """After the last pass along a wall at a height: across to the other wall, so that the end is as round as can be."""
    cut = job.cuts[place]
    later = any(other.wall and other.side == cut.side and other.z == cut.z for other in job.cuts[place + 1:])
    across = [other.x for other in job.cuts if other.wall and other.side != cut.side]
    if cut.wall and not later and across:
        yield end, max(across, key=lambda x: abs(x - cut.x))


def elbowed(points: Sequence[Point]) -> Path:
    """A way through points, along before across; no point twice in a row.

    >>> elbowed([(0, 0), (5, 2), (5, 2), (5, -2)])
    ((0, 0), (5, 0), (5, 2), (5, -2))
    """
    way = [points[0]]
    for x, y in points[1:]:
        if x != way[-1][0] and y != way[-1][1]:
            way.append((x, way[-1][1]))
        if (x, y) != way[-1]:
            way.append((x, y))
    return tuple(way)

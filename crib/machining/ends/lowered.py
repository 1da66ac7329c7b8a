"""Ends of a room under a lip: the disc is lowered in the middle of the opening, goes round clockwise step by step, and
runs as far as its neck may stand in the opening's round ends."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from math import hypot

from crib.geometry.box_outline import holds, run
from crib.geometry.cleared import Cleared
from crib.geometry.operation import Point
from crib.geometry.rounded_box import RoundedBox
from crib.light.records import dataclass, replace
from crib.machining.ends.entry import FINE, SPARE, goes_on
from crib.machining.ends.opened import elbowed
from crib.machining.methods.cuts import Course, Cut, Job
from crib.machining.tool import Tool
from crib.machining.words import Entry, Role, Side


@dataclass(frozen=True)
class Reach:
    """How far along the axis may go at each distance from the middle before anything but the teeth meets metal."""

    tool: Tool
    cleared: Cleared
    middle: int
    z: int

    def at(self, y: int) -> int:
        """The run to each side of the middle at a place across; below nought where it can't stand there at all."""
        limit = 2**62
        for part in self.tool.form.clear:
            for slab in self.cleared.slabs(self.z + part.low - part.end, self.z + part.high + part.end):
                for shapes in slab.clear:
                    span = run(shapes, y, part.widest + part.side, self.middle)
                    limit = -1 if span is None else min(limit, span[1] - self.middle, self.middle - span[0])
        return limit


def route(job: Job, at: Point, half: int, cleared: Cleared, must: Iterable[Point] = ()
          ) -> tuple[Cut, ...] | None:
    """The passes with their courses; None where the neck can't stand, and where they surely leave any of some points
    that must go. `at`: the middle, where it is lowered; `half`: where the room is to end, each side of it. What the
    disc itself cuts gives its neck no more room: that works over it."""
    wanted = half - job.tool.form.radius
    if wanted < 0:
        return None
    stopped = list(_stopped(job, at, wanted, cleared))
    if min(stop for _, stop in stopped) < 0 or not all(_gets_to(point, job, at, stopped) for point in must):
        return None
    done: list[Cut] = []
    for cut, stop in stopped:
        done.append(replace(cut, course=_course(job.tool, cut, at, stop, done)))
    return tuple(done)


def _gets_to(point: Point, job: Job, at: Point, stopped: Iterable[tuple[Cut, int]]) -> bool:
    """Whether a point may be gone after some passes: each goes no farther along than it is stopped, nor across than its
    place and the one over against it."""
    along, across, near = abs(point[0] - at[0]), abs(point[1] - at[1]), job.tool.form.radius + FINE
    return any(hypot(max(0, along - stop), max(0, across - abs(cut.x - at[1]))) <= near for cut, stop in stopped)


def _stopped(job: Job, at: Point, wanted: int, cleared: Cleared) -> Iterator[tuple[Cut, int]]:
    """The passes with their stops; before those of a level one along the middle, where only there the disc can run as
    far as wanted and meets metal on its way."""
    level: int | None = None
    for cut in job.cuts:
        if cut.z != level:
            reach, level = Reach(job.tool, cleared, at[0], cut.z), cut.z
            stops = {y: min(wanted, reach.at(y)) for y in {at[1], *(other.x for other in job.cuts)}}
            if cut.side != Side.BOTH and stops[at[1]] > min(stops.values()) and not _is_clear(
                    job.tool, at, stops[at[1]], cut.z, cleared):
                yield replace(cut, x=at[1], role=Role.UNDERCUT, side=Side.BOTH, radial=0), stops[at[1]]
        yield cut, stops[cut.x]


def _is_clear(tool: Tool, at: Point, stop: int, z: int, cleared: Cleared) -> bool:
    """Whether a disc that goes so far both ways from the middle meets nothing."""
    (x, y), radius = at, tool.form.radius
    way = RoundedBox(x - stop, y, x + stop, y, radius)
    return all(holds(way, shapes) for slab in cleared.slabs(z, z + tool.form.height) for shapes in slab.clear)


def _course(tool: Tool, cut: Cut, at: Point, stop: int, done: Sequence[Cut]) -> Course:
    before = done[-1] if done and done[-1].z == cut.z else None
    path = list(_round(cut, at, stop, before))
    if before is None or before.course is None:
        return Course(elbowed([at, *path]), Entry.FREE, tool.form.radius + SPARE)
    last = before.course.path[-1]
    home = [] if cut.side == Side.FRONT and last[0] != at[0] else [(at[0], last[1])]
    return goes_on(elbowed([last, *home, *path]))


def _round(cut: Cut, at: Point, stop: int, before: Cut | None) -> Iterator[Point]:
    """Clockwise: along the back wall to the right, through the end, along the front wall to the left, back to the
    middle. A pass that has no other beside it goes both ways."""
    y, (middle, centre) = cut.x, at
    left, right, across = middle - stop, middle + stop, 2 * centre - cut.x
    if cut.side == Side.FRONT and before is not None and before.side == Side.BACK and before.x == across:
        yield from ((right, y), (left, y), (left, across), (middle, across))
    elif cut.side == Side.BACK:
        yield from ((middle, y), (right, y), (right, across))
    else:
        yield from ((middle, y), (right, y), (left, y))

"""A room that is open at the top and closed all round, with corners of a radius: strips that stay off its walls, then
round the walls clockwise. A cutter rounder than a corner goes straight into it and leaves what it leaves; one that is
less round is walked round it, setting by setting."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from math import cos, pi, sin

from crib.geometry.box_outline import run
from crib.geometry.layers import Corners, Layers
from crib.geometry.operation import Path, Point
from crib.geometry.outline import Room
from crib.geometry.rounded_box import HALF, RoundedBox, oblong
from crib.handbook.deviations import corner_left, walked_corner_left
from crib.light.records import dataclass, replace
from crib.light.tuples import NamedTuple
from crib.machining.ends.entry import Opened, Ways, goes_on, ways
from crib.machining.ends.opened import elbowed
from crib.machining.methods.cuts import Course, Cut, Job
from crib.machining.words import PREPARES, Manner, Side
from crib.units import NM, nm

USUAL, MOST = 3, 9
"""Settings in which a corner is walked: three as a rule, nine at the most (common practice, no source)."""


@dataclass(frozen=True)
class Walls:
    """A room seen from above as it is aimed at, what of it must go at the least, and how round its corners are."""

    aim: RoundedBox
    least: RoundedBox
    corners: Corners
    middle: Point
    long: int
    """Half its length."""
    wide: int
    """Half its width."""

    @staticmethod
    def of(layers: Layers, room: Room) -> Walls:
        """Those of a room."""
        ends, corners, wide = layers.ends[room.name], layers.corners[room.name], room.aim.width // 2
        aim = oblong(ends.left, ends.right, wide, corners.aim, room.aim.middle)
        least = min(layers.least, key=lambda layer: layer.low).shape
        return Walls(aim, least, corners, (ends.middle, room.aim.middle), ends.half, wide)

    def goes_round(self, radius: int) -> bool:
        """Whether a cutter goes between the walls and leaves no more in the corners than an owner might let stand."""
        return radius <= min(self.long, self.wide, self.corners.waived)


def first_strip(job: Job, walls: Walls) -> Path:
    """The way of a first pass along, where a hole to go down is drilled at its beginning."""
    return strip(job.cuts[0], job.tool.form.radius, _spare(job), walls)


def _spare(job: Job) -> int:
    """How far strips stay off the walls."""
    stays_off = job.manner is Manner.ROUGHED or not job.tool.can_finish or any(cut.wall for cut in job.cuts)
    return job.tool.finish if stays_off else 0


def ways_down(job: Job, walls: Walls) -> Ways:
    """How the tool of a job may get down."""
    return ways(job.tool, 2 * max(0, walls.long - job.tool.form.radius - _spare(job)))


def route(job: Job, walls: Walls, opened: Opened) -> tuple[Cut, ...] | None:
    """The passes with their courses, opening more as they go; None where one of them can't get down."""
    done = tuple(passes(job, walls, opened))
    return done if len(done) == len(job.cuts) else None


def passes(job: Job, walls: Walls, opened: Opened) -> Iterator[Cut]:
    """The passes with their courses, up to the first that can't get down."""
    down, middle, new = ways_down(job, walls), walls.middle, list[Cut]()
    spare, paths = _spare(job), dict[tuple[int, Side, bool], Path]()  # the same are gone on every level
    before: Cut | None = None
    for cut in job.cuts:
        if (same := (cut.x, cut.side, cut.wall)) not in paths:
            paths[same] = _path(job, cut, walls, spare)
        path = paths[same]
        course: Course | None
        if before is not None and before.z == cut.z and before.course is not None:
            at = before.course.path[-1]
            course = goes_on(_to_the_wall(at, path, middle) if cut.wall else _to_the_strip(at, path, middle))
        else:  # only who comes down anew asks what is open
            opened, new = opened.grown(one.operation(job.tool) for one in new), []
            course = down.course(opened, _to_the_wall(middle, path, middle) if cut.wall else path, cut.z)
        if course is None:
            return
        before = replace(cut, course=course)
        new.append(before)
        yield before


def begins(job: Job, place: int, walls: Walls) -> Point:
    """Where a pass comes down that doesn't go on from another: one along a wall in the middle."""
    cut = job.cuts[place]
    return walls.middle if cut.wall else _path(job, cut, walls, _spare(job))[0]


def _path(job: Job, cut: Cut, walls: Walls, spare: int) -> Path:
    """The way of a pass: half round, or a strip along, so much off the walls."""
    return half_round(cut, job, walls) if cut.wall else strip(cut, job.tool.form.radius, spare, walls)


def _to_the_wall(at: Point, path: Path, middle: Point) -> Path:
    """From where the cutter stands to where a pass begins: off the wall, along the middle, square to the wall."""
    if at == path[0]:
        return path
    way = [at, (at[0], middle[1]), (path[0][0], middle[1]), *path]
    return tuple(point for point, before in zip(way, [None, *way], strict=False) if point != before)


def _to_the_strip(at: Point, path: Path, middle: Point) -> Path:
    """From where the cutter stands to where a strip begins: along first where that lies nearer to a wall than it does,
    as there is less room along there; else across first."""
    (_, across), nearer = path[0], abs(path[0][1] - middle[1]) <= abs(at[1] - middle[1])
    return elbowed([at, (at[0], across), *path] if nearer else [at, *path])


def strip(cut: Cut, radius: int, spare: int, walls: Walls) -> Path:
    """Straight along, as far as the walls let it both ways, so much off them; off those of its sides no more than where
    it goes: they may be made nearer their limits."""
    left, low, right, high, corner = walls.aim
    out = max(0, abs(cut.x - walls.middle[1]) + radius + spare - walls.wide)
    left, right = _span(RoundedBox(left, low - out, right, high + out, corner), cut.x, radius + spare, walls.middle[0])
    return ((right, cut.x), (left, cut.x)) if cut.side == Side.FRONT else ((left, cut.x), (right, cut.x))


@lru_cache(maxsize=4096)
def _span(aim: RoundedBox, across: int, radius: int, middle: int) -> tuple[int, int]:
    """How far a disc goes both ways along a line; asked of the same one on every level."""
    return run(frozenset((aim,)), across, radius, middle) or (middle, middle)


def half_round(cut: Cut, job: Job, walls: Walls) -> Path:
    """Half of the way round, clockwise: along a wall, round the corner at its end, along the end, round the next, and a
    little on. The other half meets it."""
    radius, (middle, centre) = job.tool.form.radius, walls.middle
    across = abs(cut.x - centre)
    off = max(0, walls.wide - radius - across)
    along = walls.long - radius - off
    count = settings(radius, walls) if not off else USUAL
    rho = max(0, min(walls.corners.aim - radius - off, along, across)) if radius < walls.corners.least else 0
    corner = _quarter(along - rho, across - rho, rho, count)
    begin = along - rho - min(2 * job.tool.finish, along - rho)
    points = [(-begin, across), *corner, *((x, -y) for x, y in reversed(corner)), (begin, -across)]
    way = 1 if cut.side == Side.BACK else -1
    return tuple((middle + way * x, centre + way * y) for x, y in _inside(points))


def _quarter(x: int, y: int, rho: int, count: int) -> list[Point]:
    """The settings round a corner, from its upper edge to its right one."""
    turns = [pi / 2 * k / (count - 1) for k in range(count)] if rho else [0.0]
    return [(x + round(rho * sin(turn)), y + round(rho * cos(turn))) for turn in turns]


def _inside(points: Sequence[Point]) -> Iterator[Point]:
    """A way through points round a middle at nought, from one to the next on the inside of the corner."""
    yield points[0]
    for last, (x, y) in pairwise(points):
        if x != last[0] and y != last[1]:
            yield (last[0], y) if abs(y) < abs(last[1]) else (x, last[1])
        if (x, y) != last:
            yield x, y


class InTheCorners(NamedTuple):
    """How round a room's corners come out, and what is left in each along its diagonal, or half-way between two of the
    settings in which the cutter was walked round it; what of that is allowed [nm]. `settings`: how many they are."""

    room: str
    radius: int
    left: int
    allowed: int
    settings: int


def in_the_corners(layers: Layers, rooms: Sequence[Room], jobs: Sequence[Job]) -> Iterator[InTheCorners]:
    """What comes of the corners of each room, by the largest cutter that went round them: where more than one did, each
    was where no other was."""
    for room in rooms:
        radii = [job.tool.form.radius for job in jobs if job.room == room.name and job.tool.can_finish and
                 job.manner not in PREPARES]
        if room.name not in layers.corners or not radii:
            continue
        walls, radius = Walls.of(layers, room), max(radii)
        corners, count = walls.corners, settings(radius, walls)
        allowed = nm(corner_left(corners.most / NM, corners.aim / NM))
        if count == 1:
            yield InTheCorners(room.name, radius, nm(corner_left(radius / NM, corners.aim / NM)), allowed, 1)
            continue
        left = nm(walked_corner_left(radius / NM, corners.aim / NM, count)) if _meets(radius, walls, count) else radius
        yield InTheCorners(room.name, corners.aim, left, left if _is_kept(radius, walls, count) else allowed, count)


def settings(radius: int, walls: Walls) -> int:
    """In how many settings a cutter is walked round a corner: the fewest with which what is left between two stays
    inside the limits, else the most; one where it is as round as the corner may be."""
    if radius >= walls.corners.least:
        return 1
    return next((k for k in range(USUAL, MOST, 2) if _is_kept(radius, walls, k)), MOST)


def _is_kept(radius: int, walls: Walls, count: int) -> bool:
    """Whether what stands half-way between two settings lies outside of what must go."""
    aim, half = walls.corners.aim, pi / 4 / (count - 1)
    if not _meets(radius, walls, count):
        return False
    reach = aim - walked_corner_left(radius / NM, aim / NM, count) * NM
    return all(walls.least.off(walls.aim.right + reach * cos(turn), walls.aim.high + reach * sin(turn)) >= -HALF
               for turn in (half * (2 * k + 1) for k in range(count - 1)))


def _meets(radius: int, walls: Walls, count: int) -> bool:
    """Whether the cutter in one setting meets what it cut in the one before."""
    return (walls.corners.aim - radius) * sin(pi / 4 / (count - 1)) <= radius

"""Rough big, finish small: in a room with round corners a mill too round for them takes all that it can reach, a little
off the walls, and makes the floor; one less round, which goes into the corners or leaves no more there than an owner
might let stand, follows round the walls, as deep at a time as its
bite lets it in a corner, and finishes them. With a drill down each corner first it takes fewer levels there."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from itertools import pairwise
from math import inf, sqrt

from crib.findings.message import Text
from crib.geometry.layers import Layers
from crib.geometry.operation import Point
from crib.geometry.outline import Outline, Room
from crib.geometry.plan_view import nearest
from crib.geometry.region import NOTHING
from crib.handbook.bites import bites_needed
from crib.handbook.closed_ends import DRILLED_MM
from crib.light.hints import TYPE_CHECKING
from crib.light.records import replace
from crib.light.tuples import NamedTuple
from crib.machining.ends import cornered
from crib.machining.ends.entry import Opened
from crib.machining.methods.cuts import Course, Cut, Job, after
from crib.machining.question import Question, Rougher
from crib.machining.tool import Tool
from crib.machining.words import Entry, Manner, Role, Side
from crib.units import nm

if TYPE_CHECKING:
    from crib.machining.draft import Draft

_SIDE, _TALL = 0.25, 1.5
"""A side pass that takes no more than so much of its diameter is so many diameters deep at the most. Common
practice."""

_LEAST_DRILL = 0.75
"""A drill of less than this part of a corner's diameter leaves it as it was. From memory."""


class Rounds(NamedTuple):
    """What a mill takes at the least where another has roughed a room: passes, each so long [mm]."""

    passes: int
    length_mm: float

    def minutes(self, tool: Tool) -> float:
        """How long they take."""
        return self.passes * (self.length_mm / tool.feed + tool.pass_minutes)


def goes_first(tool: Tool, walls: cornered.Walls) -> bool:
    """Whether a mill may rough a room for another: it is too round for the corners, and stays off the walls."""
    return (tool.kind.opens and tool.can_finish and tool.form.radius > walls.corners.most
            and tool.form.radius + tool.finish <= min(walls.long, walls.wide))


def rough(job: Job, outline: Outline, room: Room, layers: Layers) -> Job | None:
    """What of a job in solid metal is left to a mill that only roughs and makes the floor; None where it has no walls
    to leave, or can't get down."""
    cuts = tuple(cut for cut in job.cuts if not cut.wall)
    if job.manner is not Manner.STEPPED or len(cuts) == len(job.cuts):
        return None
    short = Job(job.tool, job.room, cuts, after(job.tool, outline, cuts, NOTHING), Manner.ROUGHED)
    went = cornered.route(short, cornered.Walls.of(layers, room), Opened.of(layers))
    return replace(short, cuts=went) if went else None


def ways(draft: Draft, job: Job, room: Room, alone: Sequence[Cut] | None) -> Iterator[tuple[Job, ...]]:
    """A job after another mill, with a drill down each corner before and without, where that takes less time than it
    does alone: after no mill that costs more than another of which no more is said, and no drill that costs more than
    one told of alike."""
    question, layers = draft.question, draft.question.layers
    if draft.jobs or not question.roughers or layers is None:
        return
    walls = cornered.Walls.of(layers, room)
    if not follows(job, walls):
        return
    outline, most = question.outline, inf if alone is None else sum(_minutes(job.tool, cut) for cut in alone)
    after, drilled = (least_rounds(job.tool, room, walls, one).minutes(job.tool) for one in (False, True))
    drills = tuple(_down_the_corners(draft, job, walls, after - drilled))
    low = min(cut.z for cut in job.cuts)
    likely = [one for one in question.roughers if one.job.tool.form.radius > job.tool.form.radius
              and (one.low < low or one.minutes + min(after, drilled) < most)]
    change = _change(question)
    for rougher in _undominated(likely, job.tool, low, change, lambda one: _is_left_for_one_round(
            one.job, job.tool, walls)):
        yield from _after(draft, job, (rougher.job,), partial(_finished, job, outline, None))
    for rougher in _undominated(likely if drills else (), job.tool, low, change):
        for drill in drills:
            wide = beside_a_hole(rougher.job.tool, drill.tool, walls)
            if wide <= _SIDE * 2 * job.tool.form.radius:
                first = replace(drill, removed=draft.removed)
                yield from _after(draft, job, (first, rougher.job), partial(_finished, job, outline, wide))


def _is_left_for_one_round(before: Job, tool: Tool, walls: cornered.Walls) -> bool:
    """Whether one round along the walls takes all that a mill leaves in the corners: whether, as far from both walls of
    a corner as the round is wide, that mill was there."""
    radius, reach = before.tool.form.radius, 2 * tool.form.radius
    beside = walls.wide - max(abs(cut.x - walls.middle[1]) for cut in before.cuts) - radius
    along, across = (off + radius - reach for off in (before.tool.finish, beside))
    if max(along, across) > radius:
        return False
    return min(along, across) <= 0 or along**2 + across**2 <= radius**2


def _minutes(tool: Tool, cut: Cut) -> float:
    """Minutes of a pass along its way."""
    way = pairwise(cut.course.path) if cut.course else ()
    return sum(abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in way) / 1e6 / tool.feed + tool.pass_minutes


def _undominated(roughers: Iterable[Rougher], tool: Tool, low: int, change: float,
                 may: Callable[[Rougher], bool] = lambda _: True) -> Iterator[Rougher]:
    """Of those that `may` those than which none that goes as deep costs less, with the change of what holds it and the
    next tool, of which no more is said; where what follows stops over the floor that one makes, none that is no rounder
    either."""
    seen: list[Rougher] = []
    for one in sorted(roughers, key=partial(_cost, tool, change)):
        if not any(other.said <= one.said and (other.low <= one.low if low <= one.low else other.leaves_no_more(one))
                   for other in seen) and may(one):
            seen.append(one)
            yield one


def _cost(tool: Tool, change: float, one: Rougher) -> tuple[float, int]:
    """What one costs before a tool; of those that cost the same the number decides."""
    return one.money + change * (one.job.tool.held.label != tool.held.label), one.job.tool.id


def _change(question: Question) -> float:
    """The money that another collet takes."""
    return question.shop.collet_minutes / 60 * question.shop.hour_rate


def may_go_first(question: Question, tools: Iterable[Tool]) -> list[Rougher]:
    """Whatever `ways` may put before one of these tools where it goes deeper than they do: never what costs more than
    another of which no more is said and that leaves no more."""
    change, found, told = _change(question), dict[int, Rougher](), set[tuple[Text, int]]()
    widest = sorted(question.roughers, key=lambda one: -one.job.tool.form.radius)
    rounder = [-one.job.tool.form.radius for one in widest]
    for tool in tools:
        alike = tool.held.label, bisect_left(rounder, -tool.form.radius)
        if alike not in told:
            told.add(alike)
            found |= {one.job.tool.id: one for one in _first(widest[:alike[1]], tool, change)}
    return list(found.values())


def _first(roughers: Sequence[Rougher], tool: Tool, change: float) -> list[Rougher]:
    """Those of them than which none costs less before a tool, of which no more is said and that leaves no more."""
    front = list[Rougher]()
    for one in sorted(roughers, key=partial(_cost, tool, change)):
        if not any(other.said <= one.said and other.leaves_no_more(one) for other in front):
            front.append(one)
    return front


def _after(draft: Draft, job: Job, before: tuple[Job, ...], finished: partial[Job]) -> Iterator[tuple[Job, ...]]:
    """A job after some others, where it finds its way in what they opened."""
    last, layers = finished(before[-1]), draft.question.layers
    assert layers is not None
    room = next(room for room in draft.question.outline.rooms if room.name == job.room)
    opened = draft.opened.grown(cut.operation(one.tool) for one in before for cut in one.cuts)
    if went := cornered.route(last, cornered.Walls.of(layers, room), opened):
        yield *before, replace(last, cuts=went)


def follows(job: Job, walls: cornered.Walls) -> bool:
    """Whether a mill may follow another round the walls: it goes into the corners, and steps off both walls."""
    return job.manner is Manner.STEPPED and may_follow(job.tool, walls) and any(cut.wall for cut in job.cuts)


def may_follow(tool: Tool, walls: cornered.Walls) -> bool:
    """Whether a mill finishes and goes into the corners, or leaves no more there than an owner might let stand."""
    return tool.can_finish and tool.form.radius <= walls.corners.waived


def beside_a_hole(mill: Tool, drill: Tool, walls: cornered.Walls) -> int:
    """How thick the metal at a wall is between a hole in a corner and what a mill left there [nm]: where the hole is
    nearest to the wall, with what it stays off it."""
    radius, off = mill.form.radius, mill.form.radius + mill.finish - walls.corners.aim
    round_ = sqrt(max(0, radius**2 - off**2))
    return max(mill.finish, round(radius + mill.finish - round_)) + walls.corners.aim - drill.form.radius


def _finished(job: Job, outline: Outline, beside: int | None, before: Job) -> Job:
    """A job's own passes along the walls, after rounds a little off them down to the floor, in metal with all of its
    width at the corners; where they are drilled with so much of it."""
    tool, last = job.tool, [cut for cut in job.cuts if cut.wall]
    low, back, front = min(cut.z for cut in last), max(cut.x for cut in last), min(cut.x for cut in last)
    count = levels(tool, -low, beside is not None)
    full = min(2 * tool.form.radius, before.tool.form.radius + before.tool.finish - tool.finish)
    radial = full if beside is None else beside
    rounds = [Cut(x, -(-low * k // count), Role.ROUGH, job.room, side, radial, -low // count, wall=True)
              for k in range(1, count + 1)
              for x, side in ((back - tool.finish, Side.BACK), (front + tool.finish, Side.FRONT))]
    cuts = (*rounds, *last)
    return Job(tool, job.room, cuts, after(tool, outline, cuts, before.removed), job.manner, job.levels)


def levels(tool: Tool, deep: int, drilled: bool) -> int:
    """In how many levels a mill goes round walls so deep where another left their corners: there it is in metal with
    all of its width; where they are drilled, with a side only."""
    side = min(tool.form.height, round(_TALL * 2 * tool.form.radius))
    return bites_needed(deep, max(tool.bite, side) if drilled else max(1, tool.bite))


def least_rounds(tool: Tool, room: Room, walls: cornered.Walls, drilled: bool) -> Rounds:
    """What a mill takes at the least round the walls of a room that another roughed: all of them twice at each level
    but the last, and once to finish, half of the way in each pass."""
    off = tool.form.radius + tool.finish
    along, across = max(0, walls.long - off), max(0, walls.wide - off)
    return Rounds(2 * levels(tool, -room.least.low, drilled) + 2, 2 * (along + across) / 1e6)


def _down_the_corners(draft: Draft, job: Job, walls: cornered.Walls, most: float) -> Iterator[Job]:
    """The drills for the corners that take no longer than so many minutes, the cheapest of those told of alike: their
    holes a little narrower than the corners, in the middles of their rounds, the point at the floor."""
    low, seen, top, shop = min(cut.z for cut in job.cuts), set(), draft.question.outline.stock.bounds()[3], (
        draft.question.shop)
    for drill in draft.question.drills:
        alike = (drill.held.label, drill.owned.condition, drill.owned.material, drill.step and drill.step.grade)
        if shop.cutter_minutes + 4 * ((top - low) / 1e6 / drill.feed + drill.pass_minutes) >= most:
            continue
        if (drill.cutter.length_of_cut_mm or inf) < -low / 1e6:
            continue
        if alike in seen or not is_for_corners(drill, walls):
            continue
        holes = _holes(drill, job.room, corners(walls), low, top)
        drilled = [cut.operation(drill) for cut in holes.cuts]
        if any(spot.slack < 0 for one in drilled for spot in nearest(draft.cleared.grown(drilled), one)):
            continue
        seen.add(alike)
        yield holes


def is_for_corners(drill: Tool, walls: cornered.Walls) -> bool:
    """Whether a drill is a little narrower than the corners, and not so much that it leaves them as they were."""
    most = 2 * walls.corners.aim
    return _LEAST_DRILL * most <= 2 * drill.form.radius <= most - nm(DRILLED_MM)


def corners(walls: cornered.Walls) -> tuple[Point, ...]:
    """The middles of a room's round corners, clockwise from the one that is at the left and away."""
    aim = walls.aim
    return (aim.left, aim.high), (aim.right, aim.high), (aim.right, aim.low), (aim.left, aim.low)


def _holes(drill: Tool, room: str, places: Sequence[Point], z: int, top: int) -> Job:
    cuts = tuple(Cut(at[1], z, Role.DRILL, room, Side.AXIS, 0, top - z,
                     course=Course((at,), Entry.PLUNGE, 0, drop=top - z)) for at in places)
    return Job(drill, room, cuts, NOTHING, Manner.IN_THE_CORNERS)

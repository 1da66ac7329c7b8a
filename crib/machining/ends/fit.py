"""What a draft becomes between closed ends: each pass with its course, and a hole drilled first where that is the way
in; what fits there at all."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from crib.geometry import plan_view
from crib.geometry.box_outline import holds
from crib.geometry.cleared import Cleared, segments
from crib.geometry.layers import Ends, Layer, Layers
from crib.geometry.left_over import farthest_left
from crib.geometry.operation import Point
from crib.geometry.outline import Box, Opening, Room
from crib.geometry.region import Region
from crib.geometry.rounded_box import RoundedBox, joined, oblong
from crib.light.hints import TYPE_CHECKING
from crib.light.modules import later
from crib.light.records import replace
from crib.light.tuples import NamedTuple
from crib.machining.draft import Draft
from crib.machining.ends import opened
from crib.machining.ends.entry import SPARE, Opened, Stuck, Ways, goes_in, let_in_by_a_hole
from crib.machining.methods.cuts import Course, Cut, Job
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Entry, Manner, Role, Side
from crib.units import nm

if TYPE_CHECKING:
    from crib.machining.ends import chained, cornered, followed, inwards, lowered, roughed
else:
    chained, cornered, followed, inwards, lowered, roughed = map(later, (
        "crib.machining.ends.chained", "crib.machining.ends.cornered", "crib.machining.ends.followed",
        "crib.machining.ends.inwards", "crib.machining.ends.lowered", "crib.machining.ends.roughed"))

MOST_TOOLS = 3


def with_courses(draft: Draft, choice: Sequence[Job]) -> Iterator[Draft]:
    """A draft with more jobs, one for each way in between the ends; none where there is no way in."""
    begun, layers = [draft], draft.question.layers
    assert layers is not None
    for job in choice:
        begun = [here.then(*jobs) for here in begun for jobs in fitted(here, job, layers)]
    yield from (here for here in begun if len(here.tools) <= MOST_TOOLS)


def fits(question: Question, job: Job) -> bool:
    """Whether a job fits between closed ends, the rooms before its own being clear; where no end is closed it does."""
    ready = cleared_before(question, job.room)
    layers = ready.layers
    if layers is None:
        return True
    room = _room(ready, job)
    if room.opens(Opening.TOP) and not room.across:
        way = _from_above(job, room, layers)
        if way is None or way.down.are_any:
            return way is not None
    return next(fitted(Draft(ready), job, layers), None) is not None


def _room(question: Question, job: Job) -> Room:
    return next(room for room in question.outline.rooms if room.name == job.room)


def cleared_before(question: Question, name: str) -> Question:
    """The question with every room before this one clear, its ends as round as it is wide."""
    layers, rooms = question.layers, question.outline.rooms
    if layers is None:
        return question
    before = rooms[: next(place for place, room in enumerate(rooms) if room.name == name)]
    clear = (Layer(room.aim.low, layers.top, round_ended(room.aim, layers.ends[room.name].half, layers.ends[room.name]))
             for room in before)
    return replace(question, clear=tuple(clear)) if clear or question.clear else question


def round_ended(box: Box, half: int, ends: Ends) -> RoundedBox:
    """A room so long each side of its middle, its ends as round as it is wide."""
    wide = box.width // 2
    return oblong(ends.middle - half, ends.middle + half, wide, min(half, wide), box.middle)


def fitted(draft: Draft, job: Job, layers: Layers) -> Iterator[tuple[Job, ...]]:
    """The ways in which a job goes between closed ends after what was done before: by itself, or after a drill; where
    it can't get in without one, after the drill that costs least of those alike."""
    room = _room(draft.question, job)
    if room.across:
        went = inwards.route(job, layers, draft.cleared)
        if went and is_long_enough(job, room, went, layers):
            yield (_with(job, went),)
        return
    if not room.opens(Opening.TOP):
        cuts = _under(draft, job, room, layers)
        if cuts is not None:
            yield (_with(job, cuts),)
        return
    job = followed.in_the_corners(draft, job)
    way = _from_above(job, room, layers)
    if way is None:
        return
    alone = way.route(job, draft.opened)
    if alone is not None:
        yield (_with(job, alone),)
    if alone is None or any(map(_is_a_ramp, alone)):
        yield from _drilled(draft, job, layers, way, alone)
    if room.name in layers.corners:
        yield from roughed.ways(draft, job, room, alone)
        return
    for holes, last in chained.ways(draft, job, room, alone):
        after = _from_above(last, room, layers)
        went = after.route(last, draft.opened.grown(cut.operation(holes.tool) for cut in holes.cuts)) if after else None
        if went is not None:
            yield holes, _with(last, went)


class _Way(NamedTuple):
    """How a job goes down in a room that is open at the top: where a hole for it is drilled, how its tool may get down,
    its passes with their courses by what is open before, up to the first that can't, and where one of them, by its
    number, comes down."""

    hole: Point
    down: Ways
    passes: Callable[[Opened], Iterator[Cut]]
    begins: Callable[[int], Point]

    def route(self, job: Job, opened: Opened) -> tuple[Cut, ...] | None:
        """All passes with their courses; None where one of them can't get down."""
        done = tuple(self.passes(opened))
        return done if len(done) == len(job.cuts) else None

    def stuck(self, job: Job, opened: Opened, done: Sequence[Cut]) -> Stuck:
        """That the pass after some can't get down without a hole: `opened` is what was open before them all."""
        opened = opened.grown(cut.operation(job.tool) for cut in done)
        return self.down.stuck(opened, self.begins(len(done)), job.cuts[len(done)].z)


def _from_above(job: Job, room: Room, layers: Layers) -> _Way | None:
    """How a job goes down in a room that is open at the top; None where the cutter doesn't go between the ends."""
    if room.name in layers.corners:
        walls = cornered.Walls.of(layers, room)
        if not walls.goes_round(job.tool.form.radius):
            return None
        return _Way(cornered.first_strip(job, walls)[0], cornered.ways_down(job, walls),
                    lambda free: cornered.passes(job, walls, free), lambda place: cornered.begins(job, place, walls))
    ends = layers.ends[room.name]
    stops = opened.stops_of(job, ends, layers.top)
    if stops is None or (len(layers.ends) == 1 and opened.rubs(job, stops, ends, layers)):
        return None
    return _Way((stops.middle - stops.rough, job.cuts[0].x), opened.ways_down(job, stops),
                lambda free: opened.passes(job, stops, free), lambda place: opened.begins(job, place, stops))


def _with(job: Job, cuts: tuple[Cut, ...]) -> Job:
    return Job(job.tool, job.room, cuts, job.removed, job.manner, job.levels)


def _under(draft: Draft, job: Job, room: Room, layers: Layers) -> tuple[Cut, ...] | None:
    cleared, ends = draft.cleared, layers.ends[room.name]
    if not lets_in(job, room, cleared, layers):
        return None
    must = [point for shape in wanted(room, layers) for point in shape.side_ends]
    cuts = lowered.route(job, (ends.middle, room.aim.middle), ends.half, cleared, must)
    return cuts if cuts and is_long_enough(job, room, cuts, layers) else None


def is_long_enough(job: Job, room: Room, cuts: Sequence[Cut], layers: Layers) -> bool:
    """Whether a room comes out as long as it must be, whatever an owner lets stand."""
    passed = _passed(job, cuts)
    return all(holds(shape, passed) for shape in wanted(room, layers))


def wanted(room: Room, layers: Layers) -> Iterator[RoundedBox]:
    """What of a room must go, seen from above."""
    return (layer.shape for layer in layers.must if layer.low < room.least.high and layer.high > room.least.low)


def _passed(job: Job, cuts: Sequence[Cut]) -> frozenset[RoundedBox]:
    """What the disc passes over, seen from above."""
    pieces = (piece for cut in cuts if cut.course for piece in segments(cut.course.path))
    return joined(frozenset(), frozenset(piece.grown(job.tool.form.radius) for piece in pieces))


def stands_short(draft: Draft) -> int:
    """How far what stands at the ends of rooms reaches from what is gone, where an owner may let it stand [nm]; nought
    where nothing does, and where nothing may."""
    layers = draft.question.layers
    if layers is None or layers.kept is None or layers.corners:
        return 0
    return farthest_left(
        (layer.shape, shapes) for layer in layers.least if layer not in layers.kept
        for slab in draft.cleared.slabs(layer.low, layer.high) for shapes in slab.clear
        if not holds(layer.shape, shapes))


def left_in_the_floor(draft: Draft) -> int:
    """How far what stands in the floor's edge between closed ends reaches, seen from above [nm]; nought where every
    cutter but a drill is sharp there."""
    layers = draft.question.layers
    if layers is None or not any(
            part.radius_low < part.radius_high and part.low < layers.waived
            for job in draft.jobs if job.cuts and job.cuts[0].role != Role.DRILL for part in job.tool.form.sure):
        return 0
    return plan_view.left_in_the_floor(layers, draft.cleared)


def longest(draft: Draft, job: Job, room: Room, most: int, above: int, ends: Ends) -> int:
    """Half the length, to half a hundredth of a millimetre, that a room surely comes out with at the most, its ends as
    round as it is wide; `above`: so much more is aimed at each side."""
    low, high, at = 0, most, (ends.middle, room.aim.middle)
    while high - low > nm(0.005):
        half = (low + high) // 2
        cuts = lowered.route(job, at, half + above, draft.cleared)
        if cuts and holds(round_ended(room.least, half, ends), _passed(job, cuts)):
            low = half
        else:
            high = half
    return low


def lets_in(job: Job, room: Room, cleared: Cleared, layers: Layers) -> bool:
    """Whether a disc can be lowered in the middle: into what opens the room, or into a hole that much wider than it
    is."""
    radius, low = job.tool.form.radius, min(cut.z for cut in job.cuts)
    if let_in_by_a_hole(layers, radius):
        return True
    at = (layers.ends[room.name].middle, room.aim.middle)
    disc, holes = RoundedBox(*at, *at, radius + SPARE), frozenset(layers.holes)
    return all(holds(disc, shapes - holes) for slab in cleared.slabs(low, layers.top) for shapes in slab.clear)


def _drilled(draft: Draft, job: Job, layers: Layers, way: _Way, alone: Sequence[Cut] | None
             ) -> Iterator[tuple[Job, ...]]:
    """The job after a hole at the left end, its point at the floor: after the cheapest drill of those that are told of
    alike. Its first pass goes on no ramp then. What was in the way after one drill is asked of the others first: the
    passes before it are the same."""
    question, low, seen = draft.question, min(cut.z for cut in job.cuts), set()
    if job.tool.kind.buried:
        return
    is_first, hurdles = not draft.opened.spans, list[Stuck]()
    if alone is not None and _is_a_ramp(alone[0]):
        hurdles.append(way.stuck(job, draft.opened, ()))
    for drill in question.drills:
        alike = (drill.held.label, drill.owned.condition, drill.owned.material, drill.step and drill.step.grade)
        if alike in seen or not goes_in(question, drill) or (is_first and not _lets_in(drill, way.down, low, job)):
            continue
        hole = _hole(drill, job, way.hole, low, layers.top, draft.removed)
        drilled = hole.cuts[0].operation(drill)
        if not all(hurdle.is_helped_by(drilled) for hurdle in hurdles):
            continue
        cuts = tuple(way.passes(draft.opened.grown((drilled,))))
        if len(cuts) < len(job.cuts):
            hurdles.insert(0, way.stuck(job, draft.opened, cuts))
            continue
        if not any(cut.course and cut.course.entry is Entry.HOLE for cut in cuts):
            continue
        if not _stands_out(drill, low, layers.top) or not any(
                spot.slack < 0 for spot in plan_view.nearest(draft.cleared.grown((drilled,)), drilled)):
            seen.add(alike)
            yield hole, _with(job, cuts)


def _is_a_ramp(cut: Cut) -> bool:
    return cut.course is not None and cut.course.entry is Entry.RAMP


def _lets_in(drill: Tool, down: Ways, low: int, job: Job) -> bool:
    """Whether a hole so deep, where nothing else is open, is wide enough at the first pass for what the end teeth of a
    mill don't reach; at the last, at the floor, too where the mill doesn't get down otherwise."""
    first = low if not down.are_any else job.cuts[0].z
    return any(min(part.radius_low, part.radius_high) >= down.core and low + part.low <= first
               for part in drill.form.sure)


def _stands_out(drill: Tool, z: int, top: int) -> bool:
    """Whether anything of a drill that stands at a height is wider than the hole that it makes, and under the top."""
    return any(z + part.low - part.end < top and part.widest + part.side > drill.form.radius
               for part in drill.form.clear)


def _hole(drill: Tool, job: Job, at: Point, z: int, top: int, removed: Region) -> Job:
    course = Course((at,), Entry.PLUNGE, 0, drop=top - z)
    cut = Cut(at[1], z, Role.DRILL, job.room, Side.AXIS, 0, top - z, course=course)
    return Job(drill, job.room, (cut,), removed, Manner.DRILLED)

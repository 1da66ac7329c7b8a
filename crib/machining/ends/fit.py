"""What a draft becomes between closed ends: each pass with its course, and a hole drilled first where that is the way
in; what fits there at all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from crib.features.base import Feature
from crib.geometry.operation import Point
from crib.geometry.outline import Room
from crib.geometry.plan_view import Cleared, Layer, Layers, nearest, segments
from crib.geometry.region import Region
from crib.geometry.rounded_box import RoundedBox, holds, joined, oblong
from crib.handbook.closed_ends import DRILLED_MM, HOLE_MM
from crib.machining.draft import Draft, Question
from crib.machining.ends import lowered, opened
from crib.machining.ends.entry import SPARE, Opened
from crib.machining.methods.base import Course, Cut, Job
from crib.machining.tool import Tool
from crib.machining.words import Manner, Role, Side
from crib.units import nm

MOST_TOOLS = 3


def with_courses(draft: Draft, choice: Sequence[Job]) -> Iterator[Draft]:
    """A draft with more jobs, one for each way in between the ends; none where there is no way in."""
    begun, layers = [draft], draft.question.feature.layers
    assert layers is not None
    for job in choice:
        begun = [here.then(*jobs) for here in begun for jobs in fitted(here, job, layers)]
    yield from (here for here in begun if len(here.tools) <= MOST_TOOLS)


def fits(question: Question, job: Job) -> bool:
    """Whether a job fits between closed ends, the rooms before its own being clear; where no end is closed it does."""
    ready = cleared_before(question, job.room)
    layers = ready.feature.layers
    return layers is None or next(fitted(Draft(ready), job, layers), None) is not None


def cleared_before(question: Question, name: str) -> Question:
    """The question with every room before this one clear, its ends as round as it is wide."""
    layers, rooms = question.feature.layers, question.outline.rooms
    if layers is None:
        return question
    before = rooms[: next(place for place, room in enumerate(rooms) if room.name == name)]
    clear = tuple(Layer(room.aim.low, 0, _round_ended(question, room)) for room in before)
    return with_before(question, (*layers.before, *clear))


def _round_ended(question: Question, room: Room) -> RoundedBox:
    half = half_of(question.feature, room)
    return oblong(-half, half, room.aim.right, min(half, room.aim.right))


def with_before(question: Question, before: Iterable[Layer]) -> Question:
    """The question with other layers that were free before."""
    layers = question.feature.layers
    assert layers is not None
    return replace(question, feature=replace(question.feature, layers=replace(layers, before=tuple(before))))


def fitted(draft: Draft, job: Job, layers: Layers, hole: int | None = None) -> Iterator[tuple[Job, ...]]:
    """The ways in which a job goes between closed ends after what was done before: by itself, or after a drill; where
    it can't get in without one, after the drill that costs least of those alike. `hole`: the radius of an entry hole
    other than the drawing's."""
    question = draft.question
    room = next(room for room in question.outline.rooms if room.name == job.room)
    if "top" not in room.open:
        cuts = _under(draft, job, hole)
        if cuts is not None:
            yield (_with(job, cuts),)
        return
    stops = opened.stops_of(job, half_of(question.feature, room), band_of(question.feature))
    if stops is None:
        return
    alone = opened.route(job, stops, Opened.of(layers, draft.operations))
    if alone is not None:
        yield (_with(job, alone),)
    if alone is None or any(cut.course and cut.course.entry == "ramp" for cut in alone):
        yield from _drilled(draft, job, layers, stops)


def _with(job: Job, cuts: tuple[Cut, ...]) -> Job:
    return Job(job.tool, job.room, cuts, job.removed, job.manner, job.levels)


def _under(draft: Draft, job: Job, hole: int | None) -> tuple[Cut, ...] | None:
    feature = draft.question.feature
    own = feature.request.sizes.get("head_length")
    cleared = draft.cleared
    if not lets_in(job, cleared, feature, hole):
        return None
    half = nm((own or feature.request.size("length")).mid / 2)
    cuts = lowered.route(job, half, cleared)
    return None if own and cuts and not _is_long_enough(draft, job, cuts) else cuts


def _is_long_enough(draft: Draft, job: Job, cuts: Sequence[Cut]) -> bool:
    """Whether a room with a length of its own comes out as long as it must be."""
    layers = draft.question.feature.layers
    wanted = min(layers.least, key=lambda layer: layer.low).shape if layers else None
    return wanted is None or holds(wanted, _passed(job, cuts))


def _passed(job: Job, cuts: Sequence[Cut]) -> frozenset[RoundedBox]:
    """What the disc passes over, seen from above."""
    pieces = (piece for cut in cuts if cut.course for piece in segments(cut.course.path))
    return joined(frozenset(), frozenset(piece.grown(job.tool.form.radius) for piece in pieces))


def longest(draft: Draft, job: Job, room: Room, most: int, above: int) -> int:
    """Half the length, to half a hundredth of a millimetre, that a room surely comes out with at the most, its ends as
    round as it is wide; `above`: so much more is aimed at each side."""
    width, low, high = room.least.right, 0, most
    while high - low > nm(0.005):
        half = (low + high) // 2
        cuts = lowered.route(job, half + above, draft.cleared)
        if cuts and holds(oblong(-half, half, width, min(half, width)), _passed(job, cuts)):
            low = half
        else:
            high = half
    return low


def lets_in(job: Job, cleared: Cleared, feature: Feature, hole: int | None = None) -> bool:
    """Whether a disc can be lowered: into the opening, or into an entry hole that much wider than it is."""
    radius, low = job.tool.form.radius, min(cut.z for cut in job.cuts)
    drawn = feature.request.sizes.get("entry_hole")
    wide = hole or (nm(drawn.lo / 2) if drawn else 0)
    if wide >= radius + nm(HOLE_MM / 2):
        return True
    disc, itself = RoundedBox(0, 0, 0, 0, radius + SPARE), frozenset((RoundedBox(0, 0, 0, 0, wide),))
    return all(holds(disc, shapes - itself) for slab in cleared.slabs(low, 0) for shapes in slab.clear)


def _drilled(draft: Draft, job: Job, layers: Layers, stops: opened.Stops) -> Iterator[tuple[Job, ...]]:
    """The job after a hole at the left end, its point at the floor: after the cheapest drill of those that are told of
    alike."""
    question = draft.question
    low, width = min(cut.z for cut in job.cuts), min(room.aim.width for room in question.outline.rooms)
    seen = set()
    for drill in question.drills:
        alike = (drill.held.label, drill.owned.condition, drill.owned.material, drill.step and drill.step.severity)
        if alike in seen or 2 * drill.form.radius > width - nm(DRILLED_MM):
            continue
        hole = _hole(drill, job, (-stops.rough, job.cuts[0].x), low, draft.removed)
        drilled = hole.cuts[0].operation(drill)
        if any(spot.slack < 0 for spot in nearest(Cleared.of(layers, [*draft.operations, drilled]), drilled)):
            continue
        cuts = opened.route(job, stops, Opened.of(layers, [*draft.operations, drilled]))
        if cuts is not None and any(cut.course and cut.course.entry == "hole" for cut in cuts):
            seen.add(alike)
            yield hole, _with(job, cuts)


def _hole(drill: Tool, job: Job, at: Point, z: int, removed: Region) -> Job:
    course = Course((at,), "plunge", 0, drop=-z)
    cut = Cut(at[1], z, Role.DRILL, job.room, Side.AXIS, 0, -z, course=course)
    return Job(drill, job.room, (cut,), removed, Manner.DRILLED)


def half_of(feature: Feature, room: Room) -> int:
    """Where a room is to end, each side of the middle."""
    own = feature.request.sizes.get("head_length") if room.name == "head" else None
    return nm((own or feature.request.size("length")).mid / 2)


def band_of(feature: Feature) -> int:
    """How closely the length is to be held."""
    return nm(feature.request.size("length").band)

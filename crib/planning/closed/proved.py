"""What a pass between closed ends says of its way, and what was reckoned there."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from crib.findings.finding import Figure, Finding, Grade
from crib.findings.message import InWords, Message, Mm, Reading, Text, said
from crib.geometry.outline import Opening
from crib.handbook.closed_ends import corner_overcut, ends_short
from crib.light.hints import TYPE_CHECKING
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.ends import zero_along
from crib.machining.methods.cuts import Course, Cut, Job
from crib.machining.words import PREPARES, Direction, Entry, Fed, Seen
from crib.planning.closed.legs import legs, told
from crib.planning.told.passes import Pass
from crib.shop import Shop
from crib.units import nm

if TYPE_CHECKING:
    from crib.machining.ends.one_end import Inward

_TOLD_MM = 0.001 * 25.4
"""From how far on the shape of an end is told [mm]."""


def on_their_way(draft: Draft, passes: Sequence[Pass], readout: Callable[[int], float],
                 across: Sequence[Callable[[int], float]]) -> Iterator[Pass]:
    """The passes with their ways."""
    if draft.question.feature.request.ends == "one":
        from crib.machining.ends.one_end import inward

        for one, (_, _, way), dial in zip(passes, inward(draft), across, strict=True):
            yield _in_from_the_end(way, one, draft.question.shop, readout, dial)
        return
    for one, (_, cut), dial in zip(passes, draft.passes(), across, strict=True):
        yield _on_its_way(draft, one, cut, readout, dial)


def _in_from_the_end(way: Inward, one: Pass, shop: Shop, readout: Callable[[int], float],
                     across: Callable[[int], float]) -> Pass:
    """A pass with its way from the open end: its corners as (along, across), and how it gets in. A stop is dialled no
    further in than it was reckoned."""
    def along(x: int) -> float:
        value = readout(x)
        return value if nm(value) <= x else readout(x - nm(shop.readout_mm))

    dial = tuple((along(x), across(y)) for x, y in way.path)
    says: tuple[Text, ...] = ()
    if way.comes_out:
        x = Reading(dial[0][1], sign=True)
        says = (said("in from the open end at cross {cross}, where nothing is left to cut: {legs}", cross=x,
                     legs=legs(dial)),)
    return replace(one, feed=way.feed, direction=Direction.CLIMB if way.climbs else one.direction, way_says=says,
                   entry=Entry.OPEN_END, path_mm=tuple((x / 1e6, y / 1e6) for x, y in way.path), dial_path_mm=dial)


def _on_its_way(draft: Draft, one: Pass, cut: Cut, readout: Callable[[int], float],
                across: Callable[[int], float]) -> Pass:
    """A pass with its way: corners as (along, across), along from the left end; both stops; how it gets down."""
    course = cut.course
    if course is None:
        return one
    zero = zero_along(draft)
    path = tuple(((x - zero) / 1e6, y / 1e6) for x, y in course.path)
    dial = tuple((readout(x - zero), across(y)) for x, y in course.path)
    alongs = [along for along, _ in dial]
    gone = replace(one, path_mm=path, dial_path_mm=dial, from_mm=min(a for a, _ in path), to_mm=max(a for a, _ in path),
                   dial_from_mm=min(alongs), dial_to_mm=max(alongs), entry=course.entry,
                   way_says=tuple(way_words(course, dial, across(cut.x))))
    if course.entry is Entry.BESIDE:
        return replace(gone, feed=Fed.TOWARD_YOU, direction=Direction.BOTH)
    if cut.is_down:
        return replace(gone, view=Seen.PLAN, x_mm=path[0][0], y_mm=path[0][1], dial_x_mm=dial[0][0], feed=Fed.DOWN,
                       direction=Direction.AXIAL)
    return gone


_BACK = ", and back at that depth"
"""An odd stroke ends at the far end: what slopes behind it goes on the way back."""


def way_words(course: Course, dial: tuple[tuple[float, float], ...], at: float) -> Iterator[Text]:
    """How a pass gets down, and each leg of its way; `at`: where it is set across."""
    where = said("table {along}, cross {across}", along=Reading(dial[0][0]), across=Reading(dial[0][1], sign=True))
    ways: dict[Entry, Text] = {
        Entry.FREE: said("down at {at}, in free room", at=where),
        Entry.PLUNGE: said("down at {at}, straight into the metal, slowly", at=where),
        Entry.HOLE: said("down at {at}, in what is open there", at=where),
        Entry.RAMP: said("down on a ramp from {at}, at half the feed, strokes: {strokes}{back}", at=where,
                         strokes=course.strokes, back=_BACK if course.strokes % 2 else ""),
        Entry.BESIDE: said("at its height beside the work, {at}, table locked; slowly", at=where),
        Entry.ON: "goes on without lifting",
    }
    down, way = ways[course.entry], told(dial, at)
    yield said("{down}; {way}", down=down, way=way) if way else down


def figures(draft: Draft) -> Iterator[Figure]:
    """How far each cutter runs between closed ends, and how far it could; how round the corners at the one come out."""
    layers = draft.question.layers
    if layers is None:
        yield Figure("radius of the corners at the closed end", draft.jobs[-1].tool.form.radius / 1e6)
        return
    zero = zero_along(draft)
    stops: dict[str, tuple[Job, int]] = {}
    for job in draft.jobs:
        if job.manner not in PREPARES:
            stops[job.room] = (job, max(x for cut in job.cuts if cut.course for x, _ in cut.course.path))
    opening = next(iter(stops.values()))
    for room, (job, stop) in stops.items():
        if draft.question.outline.rooms[0].across:
            return
        middle = layers.ends[room].middle
        yield Figure(f"{room}: stops along, from the left end",
                     value=_between(2 * middle - stop - zero, stop - zero))
        if job is not opening[0] and room != opening[0].room:
            yield from _past(draft, job, middle, stop, *opening)


def _past(draft: Draft, job: Job, middle: int, stop: int, opened: Job, kept: int) -> Iterator[Figure]:
    """How far a disc runs past the stops of the cutter before it."""
    from crib.machining.ends.lowered import Reach

    room = next(room for room in draft.question.outline.rooms if room.name == job.room)
    centre, low = room.aim.middle, min(cut.z for cut in job.cuts)
    step = max(abs(cut.x - centre) for cut in job.cuts)
    reach = Reach(job.tool, draft.cleared, middle, low)
    yield Figure(f"{job.room}: length", 2 * (stop - middle + job.tool.form.radius) / 1e6)
    yield Figure(f"{job.room}: runs past the stops of the {opened.room}", (stop - kept) / 1e6, places=4)
    for name, y in (("in the middle", centre), ("at the side step", centre + step)):
        if (limit := reach.at(y)) < 2**40:
            yield Figure(f"{job.room}: could run past them {name}", (middle + limit - kept) / 1e6, places=4)
    short = ends_short(2 * opened.tool.form.radius / 1e6, 2 * job.tool.form.radius / 1e6)
    yield Figure(f"{job.room}: ends short of the {opened.room} with those stops kept", short, places=4)


def shapes_of_ends(draft: Draft) -> Iterator[Finding]:
    """EN5: a cutter narrower than what it ends makes no round end: flat, with its own radius in the corners. Flanks run
    full no farther than to where the axis of their cutter stops."""
    if draft.question.layers is None:
        yield from _flanks_before_an_end(draft)
        return
    last = {job.room: job for job in draft.jobs if job.manner not in PREPARES}
    for room in draft.question.outline.rooms:
        if room.name not in last or room.name in draft.question.layers.corners or not room.opens(Opening.TOP):
            continue
        wide, across = room.aim.width / 1e6, 2 * last[room.name].tool.form.radius / 1e6
        if (over := corner_overcut(wide, across)) >= _TOLD_MM:
            yield Finding("EN5", Grade.WARN, said("the ends of the {name} come out flat, with corners of {across} "
                                                  "radius, {over} outside of a round end of {wide}: a round end "
                                                  "wants a cutter as wide as the {name}", name=room.name,
                                                  across=Mm(across / 2), over=Mm(over), wide=Mm(wide / 2)), "geometry")


def _flanks_before_an_end(draft: Draft) -> Iterator[Finding]:
    for place, job in enumerate(draft.jobs):
        if job.manner in PREPARES or not next(
                room.lean for room in draft.question.outline.rooms if room.name == job.room):
            continue
        from crib.machining.ends.one_end import stop_of

        yield Finding("EN5", Grade.WARN, said("the {room} run full as far as {stop} from the open end; from there to "
                                              "the closed one they are as round as {cutter}, {radius}: what slides in "
                                              "them stops before that, or its end is cleared",
                                              room=job.room, stop=Mm(stop_of(draft, place) / 1e6),
                                              cutter=job.tool.owned.label, radius=Mm(job.tool.form.radius / 1e6)),
                      "geometry")
        return


def _between(low: int, high: int) -> Message:
    return said("{low} to {high}", low=InWords(low / 1e6), high=InWords(high / 1e6))

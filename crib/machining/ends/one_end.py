"""With one end closed: every pass comes in from the open end, at the left, and is fed so that it cuts conventional. The
back wall is cut going in; the front wall coming out, after the cutter has gone in where nothing is left to cut and over
to its setting at the stop."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from math import isqrt

from crib.geometry.free_positions import Metal, free_positions
from crib.geometry.layers import Layer, Layers, air_beside
from crib.geometry.operation import Operation, Path, Work
from crib.geometry.outline import Opening, Outline, Room
from crib.geometry.region import FAR, NOTHING, Region
from crib.geometry.rounded_box import RoundedBox
from crib.geometry.silhouette import Silhouette
from crib.light.records import dataclass
from crib.machining.draft import Draft
from crib.machining.ends.opened import elbowed
from crib.machining.methods.cuts import Cut, Job
from crib.machining.words import Fed, Side
from crib.units import nm

RUN_OUT = nm(0.1 * 25.4)
"""How far out of the open end, and of an open edge, a cutter is clear (common practice)."""


@dataclass(frozen=True)
class Inward:
    """The way of a pass, along from the open end; `climbs`: whether a wall is cut climb for want of a way in."""

    path: Path
    feed: Fed
    climbs: bool

    @property
    def comes_out(self) -> bool:
        """Whether it cuts on its way out."""
        return self.feed == Fed.LEFT


def inward(draft: Draft) -> Iterator[tuple[Job, Cut, Inward]]:
    """The way of every pass of a draft with one closed end, in order."""
    for place, job in enumerate(draft.jobs):
        stop = stop_of(draft, place)
        out = min(-job.tool.form.radius - RUN_OUT, stop - 1)
        for number, cut in enumerate(job.cuts):
            yield job, cut, _inward(draft.question.outline, job, number, before(draft, place), out, stop)


def before(draft: Draft, place: int) -> Region:
    """What is gone before a job of a draft."""
    return draft.jobs[place - 1].removed if place else NOTHING


def _inward(outline: Outline, job: Job, number: int, gone: Region, out: int, stop: int) -> Inward:
    cut = job.cuts[number]
    if cut.side != Side.FRONT:
        return Inward(((out, cut.x), (stop, cut.x)), Fed.RIGHT, False)
    free = way_in(outline, job, number, gone)
    if free is None:
        return Inward(((out, cut.x), (stop, cut.x)), Fed.RIGHT, True)
    return Inward(elbowed([(out, free), (stop, free), (stop, cut.x), (out, cut.x)]), Fed.LEFT, False)


def in_every_frame(draft: Draft) -> tuple[Work, tuple[Operation, ...]]:
    """What is asked and every pass, in the section and from above: in from the open end, to its stop; the closed one is
    as round as the cutters leave it, from the side a piece of the widest one's round. Before the open end, and beyond
    an open edge, is air."""
    outline, length = draft.question.outline, nm(draft.question.feature.length)
    out = max((tool.form.radius for tool in draft.tools), default=0) if is_from_the_side(outline) else 0
    most = tuple(Layer(room.most.low, room.most.high,
                       RoundedBox(-FAR, room.most.left + out, length, _beyond(room), out)) for room in outline.rooms)
    top = outline.stock.bounds()[3]
    air = (Layer(-FAR, top, RoundedBox(-FAR, -FAR, 0, FAR, 0)),
           *(Layer(-FAR, top, RoundedBox(-FAR, room.aim.right, FAR, FAR, 0)) for room in outline.rooms
             if room.opens(Opening.RIGHT)),
           *air_beside(outline.stock, min(room.most.low for room in outline.rooms), top))
    operations = (cut.operation(job.tool)._replace(path=way.path, free=0) for job, cut, way in inward(draft))
    return Work(outline, layers=Layers((), (*most, *air), air, top=top)), tuple(operations)


def is_from_the_side(outline: Outline) -> bool:
    """Whether it is cut with a disc from the side alone, so that a closed end is a piece of the disc's round."""
    return all(room.opens(Opening.RIGHT) and not room.opens(Opening.TOP) for room in outline.rooms)


def run_out(draft: Draft) -> int:
    """How far beyond where it is full depth a disc from the side leaves its round: sqrt(2 R d - d^2), R its radius and
    d the depth [nm]; nought for what isn't cut so."""
    outline = draft.question.outline
    if draft.question.feature.request.ends != "one" or not is_from_the_side(outline):
        return 0
    return max((isqrt(radius**2 - max(0, min(cut.x, radius))**2) for job in draft.jobs for cut in job.cuts
                for radius in (job.tool.form.radius,)), default=0)


def _beyond(room: Room) -> int:
    """Where a room ends at the back, seen from above: nowhere where that is open."""
    return FAR if room.opens(Opening.RIGHT) else room.most.right


def climbs(draft: Draft) -> Iterator[Cut]:
    """The passes that cut a wall climb, for want of a way in."""
    outline = draft.question.outline
    for place, job in enumerate(draft.jobs):
        seen, gone = set[int](), before(draft, place)
        for number, cut in enumerate(job.cuts):
            if cut.side == Side.FRONT and cut.z not in seen and way_in(outline, job, number, gone) is None:
                yield cut
            else:
                seen.add(cut.z)


def way_in(outline: Outline, job: Job, number: int, gone: Region) -> int | None:
    """Where across a pass goes in without cutting, when so much was gone before its job: where the same cutter has been
    as deep, in the middle if it can, at the back wall before the front one so that it goes through all of the end; else
    out of an open edge; None where there is nowhere."""
    cut, room = job.cuts[number], next(room for room in outline.rooms if room.name == job.room)
    reaches_up = room.opens(Opening.TOP) and cut.z + job.tool.form.height >= 0
    done = [one for one in job.cuts[:number] if one.z == cut.z or (reaches_up and one.z < cut.z)]
    if done and cut.wall and not room.opens(Opening.RIGHT):
        return max(one.x for one in done)
    if done:
        return min(done, key=lambda one: (one.side != Side.BOTH, abs(one.x - cut.x))).x
    return _beside(outline, job, room, cut, gone) if room.opens(Opening.RIGHT) else None


def _beside(outline: Outline, job: Job, room: Room, cut: Cut, gone: Region) -> int | None:
    """Out of the open edge, clear of what stands beyond it when so much is gone; just clear of the edge at the least.
    """
    clear = room.aim.right + job.tool.form.radius
    for left, right in _free(job.tool.form, Metal(outline.keep, outline.standing(gone)), cut.z):
        if left <= clear <= right:
            return min(clear + RUN_OUT, right)
    return None


@lru_cache(maxsize=4096)
def _free(form: Silhouette, metal: Metal, z: int) -> tuple[tuple[int, int], ...]:
    """Where a body can stand at a height; kept, for many drafts ask it of the same metal."""
    return free_positions(form, metal, z)


def stop_of(draft: Draft, place: int) -> int:
    """Where the axis stops, counted from the open end: the cutter's round end is then at the length asked, and a disc
    goes no further than the cutter before it, so that its neck stays inside that end. What is cut from the side is full
    depth as far as the length."""
    if is_from_the_side(draft.question.outline):
        return nm(draft.question.feature.length)
    return min(nm(draft.question.feature.length) - each.tool.form.radius for each in draft.jobs[: place + 1])

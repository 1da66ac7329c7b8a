"""Why a cutter can't work between closed ends: no way in, or a head that ends too soon; with one change that would
do."""

from __future__ import annotations

from crib.geometry.outline import Room
from crib.geometry.plan_view import Layer
from crib.geometry.rounded_box import RoundedBox
from crib.handbook.closed_ends import CORE_SHARE, DRILLED_MM, HOLE_MM
from crib.machining.draft import Draft, Question
from crib.machining.ends.entry import SPARE
from crib.machining.ends.fit import cleared_before, fitted, half_of, lets_in, longest, with_before
from crib.machining.methods.base import Job, Limit
from crib.units import NM, nm, show


def why_not(question: Question, job: Job, room: Room) -> Limit:
    """What keeps a job, which clears its room in the section, from going between the ends."""
    ready = cleared_before(question, job.room)
    layers = ready.feature.layers
    assert layers is not None
    if "top" in room.open and job.tool.kind.buried:
        return Limit("EN1", "it has no way down: its end doesn't cut")
    if "top" in room.open:
        return _no_way_down(question, job, room)
    if not lets_in(job, Draft(ready).cleared, question.feature):
        return _not_lowered(ready, job, room)
    return _too_short(ready, job, room)


def _no_way_down(question: Question, job: Job, room: Room) -> Limit:
    radius, width = job.tool.form.radius, room.aim.width
    run, units = 2 * (half_of(question.feature, room) - radius) / NM, question.shop.units
    thin, thick = 2 * CORE_SHARE * radius / NM, width / NM - DRILLED_MM
    says = ("no way down: its teeth aren't known to cut on centre, and to ramp it wants a run of more than its "
            "diameter, {needs}, the slot leaves {has}")
    drill = f"a flat-ground drill of {show(thin, units)} to {show(thick, units)}"
    fix = f"{drill} would let it in" if thick > thin else None
    return Limit("EN1", says, run, 2 * radius / NM, fix, max(0.0, 2 * radius / NM - run))


def _not_lowered(ready: Question, job: Job, room: Room) -> Limit:
    radius, units = job.tool.form.radius, ready.shop.units
    opening = max(other.aim.width for other in ready.outline.rooms if "top" in other.open)
    most = (opening - 2 * SPARE) / NM
    says = "{has} across, it can't be lowered between the closed ends: {needs} is the most that goes down in the throat"
    hole = 2 * radius / NM + HOLE_MM
    layers = ready.feature.layers
    assert layers is not None
    low = min(other.aim.low for other in ready.outline.rooms)
    bored = with_before(ready, (*layers.before, Layer(low, 0, RoundedBox(0, 0, 0, 0, nm(hole / 2) + 1))))
    if hole <= room.most.width / NM and next(fitted(Draft(bored), job, layers, nm(hole / 2) + 1), None):
        return Limit("EN2", says, 2 * radius / NM, most, f"an entry hole of {show(hole, units)} would let it in",
                    2 * radius / NM - most)
    return Limit("EN2", says, 2 * radius / NM, most, "a disc of {needs} or less can be lowered in",
                2 * radius / NM - most, "diameter_mm")


def _too_short(ready: Question, job: Job, room: Room) -> Limit:
    """The neck stops at the throat's end before the head is as long as it must be."""
    own = ready.feature.request.size("head_length")
    needed, units, neck = nm(own.lo / 2), ready.shop.units, job.tool.cutter.neck_mm or 0.0
    reached = longest(Draft(ready), job, room, needed, nm((own.mid - own.lo) / 2))
    says = (f"the neck meets the throat's end: the head comes out {show(2 * reached / NM, units)} long, "
            f"{show(own.lo, units)} is the least; neck {{has}}, {{needs}} is the most that would do")
    short = 2 * (needed - reached) / NM
    return Limit("EN4", says, neck, neck - short, "a neck of {needs} or less would do", short, "neck_mm")

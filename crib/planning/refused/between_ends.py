"""Why a cutter can't work between closed ends: no way in, or a room under a lip that ends too soon; with one change
that would do."""

from __future__ import annotations

from crib.findings.message import Mm, said
from crib.geometry.layers import Corners, Ends, Layer, Layers
from crib.geometry.outline import Opening, Room
from crib.geometry.rounded_box import RoundedBox
from crib.handbook.closed_ends import CORE_SHARE, DRILLED_MM, HOLE_MM
from crib.handbook.deviations import corner_left
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.ends.entry import SPARE
from crib.machining.ends.fit import cleared_before, fitted, lets_in, longest
from crib.machining.methods.base import Limit
from crib.machining.methods.cuts import Job
from crib.machining.question import Question
from crib.units import NM, nm


def why_not(question: Question, job: Job, room: Room) -> Limit:
    """What keeps a job, which clears its room in the section, from going between the ends."""
    ready = cleared_before(question, job.room)
    layers = ready.layers
    assert layers is not None
    if room.across:
        return Limit("EN2", "it finds no room beside the work to stand in before it goes in")
    corners = layers.corners.get(room.name)
    if corners and job.tool.form.radius > corners.waived:
        return _too_round(job, room, corners)
    if room.opens(Opening.TOP) and job.tool.kind.buried:
        return Limit("EN1", "it has no way down: its end doesn't cut")
    if room.opens(Opening.TOP):
        return _no_way_down(question, job, room, layers.ends[room.name])
    opening = max((other for other in ready.outline.rooms if other.opens(Opening.TOP)),
                  key=lambda other: other.aim.width)
    if not lets_in(job, room, Draft(ready).cleared, layers):
        return _not_lowered(ready, job, room, opening, layers)
    return _too_short(ready, job, room, opening, layers.ends[room.name])


def _too_round(job: Job, room: Room, corners: Corners) -> Limit:
    """It leaves more in the corners than an owner might let stand."""
    has, most, drawn = 2 * job.tool.form.radius / NM, 2 * corners.most / NM, corners.aim / NM
    says = said("{has} across, it leaves corners of {radius} in the {room}, {left} of metal where {drawn} is drawn: "
                "{needs} is the most that goes into them", room=room.name, radius=Mm(has / 2), drawn=Mm(drawn),
                left=Mm(corner_left(has / 2, drawn), places=4))
    return Limit("SZ3", says, has, most, "a cutter of {needs} or less would go into the corners", has - most,
                 "diameter_mm")


def _no_way_down(question: Question, job: Job, room: Room, ends: Ends) -> Limit:
    radius, width = job.tool.form.radius, room.aim.width
    run = 2 * (ends.half - radius) / NM
    thin, thick = 2 * CORE_SHARE * radius / NM, width / NM - DRILLED_MM
    says = said("no way down: its teeth aren't known to cut on centre, and to ramp it wants a run of more than its "
                "diameter, {needs}, the {room} leaves {has}", room=room.name)
    drill = said("a flat-ground drill of {thin} to {thick}", thin=Mm(thin), thick=Mm(thick))
    fix = said("{drill} would let it in", drill=drill) if thick > thin else None
    return Limit("EN1", says, run, 2 * radius / NM, fix, max(0.0, 2 * radius / NM - run))


def _not_lowered(ready: Question, job: Job, room: Room, opening: Room, layers: Layers) -> Limit:
    has, most = 2 * job.tool.form.radius / NM, (opening.aim.width - 2 * SPARE) / NM
    says = said("{has} across, it can't be lowered between the closed ends: {needs} is the most that goes down in the "
                "{opening}", opening=opening.name)
    hole, at = has + HOLE_MM, (layers.ends[room.name].middle, room.aim.middle)
    round_ = RoundedBox(*at, *at, nm(hole / 2) + 1)
    low = min(other.aim.low for other in ready.outline.rooms)
    bored = replace(ready, clear=(*ready.clear, Layer(low, layers.top, round_)))
    if hole < 2 * layers.ends[opening.name].half / NM and next(
            fitted(Draft(bored), job, replace(layers, holes=(round_,))), None):
        fix = said("an entry hole of {hole} would let it in", hole=Mm(hole))
        return Limit("EN2", says, has, most, fix, has - most)
    return Limit("EN2", says, has, most, "a disc of {needs} or less can be lowered in", has - most, "diameter_mm")


def _too_short(ready: Question, job: Job, room: Room, opening: Room, ends: Ends) -> Limit:
    """The neck stops at the end of the opening before the room under it is as long as it must be."""
    least = ends.least if ends.kept is None else ends.kept
    needed, neck = least // 2, job.tool.cutter.neck_mm or 0.0
    reached = longest(Draft(ready), job, room, needed, ends.half - needed, ends)
    says = said("the neck meets the {opening}'s end: the {room} comes out {reached} long, {least} is the least; neck "
                "{has}, {needs} is the most that would do", opening=opening.name, room=room.name,
                reached=Mm(2 * reached / NM), least=Mm(least / NM))
    short = 2 * (needed - reached) / NM
    return Limit("EN4", says, neck, neck - short, "a neck of {needs} or less would do", short, "neck_mm")

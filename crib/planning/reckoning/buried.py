"""Which passes of a plan are buried so that their chips can't get out, and where they stop for them."""

from __future__ import annotations

from itertools import pairwise

from crib.geometry.outline import Opening, Room
from crib.machining.methods.cuts import Cut, Job
from crib.machining.question import Question
from crib.machining.words import Side

_IN_OPEN_ENDS = 1.5
"""A slot that is open at its ends packs from this many of the cutter's diameters deep, one with a closed end from one
[-]. From memory."""

_SKIM = 0.1
"""A pass that goes down by less of its width makes few chips [-]. From memory."""


def stops_of(question: Question, job: Job, cut: Cut) -> tuple[float, ...]:
    """How far along a pass to stop for its chips, from where it goes in [mm]; nothing where they get out."""
    room = next((room for room in question.outline.rooms if room.name == job.room), None)
    if room is None or room.lean or cut.is_down or (cut.side != Side.BOTH and not _in_a_groove(room)):
        return ()
    deep, opening = _depth_and_opening(question, room, job, cut)
    under, full = _under_a_lip(room), _IN_OPEN_ENDS if question.feature.request.ends == "open" else 1.0
    if not under and room.opens(Opening.TOP) and (deep <= full * opening or cut.axial < cut.radial * _SKIM):
        return ()
    if not under and deep <= opening:
        return ()
    from crib.planning.reckoning.chips import spacing_mm, stops

    return stops(_travel(question, cut), spacing_mm(question.material, deep, opening), question.shop.rough_mm)


def least_stops(question: Question, room: Room, both: int) -> int:
    """How often passes under a lip stop for their chips at the least, of which so many surely cut both walls at once,
    each at a level of its own; told where both ends are open."""
    is_told = both and _under_a_lip(room) and not room.lean
    if not is_told or question.layers is not None or question.feature.request.ends != "open":
        return 0
    above = [other.aim.width for other in question.outline.rooms if other.opens(Opening.TOP)]
    opening, floor, lip = min(above, default=0) / 1e6, -room.aim.low / 1e6, -room.most.high / 1e6
    return _stops(question, floor, opening) + (both - 1) * _stops(question, lip, opening)


def _stops(question: Question, deep: float, opening: float) -> int:
    """How often a pass over the whole length stops that is no less deep."""
    from crib.planning.reckoning.chips import pieces_of, spacing_mm

    spacing = spacing_mm(question.material, deep - _HAIR_MM, opening)
    return pieces_of(question.feature.length, spacing) - 1


_HAIR_MM = 1e-4


def _under_a_lip(room: Room) -> bool:
    return not room.open


def _in_a_groove(room: Room) -> bool:
    """Whether a room opens at one side only, so that the disc stands in it between two walls."""
    return not room.opens(Opening.TOP) and bool(room.open)


def _depth_and_opening(question: Question, room: Room, job: Job, cut: Cut) -> tuple[float, float]:
    """How far it is from the bottom of a cut to the open, and how wide the opening there is [mm]."""
    if _in_a_groove(room):
        return room.aim.width / 1e6, room.aim.height / 1e6
    if _under_a_lip(room):
        above = [other.aim.width for other in question.outline.rooms if other.opens(Opening.TOP)]
        return -cut.z / 1e6, min(above, default=0) / 1e6
    return -cut.z / 1e6, 2 * job.tool.form.radius / 1e6


def _travel(question: Question, cut: Cut) -> float:
    """How far a pass goes in metal [mm]."""
    if cut.course is None:
        return question.feature.length
    return sum(abs(b[0] - a[0]) + abs(b[1] - a[1]) for a, b in pairwise(cut.course.path)) / 1e6

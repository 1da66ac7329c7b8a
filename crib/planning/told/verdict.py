"""Which of the verdicts a draft earns, and what it gives away."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.findings.finding import Finding, Grade, off_drawing
from crib.findings.message import Mm, said
from crib.findings.verdicts import Verdict
from crib.geometry.faces import FINE
from crib.geometry.proud import stands
from crib.machining.chain import Chain
from crib.machining.draft import Draft
from crib.machining.ends import always_runs_out, in_the_corners, left_in_the_floor, run_out, stands_short
from crib.machining.methods.cuts import Job
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import MEANT_TO_FOLLOW
from crib.rules import forms
from crib.rules.catalogue import ids
from crib.rules.passes import may_run_out
from crib.rules.sizes import leans, misses
from crib.rules.slants import other_angles

_SLACK = 1e-6
_GIVES_UP, _ASKS = ids("gives_up"), ids("asks")


def complete(draft: Draft) -> bool:
    """Whether everything that must go is gone, but for what an owner may let stand."""
    outline = draft.question.outline
    return outline.is_waived(outline.left(draft.removed))


def deviations(draft: Draft, finished: bool) -> tuple[Finding, ...]:
    """What lies outside the drawing: bands of finished rooms that the way can't hold, and metal left in the waivers of
    a finished draft."""
    if isinstance(draft, Chain):
        from crib.rules import hole_sizes, round_sizes

        return (*draft.beyond, *hole_sizes.misses(draft), *round_sizes.misses(draft), *forms.misses(draft))
    found = list(_in_the_waivers(draft)) if finished else []
    if finished and (short := stands_short(draft)) > FINE:
        room = draft.question.outline.rooms[-1].name
        says = said("metal left at the ends of the {room}, farthest in its corners", room=room)
        found.append(off_drawing("EN4", says, short / 1e6, of_mm=_smallest(draft)))
    if finished and (run := run_out(draft)) and not may_run_out(draft.question.feature):
        found.append(off_drawing("EN6", said("its closed end runs out beyond the length, with the radius of {cutter}",
                                             cutter=draft.tools[-1].owned.label), run / 1e6, of_mm=_smallest(draft)))
    found += [*other_angles(draft), *(_in_the_corners(draft) if finished else ())]
    return (*found, *misses(draft), *leans(draft), *forms.misses(draft))


def surely_runs_out(question: Question) -> bool:
    """Whether whatever takes anything runs out beyond the length at a closed end, where nobody says that it may."""
    return always_runs_out(question) and not may_run_out(question.feature)


def _in_the_corners(draft: Draft) -> Iterator[Finding]:
    for one in in_the_corners(draft):
        if one.left > one.allowed + 1:
            what = (said("metal left in the corners of the {room}, which come out {radius} round", room=one.room,
                         radius=Mm(one.radius / 1e6)) if one.settings == 1 else
                    said("metal left between the settings round the corners of the {room}", room=one.room))
            yield off_drawing("LF1", what, one.left / 1e6, one.allowed / 1e6,
                              of_mm=one.allowed / 1e6 or _smallest(draft))


def _in_the_waivers(draft: Draft) -> Iterator[Finding]:
    """Metal that is left where an owner may let it stand, in each such place by itself; between closed ends, where that
    is the floor's edge, as far as it stands anywhere round them."""
    outline = draft.question.outline
    left, round_the_floor = outline.left(draft.removed), left_in_the_floor(draft)
    for waiver in outline.waivers if left or round_the_floor else ():
        here = left & waiver.region
        if here or round_the_floor:
            says = said("metal left in the {where}", where=waiver.name)
            stood = max(stands(outline, here, draft.removed), round_the_floor)
            yield off_drawing("LF1", says, stood / 1e6, of_mm=_smallest(draft))
            left = left - here


def _smallest(draft: Draft) -> float:
    """The smallest size of what is made [mm]: of it what may stand, where no tolerance is drawn, is a share."""
    return min(min(room.aim.width, room.aim.height) for room in draft.question.outline.rooms) / 1e6


def answer(draft: Draft, warnings: Sequence[Finding], gives_away: bool) -> Verdict:
    """`as drawn`, `extra passes` or `compromise` for a draft that is complete so far, `measure first` where it waits
    for a measurement; down an axis what the method says."""
    if any(warning.id in _ASKS for warning in warnings):
        return Verdict.MEASURE_FIRST
    if gives_away:
        return Verdict.COMPROMISE
    if isinstance(draft, Chain):
        return draft.at_best
    if any(warning.grade == Grade.CAUTION and warning.id in _GIVES_UP for warning in warnings):
        return Verdict.EXTRA_PASSES
    rooms = {job.room for job in draft.jobs}
    makes = [job for job in draft.jobs if job.manner not in MEANT_TO_FOLLOW]
    if len({job.tool.id for job in makes}) > len(rooms) or not all(_called_for(draft, job) for job in makes):
        return Verdict.EXTRA_PASSES
    return Verdict.AS_DRAWN


def _called_for(draft: Draft, job: Job) -> bool:
    """Whether the tool is of the kind and size that the room calls for, at one level."""
    return job.levels == 1 and calls_for(draft.question, job.room, job.tool)


def calls_for(question: Question, room: str, tool: Tool) -> bool:
    """Whether a room calls for a tool of this kind and size."""
    calls = question.feature.calls_for[room]
    if not calls.may_be(tool.kind.name, tool.owned.diameter_mm):
        return False  # of thousands of tools these are never looked at
    if calls.of_any_size:
        return True
    cutter = tool.cutter
    return (
        _within(cutter.diameter_mm, calls.diameter)
        and _within(cutter.face_mm, calls.face)
        and _within(cutter.angle_deg, calls.angle)
        and (cutter.corner_radius_mm is None or _within(cutter.corner_radius_mm, calls.corner))
    )


def _within(value: float | None, limits: tuple[float, float] | None) -> bool:
    return limits is None or (value is not None and limits[0] - _SLACK <= value <= limits[1] + _SLACK)

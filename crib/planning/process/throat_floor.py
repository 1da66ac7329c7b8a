"""The floor of a slot that a disc follows: a disc without end teeth isn't to rub on it, so it is cut a little deeper
than the disc's lower face where the drawing's limits leave room."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Motion
from crib.findings.finding import Figure
from crib.geometry.outline import Opening, Room
from crib.geometry.region import NOTHING
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.methods.cuts import Cut, Job, after
from crib.units import nm

BELOW = nm(0.003 * 25.4)
"""How far below: from nothing to .005 in under a cutter that has teeth on its periphery alone (common practice)."""

_STRAIGHT_DOWN = ("plunge", "on")


def deepened(draft: Draft) -> Draft:
    """The draft with the floor of a slot cut deeper than the toothless disc that follows in it stands; the same where
    none does, or its limits or its way in leave no room."""
    if draft.is_round:
        return draft
    by = {job.room: below for job in draft.jobs if (below := _below(draft, job))}
    if not by:
        return draft
    jobs: list[Job] = []
    for job in draft.jobs:
        cuts = tuple(_lower(cut, job, by) for cut in job.cuts)
        gone = jobs[-1].removed if jobs else NOTHING
        jobs.append(replace(job, cuts=cuts, removed=after(job.tool, draft.question.outline, cuts, gone) | job.removed))
    return Draft(draft.question, tuple(jobs))


def _below(draft: Draft, job: Job) -> int:
    """How far below its aim a job may cut its floor [nm]; nothing where no toothless disc stands on that floor."""
    room = _room(draft, job.room)
    if not room.opens(Opening.TOP) or job.tool.kind.buried or not any(_rubs(draft, one, room) for one in draft.jobs):
        return 0
    floor = [cut for cut in job.cuts if cut.z == room.aim.low]
    if any(cut.course and cut.course.entry not in _STRAIGHT_DOWN for cut in floor):
        return 0
    return min(BELOW, (room.aim.low - room.most.low) // 2) if floor else 0


def _rubs(draft: Draft, job: Job, room: Room) -> bool:
    """Whether a job's disc has no end teeth and stands on the floor of a room that isn't its own."""
    tool = job.tool
    return (job.room != room.name and tool.kind.buried and not tool.cutter.end_teeth
            and Motion.ALONG in tool.kind.motions and any(cut.z == room.aim.low for cut in job.cuts))


def _lower(cut: Cut, job: Job, by: dict[str, int]) -> Cut:
    below = by.get(job.room, 0)
    if not below or cut.z != min(one.z for one in job.cuts):
        return cut
    return replace(cut, z=cut.z - below, axial=cut.axial + below)


def below_aim(draft: Draft, room: Room) -> int:
    """How far below its aim the floor of a room is cut [nm]."""
    lowest = min((cut.z for job in draft.jobs if job.room == room.name for cut in job.cuts), default=room.aim.low)
    return max(0, room.aim.low - lowest) if room.opens(Opening.TOP) else 0


def figures(draft: Draft) -> Iterator[Figure]:
    """How far below a toothless disc each floor is cut."""
    for room in draft.question.outline.rooms:
        if below := below_aim(draft, room):
            yield Figure(f"{room.name}: floor below the disc's lower face, which has no teeth", below / 1e6)


def _room(draft: Draft, name: str) -> Room:
    return next(room for room in draft.question.outline.rooms if room.name == name)

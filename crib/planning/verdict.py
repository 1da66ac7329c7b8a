"""Which of the verdicts a draft earns, and what it gives away."""

from __future__ import annotations

from collections.abc import Sequence

from crib.findings.finding import Deviation, Finding
from crib.geometry.farthest import farthest
from crib.geometry.region import Region
from crib.machining.chain import Chain
from crib.machining.draft import Draft, Question
from crib.machining.methods.base import Job
from crib.machining.tool import Tool
from crib.rules import rounds
from crib.rules.catalogue import ids
from crib.rules.sizes import leans, misses
from crib.rules.slants import other_angles

_SLACK = 1e-6
_GIVES_UP, _ASKS = ids("gives_up"), ids("asks")


def complete(draft: Draft) -> bool:
    """Whether everything that must go is gone, but for what an owner may let stand."""
    outline = draft.question.outline
    return outline.is_waived(outline.left(draft.removed))


def deviations(draft: Draft, finished: bool) -> tuple[Deviation, ...]:
    """What lies outside the drawing: bands of finished rooms that the way can't hold, and metal left in the waivers of
    a finished draft."""
    if isinstance(draft, Chain):
        return (*draft.beyond, *rounds.misses(draft))
    left = _waived(draft) if finished else None
    found = []
    if left:
        mm = farthest(left, draft.removed) / 1e6
        found.append(Deviation(f"metal left in the {draft.question.outline.waivers[0].name}", mm, 0.0))
    found += other_angles(draft)
    return (*found, *misses(draft), *leans(draft))


def _waived(draft: Draft) -> Region:
    return draft.question.outline.left(draft.removed)


def answer(draft: Draft, warnings: Sequence[Finding], gives_away: bool) -> str:
    """`as drawn`, `extra passes` or `compromise` for a draft that is complete so far, `measure first` where it waits
    for a measurement; down an axis what the method says."""
    if any(warning.rule in _ASKS for warning in warnings):
        return "measure first"
    if gives_away:
        return "compromise"
    if isinstance(draft, Chain):
        return draft.at_best
    if any(warning.severity == "caution" and warning.rule in _GIVES_UP for warning in warnings):
        return "extra passes"
    rooms = {job.room for job in draft.jobs}
    if len({tool.id for tool in draft.tools}) > len(rooms) or not all(_called_for(draft, job) for job in draft.jobs):
        return "extra passes"
    return "as drawn"


def _called_for(draft: Draft, job: Job) -> bool:
    """Whether the tool is of the kind and size that the room calls for, at one level."""
    return job.levels == 1 and calls_for(draft.question, job.room, job.tool)


def calls_for(question: Question, room: str, tool: Tool) -> bool:
    """Whether a room calls for a tool of this kind and size."""
    calls, cutter = question.feature.calls_for[room], tool.cutter
    return (
        cutter.kind in calls.kinds
        and _within(cutter.diameter_mm, calls.diameter)
        and _within(cutter.face_mm, calls.face)
        and _within(cutter.angle_deg, calls.angle)
    )


def _within(value: float | None, limits: tuple[float, float] | None) -> bool:
    return limits is None or (value is not None and limits[0] - _SLACK <= value <= limits[1] + _SLACK)

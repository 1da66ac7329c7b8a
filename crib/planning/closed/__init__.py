"""Between closed ends: how a cutter gets in, how far it runs, what becomes of the ends. What is open at both ends loads
none of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from typing import TYPE_CHECKING

from crib.geometry.operation import Operation, Work
from crib.geometry.outline import Room
from crib.machining.draft import Draft, Question
from crib.machining.methods.base import Cut, Job
from crib.machining.tool import Tool

DRILLED = "drilled"
"""The manner of a job that only drills a way in."""

if TYPE_CHECKING:
    from crib.findings.finding import Figure, Finding
    from crib.planning.advice import Pass


def never_in(question: Question, tool: Tool, room: Room) -> bool:
    """Whether a tool can't get into a room between its ends, whatever is done before."""
    if question.feature.layers is None:
        return False
    from crib.planning.closed import never

    return never.never_in(question, tool, room)


def fits(question: Question, job: Job) -> bool:
    """Whether a job finds its way between the ends."""
    if question.feature.layers is None:
        return True
    from crib.planning.closed import why_not

    return why_not.fits(question, job)


def with_courses(draft: Draft, choice: Sequence[Job]) -> Iterator[Draft]:
    """A draft with more jobs, one for each way in between the ends."""
    if draft.question.feature.layers is None:
        return iter((draft.then(*choice),))
    from crib.planning.closed import fit

    return fit.with_courses(draft, choice)


def in_every_frame(draft: Draft) -> tuple[Work, tuple[Operation, ...]]:
    """What is asked of a draft and its passes, in the section and, where an end is closed, from above."""
    request = draft.question.feature.request
    if request.ends != "one" or not request.length:
        return Work(draft.question.outline, layers=draft.question.feature.layers), draft.operations
    from crib.planning.closed import from_the_open_end

    return from_the_open_end.in_every_frame(draft)


def half_mm(draft: Draft) -> float:
    """How far the middle, from which a way between closed ends is reckoned, is from where positions along count [mm]:
    from the left end there, else from the open one."""
    request = draft.question.feature.request
    return request.size("length").mid / 2 if request.ends == "closed" else 0.0


def stop_mm(draft: Draft, job: Job) -> float | None:
    """With one closed end, where the axis stops, counted from the open end [mm]."""
    if draft.question.feature.request.ends != "one":
        return None
    from crib.planning.closed import from_the_open_end

    return from_the_open_end.stop_mm(draft, job)


def on_their_way(draft: Draft, passes: Sequence[Pass], readout: Callable[[int], float],
                 across: Sequence[Callable[[int], float]]) -> tuple[Pass, ...]:
    """The passes of a plan with their ways between the ends, or in from the open one; `across`: what is dialled across
    in each."""
    if draft.question.feature.request.ends == "open":
        return tuple(passes)
    from crib.planning.closed import proved

    return tuple(proved.on_their_way(draft, passes, readout, across))


def climbs(draft: Draft) -> list[Cut]:
    """The passes that cut a wall climb, for want of a way to go in and come out along it."""
    if draft.question.feature.request.ends != "one":
        return []
    from crib.planning.closed import from_the_open_end

    return list(from_the_open_end.climbs(draft))


def shapes_of_ends(draft: Draft) -> Iterator[Finding]:
    """What shape closed ends get, where they don't come out round."""
    if draft.question.feature.layers is None:
        return iter(())
    from crib.planning.closed import proved

    return proved.shapes_of_ends(draft)


def figures(draft: Draft) -> Iterator[Figure]:
    """What was reckoned between the ends."""
    if draft.question.feature.layers is None:
        return iter(())
    from crib.planning.closed import proved

    return proved.figures(draft)

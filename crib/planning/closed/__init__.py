"""Between closed ends, told: the way of each pass, the shapes that ends get, and what gets in. What is open at both
ends loads none of it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from math import inf

from crib.light.hints import TYPE_CHECKING
from crib.machining.draft import Draft
from crib.machining.methods.cuts import Job

if TYPE_CHECKING:
    from crib.findings.finding import Figure, Finding
    from crib.planning.told.passes import Pass


def stop_mm(draft: Draft, job: Job) -> float | None:
    """With one closed end, where the axis stops, counted from the open end [mm]."""
    if draft.question.feature.request.ends != "one":
        return None
    from crib.machining.ends import one_end

    return one_end.stop_of(draft, draft.jobs.index(job)) / 1e6


def on_their_way(draft: Draft, passes: Sequence[Pass], readout: Callable[[int], float],
                 across: Sequence[Callable[[int], float]]) -> tuple[Pass, ...]:
    """The passes of a plan with their ways between the ends, or in from the open one; `across`: what is dialled across
    in each."""
    if draft.question.feature.request.ends == "open" and draft.question.layers is None:
        return tuple(passes)
    from crib.planning.closed import proved

    return tuple(proved.on_their_way(draft, passes, readout, across))


def shapes_of_ends(draft: Draft) -> Iterator[Finding]:
    """What shape closed ends get, where they don't come out round, and how far a flank runs full."""
    question = draft.question
    is_slanted = question.feature.request.ends == "one" and any(room.lean for room in question.outline.rooms)
    if question.layers is None and not is_slanted:
        return iter(())
    from crib.planning.closed import proved

    return proved.shapes_of_ends(draft)


def figures(draft: Draft) -> Iterator[Figure]:
    """What was reckoned between the ends."""
    if draft.question.layers is None and draft.question.limits.corner == inf:
        return iter(())
    from crib.planning.closed import proved

    return proved.figures(draft)

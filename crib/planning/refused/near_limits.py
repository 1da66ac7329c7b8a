"""Walls nearer their limits, where nothing is made at all: who may do a room there once he is measured, and nothing
with walls at their aim."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from crib.cutters.base import Cutter
from crib.machining.tool import unknowns
from crib.planning.refused.case import as_kind
from crib.planning.search.jobs import Jobs


def wider(every: Iterable[Jobs]) -> tuple[Jobs, ...]:
    """The set-ups in which walls nearer their limits let more in, so asked."""
    return tuple(jobs.widened for jobs in every if jobs.gives_way)


def may_turn(cutter: Cutter) -> bool:
    """Whether something isn't known of a cutter, or is its owner's word, so that measuring might help it."""
    return bool(unknowns(cutter) or cutter.shank_mm is None or cutter.overruled)


def let_in(wide: Sequence[Jobs], cutters: Iterable[Cutter]) -> frozenset[int]:
    """The numbers of those that measuring might help and that may do some room in one of these, told of their bare
    sizes."""
    if not wide:
        return frozenset()
    kind = [tool for cutter in cutters if may_turn(cutter) and (tool := as_kind(wide[0], cutter))]
    return frozenset(tool.id for jobs in wide for room in jobs.question.outline.rooms
                     for tool in jobs.bare.may_clear(kind, room))

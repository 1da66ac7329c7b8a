"""How a group of passes looks: the section with the cutter in its place and what it takes, and the same from above."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.geometry.operation import Frame
from crib.geometry.outline import Outline
from crib.geometry.region import union
from crib.geometry.trace import Stage, Trace
from crib.machining.draft import ZEROS
from crib.pages.scene import FromAbove, Scene, Strip
from crib.planning.advice import Pass, TightSpot
from crib.planning.finish import Proved


def scene_of(proved: Proved, run: Sequence[Pass]) -> Scene | None:
    """The section with the cutter as the last pass of a group has it, and what all of them take; None where they are
    seen from above alone."""
    numbers = [one.no - 1 for one in run]
    found = [(outline, stage) for outline, stage in _stages(proved.trace) if stage.operation in numbers]
    if not found:
        return None
    outline, last = found[-1]
    mine = [stage for which, stage in found if which is outline]
    stock, one = outline.stock | outline.obstacles, proved.trace.operations[last.operation]
    spot = min((spot for spot in last.spots if spot.z < 0), key=lambda spot: spot.gap, default=None)
    return Scene(stock, stock - last.standing, one.form, one.x, one.z, TightSpot.of(spot) if spot else None,
                 on_top=proved.plan.zeros[1] == ZEROS[1], taken=union(stage.taken for stage in mine),
                 pass_no=last.operation + 1)


def _stages(trace: Trace) -> Iterator[tuple[Outline, Stage]]:
    """Every stage with the section, or what is about the axis, that it is seen in."""
    work = trace.work
    outlines = ([work.section] if work.section else []) + list(work.axes)
    views = [view for view in trace.views if view.frame is not Frame.PLAN]
    for outline, view in zip(outlines, views, strict=True):
        yield from ((outline, stage) for stage in view.stages)


def above_of(proved: Proved, run: Sequence[Pass]) -> FromAbove | Strip | None:
    """The same from above."""
    return None

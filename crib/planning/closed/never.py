"""What never gets in between closed ends, whatever was cut before: known without trying."""

from __future__ import annotations

from crib.handbook.closed_ends import DRILLED_MM, HOLE_MM
from crib.lengths import nm
from crib.planning.closed.entry import SPARE, ways
from crib.planning.draft import Question
from crib.planning.tools import Tool
from crib.section.outline import Room


def never_in(question: Question, tool: Tool, room: Room) -> bool:
    """Whether a tool never gets into a room between closed ends."""
    layers, radius = question.feature.layers, tool.form.radius
    if layers is None:
        return False
    if "top" in room.open:
        longest = nm(question.feature.request.size("length").mid) - 2 * radius
        return longest < 0 or not (
            tool.kind.buried or ways(tool, longest).on_centre or ways(tool, longest).ramp > 0 or _drillable(question))
    return widest_in(question) < 2 * radius


def widest_in(question: Question) -> int:
    """The widest disc that can be lowered: into the opening at its widest, or into the entry hole."""
    layers = question.feature.layers
    opening = max((room.most.width for room in question.outline.rooms if "top" in room.open), default=0) - 2 * SPARE
    holes = [2 * layer.shape.radius - nm(HOLE_MM) for layer in layers.before] if layers else []
    return max([opening, *holes])


def _drillable(question: Question) -> bool:
    width = min(room.aim.width for room in question.outline.rooms)
    return any(2 * drill.form.radius <= width - nm(DRILLED_MM) for drill in question.drills)

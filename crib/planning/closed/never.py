"""What never gets in between closed ends, whatever was cut before: known without trying."""

from __future__ import annotations

from crib.geometry.outline import Room
from crib.handbook.closed_ends import HOLE_MM
from crib.machining.draft import Question
from crib.machining.tool import Tool
from crib.planning.closed.entry import SPARE
from crib.units import nm


def never_in(question: Question, tool: Tool, room: Room) -> bool:
    """Whether a tool never gets into a room between closed ends."""
    layers, radius = question.feature.layers, tool.form.radius
    if layers is None:
        return False
    if "top" in room.open:
        return 2 * radius > nm(question.feature.request.size("length").mid)
    return widest_in(question) < 2 * radius


def widest_in(question: Question) -> int:
    """The widest disc that can be lowered: into the opening at its widest, or into the entry hole."""
    layers = question.feature.layers
    opening = max((room.most.width for room in question.outline.rooms if "top" in room.open), default=0) - 2 * SPARE
    holes = [2 * layer.shape.radius - nm(HOLE_MM) for layer in layers.before] if layers else []
    return max([opening, *holes])

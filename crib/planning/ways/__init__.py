"""How a cutter clears a room: the passes that a machinist would take, in order. One file for each way."""

from __future__ import annotations

from crib.planning.tools import Tool
from crib.planning.ways import from_above, under_a_lip
from crib.planning.ways.base import Job
from crib.section.outline import Outline, Room
from crib.section.region import Region


def clear(tool: Tool, outline: Outline, room: Room, removed: Region, most_levels: int,
          wide: bool = False) -> tuple[Job, ...]:
    """The manners in which a tool can take metal out of a room, given what is gone already; none where it can't."""
    if "along" not in tool.kind.ways:
        return ()
    if "top" in room.open:
        return from_above.clear(tool, outline, room, removed, wide)
    return under_a_lip.clear(tool, outline, room, removed, most_levels)

"""How a cutter clears a room: the passes that a machinist would take, in order. One file for each way, the first that
suits a room is its way."""

from __future__ import annotations

from crib.planning.tools import Tool
from crib.planning.ways import from_above, under_a_lip
from crib.planning.ways.base import Job, Limits, Way
from crib.section.outline import Outline, Room
from crib.section.region import Region

WAYS: tuple[Way, ...] = (from_above.WAY, under_a_lip.WAY)


def way_of(room: Room) -> Way:
    """The way in which a room is cleared."""
    return next(way for way in WAYS if way.suits(room))


def clear(tool: Tool, outline: Outline, room: Room, removed: Region, limits: Limits) -> tuple[Job, ...]:
    """The manners in which a tool can take metal out of a room, given what is gone already; none where it can't."""
    return way_of(room).clear(tool, outline, room, removed, limits) if "along" in tool.kind.ways else ()

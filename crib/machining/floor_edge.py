"""What a tool surely leaves in the edge between a floor and a wall, told of its silhouette without its passes."""

from __future__ import annotations

from crib.geometry.outline import Opening, Outline, Room
from crib.geometry.region import box
from crib.machining.tool import Tool

CARE = 1000
"""What is told leaves so much at the least [nm]."""


def leaves_edge(tool: Tool, outline: Outline, room: Room) -> bool:
    """Whether a tool surely leaves metal in an edge of a room's floor where no other is ever in there: its axis stays
    as far from the wall as it is wide beside that, and down at the floor it isn't so wide."""
    least, most, form = room.least, room.most, tool.form
    if room.lean or len(outline.rooms) > 1 or not room.opens(Opening.TOP):
        return False
    up, tall = least.low - most.low + CARE, least.high - least.low
    beside = max((max(part.radius_low, part.radius_at(min(part.high, tall))) for part in form.may if part.low < tall),
                 default=0)
    down = max((max(part.radius_low, part.radius_at(min(part.high, up))) for part in form.sure if part.low < up),
               default=0)
    edges = ((Opening.LEFT, least.left - most.left, least.left), (Opening.RIGHT, most.right - least.right,
                                                                  least.right - CARE))
    return any(side not in room.open and down < beside - off - CARE
               and not box(at, least.low, at + CARE, least.low + CARE) - outline.least for side, off, at in edges)

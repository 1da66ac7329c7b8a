"""Whether all that is able, one after the other, could ever clear what must go: told without making a plan."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import zip_longest

from crib.geometry.ever_cleared import Body, ever_cleared
from crib.geometry.outline import Outline, Room
from crib.geometry.region import Region
from crib.machining.methods import heights
from crib.machining.methods.base import Limits
from crib.machining.tool import Tool


def left_by_all(outline: Outline, able: Iterable[tuple[Tool, Room]], allowed: Limits) -> Region:
    """What of all that must go no plan takes: each tool stands at the heights of its rooms and wherever else it clears.
    Nothing where some order of all of them might take everything."""
    by_room: dict[str, dict[Body, None]] = {}
    for tool, room in able:
        by_room.setdefault(room.name, {})[Body(tool.form, heights(tool, outline, room, allowed))] = None
    likely = (sorted(bodies, key=lambda body: (-body.form.height, -body.form.radius)) for bodies in by_room.values())
    bodies = (body for turn in zip_longest(*likely) for body in turn if body)
    return outline.least - ever_cleared(outline.stock, outline.keep, outline.obstacles, bodies, outline.least)

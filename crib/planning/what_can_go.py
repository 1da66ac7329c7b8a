"""Whether all that is able, one after the other, could ever clear what must go: told without making a plan."""

from __future__ import annotations

from collections.abc import Iterable

from crib.geometry.ever_cleared import Body, ever_cleared
from crib.geometry.free_positions import Interval
from crib.geometry.outline import Outline, Room
from crib.geometry.region import Region
from crib.geometry.silhouette import Silhouette
from crib.machining.methods import heights
from crib.machining.methods.base import Limits
from crib.machining.tool import Tool


def left_by_all(outline: Outline, able: Iterable[tuple[Tool, Room]], allowed: Limits) -> Region:
    """What of all that must go no plan takes: each tool stands at the heights of its rooms and wherever else it clears.
    Nothing where some order of all of them might take everything."""
    stand: dict[Silhouette, dict[Interval, None]] = {}
    for tool, room in able:
        stand.setdefault(tool.form, {}).update(dict.fromkeys(heights(tool, outline, room, allowed)))
    likely = sorted(stand, key=lambda form: (-form.height, -form.radius))
    bodies = (Body(form, tuple(stand[form])) for form in likely)
    return outline.least - ever_cleared(outline.stock, outline.keep, outline.obstacles, bodies, outline.least)

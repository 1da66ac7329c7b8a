"""From above: of many cutters at once, which surely stay over a height: by one that is no larger than any of them."""

from __future__ import annotations

from collections.abc import Sequence

from crib.geometry.free_positions import Interval, Metal
from crib.geometry.lowest import never_below
from crib.geometry.outline import Opening
from crib.geometry.region import NOTHING
from crib.geometry.silhouette import Part, Silhouette
from crib.machining.methods.base import Site
from crib.machining.methods.cuts import GRAIN, LEAST_BITE
from crib.machining.tool import Tool

_HAIR = 2
"""The middle of a room lies on a whole nanometre [nm]."""


def near(site: Site, tools: Sequence[Tool], sides: Interval, under: int) -> Sequence[Tool]:
    """Those of some tools that keep to the limits of which it isn't plain that with all gone that ever is they touch
    nothing between two places, or never stand lower than so.

    Along an edge each stands with its teeth at the wall; between walls at both, or where it is as wide as the room in
    the middle. So what is in the way there of upright teeth that are no wider and no taller than any is in the way of
    all.
    """
    over = under + GRAIN + 1
    if site.room.opens(Opening.LEFT, Opening.RIGHT):
        return tools
    if site.room.opens(Opening.RIGHT) and site.room.aim.left >= sides[1]:
        return [tool for tool in tools if not _is_upright(tool)]
    if over > 0:
        return tools
    groups: dict[bool, list[Tool]] = {}
    for tool in filter(_is_upright, tools):
        groups.setdefault(_stands_at_a_wall(site, tool), []).append(tool)
    stay = {tool.id for at_a_wall, some in groups.items() if _stay_over(site, some, at_a_wall, over) for tool in some}
    return [tool for tool in tools if tool.id not in stay]


def _is_upright(tool: Tool) -> bool:
    teeth = tool.form.may
    return len(teeth) == 1 and not teeth[0].low and teeth[0].radius_low == teeth[0].radius_high


def _stands_at_a_wall(site: Site, tool: Tool) -> bool:
    """Whether it stands at a wall in every manner; in the middle it does in any between walls."""
    room, radius = site.room, tool.form.radius
    return room.opens(Opening.RIGHT) or not (
        2 * radius >= room.least.width or room.aim.width // 2 - radius < LEAST_BITE)


def _stay_over(site: Site, tools: Sequence[Tool], is_at_a_wall: bool, over: int) -> bool:
    aim, radius = site.room.aim, min(tool.form.radius for tool in tools)
    if is_at_a_wall and site.allowed.wide:
        radius -= max(0, site.room.most.width - aim.width) // 4 + _HAIR  # what it does at either wall has in common
    if radius <= _HAIR:
        return False
    at = aim.left + radius if is_at_a_wall else aim.middle
    tall = min(tool.form.may[0].high for tool in tools)
    teeth = (Part("teeth", 0, tall, radius - _HAIR, radius - _HAIR),)
    return never_below(Silhouette(teeth, teeth), Metal(site.outline.keep, NOTHING), aim.low, over, [at]) >= over

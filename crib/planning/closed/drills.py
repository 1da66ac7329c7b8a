"""Drills for a hole through which a cutter gets down between closed ends."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.base import Cutter
from crib.handbook.materials import Material
from crib.machining.tool import Tool, makes_sizes
from crib.planning.cost import wear_share
from crib.planning.holes.tools import ready
from crib.shop import Shop


def drills(cutters: Sequence[Cutter], shop: Shop, material: Material, depth_mm: float) -> tuple[Tool, ...]:
    """The drills that can go to work here, the one that costs least to drill so deep before the others."""
    found = [tool for cutter in cutters if cutter.kind == "drill" and (tool := _ready(cutter, shop, material))]

    def money(tool: Tool) -> tuple[float, int]:
        wear: float = getattr(shop, wear_share(False, material)[0]) * (tool.owned.price or 0.0)
        return depth_mm / tool.rough_feed / 60 * shop.hour_rate + wear, tool.id

    return tuple(sorted(found, key=money))


def _ready(cutter: Cutter, shop: Shop, material: Material) -> Tool | None:
    if cutter.diameter_mm is None:
        return None
    hole = ready(cutter, "drilling", shop, material, cutter.diameter_mm)
    if hole is None or not hole.held.ok or (hole.step and hole.step.severity == "stop") or hole.feed <= 0:
        return None
    return Tool(
        owned=cutter, cutter=hole.cutter, kind=hole.kind, form=hole.form, held=hole.held, bite=1, side=1, overlap=0,
        centre_limit=0, finish=0, can_finish=makes_sizes(cutter.condition, material), stickout=0.0,
        wanted_rpm=hole.wanted_rpm, step=hole.step, rpm=hole.rpm, rough_feed=hole.feed, finish_feed=hole.feed,
        pass_minutes=shop.pass_minutes,
        touch_minutes=shop.touch_minutes,
    )

"""Drills for a hole through which a cutter gets down between closed ends."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.findings.finding import Grade
from crib.handbook.materials import Material
from crib.machining.tool import Descent, Tool, ready
from crib.planning.reckoning.cost import wear_share
from crib.shop import Shop


def drills(cutters: Sequence[Cutter], shop: Shop, material: Material) -> list[Tool]:
    """The drills that can go to work here."""
    owned = (cutter for cutter in cutters if goes_down(cutter, Down.DRILLING))
    return [tool for cutter in owned if (tool := _ready(cutter, shop, material))]


def in_order(found: Sequence[Tool], shop: Shop, material: Material, depth_mm: float) -> tuple[Tool, ...]:
    """Drills by what it costs to drill so deep with them."""
    def money(tool: Tool) -> tuple[float, int]:
        wear: float = getattr(shop, wear_share(False, material)[0]) * (tool.owned.price or 0.0)
        return depth_mm / tool.feed / 60 * shop.hour_rate + wear, tool.id

    return tuple(sorted(found, key=money))


def _ready(cutter: Cutter, shop: Shop, material: Material) -> Tool | None:
    if cutter.diameter_mm is None:
        return None
    tool = ready(cutter, shop, material, down=Descent(Down.DRILLING, cutter.diameter_mm))
    stopped = tool is None or not tool.held.ok or (tool.step is not None and tool.step.grade == Grade.STOP)
    return None if tool is None or stopped or tool.feed <= 0 else tool

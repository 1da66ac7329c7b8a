"""What a plan costs, as named lines: minutes, the chance of spoiling the part, wear, all at the shop's own rate.

Times, shares and chances are common practice, from memory, and settings of the shop where they are settings.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import prod

from crib.planning.advice import CostLine, Warning
from crib.planning.draft import Draft
from crib.planning.tools import Tool
from crib.planning.ways.base import Cut

RUN_OUT_MM = 5.08
"""Air that each pass crosses beyond the length and the cutter [mm]."""

SCRAP = "chance of scrap"
_BASE_CHANCE = 0.01
_CHANCE = {"note": 0.0, "warn": 0.01, "caution": 0.03, "stop": 1.0}
_MISS_CHANCE = 0.05
_CHANCE_OF = {("PR1", "warn"): 0.04, ("G12", "warn"): 0.04}
_WEAR, _BURIED_WEAR = 0.005, 0.02


@dataclass(frozen=True)
class Reckoning:
    """The lines, largest first, and what they come to: minutes, money, chance of scrap."""

    lines: tuple[CostLine, ...]
    minutes: float
    cost: float
    scrap: float


def feed_of(tool: Tool, slow: bool) -> float:
    """The table feed of a pass [mm/min]: half of it where both walls are cut deep at once."""
    return tool.rough_feed / 2 if slow else tool.rough_feed


def pass_minutes(tool: Tool, length: float, slow: bool = False) -> float:
    """Minutes of one pass over a length [mm], its handling included."""
    travel = length + (tool.cutter.diameter_mm or 0.0) + RUN_OUT_MM
    return travel / feed_of(tool, slow) + tool.pass_minutes


def scrap_chance(warnings: Sequence[Warning], misses: int = 0) -> float:
    """The chance of spoiling the part: one less the product of what each warning, and each size that is missed, leaves.

    >>> round(scrap_chance([Warning("a", "warn", ""), Warning("b", "warn", ""), Warning("c", "warn", "")]), 3)
    0.039
    """
    chances = [_CHANCE_OF.get((w.rule, w.severity), _CHANCE[w.severity]) for w in warnings]
    return 1 - (1 - _BASE_CHANCE) * prod(1 - chance for chance in chances) * (1 - _MISS_CHANCE) ** misses


def reckon(draft: Draft, warnings: Sequence[Warning], misses: int = 0) -> Reckoning:
    """What a draft costs with all that the rules say of it, and the number of sizes that it misses."""
    shop, request = draft.question.shop, draft.question.feature.request
    timed = [*_timed(draft)]
    minutes = sum(m for _, m, _ in timed)
    scrap = scrap_chance(warnings, misses)
    at_stake = shop.hour_rate * request.hours + shop.blank_cost
    lines = [CostLine(what, m, m / 60 * shop.hour_rate, why) for what, m, why in timed]
    lines.append(CostLine(SCRAP, 0.0, scrap * at_stake,
                          f"{scrap:.3f} of {at_stake:.2f} in the part and its blank"))
    lines += _wear(draft)
    lines = sorted((line for line in lines if line.minutes or line.money), key=lambda line: -line.money)
    return Reckoning(tuple(lines), minutes, sum(line.money for line in lines), scrap)


def _timed(draft: Draft) -> Iterator[tuple[str, float, str]]:
    shop, length = draft.question.shop, draft.question.feature.length
    yield "setting up", shop.setup_minutes + draft.question.setup.extra_minutes, "hold, square and find the edges"
    tools = draft.tools
    yield "cutters", shop.cutter_minutes * len(tools), f"{len(tools)} put up"
    holders = sum(1 for a, b in zip((None, *tools), tools, strict=False) if a and a.held.label != b.held.label)
    if holders:
        yield "collets", shop.collet_minutes * holders, f"{holders} changed"
    yield "touching off", sum(tool.touch_minutes for tool in tools), "each cutter to the surface and the edge"
    for room in dict.fromkeys(job.room for job in draft.jobs):
        cuts = [(job.tool, cut) for job in draft.jobs if job.room == room for cut in job.cuts]
        yield room, sum(pass_minutes(tool, length, cut.slow) for tool, cut in cuts), f"{len(cuts)} passes"
    checks = _checks([cut for _, cut in draft.passes()])
    yield "measuring", shop.measure_minutes * checks, f"{checks} times"


def _checks(cuts: Sequence[Cut]) -> int:
    """The first depth in each room, each floor, and each wall when it is finished."""
    rooms = {cut.room for cut in cuts}
    floors = {cut.room for cut in cuts if cut.role == "floor"}
    walls = {(cut.room, cut.side) for cut in cuts if cut.role == "finish"}
    return len(rooms) + len(floors) + len(walls)


def _wear(draft: Draft) -> Iterator[CostLine]:
    for tool in draft.tools:
        if tool.owned.price:
            share = _BURIED_WEAR if tool.kind.buried else _WEAR
            yield CostLine("wear", 0.0, share * tool.owned.price, f"{share:.1%} of {tool.owned.label}")

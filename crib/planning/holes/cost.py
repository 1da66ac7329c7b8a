"""What a plan down an axis costs, in the same lines as any other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from crib.planning.advice import CostLine, Warning
from crib.planning.cost import Reckoning, scrap_chance
from crib.planning.holes.draft import Draft, Stroke

_APPROACH_MM, _HAND_TURNS = 5.08, 12.0
"""Air over the work [mm]; turns of a tap a minute by hand, turning back included [-]. From memory."""

_MEASURED = ("drill", "ream", "bore", "counterbore", "plunge")


def stroke_minutes(stroke: Stroke, pass_minutes: float) -> float:
    """Minutes of one stroke, its handling included."""
    if stroke.tool.by_hand:
        return stroke.turns / _HAND_TURNS + 2 * pass_minutes
    return (abs(stroke.z_mm) + _APPROACH_MM) / stroke.tool.feed + pass_minutes


def reckon(draft: Draft, warnings: tuple[Warning, ...]) -> Reckoning:
    """The lines, largest first."""
    shop, request = draft.question.shop, draft.question.feature.request
    timed = list(_timed(draft))
    minutes = sum(m for _, m, _ in timed)
    scrap = scrap_chance(warnings)
    at_stake = shop.hour_rate * request.hours + shop.blank_cost
    lines = [CostLine(what, m, m / 60 * shop.hour_rate, why) for what, m, why in timed]
    lines.append(CostLine("chance of scrap", 0.0, scrap * at_stake,
                          f"{scrap:.3f} of {at_stake:.2f} in the part and its blank"))
    lines = sorted((line for line in lines if line.minutes or line.money), key=lambda line: -line.money)
    return Reckoning(tuple(lines), minutes, sum(line.money for line in lines), scrap)


def _timed(draft: Draft) -> Iterator[tuple[str, float, str]]:
    shop, tools = draft.question.shop, draft.tools
    yield "setting up", shop.setup_minutes + draft.setup_minutes, "hold, square and find the edges"
    yield "cutters", shop.cutter_minutes * len(tools), f"{len(tools)} put up"
    holders = sum(1 for a, b in pairwise(tools) if a.held.label != b.held.label)
    if holders:
        yield "collets", shop.collet_minutes * holders, f"{holders} changed"
    down = [stroke for stroke in draft.strokes if not stroke.tool.by_hand]
    yield "touching off", shop.touch_minutes * len({stroke.tool.id for stroke in down}), "each cutter to the surface"
    many = f"{draft.number} holes, " if draft.number > 1 else ""
    for role in dict.fromkeys(stroke.role for stroke in draft.strokes):
        strokes = [stroke for stroke in draft.strokes if stroke.role == role]
        each = sum(stroke_minutes(stroke, shop.pass_minutes) for stroke in strokes)
        yield role, each * draft.number, f"{many}{len(strokes)} each" if many else f"{len(strokes)} strokes"
    checks = sum(1 for stroke in draft.strokes if stroke.role in _MEASURED)
    yield "measuring", shop.measure_minutes * checks, f"{checks} times"

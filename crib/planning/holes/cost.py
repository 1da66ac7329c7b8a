"""What a plan down an axis costs, in the same lines as any other."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import ceil, pi

from crib.findings.finding import Finding
from crib.planning.advice import CostLine
from crib.planning.cost import Reckoning, Timed, deburr_minutes, scrap_chance, scrap_line, summed, wear_line, wear_share
from crib.planning.holes.draft import Draft, Stroke
from crib.planning.holes.rules import PECK_FROM, SPECIAL_FROM

_APPROACH_MM, _HAND_TURNS = 5.08, 12.0
"""Air over the work [mm]; turns of a tap a minute by hand, turning back included [-]. From memory."""

_SQUARE_INCH = 25.4**2
_MEASURED = ("drill", "ream", "bore", "counterbore", "plunge")


def stroke_minutes(stroke: Stroke, pass_minutes: float) -> float:
    """Minutes of one stroke, its handling included."""
    if stroke.tool.by_hand:
        return stroke.turns / _HAND_TURNS + 2 * pass_minutes
    return (abs(stroke.z_mm) + _APPROACH_MM) / stroke.tool.feed + pass_minutes


def pecks(stroke: Stroke) -> int:
    """How often a drill is drawn out and cleared: every diameter in a hole over four deep, every half in one over
    eight.
    """
    across = stroke.tool.cutter.diameter_mm
    if stroke.tool.cutter.kind != "drill" or stroke.role == "transfer" or not across:
        return 0
    ratio = -stroke.z_mm / across
    if ratio <= PECK_FROM:
        return 0
    return ceil(ratio * (2 if ratio > SPECIAL_FROM else 1) - 1e-9) - 1


def reckon(draft: Draft, warnings: tuple[Finding, ...]) -> Reckoning:
    """The lines, largest first."""
    shop, hours = draft.question.shop, draft.question.feature.request.hours
    scrap = scrap_chance(warnings, 0, shop)
    return summed([*_timed(draft)], [scrap_line(scrap, warnings, 0, shop, hours), *_wear(draft)], scrap, shop)


def _timed(draft: Draft) -> Iterator[Timed]:
    shop, tools = draft.question.shop, draft.tools
    yield Timed("setting up", shop.setup_minutes, "hold, square and find the edges", ("setup_minutes",))
    if draft.tilted:
        yield Timed("tilting", shop.tilt_minutes, "the head or the work, and true again", ("tilt_minutes",))
    yield Timed("cutters", shop.cutter_minutes * len(tools), f"{len(tools)} put up", ("cutter_minutes",))
    holders = sum(1 for a, b in pairwise(tools) if a.held.label != b.held.label)
    if holders:
        yield Timed("collets", shop.collet_minutes * holders, f"{holders} changed", ("collet_minutes",))
    down = len({stroke.tool.id for stroke in draft.strokes if not stroke.tool.by_hand})
    yield Timed("touching off", shop.touch_minutes * down, "each cutter to the surface", ("touch_minutes",))
    many = f"{draft.number} holes, " if draft.number > 1 else ""
    for role in dict.fromkeys(stroke.role for stroke in draft.strokes):
        strokes = [stroke for stroke in draft.strokes if stroke.role == role]
        each = sum(stroke_minutes(stroke, shop.pass_minutes) for stroke in strokes)
        why = f"{many}{len(strokes)} each" if many else f"{len(strokes)} strokes"
        yield Timed(role, each * draft.number, why, ("pass_minutes",))
    out = sum(pecks(stroke) for stroke in draft.strokes) * draft.number
    if out:
        yield Timed("pecking", shop.peck_minutes * out, f"{out} times out and cleared", ("peck_minutes",))
    if draft.filed_mm2:
        square_inches = draft.filed_mm2 * draft.number / _SQUARE_INCH
        yield Timed("filing", shop.file_minutes + shop.file_inch_minutes * square_inches,
                    f"{many}{square_inches:.2f} square inches by hand", ("file_minutes", "file_inch_minutes"))
    bevelled = any(stroke.role == "countersink" for stroke in draft.strokes)
    if not bevelled:
        across = max((stroke.diameter_mm or stroke.tool.cutter.diameter_mm or 0.0 for stroke in draft.strokes
                      if stroke.role != "spot"), default=0.0)
        yield Timed("deburring", deburr_minutes(shop, pi * across * draft.number), f"{many}the rim of each",
                    ("deburr_minutes", "deburr_inch_minutes"))
    done = [stroke for stroke in draft.strokes if stroke.role in _MEASURED and stroke.is_measured]
    bores = sum(1 for stroke in done if stroke.role == "bore")
    minutes = shop.measure_minutes * (len(done) + bores)
    twice = f", {bores} of them a bore, which takes twice as long" if bores else ""
    yield Timed("measuring", minutes, f"{len(done)} times{twice}", ("measure_minutes",))


def _wear(draft: Draft) -> Iterator[CostLine]:
    for tool in dict.fromkeys(draft.tools):
        if tool.owned.price:
            share, why = wear_share(False, draft.question.material)
            yield wear_line(tool.owned.label, tool.owned.price, share, draft.question.shop, why)

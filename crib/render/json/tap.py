"""Tap advice and what a gauge found as the JSON that other programs rely on: lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from crib.render.json.answer import plain
from crib.render.json.findings import warning_json
from crib.tapping.check_all import TapChecked
from crib.tapping.shape import Depth, JudgedHole, NotOwned, TapAdvice


def tap_json(advice: TapAdvice, units: str) -> dict[str, Any]:
    """The whole answer, in the agreed keys; more behind them."""
    thread, limits = advice.thread, advice.limits
    shape = {
        "thread": {
            "designation": thread.designation, "series": thread.series, "major_mm": thread.major_mm,
            "pitch_mm": thread.pitch_mm, "minor_min_mm": limits.least, "minor_max_mm": limits.most,
            "class": limits.name,
            "source": "; ".join(part for part in (thread.source, limits.source) if part), "hand": advice.hand,
            "angle_deg": thread.form.angle_deg, "minor_basic_mm": thread.minor_basic_mm, "taper": thread.taper,
        },
        "taps": [tap.as_json() for tap in advice.taps],
        "drills": [verdict_json(verdict, advice) for verdict in advice.drills],
        "other_ways": [verdict_json(verdict, advice) for verdict in advice.other_ways],
        "not_owned": [missing_json(one) for one in advice.not_owned],
        "hole_depth_mm": advice.depth.hole_mm if advice.depth else None,
        "depth": _depth(advice.depth),
        "how": "power" if advice.power else "hand",
        "rpm": advice.rpm, "wanted_rpm": advice.wanted_rpm, "torque_nm": advice.torque_nm, "fluid": advice.fluid,
        "target_percent": [advice.target.low, advice.target.high] if advice.target else None,
        "steps": advice.steps,
        "warnings": list(map(warning_json, advice.warnings)),
        "answer": advice.answer, "says": advice.says, "assumed": advice.assumed, "cautions": advice.cautions,
        "material": advice.material, "without": advice.without or None,
    }
    tidy: dict[str, Any] = plain(shape, units)
    return tidy


def verdict_json(verdict: JudgedHole, advice: TapAdvice | None) -> dict[str, Any]:
    """One drill, or one other way to the hole."""
    hole = verdict.hole
    return {
        "cutter_id": hole.cutter.id if hole.cutter else None, "label": hole.label, "diameter_mm": hole.diameter_mm,
        "percent_thread": verdict.percent_thread, "hole_expected_mm": hole.expected_mm,
        "hole_least_mm": hole.low_mm, "hole_most_mm": hole.high_mm, "fix": verdict.fix or None,
        "percent_expected": verdict.percent_expected, "within_class": verdict.within_class,
        "within_class_by_size": verdict.within_class_by_size, "percent_base": _base(verdict, advice),
        "answer": verdict.answer, "says": verdict.says, "way": hole.way, "before": hole.before or None,
        "drawer": hole.cutter.drawer if hole.cutter else None, "forming": verdict.forming, "at_the_edge": verdict.edge,
    }


def _base(verdict: JudgedHole, advice: TapAdvice | None) -> str:
    if verdict.forming:
        return "0.0068 P a percent (forming)"
    return advice.thread.form.base if advice else ""


def missing_json(one: NotOwned) -> dict[str, Any]:
    """One drill that isn't owned."""
    return {"label": one.label, "diameter_mm": one.diameter_mm, "percent_thread": one.percent_thread,
            "hole_expected_mm": one.hole_expected_mm, "says": one.says}


def _depth(depth: Depth | None) -> dict[str, Any] | None:
    if depth is None:
        return None
    return {
        "full_thread_mm": depth.full_thread_mm, "chamfer_mm": depth.chamfer_mm, "chips_mm": depth.chips_mm,
        "point_mm": depth.point_mm, "hole_mm": depth.hole_mm, "tip_mm": depth.tip_mm, "through": depth.through,
        "keep_mm": depth.keep_mm, "short_mm": depth.short_mm, "breaks_through": depth.breaks_through,
        "taps": [tap.id for tap in depth.taps],
    }


def checked_json(found: Sequence[TapChecked], units: str) -> dict[str, Any]:
    """Every tap against every drill."""
    taps = [{
        "cutter_id": one.tap.id, "label": one.tap.label, "thread": one.thread, "answer": one.answer, "says": one.says,
        "drills": [verdict_json(verdict, one.advice) for verdict in one.drills],
        "not_owned": [missing_json(each) for each in one.not_owned],
    } for one in found]
    without = [one.tap.id for one in found if not one.drills]
    tidy: dict[str, Any] = plain({"taps": taps, "without_a_drill": without}, units)
    return tidy

"""Advice as the JSON that other programs rely on: lengths in mm, keys in the agreed order, further keys behind them."""

from __future__ import annotations

import math
from typing import Any

from crib.findings.finding import Figure
from crib.findings.message import Message
from crib.findings.verdicts import Verdict
from crib.light.records import fields
from crib.planning.told.advice import Advice, Change, Plan, Proof, WayIn
from crib.planning.told.nearness import nearest
from crib.planning.told.passes import Pass, Place
from crib.render.json.findings import deviation_json, refusal_json, warning_json
from crib.render.words import words

_SHOWN = 12
_PLACES = 9


def advice_json(advice: Advice, units: str, refused: str | int = _SHOWN) -> dict[str, Any]:
    """The whole answer, its sentences in these units; `refused`: how many of the refused cutters to give, or "all", the
    nearest first as on a screen.
    Where it refers no plan is given, whatever is there."""
    shown = advice.refused if refused == "all" else advice.refused[: int(refused)]
    shape = {
        "feature": advice.feature,
        "plans": [plan_json(plan) for plan in advice.plans if advice.answer != Verdict.REFER],
        "answer": advice.answer,
        "refused_count": advice.refused_count,
        "refused": list(map(refusal_json, nearest(shown))),
        "buy": advice.buy,
        "away": list(advice.away),
        "in_part": advice.in_part,
        "as_good": [one.place for one in advice.as_good if advice.answer != Verdict.REFER],
        "nearer": [one.place for one in advice.nearer if advice.answer != Verdict.REFER],
        **({"quicker": [one.place for one in advice.quicker]} if advice.quicker else {}),
        "says": advice.says,
        **({} if advice.changes is None else {"changes": [_change(one, advice.feature) for one in advice.changes]}),
        **({} if advice.way_in is None else {"way_in": _way_in(advice.way_in, advice.feature)}),
        "assumed": advice.assumed,
        "cautions": advice.cautions,
    }
    tidy: dict[str, Any] = plain(shape, units)
    return tidy


def _change(change: Change, feature: dict[str, Any]) -> dict[str, Any]:
    """A change of the drawing, and the plan that it lets in."""
    unit = "deg" if f"{change.key}_deg" in feature else "mm"
    return {
        "what": change.key,
        f"before_{unit}": change.before,
        f"after_{unit}": change.after,
        "plan": plan_json(change.plan),
    }


def _way_in(one: WayIn, feature: dict[str, Any]) -> dict[str, Any]:
    """A hole that would let a disc in, what is then made, and how the hole is."""
    return {**_change(one.change, feature), "most_mm": one.most_mm, "depth_mm": one.depth_mm, "minutes": one.minutes,
            "made": plan_json(one.made) if one.made else None}


def plan_json(plan: Plan) -> dict[str, Any]:
    """One plan."""
    return {
        "answer": plan.answer,
        "way": plan.way,
        "cutters": [{"id": cutter.id, "label": cutter.label, "drawer": cutter.drawer} for cutter in plan.cutters],
        "passes": [pass_json(one) for one in plan.passes],
        "deviations": list(map(deviation_json, plan.deviations)),
        "figures": [_figure(figure) for figure in plan.figures],
        "setup": plan.setup,
        "holders": plan.holders,
        "assumed": plan.assumed,
        "proof": _proof(plan.proof),
        "warnings": list(map(warning_json, plan.warnings)),
        "minutes": plan.minutes,
        "cost": plan.cost,
        "currency": plan.currency,
        "cost_lines": [flat(line) for line in plan.cost_lines],
        "scrap_chance": plan.scrap_chance,
        "faces": [flat(face) for face in plan.proof.faces],
        "zeros": list(plan.zeros),
        "fluid": plan.fluid,
        "locks": list(plan.locks),
        "hold": plan.hold,
        "touch_off": [{"says": step.says, "reading_mm": step.reading_mm} for step in plan.touch_off],
        "checks": [flat(check) for check in plan.checks],
        **({"places": list(map(_place, plan.places)), "places_from": plan.places_from} if plan.places else {}),
        **({"indexed": list(map(flat, plan.indexed)), "index_by": plan.index_by} if plan.indexed else {}),
    }


def _place(one: Place) -> dict[str, Any]:
    """Where one of several holes stands."""
    return flat(one) | {"dials": [flat(dial) for dial in one.dials]}


def pass_json(one: Pass) -> dict[str, Any]:
    """One pass; `y_mm` is null where the view has no second way across."""
    return {
        "no": one.no,
        "cutter_id": one.cutter_id,
        "role": one.role,
        "view": one.view,
        "x_mm": one.x_mm,
        "y_mm": one.y_mm,
        "z_mm": one.z_mm,
        "radial_mm": one.radial_mm,
        "axial_mm": one.axial_mm,
        "feed": one.feed,
        "direction": one.direction,
        "rpm": one.rpm,
        "wanted_rpm": one.wanted_rpm,
        "mm_per_min": one.mm_per_min,
        "minutes": one.minutes,
        "says": one.says,
        "room": one.room,
        "dial_x_mm": one.dial_x_mm,
        "dial_z_mm": one.dial_z_mm,
        "stop_mm": one.stop_mm,
        "dials": [flat(dial) for dial in one.dials],
        "stops_mm": list(one.stops_mm),
        "locks": list(one.locks),
        "enters_mm": one.enters_mm,
        "leaves_mm": one.leaves_mm,
        "by_hand": one.by_hand,
        "diameter_mm": one.diameter_mm,
        **(_on_its_way(one) if one.path_mm else {}),
    }


def _on_its_way(one: Pass) -> dict[str, Any]:
    """Between closed ends: both stops and every corner (along from the left end, across), and how it gets down."""
    return {
        "from_mm": one.from_mm,
        "to_mm": one.to_mm,
        "dial_from_mm": one.dial_from_mm,
        "dial_to_mm": one.dial_to_mm,
        "entry": one.entry,
        "path_mm": one.path_mm,
        "dial_path_mm": one.dial_path_mm,
    }


def flat(one: Any) -> dict[str, Any]:
    """A dataclass's fields by their names, what is in them left as it is."""
    return {field.name: getattr(one, field.name) for field in fields(one)}


def plain(value: Any, units: str) -> Any:
    """The same value as JSON can carry it: floats to nine places and never minus nought, what isn't finite as null,
    messages in words.

    >>> plain({"a": (0.1 + 0.2, -0.0, float("inf"), 3)}, "in")
    {'a': [0.3, 0.0, None, 3]}
    """
    if isinstance(value, float):
        return round(value, _PLACES) + 0.0 if math.isfinite(value) else None
    if isinstance(value, Message):
        return words(value, units)
    if isinstance(value, dict):
        return {key: plain(inner, units) for key, inner in value.items()}
    if isinstance(value, list | tuple | set | frozenset):
        return [plain(inner, units) for inner in value]
    return value


def _figure(figure: Figure) -> dict[str, Any]:
    """A length has `mm`, anything else `value`."""
    return {"what": figure.what, **({"mm": figure.mm} if figure.mm is not None else {"value": figure.value})}


def _proof(proof: Proof) -> dict[str, Any]:
    return {
        "left_mm": proof.left_mm,
        "gouge_mm": proof.gouge_mm,
        "neck_gap_mm": proof.neck_gap_mm,
        "tight": flat(proof.tight) if proof.tight else None,
    }

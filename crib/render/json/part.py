"""A planned part as the JSON that other programs rely on: lengths in mm, keys in the agreed order, further ones behind
them."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from crib.pages.part.page import verdict
from crib.pages.part.words import minutes_of
from crib.parts.part import Part, Place
from crib.planning.parts.planned import PartOperation, PlannedPart
from crib.render.json.answer import advice_json, flat, pass_json, plain, plan_json
from crib.render.json.findings import warning_json


def part_json(planned: PlannedPart, units: str, blank: Mapping[str, Any] | None = None,
              beside: Mapping[str, Any] | None = None) -> dict[str, Any]:
    """The whole document, its sentences in these units. `blank`: what to saw, by keys that end in `_mm`; `beside`: what
    stands beside the plan, such as what was measured."""
    setups, holders, cutters, minutes = planned.alone
    shape = {
        "part": planned.part.name,
        "setups": [{"no": one.no, "setup": one.words, "holds": one.holds, "datum": one.datum, "face": one.face,
                    "minutes": minutes_of(planned, one), "setting_up_minutes": one.minutes,
                    "touch_off": [{"says": step.says, "reading_mm": step.reading_mm} for step in one.plan.touch_off]}
                   for one in planned.setups],
        "operations": [_operation(one) for one in planned.operations],
        "setup_changes": planned.setup_changes,
        "holder_changes": planned.holder_changes,
        "cutter_changes": planned.cutter_changes,
        "minutes": planned.minutes,
        "least_minutes": planned.least_minutes,
        "proven": planned.proven,
        "lacking": [flat(one) for one in planned.lacking],
        "blank": blank or {},
        "answer": verdict(planned),
        "drawing": drawing_json(planned.part),
        "money": planned.money,
        "currency": planned.currency,
        "alone": {"setups": setups, "holder_changes": holders, "cutter_changes": cutters, "minutes": minutes},
        "unmade": [{"name": one.feature, **advice_json(one.advice, units)} for one in planned.unmade],
        "findings": list(map(warning_json, planned.findings)),
        "plans": {one.feature: plan_json(one.proved.plan) for one in planned.operations},
        **(beside or {}),
    }
    tidy: dict[str, Any] = plain(shape, units)
    return tidy


def _operation(one: PartOperation) -> dict[str, Any]:
    return {
        "no": one.no,
        "feature": one.feature,
        "setup_no": one.setup_no,
        "cutter_id": one.cutter.id,
        "holder": one.holder,
        "passes": list(map(pass_json, one.passes)),
        "minutes": one.minutes,
        "done": one.done,
        "key": one.key,
        "label": one.cutter.label,
        "drawer": one.cutter.drawer,
        "puts_up": one.puts_up,
        "changes_holder": one.changes_holder,
    }


def drawing_json(part: Part) -> dict[str, Any]:
    """What the part is: its stock and its features with their places."""
    stock = part.stock
    return {
        "material": part.material,
        "stock": {"length_mm": stock.length, "width_mm": stock.width, "height_mm": stock.height,
                  "diameter_mm": stock.diameter},
        "hours": part.hours,
        "fits": part.fits,
        "use": part.use,
        "features": [{"name": one.name, "kind": one.kind, "texts": dict(one.texts), "typed_in": one.typed_in,
                      "after": list(one.after), "places": list(map(_place, one.places))} for one in part.features],
    }


def _place(one: Place) -> dict[str, Any]:
    return {"face": one.face, "along_mm": one.along, "across_mm": one.across, "runs": one.runs, "level_mm": one.level}

"""The shop's settings."""

from __future__ import annotations

from typing import Any

from starlette.responses import Response

from crib.app.shop import shop as setting
from crib.app.shop import unsaid
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.intake.shop_settings import SETTINGS, WEIGHTS
from crib.pages.words import value_of
from crib.render.words import words
from crib.web.bench import News
from crib.web.call import Call


def shop(call: Call) -> Response:
    """What the shop has and asks for."""
    return _page(call)


def change(call: Call) -> Response:
    """Set what is typed; what is left empty stays."""
    texts = {key: text for key, text in call.texts.items() if key in SETTINGS}
    try:
        setting(call.bench.crib, call.bench.units, texts)
    except CribError as error:
        return _page(call, error.finding)
    return call.go("/shop", news=News("shop", "Kept."))


def _page(call: Call, failed: Finding | None = None) -> Response:
    now = setting(call.bench.crib, call.bench.units, {}) if call.bench.has_crib() else None
    if now is None:
        now = unsaid()
    values, units = now.as_json(), call.bench.units or now.units
    fields = [_field(key, values[key], units) for key in SETTINGS]
    return call.page("shop.html", 400 if failed else 200, fields=fields, units=units, failed=failed,
                     typed=call.typed if failed else {})


def _field(key: str, value: Any, units: str) -> dict[str, Any]:
    choices = ("yes", "no") if isinstance(value, bool) else ("in", "mm") if key == "units" else ()
    return {"key": key, "name": SETTINGS[key].name.replace("-", " "), "help": SETTINGS[key].help,
            "value": words(value_of(key, value), units), "choices": choices, "is_weight": key in WEIGHTS}

"""A cutter, its history and the shop as rows of words."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Any

from crib.cutters.base import Cutter
from crib.lengths import in_words
from crib.planning.shop import Shop

_AT_THE_TOP = ("id", "label", "ends", "assumed", "measured")
_DEEDS = {"take-in": "taken in", "amend": "amended", "seen": "seen in its place", "take-back": "taken back"}


def card(cutter: Cutter, units: str, typed: Mapping[str, str]) -> list[tuple[str, str]]:
    """All that is known of a cutter, a row for each field; sizes say whether they were measured or are assumed."""
    rows = [
        (name_of(key), _value(key, value, units) + _standing(cutter, key, typed))
        for key, value in cutter.as_json().items()
        if key not in _AT_THE_TOP and value not in (None, [], "unknown")
    ]
    for place, end in enumerate(cutter.ends, start=1):
        said = (f"{name} {value}" for name, value in card(end, units, {}) if name != "kind")
        rows.append((f"end {place}", ", ".join(said)))
    return rows


def deeds(history: Iterable[Mapping[str, Any]], units: str) -> list[tuple[str, str, str]]:
    """What was done, a row for each change: when, what, and what it was before."""
    return [(str(change["at"])[:16].replace("T", " "), _DEEDS.get(change["what"], str(change["what"])),
             _change(change, units)) for change in history]


def settings(values: Mapping[str, Any], units: str) -> list[tuple[str, str]]:
    """The shop's settings, a row for each."""
    return [(name_of(key), _value(key, value, units)) for key, value in values.items()]


def weight_row(shop: Shop, key: str, help: str, source: str) -> tuple[str, str, str, str, str]:
    """One figure that the cost is reckoned with: its option, what it is, its default where it differs, what it means
    and where the default comes from."""
    now, usual = (_value(key, getattr(one, key), shop.units) for one in (shop, Shop()))
    return f"--{key.replace('_', '-')}", now, "" if now == usual else usual, help, source


def name_of(key: str) -> str:
    """A field as it is said: `neck_fillet_mm` is the neck fillet."""
    return key.removesuffix("_mm").removesuffix("_deg").replace("_", " ")


def _standing(cutter: Cutter, key: str, typed: Mapping[str, str]) -> str:
    marks = [word for word, keys in (("measured", cutter.measured), ("assumed", cutter.assumed)) if key in keys]
    if key in typed and typed[key] not in (_value(key, getattr(cutter, key), "in"),):
        marks.append(f"typed {typed[key]}")
    return f" ({', '.join(marks)})" if marks else ""


def _value(key: str, value: Any, units: str) -> str:
    if value is None:
        return "not known"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, dict):
        return ", ".join(f"{name_of(name)} {_value(name, part, units)}" for name, part in value.items())
    if isinstance(value, list | tuple):
        between = "; " if key in ("arbors", "questions") else ", "
        if key in ("measured", "assumed"):
            return between.join(map(name_of, value)) or "none"
        return between.join(_value(key, part, units) for part in value) or "none"
    if key.endswith("_mm"):
        return in_words(value, units) if value else "0"
    if key.endswith("_deg"):
        return f"{value:g} degrees"
    return f"{value:g}" if isinstance(value, float) else str(value)


def _change(change: Mapping[str, Any], units: str) -> str:
    before, after = change["before"], change["after"] or {}
    if before is None:
        return f"as a {after['from']}" if after.get("from") == "gift" else str(after.get("from") or "")
    return "; ".join(f"{name_of(key)} {_value(key, before.get(key), units)} -> {_value(key, value, units)}"
                     for key, value in after.items() if key not in ("label", "questions"))

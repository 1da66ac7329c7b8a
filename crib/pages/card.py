"""A cutter and the shop as rows of words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import Any

from crib.cutters.base import Cutter
from crib.cutters.known import how_known
from crib.pages.words import name_of, value_of
from crib.shop import Shop

_AT_THE_TOP = ("id", "label", "ends", "assumed", "measured", "stamped")


def card(cutter: Cutter, units: str, typed: Mapping[str, str]) -> list[tuple[str, str]]:
    """All that is known of a cutter, a row for each field; sizes and the like with how they are known."""
    rows = [(name_of(key), value + _standing(cutter, key, typed)) for key, value in _values(cutter, units)]
    for place, end in enumerate(cutter.ends, start=1):
        said = (f"{name_of(key)} {value}" for key, value in _values(end, units) if key != "kind")
        rows.append((f"end {place}", ", ".join(said)))
    return rows


def settings(values: Mapping[str, Any], units: str) -> list[tuple[str, str]]:
    """The shop's settings, a row for each."""
    return [(name_of(key), value_of(key, value, units)) for key, value in values.items()]


def weight_row(shop: Shop, key: str, help: str, source: str) -> tuple[str, str, str, str, str]:
    """One figure that the cost is reckoned with: its option, what it is, its default where it differs, what it means
    and where the default comes from."""
    now, usual = (value_of(key, getattr(one, key), shop.units) for one in (shop, Shop()))
    return f"--{key.replace('_', '-')}", now, "" if now == usual else usual, help, source


def overruled(before: Cutter, after: Cutter, units: str) -> list[str]:
    """A line for each measured size in the place of which another one was only stated."""
    keys = [key for key in before.measured if how_known(after, key) not in ("measured", None)]
    return [f"{name_of(key)}: {value_of(key, getattr(before, key), units)} was measured; "
            f"{value_of(key, getattr(after, key), units)} is only {how_known(after, key)} "
            f"(if it was measured: crib amend {after.id} --measured {name_of(key).replace(' ', '-')})"
            for key in keys]


def _values(cutter: Cutter, units: str) -> Iterator[tuple[str, str]]:
    for key, value in cutter.as_json().items():
        if key not in _AT_THE_TOP and value not in (None, [], "unknown"):
            yield key, value_of(key, value, units)


def _standing(cutter: Cutter, key: str, typed: Mapping[str, str]) -> str:
    how = how_known(cutter, key)
    marks = [how] if how else []
    if key in typed and typed[key] not in (value_of(key, getattr(cutter, key), "in"),):
        marks.append(f"typed {typed[key]}")
    return f" ({', '.join(marks)})" if marks else ""

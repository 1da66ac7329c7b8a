"""A cutter from a line of texts, read as far as it goes: what can't be read becomes a question."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from typing import Any

from crib.cutters.base import LENGTH_KEYS
from crib.findings.errors import CribError
from crib.intake.attributes import ATTRIBUTES, read_value
from crib.intake.build import build
from crib.intake.reading import Taken, kept, unsaid, with_extra
from crib.units.words import told

_MUST = ("kind",)
"""What can't be left as a question."""


def cutter_of(texts: Mapping[str, str], units: Mapping[str, str], currency: str, extra: Sequence[str] = (),
              beside: Mapping[str, Any] | None = None, asks: Sequence[str] = ()) -> Taken:
    """A cutter from texts by field, each with the units of a bare number; `extra` goes into its note. `beside`: values
    that were read already; `asks`: questions about them.

    Raises `CribError` where it has no kind or no size, or can't be true.
    """
    values, typed, questions, unread = dict(beside or {}), {}, [*asks], {}
    noted = [*extra]
    for key, text in texts.items():
        try:
            values[key] = value_of(key, text, units[key])
        except CribError as error:
            if key in _MUST:
                raise
            why, _ = told(error.finding, units[key])
            questions.append(kept(why))
            noted += unsaid(ATTRIBUTES[key].name, text, why)
            unread[key] = error
            continue
        if key in LENGTH_KEYS:
            typed[key] = _with_unit(text.strip(), units[key])
    return Taken(build(with_extra(_trusted(values), noted), currency, questions, unread), typed)


@lru_cache(maxsize=4096)
def value_of(key: str, text: str, units: str) -> object:
    """What a text says, kept: a table says the same again and again, and no value can change. Raises `CribError`."""
    return read_value(key, text, units)


def _trusted(values: Mapping[str, object]) -> dict[str, object]:
    """Values without those named as measured, stamped or assumed that couldn't be read."""
    kept_values = dict(values)
    for key in ("measured", "stamped", "assumed"):
        if isinstance(names := kept_values.get(key), tuple):
            kept_values[key] = tuple(name for name in names if kept_values.get(name) is not None)
    return kept_values


def _with_unit(text: str, units: str) -> str:
    """A bare number with the unit that its column gave it."""
    return f"{text} mm" if units == "mm" and text.replace(".", "", 1).replace(",", "", 1).isdigit() else text

"""Lines of a table that say the same of a cutter, and differ in nothing but where it lies, how many there are and what
is noted: what they say is read once."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from crib.findings.errors import CribError
from crib.intake.cells import in_words
from crib.intake.reading import Taken
from crib.intake.shorthand.idle import is_idle
from crib.intake.texts import cutter_of, value_of
from crib.light.records import replace

_OWN = ("drawer", "note", "count")
"""What each line has of its own, and nothing else of a cutter goes by."""


def like_others(texts: Mapping[str, str], units: Mapping[str, str], currency: str) -> Taken | None:
    """The cutter of a line from its texts by field, each with the units of a bare number; None where its remark may say
    something of it, or where something is to be said of the line."""
    if not is_idle(texts.get("note", "")):
        return None
    said = tuple([(key, text, units[key]) for key, text in texts.items() if key not in _OWN])
    try:
        one = _read(said, currency)
        own: dict[str, Any] = {key: value_of(key, texts[key], units[key]) for key in _OWN if key in texts}
    except CribError:
        return None
    if one.cutter.note or own.get("count", 1) is None:
        return None
    return Taken(one.cutter.but(**own), dict(one.typed), 0, one.alike)


@lru_cache(maxsize=8192)
def _read(said: tuple[tuple[str, str, str], ...], currency: str) -> Taken:
    units = {key: unit for key, _, unit in said}
    cells = in_words({key: text for key, text, _ in said}, units)
    return replace(cutter_of(cells.texts, units, currency, cells.notes, cells.values, cells.asks), alike={})

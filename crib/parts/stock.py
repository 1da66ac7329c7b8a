"""The stock as it is said: `4 x 2 x 1`, `100 x 50 x 25 mm`, `1-1/2 round x 6`."""

from __future__ import annotations

import re

from crib.findings.errors import CribError
from crib.parts.part import Stock
from crib.units import read

_BY = re.compile(r"\s*(?:[x×*,;]|\bby\b)\s*", re.IGNORECASE)
_ROUND = re.compile(r"\b(round|rod|bar|dia|diameter|shaft)\b\.?|[ø⌀]", re.IGNORECASE)
_IDLE = re.compile(r"\b(long|wide|high|thick|of|stock|block|flat)\b", re.IGNORECASE)
_UNIT = re.compile(r"(?<=[\d.])\s*(mm|inches|inch|in|\")\s*$", re.IGNORECASE)
RIGHT = "length x width x height, 4 x 2 x 1, or of a bar diameter and length, 1-1/2 round x 6"


def read_stock(value: object, units: str) -> Stock:
    """Stock as it was said: three sizes of a block, or the diameter and the length of a bar, that has its word. Bare
    sizes are in `units`; where only the last says its unit, it holds for all. Raises `CribError`.

    >>> read_stock("4 x 2 x 1", "in") == Stock(101.6, 50.8, 25.4)
    True
    >>> read_stock("150 x 40 round mm", "in") == read_stock("40mm round x 150mm", "in") == Stock(150, 40, 40, 40)
    True
    """
    text = str(value).strip()
    if not text:
        raise CribError("stock", "the stock isn't said", "", RIGHT)
    bar = _ROUND.search(text) is not None
    parts = [part for part in _BY.split(_IDLE.sub(" ", text)) if part.strip()]
    if len(parts) != (2 if bar else 3):
        raise CribError("stock", f"stock {text!r} is no stock", text, RIGHT)
    units = _common(_ROUND.sub(" ", text), units)
    sizes = [read(_ROUND.sub(" ", part).replace("mm mm", "mm").strip(), units, "stock").mm for part in parts]
    if not bar:
        return Stock(*sizes)
    across = sizes[0] if _ROUND.search(parts[0]) else sizes[1]
    length = sizes[1] if across is sizes[0] else sizes[0]
    return Stock(length, across, across, across)


def _common(text: str, units: str) -> str:
    """The units of the bare sizes: what stands behind the last."""
    found = _UNIT.search(text.strip())
    if found is None:
        return units
    return "mm" if found[1].lower() == "mm" else "in"

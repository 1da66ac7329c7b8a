"""What something unmarked may be as the JSON that other programs rely on: lengths in mm."""

from __future__ import annotations

from typing import Any

from crib.cutters.gauged import Candidate
from crib.planning.gauge import Named
from crib.render.words import words


def gauge_json(found: Named, units: str) -> dict[str, Any]:
    """Every candidate, likeliest first; `nearest` where nothing fits, with how much further off it is than wear and
    measuring explain."""
    return {"candidates": [_candidate(one, units) for one in found.candidates],
            "nearest": [{**_candidate(one, units), "beyond": _tidy(one.beyond)} for one in found.nearest]}


def _candidate(one: Candidate, units: str) -> dict[str, Any]:
    return {"kind": one.kind, "label": words(one.label, units), "off_mm": _tidy(one.off_mm),
            "off_deg": _tidy(one.off_deg), "why": words(one.why, units), "twin": one.twin}


def _tidy(off: float | None) -> float | None:
    return None if off is None else round(off, 9) + 0.0

"""What an unmarked cutter may be as the JSON that other programs rely on: lengths in mm."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from crib.cutters.gauged import Candidate
from crib.render.words import words


def gauge_json(found: Sequence[Candidate], units: str) -> dict[str, Any]:
    """Every candidate, likeliest first."""
    return {"candidates": [{"kind": one.kind, "label": words(one.label, units), "off_mm": _tidy(one.off_mm),
                            "why": words(one.why, units), "twin": one.twin} for one in found]}


def _tidy(off: float | None) -> float | None:
    return None if off is None else round(off, 9) + 0.0

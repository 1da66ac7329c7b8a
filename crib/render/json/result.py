"""The owner's own results as the JSON that other programs rely on."""

from __future__ import annotations

from typing import Any

from crib.machining.own_holes import oversize
from crib.shop import Own


def result_json(own: Own) -> dict[str, Any]:
    """The pace, from how many jobs, and what each size of drill makes: the middle of how many holes [mm]."""
    sizes = sorted({hole.drill_mm for hole in own.holes})
    holes = [{"drill_mm": mm, "oversize_mm": round(oversize(own, mm)[0], 6), "count": oversize(own, mm)[1]}
             for mm in sizes]
    return {"pace": own.pace, "timed": own.timed, "holes": holes}

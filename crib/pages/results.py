"""What the owner's own results come to, in words and as JSON."""

from __future__ import annotations

from typing import Any

from crib.machining.own_holes import oversize, own_words
from crib.pages.text import sentence
from crib.shop import Own


def result_json(own: Own) -> dict[str, Any]:
    """The pace, from how many jobs, and what each size of drill makes: the middle of how many holes [mm]."""
    sizes = sorted({hole.drill_mm for hole in own.holes})
    holes = [{"drill_mm": mm, "oversize_mm": round(oversize(own, mm)[0], 6), "count": oversize(own, mm)[1]}
             for mm in sizes]
    return {"pace": own.pace, "timed": own.timed, "holes": holes}


def result_lines(own: Own, units: str) -> list[str]:
    """What they come to; nothing where there are none."""
    lines = []
    if own.timed:
        of = "one job" if own.timed == 1 else f"the median of {own.timed} jobs"
        lines.append(f"Minutes are reckoned {own.pace:.2f} times as long, by {of}.")
    for mm in sorted({hole.drill_mm for hole in own.holes}):
        lines += [sentence(text) for text in own_words(own, mm, units)]
    return ["", *lines] if lines else []

"""How often what goes down is drawn out and cleared."""

from __future__ import annotations

from collections.abc import Sequence
from math import ceil

from crib.cutters import goes_down
from crib.cutters.base import Down
from crib.machining.methods.cuts import Cut
from crib.machining.tool import Tool
from crib.machining.words import Role

PECK_FROM, SPECIAL_FROM = 4.0, 8.0
"""Depth in diameters from which a drill is pecked, and from which it is a special affair [-]. Common practice."""


def diameters_deep(tool: Tool, cut: Cut) -> float:
    """How many of its diameters a drill goes deep [-]; nought for what isn't drilled."""
    across = tool.cutter.diameter_mm
    is_drilled = goes_down(tool.cutter, Down.DRILLING) and cut.role is Role.DRILL and across
    return cut.deep_mm / across if is_drilled and across else 0.0


def pecks(strokes: Sequence[tuple[Tool, Cut]]) -> int:
    """How often what goes down is drawn out and cleared: a drill every diameter in a hole over four deep, every half in
    one over eight; an end mill from solid every half diameter."""
    out, opened = 0, False
    for tool, cut in strokes:
        if cut.role is Role.PLUNGE and not opened:
            out += max(0, ceil(2 * cut.deep_mm / (tool.cutter.diameter_mm or cut.deep_mm) - 1e-9) - 1)
        elif (ratio := diameters_deep(tool, cut)) > PECK_FROM:
            out += ceil(ratio * (2 if ratio > SPECIAL_FROM else 1) - 1e-9) - 1
        opened = opened or cut.role in (Role.DRILL, Role.BORE)
    return out

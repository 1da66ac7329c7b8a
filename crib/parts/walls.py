"""How thin a wall between two features, or between one and a face, may get before it is worth a word."""

from __future__ import annotations

from typing import TYPE_CHECKING

from crib.handbook.points import keep_below

if TYPE_CHECKING:
    from crib.parts.lying import Lying

Bounds = tuple[tuple[float, ...], tuple[float, ...]]

_OF_ITS_SPAN, _OF_A_HOLE = 8, 4
"""A wall is thin under an eighth of the lesser way that it stands free (from memory: as of a leaf beside a slot), and
beside a hole, the lesser of two, under a quarter of its diameter (common practice, no source: a drill wanders, and
bulges what is less)."""

LEAST_MM = 0.030 * 25.4
"""No wall is thinner than this without a word [mm]. Common practice."""


def least_wall(one: Lying, other: Lying | None, bounds: Bounds, span: tuple[float, ...]) -> float:
    """How thick a wall should be [mm] that reaches so far in the two ways along it."""
    holes = [lying for lying in (one, other) if lying is not None and lying.feature.down is not None]
    if holes:
        wide = min(_width(lying) for lying in holes)
        return max(LEAST_MM, keep_below(wide), wide / _OF_A_HOLE)
    return max(LEAST_MM, min(span) / _OF_ITS_SPAN) if span and min(span) > 0 else LEAST_MM


def _width(one: Lying) -> float:
    """How wide a hole is [mm]."""
    return max(room.aim.width for room in one.feature.outline.rooms) / 1e6

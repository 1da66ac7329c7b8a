"""Which of the cutters that can't comes nearest."""

from __future__ import annotations

from collections.abc import Iterable
from math import inf

from crib.planning.told.advice import Refusal


def nearest(refused: Iterable[Refusal]) -> list[Refusal]:
    """Refusals as they are told to people and to programs, those of use first, then those that one change would cure,
    each by the share of what it must have that it lacks: of two that lack .063 a small mill is farther off than a wide
    cutter. Common practice, no source."""
    return sorted(refused, key=lambda one: (not one.helps, not (one.is_hopeful or one.unsure), share(one)))


def share(one: Refusal) -> float:
    """What a cutter lacks of what it must have, as a share of that [-]; nothing where it may do once measured, more
    than all where no figures tell it.

    >>> from crib.cutters.base import Cutter
    >>> from crib.planning.told.advice import refused
    >>> mill = Cutter(1, "end-mill")
    >>> share(refused(mill, "SZ3", "too wide", 10.0, 8.0)), share(refused(mill, "KD1", "another kind"))
    (0.25, inf)
    """
    if one.unsure:
        return 0.0
    return abs(one.has_mm - one.needs_mm) / abs(one.needs_mm) if one.has_mm is not None and one.needs_mm else inf

"""Plans told beside one another: which stands first, and which of the others are as good, nearer or quicker."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.planning.dialled.finish import Proved
from crib.planning.told.advice import Rival

MOST_PLANS = 4
"""So many plans are told."""

_NEAR_MM = 1e-3
"""What lies no further outside the drawing than this does is as near to it [mm]."""

_TENTH = 0.1
"""Costs that differ by less than this share of the first are as good as equal [-]. Common practice, no source: they are
reckoned no closer."""


def least_missed_first(proved: Sequence[Proved]) -> tuple[Proved, ...]:
    """Plans as they are told: where they don't keep to the drawing, of those that are as good before cost the one first
    that misses the least by its share of the tolerance, or of a size that has none. What is told at all goes by cost,
    as the search has it; so does what misses as much, to two figures. Common practice, no source."""
    place = {one.weighed.key: at for at, one in enumerate(proved)}
    return tuple(sorted(proved, key=lambda one: (one.weighed.key[:4], missed(one), place[one.weighed.key])))


def missed(proved: Proved) -> float:
    """What a plan misses the most, as a share of its tolerance or size [-], to two figures; 0 where it keeps to all."""
    return float(f"{max((one.share for one in proved.weighed.deviations), default=0.0):.2g}")


def as_good(proved: Sequence[Proved]) -> Iterator[Rival]:
    """The plans that cost less than a tenth more than the first, and are no worse in what goes before cost, nor lie
    further outside the drawing."""
    for one, rival in _rivals(proved):
        first = proved[0].weighed
        dearer = one.weighed.reckoning.cost - first.reckoning.cost
        if (one.weighed.key[:4] == first.key[:4] and dearer < _TENTH * first.reckoning.cost
                and rival.beyond_mm < _beyond(proved[0]) + _NEAR_MM):
            yield rival


def nearer(proved: Sequence[Proved]) -> Iterator[Rival]:
    """The plans that lie less than half as far outside the drawing as the first."""
    return (rival for _, rival in _rivals(proved) if rival.beyond_mm < _beyond(proved[0]) / 2 - _NEAR_MM)


def quicker(proved: Sequence[Proved]) -> Iterator[Rival]:
    """The plans that cost less than the first by more than a tenth, and stand behind it for what they miss."""
    for one, rival in _rivals(proved):
        first = proved[0].weighed
        saved = first.reckoning.cost - one.weighed.reckoning.cost
        if saved > _TENTH * first.reckoning.cost and missed(one) > missed(proved[0]):
            yield rival


def _rivals(proved: Sequence[Proved]) -> Iterator[tuple[Proved, Rival]]:
    for place, one in enumerate(proved[1:], 1):
        yield one, Rival(place, one.cutters, one.weighed.reckoning.minutes, _beyond(one))


def _beyond(proved: Proved) -> float:
    """How far what comes out otherwise than as drawn lies outside of it at the most [mm]."""
    return max(((one.has_mm or 0.0) - (one.needs_mm or 0.0) for one in proved.weighed.deviations), default=0.0)

"""The least that something comes to, in everything that the ranking goes by, and the ways of which none is as good in
everything as another."""

from __future__ import annotations

from collections.abc import Iterable

from crib.light.tuples import NamedTuple


class LowerBound(NamedTuple):
    """What something comes to at the least: the verdict's place, whether cutters surely share a room, money, and
    how much of the chance to spoil the part there is at the least, as what is left of the other at the most; whether
    some rule surely cautions."""

    verdict: int = 0
    shared: bool = False
    money: float = 0.0
    left: float = 1.0
    caution: bool = False

    def and_(self, other: LowerBound) -> LowerBound:
        """Both of them."""
        verdict = self.verdict if self.verdict > other.verdict else other.verdict
        caution = self.caution or other.caution
        return LowerBound(verdict, self.shared or other.shared, self.money + other.money, self.left * other.left,
                          caution)


ParetoFront = tuple[LowerBound, ...]
"""Ways to go on of which none is as good in everything as another: one of them is the least that can come."""

Rank = tuple[int, bool, bool, float, float]
"""Verdict, whether a rule cautions, whether a room is shared, chance of scrap and money, as the ranking goes by
them."""


def non_dominated(found: Iterable[LowerBound]) -> ParetoFront:
    """Those that no other is as good as.

    >>> some = [LowerBound(0, False, 3.0), LowerBound(0, False, 2.0), LowerBound(1, False, 4.0)]
    >>> [one.money for one in non_dominated(some)]
    [2.0]
    """
    given = sorted(found)
    if len(given) < 2:
        return tuple(given)
    kept: list[LowerBound] = []
    for one in given:
        if not any(other.verdict <= one.verdict and other.shared <= one.shared and other.money <= one.money
                   and other.left >= one.left and other.caution <= one.caution for other in kept):
            kept.append(one)
    return tuple(kept)


def combine(one: ParetoFront, other: ParetoFront) -> ParetoFront:
    """One of each."""
    if len(one) == len(other) == 1:
        return (one[0].and_(other[0]),)
    return non_dominated(a.and_(b) for a in one for b in other)

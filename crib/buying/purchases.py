"""Which purchases together leave most within a budget: exact, by branch and bound.

Each question of the past is served by the best of the sets of purchases that it could use; what is left over is what
all questions save less what is spent. A bound that never falls short is what would be saved if everything still open
were had as well, for nothing.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from crib.light.records import dataclass

_CENT = 1e-9


@dataclass(frozen=True)
class Use:
    """What a set of purchases does for a question: `unlocks`: how many jobs it makes possible that weren't, `saves`:
    money that it saves over all its jobs."""

    needs: frozenset[int]
    saves: float
    unlocks: float = 0.0


@dataclass(frozen=True)
class Choice:
    """Purchases by their places, with what they make possible, save and cost."""

    bought: tuple[int, ...]
    unlocks: float
    saves: float
    spent: float

    @property
    def left(self) -> float:
        """What is saved less what is spent."""
        return self.saves - self.spent

    @property
    def rank(self) -> tuple[float, float, float, int]:
        """More made possible first, then what is left, then less spent, then fewer things."""
        return (round(self.unlocks, 9), round(self.left, 9), -round(self.spent, 9), -len(self.bought))


def best_purchases(prices: Sequence[float], uses: Sequence[Sequence[Use]], budget: float) -> Choice:
    """The best choice within a budget: nothing that makes nothing possible and doesn't pay for itself is ever in it.

    Parameters: the price of each purchase; for each question what sets of them do; the budget [money]. Exact.

    >>> best_purchases([10.0, 8.0], [[Use(frozenset({0}), 15.0)], [Use(frozenset({1}), 5.0)]], 100.0)
    Choice(bought=(0,), unlocks=0.0, saves=15.0, spent=10.0)
    """
    order = sorted(range(len(prices)), key=lambda i: (-_alone(i, uses), prices[i]))
    search = _Search(prices, uses, budget, tuple(order), Choice((), *gain(frozenset(), uses), 0.0))
    search.go(0, frozenset(), 0.0)
    return search.best


def gain(bought: frozenset[int], uses: Sequence[Sequence[Use]]) -> tuple[float, float]:
    """What a set of purchases makes possible and saves, each question served by the best of its uses."""
    unlocks = saves = 0.0
    for question in uses:
        best = max(((use.unlocks, use.saves) for use in question if use.needs <= bought), default=(0.0, 0.0))
        if best > (0.0, 0.0):
            unlocks, saves = unlocks + best[0], saves + best[1]
    return unlocks, saves


def _alone(place: int, uses: Sequence[Sequence[Use]]) -> float:
    return sum(max((use.saves + 1e6 * use.unlocks for use in question if place in use.needs), default=0.0)
               for question in uses)


@dataclass
class _Search:
    prices: Sequence[float]
    uses: Sequence[Sequence[Use]]
    budget: float
    order: tuple[int, ...]
    best: Choice

    def go(self, place: int, bought: frozenset[int], spent: float) -> None:
        here = Choice(tuple(sorted(bought)), *gain(bought, self.uses), spent)
        if here.rank > self.best.rank:
            self.best = here
        if place == len(self.order) or not self._could_win(bought, self.order[place:], spent):
            return
        one = self.order[place]
        if spent + self.prices[one] <= self.budget + _CENT:
            self.go(place + 1, bought | {one}, spent + self.prices[one])
        self.go(place + 1, bought, spent)

    def _could_win(self, bought: frozenset[int], others: Sequence[int], spent: float) -> bool:
        """Whether anything that can still be bought could beat the best so far: had they all, and for nothing."""
        within = [one for one in others if spent + self.prices[one] <= self.budget + _CENT]
        unlocks, saves = self._most(bought | set(within))
        return (round(unlocks, 9), round(saves - spent, 9)) >= self.best.rank[:2]

    def _most(self, had: frozenset[int]) -> tuple[float, float]:
        """The most that each question could make possible, and the most that it could save, apart."""
        unlocks = saves = 0.0
        for question in self.uses:
            fitting = [use for use in question if use.needs <= had]
            unlocks += max((use.unlocks for use in fitting), default=0.0)
            saves += max((use.saves for use in fitting), default=0.0) if fitting else 0.0
        return unlocks, max(saves, 0.0)


def serves(place: int, uses: Sequence[Sequence[Use]]) -> Mapping[int, Use]:
    """The questions that one purchase alone serves, by their places."""
    found = {}
    for question, each in enumerate(uses):
        alone = [use for use in each if use.needs == {place}]
        if alone:
            found[question] = max(alone, key=lambda use: (use.unlocks, use.saves))
    return found

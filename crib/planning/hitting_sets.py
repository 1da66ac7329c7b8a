"""Which few things to find out so that the most questions turn: sets that turn one, and the choice among them."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from itertools import combinations
from math import comb

Set = frozenset[int]

MOST_TRIED = 20_000
"""How many choices are tried one by one; with more of them the choice grows step by step."""


def turning_sets(turns: Callable[[Set], bool], likely: Callable[[Set], Set], all_of_them: Set,
                 enough: Callable[[], bool] = lambda: False) -> tuple[Set, ...]:
    """Every smallest set that turns a question, the order of finding them.

    `turns`: whether a set does; a larger one does what a smaller one does. `likely`: of a set that turns the part that
    probably does it alone. Each set that is found is left out by one of its members after the other until nothing is
    found any more, so none is missed, unless there is `enough`.

    >>> turning_sets(lambda s: bool(s & {1, 2}) and 3 in s, lambda s: s, frozenset({1, 2, 3, 4}))
    (frozenset({2, 3}), frozenset({1, 3}))
    """
    found: list[Set] = []
    waiting, seen = [frozenset[int]()], set[Set]()
    while waiting and not enough():
        without = waiting.pop(0)
        one = next((known for known in found if not known & without), None)
        if one is None:
            left = all_of_them - without
            if not turns(left):
                continue
            part = likely(left)
            one = _smallest(turns, part if turns(part) else left)
            found.append(one)
        for member in sorted(one):
            if (more := without | {member}) not in seen:
                seen.add(more)
                waiting.append(more)
    return tuple(found)


def _smallest(turns: Callable[[Set], bool], some: Set) -> Set:
    """The set without what it can do without."""
    for member in sorted(some):
        if turns(some - {member}):
            some = some - {member}
    return some


def choose(families: Sequence[Sequence[Set]], most: int, weights: Sequence[int]) -> tuple[int, ...]:
    """Up to so many members that together turn the most questions; of each question the sets that turn it.

    Among as good ones those that turn the heavier questions, then the fewest, then the lowest. Exact, unless there are
    more than `MOST_TRIED` choices.

    >>> a, b, both = frozenset({1}), frozenset({2}), frozenset({1, 2})
    >>> choose([[a], [both], [b]], 2, [1, 1, 1]), choose([[a], [a], [b]], 1, [1, 1, 5])
    ((1, 2), (1,))
    """
    members = sorted({member for family in families for one in family for member in one})
    most = min(most, len(members))
    if sum(comb(len(members), size) for size in range(most + 1)) <= MOST_TRIED:
        return exactly(families, members, most, weights)
    return step_by_step(families, members, most, weights)


def exactly(families: Sequence[Sequence[Set]], members: Sequence[int], most: int,
            weights: Sequence[int]) -> tuple[int, ...]:
    """The best choice, by trying all of them."""
    tries = (chosen for size in range(most + 1) for chosen in combinations(members, size))
    return min(tries, key=lambda chosen: _rank(families, chosen, weights))


def step_by_step(families: Sequence[Sequence[Set]], members: Sequence[int], most: int,
                 weights: Sequence[int]) -> tuple[int, ...]:
    """A good choice: the set that adds the most, again and again, then one member exchanged for another or for a whole
    set's as long as that is better."""
    sets = sorted({one for family in families for one in family}, key=sorted)
    chosen: Set = frozenset()
    while True:
        left_out = [chosen, *(chosen - {member} for member in chosen)]
        tries = {less | one for less in left_out for one in (*sets, frozenset()) if len(less | one) <= most}
        best = min(tries, key=lambda some: _rank(families, tuple(sorted(some)), weights))
        if _rank(families, tuple(sorted(best)), weights) >= _rank(families, tuple(sorted(chosen)), weights):
            return tuple(sorted(chosen))
        chosen = best


def turned_by(family: Sequence[Set], chosen: Sequence[int]) -> Set | None:
    """The smallest of a question's sets that a choice holds; None where it holds none."""
    held = [one for one in family if one <= set(chosen)]
    return min(held, key=lambda one: (len(one), sorted(one)), default=None)


def _rank(families: Sequence[Sequence[Set]], chosen: tuple[int, ...],
          weights: Sequence[int]) -> tuple[int, int, int, tuple[int, ...]]:
    turned = [weight for family, weight in zip(families, weights, strict=True) if turned_by(family, chosen) is not None]
    return -len(turned), -sum(turned), len(chosen), chosen

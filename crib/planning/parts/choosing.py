"""For each feature one of its options, so that all of them in their best order cost the least: best first, with bounds
that share what a set-up or a cutter costs among the features that may use it.

What a bound shares out is a feasible solution of the dual of the selection without its order; see Erlenkotter, "A
dual-based procedure for uncapacitated facility location", 1978, for the idea.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Hashable, Iterable
from functools import cached_property
from itertools import count
from math import inf

from crib.light.records import dataclass, field
from crib.planning.parts.ordering import Ordered, least_changes, ordered
from crib.planning.parts.problem import SAME, Before, Option, Problem, Rates, Solution, Up

_ROUNDS = 60

_Node = tuple[float, int, int, tuple[int, ...]]
"""A bound, how many features are not yet chosen for, turn, and what was chosen of those that come first."""

Resource = tuple[str, Hashable]
"""A set-up, a cutter, a holder, or a cutter in a set-up, which is touched off there."""


def solved(problem: Problem, is_over: Callable[[], bool] = lambda: False) -> Solution | None:
    """The least that a problem can cost, with its choice and order; what was found till then with its bound once the
    time is over. None where no order keeps to what must come before what."""
    return _Choosing(problem).best(is_over)


@dataclass
class _Choosing:
    problem: Problem
    orders: dict[tuple[int, ...], Ordered | None] = field(default_factory=dict)
    found: Solution | None = None

    @cached_property
    def prices(self) -> dict[Resource, float]:
        """What each resource costs at the least where it is used; what is up already costs nothing more."""
        rates, start = self.problem.rates, self.problem.start
        found: dict[Resource, float] = {}
        for some in self.problem.features:
            for option in some:
                for up in option.goes:
                    found["set-up", up.setup] = rates.setups.get(up.setup, 0.0) if up.setup != start.setup else 0.0
                    found["cutter", up.cutter] = rates.cutter if up.cutter != start.cutter else 0.0
                    found["touch", up] = rates.touches.get(up.cutter, 0.0) if up != start else 0.0
                    found["holder", rates.holders.get(up.cutter)] = rates.holder
        if start.cutter is not None:
            found["holder", rates.holders.get(start.cutter)] = 0.0
        return found

    @cached_property
    def used(self) -> tuple[tuple[frozenset[Resource], ...], ...]:
        """What each option of each feature uses."""
        return tuple(tuple(self._used(option) for option in some) for some in self.problem.features)

    def _used(self, option: Option) -> frozenset[Resource]:
        holders = self.problem.rates.holders
        return frozenset(one for up in option.goes for one in (
            ("set-up", up.setup), ("cutter", up.cutter), ("touch", up), ("holder", holders.get(up.cutter)))
            if self.prices[one] > 0)

    @cached_property
    def beyond(self) -> float:
        """What comes to every bound: set-ups that must be come back to whatever is chosen, less the first holder, which
        costs nothing."""
        first = self.problem.rates.holder if self.problem.start.cutter is None and any(self.problem.features) else 0.0
        return self._come_back_to - first

    @property
    def _come_back_to(self) -> float:
        """What set-ups cost beyond once each: of the features that are made in the same one, whichever option is
        chosen, in the order that must hold between these."""
        fixed = {feature: setups.pop() for feature, some in enumerate(self.problem.features)
                 if len(setups := {up.setup for option in some for up in option.goes}) == 1}
        at = {feature: number for number, feature in enumerate(fixed)}
        before = tuple(Before(at[one.first], at[one.then]) for one in self.problem.before
                       if one.first in at and one.then in at)
        start = Up(self.problem.start.setup, "cutter")
        only = Problem(tuple((Option((Up(setup, "cutter"),)),) for setup in fixed.values()), before,
                       Rates(self.problem.rates.setups, {}, 0.0, 0.0), start)
        once = sum(self.prices["set-up", setup] for setup in set(fixed.values()))
        least = least_changes(only, (0,) * len(fixed))
        return 0.0 if least == inf else max(0.0, least - once)

    @cached_property
    def shares(self) -> list[dict[Resource, float]]:
        """What each feature pays of each resource that it uses: never more of one than it costs, by all together. It
        begins with equal shares; then who doesn't need a thing leaves its share to those that do."""
        users: dict[Resource, list[int]] = {}
        for feature, some in enumerate(self.used):
            for one in frozenset().union(*some):
                users.setdefault(one, []).append(feature)
        shares: list[dict[Resource, float]] = [{} for _ in self.used]
        for one, who in users.items():
            for feature in who:
                shares[feature][one] = self.prices[one] / len(who)
        best, kept = -inf, [dict(share) for share in shares]
        for turn in range(_ROUNDS):
            bound, wants = self._bound_of(shares)
            if bound > best:
                best, kept = bound, [dict(share) for share in shares]
            moved = [self._moved(shares, one, who, wants, 1.0 / (turn + 2)) for one, who in users.items()]
            if not any(moved):  # nor would it be in any round to come
                break
        return kept

    def _bound_of(self, shares: list[dict[Resource, float]]) -> tuple[float, list[frozenset[Resource]]]:
        """What the shares come to, and what each feature uses where it is cheapest."""
        total, wants = 0.0, []
        for feature, some in enumerate(self.problem.features):
            costs = [option.cost + sum(shares[feature][one] for one in self.used[feature][at])
                     for at, option in enumerate(some)]
            cheapest = min(costs)
            total += cheapest
            wants.append(self.used[feature][costs.index(cheapest)])
        return total, wants

    def _moved(self, shares: list[dict[Resource, float]], one: Resource, who: list[int],
               wants: list[frozenset[Resource]], by: float) -> bool:
        """Part of a resource's price goes from those that don't use it to those that do; whether there are both."""
        users = [feature for feature in who if one in wants[feature]]
        if not users or len(users) == len(who):
            return False
        freed = 0.0
        for feature in who:
            if one not in wants[feature]:
                freed += by * shares[feature][one]
                shares[feature][one] *= 1 - by
        for feature in users:
            shares[feature][one] += freed / len(users)
        return True

    def best(self, is_over: Callable[[], bool]) -> Solution | None:
        """Best first over partial choices."""
        if not all(self.problem.features):
            return None
        order = sorted(range(len(self.used)), key=lambda feature: -self._regret(feature))
        heap: list[_Node] = [(self.bound(order, ()), 0, 0, ())]
        try:
            self._try_some(is_over)
            return self._best_of(order, heap, is_over)
        except KeyboardInterrupt:
            if self.found is None:
                raise
            return self._told(min((one[0] for one in heap), default=inf))

    def _best_of(self, order: list[int], heap: list[_Node], is_over: Callable[[], bool]) -> Solution | None:
        """Whole choices as they come to the top, until nothing that is open can be better."""
        turn = count(1)
        while heap:
            least, _, _, chosen = heap[0]
            if self.found and least >= self.found.cost - SAME:
                break
            if is_over():
                return self._told(min(one[0] for one in heap))
            if len(chosen) == len(order):
                self._try(self._in_place(order, chosen), is_over)
                heapq.heappop(heap)
                continue
            heapq.heappop(heap)
            for at in range(len(self.problem.features[order[len(chosen)]])):
                here = (*chosen, at)
                bound = max(least, self.bound(order, here))
                if not self.found or bound < self.found.cost - SAME:
                    heapq.heappush(heap, (bound, -len(here), next(turn), here))
        return self._told(inf)

    def _told(self, least: float) -> Solution | None:
        """The best that was found, with what nothing can be under."""
        if self.found is None:
            return None
        known = min((one.least + self._own(chosen) for chosen, one in self.orders.items() if one), default=inf)
        least = min(least, self.found.cost, known)
        return Solution(self.found.chosen, self.found.steps, self.found.cost, least)

    def _regret(self, feature: int) -> float:
        """How much worse than its best the second best option of a feature is, shares paid."""
        costs = sorted(option.cost + sum(self.shares[feature][one] for one in self.used[feature][at])
                       for at, option in enumerate(self.problem.features[feature]))
        return costs[1] - costs[0] if len(costs) > 1 else inf

    def bound(self, order: list[int], chosen: tuple[int, ...]) -> float:
        """The least that a choice of some features comes to: all that they use, and of the others their cheapest
        option, with their shares of what isn't used yet."""
        have: set[Resource] = set()
        total = 0.0
        for feature, at in zip(order, chosen, strict=False):
            total += self.problem.features[feature][at].cost
            have |= self.used[feature][at]
        total += sum(self.prices[one] for one in have)
        for feature in order[len(chosen):]:
            shares = self.shares[feature]
            total += min(option.cost + sum(shares[one] for one in self.used[feature][at] if one not in have)
                         for at, option in enumerate(self.problem.features[feature]))
        return total + self.beyond

    def _in_place(self, order: list[int], chosen: tuple[int, ...]) -> tuple[int, ...]:
        placed = dict(zip(order, chosen, strict=True))
        return tuple(placed[feature] for feature in range(len(order)))

    def _own(self, chosen: Iterable[int]) -> float:
        return sum(some[at].cost for some, at in zip(self.problem.features, chosen, strict=True))

    def _try(self, chosen: tuple[int, ...], is_over: Callable[[], bool]) -> None:
        """Put a whole choice in order, where that may be better than what was found."""
        if chosen in self.orders:
            return
        own = self._own(chosen)
        limit = self.found.cost - own - SAME if self.found else inf
        if least_changes(self.problem, chosen) >= limit:
            return
        one = self.orders[chosen] = ordered(self.problem, chosen, limit, is_over)
        if one and (not self.found or own + one.cost < self.found.cost - SAME):
            self.found = Solution(chosen, one.steps, own + one.cost, own + one.least)

    def _try_some(self, is_over: Callable[[], bool]) -> None:
        """A first choice: each feature's cheapest by its shares, then one feature after the other changed as long as
        that makes the bound of the whole less."""
        features = range(len(self.used))
        chosen = [min(range(len(self.problem.features[feature])), key=lambda at, feature=feature: (  # type: ignore[misc]
            self.problem.features[feature][at].cost + sum(self.shares[feature][one] for one in self.used[feature][at])))
            for feature in features]
        best, again = self.bound([*features], tuple(chosen)), True
        while again and not is_over():
            again = False
            for feature in features:
                for at in range(len(self.problem.features[feature])):
                    other = [*chosen[:feature], at, *chosen[feature + 1:]]
                    if (bound := self.bound([*features], tuple(other))) < best - SAME:
                        chosen, best, again = other, bound, True
        self._try(tuple(chosen), is_over)

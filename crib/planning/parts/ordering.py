"""All operations of a choice in the order with the cheapest changes: A* over what is done and what is up.

Whatever can be done with what is up is done at once: that costs nothing and only lets more follow. So a step of the
search is to put something else up. See Hart, Nilsson and Raphael, "A formal basis for the heuristic determination of
minimum cost paths", 1968.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Iterable, Iterator
from functools import cached_property
from itertools import count
from math import inf
from typing import Any

from crib.light.records import dataclass, field
from crib.planning.parts.problem import SAME, Problem, Step, Up, Waits

Pair = tuple[int, int]
"""A set-up and a cutter, by number; -1 for none."""


_Way = tuple[Pair, int, Any] | None
"""What was put up last, what was done then, and the way before it."""

_Node = tuple[float, int, int, float, int, Pair, _Way]
"""The least that it comes to, how little is done, turn; what it cost, what is done, what is up, and the way there."""


@dataclass(frozen=True)
class Ordered:
    """Operations in order, what their changes cost, and what they must cost at the least."""

    steps: tuple[Step, ...]
    cost: float
    least: float


def ordered(problem: Problem, chosen: tuple[int, ...], limit: float = inf,
            is_over: Callable[[], bool] = lambda: False) -> Ordered | None:
    """The cheapest order of a choice; None where there is none, or none that costs less than a limit. When the time is
    over the rest is put in order step by step, and `least` tells how good it can be."""
    return _Search(Waits(problem, chosen)).best(limit, is_over)


def least_changes(problem: Problem, chosen: tuple[int, ...]) -> float:
    """What the changes of a choice cost at the least; inf where no order does."""
    search = _Search(Waits(problem, chosen))
    return search.least(*search.begin())


@dataclass
class _Search:
    waits: Waits
    known: dict[tuple[int, int], float] = field(default_factory=dict)
    ends: dict[tuple[int, int], bool] = field(default_factory=dict)

    @cached_property
    def _ups(self) -> tuple[Up, ...]:
        return tuple(self.waits.options[step.feature].goes[step.place] for step in self.waits.steps)

    @cached_property
    def _setups(self) -> tuple[object, ...]:
        return tuple(dict.fromkeys(up.setup for up in self._ups))

    @cached_property
    def _cutters(self) -> tuple[object, ...]:
        return tuple(dict.fromkeys(up.cutter for up in self._ups))

    @cached_property
    def _pairs(self) -> dict[Pair, int]:
        """The operations of each set-up with each cutter, as bits."""
        found: dict[Pair, int] = {}
        for number, up in enumerate(self._ups):
            pair = self._setups.index(up.setup), self._cutters.index(up.cutter)
            found[pair] = found.get(pair, 0) | 1 << number
        return found

    @cached_property
    def _in_setup(self) -> tuple[int, ...]:
        """The operations of each set-up, as bits."""
        return tuple(sum(mask for (setup, _), mask in self._pairs.items() if setup == at)
                     for at in range(len(self._setups)))

    @cached_property
    def _holders(self) -> tuple[int, ...]:
        """The holder of each cutter, by number."""
        names = [self.waits.problem.rates.holders.get(cutter) for cutter in self._cutters]
        known = list(dict.fromkeys(names))
        return tuple(known.index(name) for name in names)

    @cached_property
    def _with_cutter(self) -> tuple[int, ...]:
        """The operations with each cutter, as bits."""
        return tuple(sum(mask for (_, cutter), mask in self._pairs.items() if cutter == at)
                     for at in range(len(self._cutters)))

    @cached_property
    def _of_setup(self) -> tuple[float, ...]:
        return tuple(self.waits.problem.rates.setups.get(setup, 0.0) for setup in self._setups)

    @cached_property
    def _touch(self) -> tuple[float, ...]:
        return tuple(self.waits.problem.rates.touches.get(cutter, 0.0) for cutter in self._cutters)

    def begin(self) -> tuple[int, Pair]:
        """Nothing done but what can be with what is up."""
        start = self.waits.problem.start
        setup = self._setups.index(start.setup) if start.setup in self._setups else -1
        cutter = self._cutters.index(start.cutter) if start.cutter in self._cutters else -1
        return self._gone_on(0, (setup, cutter)), (setup, cutter)

    def _gone_on(self, done: int, up: Pair) -> int:
        """What is done once all is that loses nothing by being done with what is up: no feature is begun that might
        better be made when the part lies so again."""
        here = self._pairs.get(up, 0)
        return self._closed(done, here if self._is_last_time(done, up[0]) else here & ~self.waits.starts)

    def _is_last_time(self, done: int, setup: int) -> bool:
        """Whether all that is to be made in the set-up that stands can be made now; then it doesn't pay to come back,
        as that changes the cutter at three places at the most."""
        if (done, setup) not in self.ends:
            self.ends[done, setup] = self._can_end(done, setup)
        return self.ends[done, setup]

    def _can_end(self, done: int, setup: int) -> bool:
        if setup < 0:
            return False
        rates = self.waits.problem.rates
        if self._of_setup[setup] < 3 * (rates.cutter + rates.holder):
            return False
        return not self._in_setup[setup] & ~self._closed(done, self._in_setup[setup])

    def _closed(self, done: int, here: int) -> int:
        """What is done once all of some operations that can be done are."""
        waits, left = self.waits.waits, here & ~done
        again = True
        while left and again:
            again, rest = False, left
            while rest:
                bit = rest & -rest
                rest ^= bit
                if not waits[bit.bit_length() - 1] & ~done:
                    done |= bit
                    left ^= bit
                    again = True
        return done

    def _can(self, done: int, here: int) -> bool:
        """Whether any of some operations can be done next."""
        rest = here & ~done
        while rest:
            bit = rest & -rest
            rest ^= bit
            if not self.waits.waits[bit.bit_length() - 1] & ~done:
                return True
        return False

    def _to_set_up(self, done: int, setup: int) -> float:
        """The least that is still to come for set-ups alone, whatever cutters cost."""
        done = self._closed(done, self._in_setup[setup]) if setup >= 0 else done
        if done == self.waits.all:
            return 0.0
        if (done, setup) not in self.known:
            self.known[done, setup] = min(
                (self._of_setup[at] + self._to_set_up(done, at) for at, mask in enumerate(self._in_setup)
                 if at != setup and self._can(done, mask)), default=inf)
        return self.known[done, setup]

    def least(self, done: int, up: Pair) -> float:
        """No more than what changes still cost. Every pair of set-up and cutter must be gone to; that takes a change of
        the cutter, or of the set-up, of which there are so many at the least."""
        setups = self._to_set_up(done, up[0])
        if setups == inf or done == self.waits.all:
            return setups
        rates = self.waits.problem.rates
        soon = self._closed(done, self._pairs.get(up, 0))
        left = [pair for pair, mask in self._pairs.items() if mask & ~(soon if pair == up else done)]
        holder = self._holder_of(up)
        cutters = {pair[1] for pair in left} - {up[1]}
        holders = {self._holders[pair[1]] for pair in left} - {holder}
        places = {(pair[0], self._holders[pair[1]]) for pair in left} - {(up[0], holder)}
        is_bare = up[1] < 0 and self.waits.problem.start.cutter is None
        found = inf
        for number in self._entries(setups, len(left)):
            kept = max(0, number - (is_bare and up[0] < 0))
            changes = rates.cutter * max(len(cutters), len(left) - kept)
            changed = rates.holder * max(len(holders) - is_bare, len(places) - number - is_bare, 0)
            found = min(found, max(setups, number * self._cheapest) + changes + changed)
        return found + sum(self._touch[pair[1]] for pair in left)

    def _entries(self, setups: float, most: int) -> Iterable[int]:
        """How often it may be set up: so often as the least that it costs allows, and more often as long as that might
        save more than it costs."""
        rates = self.waits.problem.rates
        if not self._cheapest:
            return (most,)
        entries = int(setups / self._cheapest + SAME)
        is_worth_it = self._cheapest < rates.cutter + rates.holder
        return range(entries, max(most, entries + 1) + 1) if is_worth_it else (entries, entries + 1)

    @cached_property
    def _cheapest(self) -> float:
        """The least that any set-up costs."""
        return min(self._of_setup, default=0.0)

    def _holder_of(self, up: Pair) -> int:
        """The holder that is up, by number; -1 where none is, or one that isn't needed any more."""
        if up[1] >= 0:
            return self._holders[up[1]]
        start, rates = self.waits.problem.start.cutter, self.waits.problem.rates
        names = [rates.holders.get(cutter) for cutter in self._cutters]
        at = names.index(rates.holders.get(start)) if start is not None and rates.holders.get(start) in names else -1
        return self._holders[at] if at >= 0 else -1

    def best(self, limit: float, is_over: Callable[[], bool]) -> Ordered | None:
        """The cheapest order below a limit."""
        done, up = self.begin()
        turn = count()
        heap: list[_Node] = [(self.least(done, up), 0, next(turn), 0.0, done, up, None)]
        reached: dict[tuple[int, Pair], float] = {(done, up): 0.0}
        while heap:
            least, _, _, cost, done, up, way = heapq.heappop(heap)
            if least >= limit:
                return None
            if done == self.waits.all:
                return Ordered(self._steps(way), cost, cost)
            if cost > reached[done, up] + SAME:
                continue
            if is_over():
                return self._hurried(least, cost, done, up, way)
            for more, then, after in self._next(done, up):
                here = cost + more
                if here < reached.get((after, then), inf) - SAME:
                    reached[after, then] = here
                    to_come = self.least(after, then)
                    if here + to_come < limit:
                        heapq.heappush(heap, (here + to_come, -after.bit_count(), next(turn), here, after, then,
                                              (then, after, way)))
        return None

    def _next(self, done: int, up: Pair) -> Iterator[tuple[float, Pair, int]]:
        """What can be put up next, or begun with what is up, what that costs and what is done then; one alone where
        nothing is lost by it."""
        found = [(0.0, up, self._gone_on(done | bit, up)) for bit in self._beginnings(done, up)]
        stays = self.waits.is_half_done(done)
        for pair, mask in self._pairs.items():
            if pair != up and (not stays or pair[0] == up[0]) and self._can(done, mask):
                after = self._gone_on(done, pair)
                if self._is_as_well_now(pair, mask, done, after, up):
                    yield self.change(up, pair), pair, after
                    return
                found.append((self.change(up, pair), pair, after))
        yield from found

    def _beginnings(self, done: int, up: Pair) -> Iterator[int]:
        """The operations that can be begun with what is up and weren't yet."""
        rest = self._pairs.get(up, 0) & self.waits.starts & ~done
        while rest:
            bit = rest & -rest
            rest ^= bit
            if not self.waits.waits[bit.bit_length() - 1] & ~done:
                yield bit

    def _is_as_well_now(self, pair: Pair, mask: int, done: int, after: int, up: Pair) -> bool:
        """Whether a cutter may as well be put up now: it is done with then, so is the one that is up, both in one
        holder and the set-up that stands. Whenever else it is put up, it costs that change again."""
        if pair[0] != up[0] or up[1] < 0 or self._holders[pair[1]] != self._holders[up[1]]:
            return False
        if mask & self.waits.starts & ~done and not self._is_last_time(done, up[0]):
            return False
        return not (self._with_cutter[pair[1]] & ~after or self._with_cutter[up[1]] & ~done)

    def change(self, now: Pair, then: Pair) -> float:
        """What a change costs."""
        rates = self.waits.problem.rates
        cost = self._touch[then[1]]
        if now[0] != then[0]:
            cost += self._of_setup[then[0]]
        if now[1] != then[1]:
            cost += rates.cutter
            is_bare = now[1] < 0 and self.waits.problem.start.cutter is None
            if not is_bare and self._holder_of(now) != self._holders[then[1]]:
                cost += rates.holder
        return cost

    def _hurried(self, least: float, cost: float, done: int, up: Pair, way: _Way) -> Ordered:
        """The rest step by step, each the cheapest change that can be; where that leads nowhere, the bound alone."""
        while done != self.waits.all:
            following = min(self._next(done, up), key=lambda one: (one[0], -one[2].bit_count()), default=None)
            if following is None:
                return Ordered((), inf, least)
            more, up, done = following
            cost, way = cost + more, (up, done, way)
        return Ordered(self._steps(way), cost, least)

    def _steps(self, way: _Way) -> tuple[Step, ...]:
        """The operations in order of what was put up, or begun, one after the other."""
        places: list[tuple[Pair, int]] = []
        while way is not None:
            places.append(way[:2])
            way = way[2]
        done, _ = self.begin()
        order = list(self._in_turn(0, done))
        for _, after in reversed(places):
            order += self._in_turn(done, after)
            done = after
        return tuple(order)

    def _in_turn(self, done: int, after: int) -> Iterator[Step]:
        """What was done in between with what was up, each when it could be."""
        left = after & ~done
        while left:
            ready = [number for number in range(len(self.waits.steps))
                     if left >> number & 1 and not self.waits.waits[number] & ~done]
            assert ready, "what was done could be done"
            for number in ready:
                yield self.waits.steps[number]
                done |= 1 << number
                left &= ~(1 << number)

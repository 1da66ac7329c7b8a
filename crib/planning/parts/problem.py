"""Choice and order in the abstract: features with options, options with operations in order, what changes cost.

An operation needs a set-up and a cutter; which holder a cutter is in is told once. Going on from one operation to the
next costs nothing where both stay up. A feature that is made in one set-up is begun and ended before that is changed:
clamped anew, nothing is found again quite where it was. All costs are in one unit, whichever that is.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from typing import Any

from crib.light.records import dataclass, field
from crib.light.tuples import NamedTuple


class Up(NamedTuple):
    """What is up: a set-up and a cutter, None where nothing is yet."""

    setup: Any = None
    cutter: Any = None


@dataclass(frozen=True)
class Option:
    """One way to make a feature: what each of its operations needs to be up, in order, and what it costs by itself,
    changes left out. `needs`: for each operation the features that must be done before it, beyond those that the part
    says."""

    goes: tuple[Up, ...]
    cost: float = 0.0
    needs: tuple[frozenset[int], ...] = ()

    def needs_of(self, place: int) -> frozenset[int]:
        """The features that one of its operations waits for."""
        return self.needs[place] if self.needs else frozenset()


class Before(NamedTuple):
    """All of one feature before any of another; before its last operation alone where `last`."""

    first: int
    then: int
    last: bool = False


@dataclass(frozen=True)
class Rates:
    """What changes cost: to set up (each set-up its own), to touch a cutter off (each its own), to put up a cutter, and
    to change the holder besides. `holders`: which holder each cutter is in."""

    setups: Mapping[Any, float] = field(default_factory=dict)
    touches: Mapping[Any, float] = field(default_factory=dict)
    cutter: float = 2.0
    holder: float = 1.5
    holders: Mapping[Any, Any] = field(default_factory=dict)

    def change(self, now: Up, then: Up) -> float:
        """What it costs to go on from what is up to something else; the first holder is there already.

        >>> Rates({"top": 20.0}, {"a": 3.0}).change(Up(), Up("top", "a"))
        25.0
        """
        if now == then:
            return 0.0
        cost = self.touches.get(then.cutter, 0.0)
        if now.setup != then.setup:
            cost += self.setups.get(then.setup, 0.0)
        if now.cutter != then.cutter:
            cost += self.cutter
            if now.cutter is not None and self.holders.get(now.cutter) != self.holders.get(then.cutter):
                cost += self.holder
        return cost


@dataclass(frozen=True)
class Problem:
    """Features by their place, each with its options; the order that must hold; what is up at the beginning."""

    features: tuple[tuple[Option, ...], ...]
    before: tuple[Before, ...] = ()
    rates: Rates = Rates()
    start: Up = Up()


class Step(NamedTuple):
    """An operation of a feature, by its place in the option that was chosen."""

    feature: int
    place: int


@dataclass(frozen=True)
class Solution:
    """The option of each feature, all operations in order, what that costs, and what it must cost at the least."""

    chosen: tuple[int, ...]
    steps: tuple[Step, ...]
    cost: float
    least: float

    @property
    def is_proved(self) -> bool:
        """Whether nothing can be better."""
        return self.cost <= self.least + SAME


SAME = 1e-7
"""Costs that differ by less are the same."""


def cost_of(problem: Problem, chosen: Sequence[int], steps: Sequence[Step]) -> float:
    """What a choice costs in an order.

    >>> one = Option((Up("top", "a"), Up("top", "b")), 5.0)
    >>> cost_of(Problem((( one,),)), (0,), (Step(0, 0), Step(0, 1)))
    9.0
    """
    options = [some[at] for some, at in zip(problem.features, chosen, strict=True)]
    total, up = sum(option.cost for option in options), problem.start
    for step in steps:
        then = options[step.feature].goes[step.place]
        total += problem.rates.change(up, then)
        up = then
    return total


def obeys(problem: Problem, chosen: Sequence[int], steps: Sequence[Step]) -> bool:
    """Whether an order has every operation once and none before what it waits for."""
    ordering = Waits(problem, tuple(chosen))
    done, setup = 0, problem.start.setup
    for step in steps:
        at, up = ordering.place[step], ordering.options[step.feature].goes[step.place]
        if ordering.waits[at] & ~done or done >> at & 1 or (up.setup != setup and ordering.is_half_done(done)):
            return False
        done, setup = done | 1 << at, up.setup
    return done == ordering.all


@dataclass(frozen=True)
class Waits:
    """The operations of a choice by number, and for each those that must be done before it, as bits."""

    problem: Problem
    chosen: tuple[int, ...]

    @cached_property
    def options(self) -> tuple[Option, ...]:
        """The options that were chosen."""
        return tuple(some[at] for some, at in zip(self.problem.features, self.chosen, strict=True))

    @cached_property
    def steps(self) -> tuple[Step, ...]:
        """All operations."""
        return tuple(Step(feature, place) for feature, option in enumerate(self.options)
                     for place in range(len(option.goes)))

    @cached_property
    def place(self) -> dict[Step, int]:
        """The number of each."""
        return {step: number for number, step in enumerate(self.steps)}

    @cached_property
    def all(self) -> int:
        """All of them, as bits."""
        return (1 << len(self.steps)) - 1

    @cached_property
    def of_feature(self) -> tuple[int, ...]:
        """The operations of each feature, as bits."""
        return tuple(sum(1 << self.place[Step(feature, place)] for place in range(len(option.goes)))
                     for feature, option in enumerate(self.options))

    @cached_property
    def setups(self) -> tuple[Any, ...]:
        """The set-up of each."""
        return tuple(self.options[feature].goes[place].setup for feature, place in self.steps)

    @cached_property
    def together(self) -> tuple[int, ...]:
        """The operations of each feature that is made in one set-up with several, as bits."""
        return tuple(mask for mask, option in zip(self.of_feature, self.options, strict=True)
                     if len(option.goes) > 1 and len({up.setup for up in option.goes}) == 1)

    @cached_property
    def starts(self) -> int:
        """The operations that begin a feature which must then be ended before the set-up is changed, as bits."""
        return sum(mask & -mask for mask in self.together)

    def is_half_done(self, done: int) -> bool:
        """Whether some feature is begun that must be ended before the set-up is changed."""
        return any(done & mask and mask & ~done for mask in self.together)

    @cached_property
    def waits(self) -> tuple[int, ...]:
        """What each waits for, as bits. What any operation of a feature waits for that is made in another set-up, all
        of them wait for, as the feature isn't left half done."""
        found, again = list(self._told), True
        while again:
            again = False
            every = [self._all_before(found, 1 << number) for number in range(len(found))]
            for mask in self.together:
                numbers = [number for number in range(len(found)) if mask >> number & 1]
                setup = self.setups[numbers[0]]
                needed = 0
                for number in numbers:
                    needed |= every[number]
                for number, other in enumerate(self.setups):
                    if other == setup:
                        needed &= ~(1 << number)
                first = numbers[0]
                if needed & ~found[first]:
                    found[first] |= needed
                    again = True
        return tuple(found)

    @staticmethod
    def _all_before(waits: Sequence[int], some: int) -> int:
        """All that must be done before some operations, step by step."""
        known, ahead = 0, some
        while ahead:
            bit = ahead & -ahead
            ahead ^= bit
            more = waits[bit.bit_length() - 1] & ~known
            known |= more
            ahead |= more
        return known

    @cached_property
    def _told(self) -> tuple[int, ...]:
        """What each waits for by its place in its feature, and by the order that must hold."""
        found = []
        for feature, place in self.steps:
            option = self.options[feature]
            mask = sum(1 << self.place[Step(feature, other)] for other in range(place))
            for one in option.needs_of(place):
                mask |= self.of_feature[one]
            is_last = place == len(option.goes) - 1
            for first, then, last in self.problem.before:
                if then == feature and (is_last or not last):
                    mask |= self.of_feature[first]
            found.append(mask)
        return tuple(found)

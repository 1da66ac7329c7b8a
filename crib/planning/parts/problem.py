"""Choice and order in the abstract: features with options, options with operations in order, what changes cost.

An operation needs a set-up and a cutter; which holder a cutter is in is told once. Going on from one operation to the
next costs nothing where both stay up. All costs are in one unit, whichever that is.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import cached_property
from typing import Any, NamedTuple

from crib.records import dataclass, field


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
    done = 0
    for step in steps:
        at = ordering.place[step]
        if ordering.waits[at] & ~done or done >> at & 1:
            return False
        done |= 1 << at
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
    def waits(self) -> tuple[int, ...]:
        """What each waits for, as bits."""
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

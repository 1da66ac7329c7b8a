"""What a search is at, for whoever waits for it, and that it was told to stop."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import inf
from time import perf_counter, thread_time

from crib.findings.message import Text, said
from crib.light.hints import TypeVar
from crib.light.records import dataclass, field

Item = TypeVar("Item")
Found = TypeVar("Found")

PATIENCE, CHANGES = 7.0, 8.0
"""Seconds of the processor's time that a question may take before it is answered with what was found, and that are
spent on all changes of a drawing together. Its own time: neither what else the machine does counts, nor what others ask
of the bench page meanwhile. Whoever asks is told where it was over."""

A_LOOK = 1_000
"""Drafts that are tried to see whether measuring could help. Nobody is told where that didn't suffice, so they are
counted and not timed: one question has one answer, however slow the machine."""


class OutOfPatience(Exception):
    """The search took longer than it may."""


class Timer:
    """How long something takes of the processor's own time. That is dear to read, fifty millionths of a second on some
    machines, so it is read only once so much has gone by on the wall that it may have taken so long."""

    def __init__(self) -> None:
        self._began, self._wall, self._left = thread_time(), perf_counter(), inf

    def is_over(self, seconds: float) -> bool:
        """Whether it has taken longer than so many seconds, always as many."""
        now = perf_counter()
        if now < self._wall + min(seconds, self._left):
            return False
        self._wall, self._left = now, seconds - (thread_time() - self._began)
        return self._left < 0


@dataclass
class Watch:
    """How many drafts were tried so far, how many plans were proved, and whether the search was stopped, by hand or
    after so many seconds of `patience` or `most` drafts, before it was through; then what was found stands, and there
    may be better. `told_by`: how closely it was asked where that told last that there is no plan."""

    tried: int = 0
    found: int = 0
    stopped: bool = False
    patience: float = inf
    ran_out: bool = False
    timer: Timer = field(default_factory=lambda: Timer())
    told_by: int = 0
    most: float = inf

    def step(self) -> None:
        """One more draft is tried. Raises `OutOfPatience`."""
        self.tried += 1
        self.check()

    def check(self) -> None:
        """Raises `OutOfPatience` where it took longer than it may."""
        if self.is_out:
            raise OutOfPatience

    @property
    def is_out(self) -> bool:
        """Whether it took longer than it may."""
        return self.tried > self.most or (self.patience < inf and self.timer.is_over(self.patience))

    @property
    def says(self) -> str:
        """What it is at.

        >>> Watch(1240, 1).says
        'still looking: 1,240 ways tried, 1 plan found'
        """
        plans = "no plan yet" if not self.found else "1 plan found" if self.found == 1 else f"{self.found} plans found"
        return f"still looking: {self.tried:,} ways tried, {plans}"


@dataclass
class Trials:
    """A row of trials: what it is `at`, for whoever waits, how many `of` so many were tried, and whether it was
    `stopped`. `keeps`: an interruption ends it with what was found, and what was being tried is dropped; else it ends
    everything, as it does where nothing was tried yet. After one no more is to be worked out."""

    keeps: bool = False
    at: Text = "reckoning with what is owned"
    tried: int = 0
    of: int = 0
    stopped: bool = False

    def each(self, items: Sequence[Item], what: Callable[[Item], Text], work: Callable[[Item], Found]) -> list[Found]:
        """What comes of each, as far as it goes; `what`: what is being tried, in words."""
        found: list[Found] = []
        self.tried, self.of = 0, len(items)
        try:
            for item in items:
                self.at = said("trying {what}, {number} of {of}", what=what(item), number=self.tried + 1, of=self.of)
                found.append(work(item))
                self.tried += 1
        except KeyboardInterrupt:
            if not self.keeps or not found:
                raise
            self.stopped = True
        return found

"""What a search is at, for whoever waits for it, and that it was told to stop."""

from __future__ import annotations

from math import inf
from time import perf_counter, thread_time

from crib.light.records import dataclass, field

PATIENCE, A_LOOK, CHANGES = 7.0, 1.5, 8.0
"""Seconds of the processor's time that a question may take before it is answered with what was found, that are spent on
whether measuring could help, and on all changes of a drawing together. Its own time: neither what else the machine does
counts, nor what others ask of the bench page meanwhile, so that one question has one answer."""


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
    after so many seconds of `patience`, before it was through; then what was found stands, and there may be better.
    `told_by`: how closely it was asked where that told last that there is no plan."""

    tried: int = 0
    found: int = 0
    stopped: bool = False
    patience: float = inf
    ran_out: bool = False
    timer: Timer = field(default_factory=lambda: Timer())
    told_by: int = 0

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
        return self.patience < inf and self.timer.is_over(self.patience)

    @property
    def says(self) -> str:
        """What it is at.

        >>> Watch(1240, 1).says
        'still looking: 1,240 ways tried, 1 plan found'
        """
        plans = "no plan yet" if not self.found else "1 plan found" if self.found == 1 else f"{self.found} plans found"
        return f"still looking: {self.tried:,} ways tried, {plans}"

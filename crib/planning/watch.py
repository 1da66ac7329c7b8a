"""What a search is at, for whoever waits for it, and that it was told to stop."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass
class Watch:
    """How many drafts were tried so far, how many plans were proved, and whether the search was stopped before it was
    through; then what was found stands, and there may be better."""

    tried: int = 0
    found: int = 0
    stopped: bool = False

    @property
    def says(self) -> str:
        """What it is at.

        >>> Watch(1240, 1).says
        'still looking: 1,240 ways tried, 1 plan found'
        """
        plans = "no plan yet" if not self.found else "1 plan found" if self.found == 1 else f"{self.found} plans found"
        return f"still looking: {self.tried:,} ways tried, {plans}"

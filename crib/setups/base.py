"""What a set-up must give."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from crib.section.outline import Outline


@dataclass(frozen=True)
class Setup:
    """A frame: how it turns a section, the minutes that it adds to the setting of the job, and what it risks."""

    name: str
    words: str
    turn: Callable[[Outline], Outline]
    extra_minutes: float = 0.0
    extra_risk: float = 0.0

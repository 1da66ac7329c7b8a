"""What is there to hold with, and what came of asking."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Holding:
    """Collets and arbors that are owned, in mm; None where the owner hasn't said."""

    collets: tuple[float, ...] | None = None
    chuck: float | None = None
    arbors: tuple[tuple[float, float], ...] | None = None
    units: str = "in"


@dataclass(frozen=True)
class Held:
    """Whether it can be held; the holder in words, or why not, with the rule, both numbers [mm] and what would do."""

    ok: bool
    label: str
    says: str = ""
    rule: str = ""
    has: float | None = None
    needs: float | None = None
    fix: str | None = None
    assumed: str | None = None

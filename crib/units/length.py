"""A length as it was typed, and a size with its limits."""

from __future__ import annotations

from crib.light.records import dataclass

NM = 1_000_000
"""Nanometres in a millimetre."""

HELP = "a length is written .410, 3/4, 1-1/4, #7, F or 10mm"


@dataclass(frozen=True)
class Length:
    """A length as it was typed and what it comes to. `unit` is the one it was typed in, `in` or `mm`."""

    mm: float
    text: str
    unit: str


@dataclass(frozen=True)
class Size:
    """A size of a feature with its limits, all in mm. `given` is false where no tolerance was typed. `aim`: what is
    aimed at, where that isn't the middle. `doubtful`: it was said to be about so much."""

    nominal: float
    lo: float
    hi: float
    text: str
    given: bool = True
    aim: float | None = None
    doubtful: bool = False

    @property
    def mid(self) -> float:
        """The size that plans aim at [mm]."""
        return (self.lo + self.hi) / 2 if self.aim is None else self.aim

    @property
    def band(self) -> float:
        """The whole tolerance [mm]."""
        return self.hi - self.lo


def nm(mm: float) -> int:
    """Whole nanometres of a length in mm. Every 1/64 in is exact.

    >>> nm(25.4 / 64)
    396875
    """
    return round(mm * NM)


def as_basic(mm: float, text: str = "") -> Size:
    """A size without any tolerance."""
    return Size(mm, mm, mm, text)

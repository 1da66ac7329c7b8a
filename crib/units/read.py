"""From what is typed to a length: `.410`, `3/4`, `1-1/4`, `#7`, `F`, `10mm`. Its limits: `crib.units.limits`."""

from __future__ import annotations

from crib.findings.errors import CribError
from crib.records import dataclass

NM = 1_000_000
"""Nanometres in a millimetre."""

_LONGEST_MM = 10_000
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


def read(text: str, units: str = "in", what: str = "length") -> Length:
    """Read one length.

    A fraction is in inches unless it says otherwise; a bare decimal is in `units`. A decimal of an inch with four
    places that is a sixty-fourth rounded is that sixty-fourth, as the trade prints them (.9688 is 31/32).
    Raises `CribError` for anything that isn't a length above zero.

    >>> read("1-1/4").mm, read("10mm").mm, read("#7").mm, read(".9688").mm == 25.4 * 31 / 32
    (31.75, 10.0, 5.1054, True)
    """
    from crib.units.exact import nearest, value_of

    value, unit = value_of(text, units, what)
    if value <= 0:
        raise CribError("length", f"{what} {text.strip()!r} is not above zero", text, HELP)
    if value > _LONGEST_MM:
        raise CribError("length", f"{what} {text.strip()!r} is longer than any mill", text, HELP)
    return Length(nearest(value), text.strip(), unit)


def read_size(text: str, units: str, what: str, default_mm: tuple[float, float],
              about_mm: tuple[float, float] | None = None) -> Size:
    """Read a size of a feature, with or without its limits: `5/8+.002-0`, `16mm±.02`, `.500/.502`, `.625`.

    `default_mm` is the (lower, upper) deviation in mm where none was typed, `about_mm` where it was said to be about
    so much. A tolerance without a unit has its size's. Raises `CribError` for nonsense, and where the least size would
    not be above zero.

    >>> size = read_size("5/8+.002-0", "in", "throat", (0.0, 0.0))
    >>> round(size.lo, 4), round(size.hi, 4), size.given
    (15.875, 15.9258, True)
    """
    from crib.units.limits import size_of

    return size_of(text, units, what, default_mm, about_mm or default_mm)

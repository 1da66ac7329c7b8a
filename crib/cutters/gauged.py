"""Naming an unmarked cutter: what was measured, what it may be, and the rule for a kind that is made in sizes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import NamedTuple

from crib.findings.message import Deg, InWords, Mm, Text, said
from crib.records import dataclass
from crib.units import in_words

IN = 25.4
SIZE_MM = 0.003 * IN
"""So far from the size that it is made in a cutter measures, ground and worn [mm]. Common practice."""

ANGLE_DEG = 1.0
"""How good a protractor is [deg]. Common practice."""


@dataclass(frozen=True)
class Measured:
    """What was measured [mm, deg]; None where it wasn't."""

    diameter_mm: float | None = None
    width_mm: float | None = None
    pitch_mm: float | None = None
    angle_deg: float | None = None


def fine(mm: float) -> Mm:
    """A length to a tenth of a thou or a micron."""
    return Mm(mm, fine=True)


@dataclass(frozen=True)
class Candidate:
    """What it may be: how far the measurement is off [mm], and why it is named. `twin`: named because it is mixed up
    with one that fits, and not because it fits itself."""

    kind: str
    label: Text
    off_mm: float | None
    why: Text
    twin: bool = False


class Gauging(NamedTuple):
    """How a kind is named when it is unmarked: by which measurement (a field of `Measured`) before all, what fits, and
    by which other measurement it may be named too."""

    by: str
    fits: Callable[[Measured], Iterable[Candidate]]
    also: tuple[str, ...] = ()


class Made(NamedTuple):
    """A size that something is made in [mm], and what it is called."""

    mm: float
    name: str


def parts_of_an_inch(first: int, last: int, per: int) -> tuple[Made, ...]:
    """Sizes by a part of an inch: `parts_of_an_inch(2, 64, 32)` goes from 1/16 to 2.

    >>> [made.name for made in parts_of_an_inch(2, 5, 4)]
    ['1/2', '3/4', '1', '1-1/4']
    """
    return tuple(Made(IN * n / per, in_words(IN * n / per, "in")) for n in range(first, last + 1))


def whole_mm(first: int, last: int) -> tuple[Made, ...]:
    """Sizes in whole millimetres."""
    return tuple(Made(float(n), f"{n} mm") for n in range(first, last + 1))


def by_size(kind: str, words: str, sizes: Callable[[], Iterable[Made]]) -> Gauging:
    """Every size that is made and fits across the teeth, for a kind that is made in sizes and keeps to them."""

    def fits(measured: Measured) -> Iterator[Candidate]:
        for made in sizes():
            off = (measured.diameter_mm or 0.0) - made.mm
            if measured.diameter_mm is not None and abs(off) <= SIZE_MM:
                yield Candidate(kind, f"{made.name} {words}", off, said("made {size}", size=fine(made.mm)))

    return Gauging("diameter_mm", fits)


def by_angle(kind: str, words: str, sense: Callable[[float], str], angles: tuple[float, ...]) -> Gauging:
    """The usual angles that the protractor's may be; `sense`: on what terms an angle is one of this kind."""

    def fits(measured: Measured) -> Iterator[Candidate]:
        size = said("{across} ", across=InWords(measured.diameter_mm)) if measured.diameter_mm is not None else ""
        for angle in angles:
            off = (measured.angle_deg or 0.0) - angle
            if measured.angle_deg is not None and abs(off) <= ANGLE_DEG:
                by = f"{off:+.2g} degrees off" if off else "as measured"
                label = said("{size}{angle} degree {words}", size=size, angle=Deg(angle), words=words)
                yield Candidate(kind, label, None, f"{by}, if {sense(angle)}")

    return Gauging("angle_deg", fits)

"""Naming an unmarked cutter: what was measured, what it may be, and the rule for a kind that is made in sizes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator

from crib.findings.message import Deg, InWords, Mm, Text, said
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple
from crib.units import in_words

IN = 25.4
SIZE_MM = 0.003 * IN
"""So far from the size that it is made in a cutter measures, ground and worn [mm]. Common practice."""

ANGLE_DEG = 1.0
"""How good a protractor is [deg]. Common practice."""


@dataclass(frozen=True)
class Measured:
    """What was measured [mm, deg]; None where it wasn't. `hole_mm`: the largest plug or drill that enters; `small_mm`
    and `length_mm`: a taper's other diameter, and from the one to the other; `pins`: each pin's diameter with the size
    over two of them, or between them where it `is_slot`; `opening_mm`, `height_mm`: a dovetail's width at the surface
    and its height."""

    diameter_mm: float | None = None
    width_mm: float | None = None
    pitch_mm: float | None = None
    angle_deg: float | None = None
    hole_mm: float | None = None
    small_mm: float | None = None
    length_mm: float | None = None
    radius_mm: float | None = None
    pins: tuple[tuple[float, float], ...] | None = None
    is_slot: bool = False
    opening_mm: float | None = None
    height_mm: float | None = None


def fine(mm: float) -> Mm:
    """A length to a tenth of a thou or a micron."""
    return Mm(mm, fine=True)


@dataclass(frozen=True)
class Candidate:
    """What it may be: how far the measurement is off [mm, deg], and why it is named. `twin`: named because it is mixed
    up with one that fits, and not because it fits itself. `beyond`: how much further off it is than wear and measuring
    explain: one that is beyond fits not, and is only told as the nearest. `order`: what it is put in order by, before
    all others the distance; its `off_mm` where nothing is said. `among`: what a thread is put in order by beside
    candidates of other kinds."""

    kind: str
    label: Text
    off_mm: float | None
    why: Text
    twin: bool = False
    off_deg: float | None = None
    beyond: float = 0.0
    order: tuple[float, ...] = ()
    among: tuple[float, ...] = ()


class Gauging(NamedTuple):
    """How a kind is named when it is unmarked: by which measurement (a field of `Measured`) before all, what it may be,
    by which other measurement it may be named too, and which it can't do without. `rare`: it is told only when it is
    asked about, for too many things measure as much across."""

    by: str
    fits: Callable[[Measured], Iterable[Candidate]]
    also: tuple[str, ...] = ()
    needs: tuple[str, ...] = ()
    rare: bool = False


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


def outside(value: float, low: float, high: float) -> float:
    """How far a value lies outside two limits, in its own unit.

    >>> outside(1.0, 0.5, 1.5), outside(2.0, 0.5, 1.5)
    (0.0, 0.5)
    """
    return round(max(low - value, value - high, 0.0), 9)


def by_size(kind: str, words: str, sizes: Callable[[], Iterable[Made]], by: str = "diameter_mm",
            under: float = SIZE_MM, over: float = SIZE_MM, rare: bool = False) -> Gauging:
    """Every size that is made, for a kind that is made in sizes and keeps to them: measured across its teeth, or `by`
    another measurement. One that was ground or has worn is no more than so much `under` or `over` [mm]."""

    def fits(measured: Measured) -> Iterator[Candidate]:
        size = getattr(measured, by)
        for made in sizes() if size is not None else ():
            off = size - made.mm
            yield Candidate(kind, f"{made.name} {words}", off, said("made {size}", size=fine(made.mm)),
                            beyond=outside(off, -under, over))

    return Gauging(by, fits, rare=rare)


def by_angle(kind: str, words: str, sense: Callable[[float], str], angles: tuple[float, ...]) -> Gauging:
    """The usual angles that the protractor's may be; `sense`: on what terms an angle is one of this kind."""

    def fits(measured: Measured) -> Iterator[Candidate]:
        size = said("{across} ", across=InWords(measured.diameter_mm)) if measured.diameter_mm is not None else ""
        for angle in angles if measured.angle_deg is not None else ():
            off = round((measured.angle_deg or 0.0) - angle, 6)
            by = f"{off:+.2g} degrees off" if off else "as measured"
            label = said("{size}{angle} degree {words}", size=size, angle=Deg(angle), words=words)
            yield Candidate(kind, label, None, f"{by}, if {sense(angle)}", off_deg=off,
                            beyond=outside(off, -ANGLE_DEG, ANGLE_DEG))

    return Gauging("angle_deg", fits)


def by_disc(kind: str, discs: Callable[[], Iterable[tuple[float, float, str, str]]], under: float, over: float,
            thick: float = SIZE_MM) -> Gauging:
    """A disc of every diameter and face that are made [mm], each with its name and where that is from: so much `under`
    or `over` across where it was ground or is made large, and its face within `thick`."""

    def fits(measured: Measured) -> Iterator[Candidate]:
        if measured.diameter_mm is None or measured.width_mm is None:
            return
        for across, face, name, source in discs():
            off, side = measured.diameter_mm - across, measured.width_mm - face
            ground = "; reground" if off < -SIZE_MM else ""
            why = said("{across} x {face}, face {side} {over}{ground}; {source}", across=InWords(across),
                       face=InWords(face), side=fine(abs(side)), over="over" if side >= 0 else "under", ground=ground,
                       source=source)
            yield Candidate(kind, name, off, why, beyond=outside(off, -under, over) + outside(side, -thick, thick),
                            order=(abs(off) + abs(side),))

    return Gauging("width_mm", fits, needs=("diameter_mm", "width_mm"))

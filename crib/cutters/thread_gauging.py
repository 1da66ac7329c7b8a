"""Naming a thread by its size and pitch, whatever bears it: what fits, those that people mix up with it, and what tells
them apart."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import cache

from crib.cutters.gauged import IN, Candidate, Measured, fine, outside
from crib.findings.message import Deg, Text, joined, said
from crib.handbook.threads import Thread, threads
from crib.light.tuples import NamedTuple

TAP_UNDER_MM, TAP_OVER_MM, PITCH_MM = 0.003 * IN, 0.006 * IN, 0.0004 * IN
"""A tap measures from so much under its thread's major diameter, worn, to so much over it; and a pitch taken over ten
threads is so good [mm]. Common practice."""

_WORN_LITTLE_MM, _READ_MM = 0.001 * IN, 0.0005 * IN
"""A tap this little under its size is as good as new; calipers read so well [mm]. Common practice."""

_ROOT = 17 / 24 * 3**0.5
"""Double depth of a screw's thread of 60 degrees, in pitches [-]: from crest to flat root. ISO 68-1, geometry."""

_FLANK_DEG, _NEAREST = 3.0, 3
"""How good a protractor is on a flank [deg]; so many are told where none fits."""

TWINS: tuple[tuple[str, ...], ...] = (
    ("10-32 UNF", "M5x0.8"), ("1/4-28 UNF", "M6x1", "0 BA"), ("5/16-18 UNC", "M8x1.25", "5/16-18 BSW"),
    ("5/16-24 UNF", "M8x1"), ("3/8-16 UNC", "M10x1.5", "3/8-16 BSW"), ("1/2-13 UNC", "1/2-12 BSW", "M12x1.75"),
    ("8-32 UNC", "M4x0.7"), ("6-32 UNC", "M3.5x0.6"), ("4-40 UNC", "M3x0.5"), ("10-24 UNC", "3/16-24 BSW"),
    ("1/4-20 UNC", "1/4-20 BSW"), ("1/8-27 NPT", "G 1/8"), ("4-48 UNF", "6 BA"), ("3-56 UNF", "M2.5x0.45"),
    ("2-56 UNC", "M2.2x0.45"), ("5-40 UNC", "1/8-40 NS"), ("8-36 UNF", "M4x0.7"), ("1-72 UNF", "M1.8x0.35", "10 BA"),
    ("1-64 UNC", "9 BA"),
)
"""Threads that people mix up. Common practice."""

_FIRST = ("UNC", "UNF", "ISO coarse")
_SECOND = ("ISO fine", "UNEF", "BSW", "BSF", "BA", "NPT", "BSPP")
_SPECIAL = 3


class Band(NamedTuple):
    """What a thread's measurement is compared with [mm]: the size that it counts from; between what it lies as it is
    made; how far under and over that it may be besides; the words that say so."""

    basic: float
    low: float
    high: float
    under: float
    over: float
    says: Text


def tap(measured: Measured) -> Iterator[Candidate]:
    """Threads that a tap's size and pitch fit, and the twins of those."""

    def band(thread: Thread) -> Band:
        return Band(thread.major_mm, thread.major_mm - _WORN_LITTLE_MM, thread.major_mm + TAP_OVER_MM,
                    TAP_UNDER_MM - _WORN_LITTLE_MM, 0.0, said("basic {major}", major=fine(thread.major_mm)))

    return named("tap", "tap", measured, measured.diameter_mm or 0.0, band, by_limits=False)


def die(measured: Measured) -> Iterator[Candidate]:
    """Threads that a die of such a hole between its teeth cuts: between the root of the screw and its flanks' end."""
    size = measured.hole_mm if measured.hole_mm is not None else measured.diameter_mm or 0.0

    def band(thread: Thread) -> Band:
        most = thread.minor_basic_mm
        least = thread.major_mm - (_ROOT if thread.form.angle_deg == 60 else thread.form.minor_factor) * thread.pitch_mm
        says = said("{least} to {most} between its teeth", least=fine(least), most=fine(most))
        return Band(min(max(size, least), most), least, most, TAP_UNDER_MM, TAP_OVER_MM, says)

    return named("die", "die", measured, size, band, by_limits=True)


def rank(thread: Thread) -> int:
    """How usual a thread's series is: the common ones, the other standards, series by a constant pitch, specials.

    >>> from crib.handbook.threads import read_thread
    >>> [rank(read_thread(name).thread) for name in ("1/4-20", "1/4-20 BSW", "14-20")]
    [0, 1, 3]
    """
    if thread.series in _FIRST:
        return 0
    return 1 if thread.series in _SECOND else _SPECIAL if thread.series == "special" else 2


def named(kind: str, words: str, measured: Measured, size_mm: float, band: Callable[[Thread], Band],
          by_limits: bool) -> Iterator[Candidate]:
    """Threads whose pitch fits and whose band a size lies in, then the twins of those; where none fits, the nearest.
    `by_limits`: what lies inside the limits is as near as anything in them, and standard series go before specials;
    else they go by their distance. Beside candidates of other kinds all go by limits."""
    every = [thread for thread in _once() if _flanks(thread, measured)]
    near = [(thread, band(thread)) for thread in every if _pitch_off(thread, measured) <= PITCH_MM + 1e-9]
    fits = [(thread, limits) for thread, limits in near if not _beyond(limits, size_mm)]
    for thread, limits in fits or _nearest(every, band, measured, size_mm):
        others = [t for t, _ in fits if t is not thread]
        told = said("; {differs}", differs=tell(thread, others[0])) if others else ""
        why = said("{says}, {pitch}, {angle} degrees{told}", says=limits.says, pitch=pitch_words(thread),
                   angle=Deg(thread.form.angle_deg), told=told)
        off, apart = size_mm - limits.basic, outside(size_mm, limits.low - _READ_MM, limits.high + _READ_MM)
        among = (rank(thread) == _SPECIAL, apart, round(_pitch_off(thread, measured), 3), rank(thread))
        order = (*among, abs(off)) if by_limits else (round(abs(off), 6), rank(thread))
        beyond = _beyond(limits, size_mm) + max(0.0, round(_pitch_off(thread, measured) - PITCH_MM, 9))
        yield Candidate(kind, f"{thread.designation} {words}", off, why, beyond=beyond, order=order, among=among)
    for thread, twin in twins([t for t, _ in fits]):
        yield Candidate(kind, f"{twin.designation} {words}", size_mm - band(twin).basic,
                        said("mixed up with {thread}: {differs}", thread=thread.designation,
                             differs=tell(thread, twin)), twin=True)


def twins(shown: Sequence[Thread]) -> Iterator[tuple[Thread, Thread]]:
    """The twins of the threads that fit, that don't fit themselves."""
    known = {t.designation: t for t in threads()}
    told: list[Thread] = list(shown)
    for thread in shown:
        for group in TWINS:
            if thread.designation not in group:
                continue
            for twin in (known[name] for name in group):
                if not any(twin.same_as(other) for other in told):
                    told.append(twin)
                    yield thread, twin


def tell(one: Thread, other: Thread) -> Text:
    """The measurements that tell two threads apart."""
    says: list[Text] = []
    if abs(one.pitch_mm - other.pitch_mm) > 0.004:
        says.append(said("ten threads measure {ten} on {thread}, {ten_there} on {other}", ten=fine(10 * one.pitch_mm),
                         thread=one.designation, ten_there=fine(10 * other.pitch_mm), other=other.designation))
    if abs(one.major_mm - other.major_mm) > 0.02:
        says.append(said("across {has} against {there}", has=fine(one.major_mm), there=fine(other.major_mm)))
    if one.form.angle_deg != other.form.angle_deg:
        says.append(f"flanks {one.form.angle_deg:g} degrees against {other.form.angle_deg:g}")
    return joined(", ", says) or f"{one.designation} and {other.designation} are one thread by two names"


def pitch_words(thread: Thread) -> str:
    """A thread's pitch as its own standard says it."""
    in_mm = thread.is_metric or thread.series == "BA"
    return f"{thread.pitch_mm:g} mm pitch" if in_mm else f"{thread.tpi:g} to the inch"


@cache
def _once() -> tuple[Thread, ...]:
    """Each thread by the commonest of its names."""
    shown: dict[tuple[int, int, float, float], Thread] = {}
    for thread in sorted(threads(), key=rank):
        key = (round(thread.major_mm * 1e6), round(thread.pitch_mm * 1e6), thread.form.angle_deg, thread.taper)
        shown.setdefault(key, thread)
    return tuple(shown.values())


def _flanks(thread: Thread, measured: Measured) -> bool:
    return measured.angle_deg is None or abs(measured.angle_deg - thread.form.angle_deg) <= _FLANK_DEG


def _pitch_off(thread: Thread, measured: Measured) -> float:
    return 0.0 if measured.pitch_mm is None else abs(measured.pitch_mm - thread.pitch_mm)


def _beyond(band: Band, size_mm: float) -> float:
    return outside(size_mm, band.low - band.under, band.high + band.over)


def _nearest(every: Sequence[Thread], band: Callable[[Thread], Band], measured: Measured,
             size_mm: float) -> list[tuple[Thread, Band]]:
    """Of those whose pitch fits, else is nearest, the nearest by size."""
    least = min((_pitch_off(thread, measured) for thread in every), default=0.0)
    close = [(thread, band(thread)) for thread in every if _pitch_off(thread, measured) <= max(least, PITCH_MM) + 1e-9]
    return sorted(close, key=lambda one: _beyond(one[1], size_mm))[:_NEAREST]

"""Naming a tap: threads that its size and pitch fit, those that people mix up with them, and what tells them apart."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.gauged import IN, Candidate, Measured, fine
from crib.findings.errors import CribError
from crib.findings.message import Deg, Text, joined, said
from crib.handbook.threads import Thread, threads

_KIND = "tap"
TAP_UNDER_MM, TAP_OVER_MM, PITCH_MM = 0.003 * IN, 0.006 * IN, 0.0004 * IN
"""A tap measures from so much under its thread's major diameter, worn, to so much over it; and a pitch taken over ten
threads is so good [mm]. Common practice."""

TWINS: tuple[tuple[str, ...], ...] = (
    ("10-32 UNF", "M5x0.8"), ("1/4-28 UNF", "M6x1", "0 BA"), ("5/16-18 UNC", "M8x1.25", "5/16-18 BSW"),
    ("5/16-24 UNF", "M8x1"), ("3/8-16 UNC", "M10x1.5", "3/8-16 BSW"), ("1/2-13 UNC", "1/2-12 BSW", "M12x1.75"),
    ("8-32 UNC", "M4x0.7"), ("6-32 UNC", "M3.5x0.6"), ("4-40 UNC", "M3x0.5"), ("10-24 UNC", "3/16-24 BSW"),
    ("1/4-20 UNC", "1/4-20 BSW"), ("1/8-27 NPT", "G 1/8"), ("4-48 UNF", "6 BA"), ("3-56 UNF", "M2.5x0.45"),
    ("2-56 UNC", "M2.2x0.45"), ("5-40 UNC", "1/8-40 NS"), ("8-36 UNF", "M4x0.7"), ("1-72 UNF", "M1.8x0.35", "10 BA"),
    ("1-64 UNC", "9 BA"),
)
"""Threads that people mix up. Common practice."""


def tap(measured: Measured) -> Iterator[Candidate]:
    """Threads that a tap's size and pitch fit, and the twins of those."""
    if measured.diameter_mm is None:
        raise CribError("usage", "to name a tap its diameter is wanted", "", "--diameter .189 --tpi 32")
    fits = [t for t in threads() if _tap_fits(t, measured)]
    shown: list[Thread] = []
    for thread in fits:
        if any(thread.same_as(other) for other in shown):
            continue
        shown.append(thread)
        others = [t for t in fits if not t.same_as(thread)]
        told = said("; {differs}", differs=_tell(thread, others[0])) if others else ""
        off = measured.diameter_mm - thread.major_mm
        why = said("basic {major}, {pitch}, {angle} degrees{told}", major=fine(thread.major_mm), pitch=_pitch(thread),
                   angle=Deg(thread.form.angle_deg), told=told)
        yield Candidate(_KIND, f"{thread.designation} tap", off, why)
    for thread, twin in _twins(shown):
        yield Candidate(_KIND, f"{twin.designation} tap", measured.diameter_mm - twin.major_mm,
                        said("mixed up with {thread}: {differs}", thread=thread.designation,
                             differs=_tell(thread, twin)), twin=True)


def _tap_fits(thread: Thread, measured: Measured) -> bool:
    off = (measured.diameter_mm or 0.0) - thread.major_mm
    if not -TAP_UNDER_MM - 1e-9 <= off <= TAP_OVER_MM + 1e-9:
        return False
    if measured.pitch_mm is not None and abs(measured.pitch_mm - thread.pitch_mm) > PITCH_MM + 1e-9:
        return False
    return measured.angle_deg is None or abs(measured.angle_deg - thread.form.angle_deg) <= 3


def _twins(shown: list[Thread]) -> Iterator[tuple[Thread, Thread]]:
    """The twins of the threads that fit, that don't fit themselves."""
    named = {t.designation: t for t in threads()}
    told: list[Thread] = list(shown)
    for thread in shown:
        for group in TWINS:
            if thread.designation not in group:
                continue
            for twin in (named[name] for name in group):
                if not any(twin.same_as(other) for other in told):
                    told.append(twin)
                    yield thread, twin


def _tell(one: Thread, other: Thread) -> Text:
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


def _pitch(thread: Thread) -> str:
    in_mm = thread.is_metric or thread.series == "BA"
    return f"{thread.pitch_mm:g} mm pitch" if in_mm else f"{thread.tpi:g} to the inch"

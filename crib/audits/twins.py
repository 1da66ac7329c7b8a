"""What is easily taken for another."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator

from crib.audits.base import Bench, fault, numbers, pairs
from crib.cutters import kind_of
from crib.cutters.base import Cutter, Down
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.findings.message import Mm, said
from crib.handbook.threads import Thread, read_thread

ALIKE_MM = 0.0015 * 25.4
"""Drills nearer than this to each other are told apart by a micrometer only. From memory."""

_MAJOR_SHARE, _PITCH_SHARE = 0.065, 0.15
"""How near two threads are that are mixed up: M6x1 and 1/4-28, M8x1.25 and 5/16-18, M10x1.5 and 3/8-16, M4x0.7 and 8-32
[-]. Common practice, no source."""


def drills_alike(bench: Bench) -> Iterator[Finding]:
    """AU41: two drills of other names that are nearly one size are kept apart."""
    drills = sorted((one for one in bench.there if Down.DRILLING in kind_of(one).down and one.diameter_mm is not None),
                    key=lambda one: one.diameter_mm or 0.0)
    for one, other in pairs(drills):
        off = (other.diameter_mm or 0.0) - (one.diameter_mm or 0.0)
        if 1e-6 < off < ALIKE_MM and one.label != other.label and _could_be_swapped(one, other):
            yield fault("AU41", other.id,
                        said("{cutter} (no. {number}) and {other} (no. {other_number}) are {off} apart",
                                               cutter=one.label, number=one.id, other=other.label,
                                               other_number=other.id,
                                               off=Mm(off, places=4)), "mic either before it is used for a fit")


def _could_be_swapped(one: Cutter, other: Cutter) -> bool:
    return one.drawer == other.drawer


def threads_alike(bench: Bench) -> Iterator[Finding]:
    """AU42: a metric tap and an inch tap that a glance takes for one another are kept apart."""
    taps = [(tap, thread) for tap in bench.there
            if Down.TAPPING in kind_of(tap).down and (thread := _thread(tap)) is not None]
    told: set[frozenset[str]] = set()
    for one, thread in taps:
        for other, second in taps:
            both = frozenset((thread.designation, second.designation))
            if thread.is_metric and not second.is_metric and both not in told and _are_alike(thread, second):
                told.add(both)
                yield fault("AU42", other.id, f"{thread.designation} (no. {one.id}) and {second.designation} (no. "
                            f"{other.id}) look alike", "read the shank, or run a nut on: they don't fit each other")


def _thread(tap: Cutter) -> Thread | None:
    try:
        return read_thread(tap.thread or "").thread
    except CribError:
        return None


def _are_alike(one: Thread, other: Thread) -> bool:
    return (abs(one.major_mm - other.major_mm) <= _MAJOR_SHARE * one.major_mm
            and abs(one.pitch_mm - other.pitch_mm) <= _PITCH_SHARE * one.pitch_mm)


def owned_twice(bench: Bench) -> Iterator[Finding]:
    """AU43: the same cutter twice under two numbers is one to use and one to keep."""
    same: dict[tuple[object, ...], list[Cutter]] = defaultdict(list)
    for one in bench.there:
        if one.diameter_mm is not None and Down.DRILLING not in kind_of(one).down:
            same[(one.kind, one.label, one.flutes, one.material, one.thread, one.hand)].append(one)
    for cutters in same.values():
        if len(cutters) > 1:
            sharp = [one for one in cutters if one.condition == "sharp"]
            which = f"; no. {sharp[0].id} is the sharp one" if len(sharp) == 1 else ""
            yield fault("AU43", cutters[1].id, f"{numbers(cutters)} are all {cutters[0].label}{which}",
                        "keep one for finishing and rough with the other: note which on each")


AUDITS = (threads_alike, owned_twice, drills_alike)

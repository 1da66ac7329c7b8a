"""Screws: they mike under their basic size, by the class's allowance and tolerance, and by what has worn off."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.gauged import IN, Candidate, Gauging, Measured, fine
from crib.cutters.thread_gauging import Band, named
from crib.findings.message import said
from crib.handbook.threads import Thread
from crib.handbook.threads.outside import screw_limits
from crib.planning.gauging.base import Thing

_WORN_MM, _WORN_PITCHES = 0.003 * IN, 0.1
"""So much, or such a part of the pitch where that is less, a screw has worn under its class [mm]. Common practice."""

_READ_MM = 0.0005 * IN
"""How far over its basic size calipers read a screw [mm]. Common practice."""


def _fits(measured: Measured) -> Iterator[Candidate]:
    """Threads whose screws measure so much in the usual class, or worn."""
    size = measured.diameter_mm or 0.0
    return named("screw", "screw", measured, size, lambda thread: _band(thread, size), by_limits=True)


def _band(thread: Thread, size: float) -> Band:
    limits = screw_limits(thread)
    under = thread.major_mm - size
    how = said("{under} under", under=fine(under)) if under >= 0 else said("{over} over", over=fine(-under))
    worn = min(_WORN_MM, _WORN_PITCHES * thread.pitch_mm)
    worn_off = "; worn below that" if limits.least - worn <= size < limits.least else ""
    says = said("{how} basic {basic}: {low} to {high} is {source}{worn}", how=how, basic=fine(thread.major_mm),
                low=fine(limits.least), high=fine(limits.most), source=limits.source, worn=worn_off)
    return Band(thread.major_mm, limits.least, limits.most, worn,
                max(thread.major_mm - limits.most, 0.0) + _READ_MM, says)


THING = Thing("screw", ("screw", "bolt", "stud", "thread", "setscrew", "machine screw", "cap screw"),
              Gauging("pitch_mm", _fits, needs=("diameter_mm",)))

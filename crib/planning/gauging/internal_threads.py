"""Internal threads: by the largest plug or drill that enters, which is the hole inside the thread's crests."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.gauged import IN, Candidate, Gauging, Measured, fine
from crib.cutters.thread_gauging import Band, named
from crib.findings.message import said
from crib.handbook.threads import Thread, hole_for, hole_limits
from crib.planning.gauging.base import Thing

_NEXT_MM = 0.005 * IN
"""How far under the hole the largest drill that enters may be [mm]: to the next one that is owned. Common practice."""

_THIN_PERCENT = 50.0
"""Of a thread tapped in too large a hole so much is left at the least [percent]. Common practice."""

_NO_CLASS_PERCENT = 65.0
"""A hole of a thread without a class here is made to this and more [percent]. Common practice."""


def _fits(measured: Measured) -> Iterator[Candidate]:
    """Threads whose tapped holes are so large inside."""
    size = measured.hole_mm if measured.hole_mm is not None else measured.diameter_mm or 0.0
    return named("internal-thread", "internal thread", measured, size, lambda thread: _band(thread, size),
                 by_limits=True)


def _band(thread: Thread, size: float) -> Band:
    limits = hole_limits(thread)
    low = thread.minor_basic_mm if limits.least is None else limits.least
    high = hole_for(thread, _NO_CLASS_PERCENT) if limits.most is None else limits.most
    says = said("a hole of {low} to {high} is {source}; a drill that enters is that or the next under it",
                low=fine(low), high=fine(max(low, high)),
                source=f"class {limits.name}" if limits.name else "usual, for it has no class here")
    most = max(low, high)
    return Band(min(max(size, low), most), low, most, _NEXT_MM, max(hole_for(thread, _THIN_PERCENT) - most, 0.0), says)


THING = Thing("internal-thread", ("nut", "tapped hole", "threaded hole", "female thread", "inside thread"),
              Gauging("hole_mm", _fits, needs=("hole_mm",)))

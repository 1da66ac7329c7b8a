"""Dies, for outside threads. Recorded and found: no cutter for the mill."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Cutter, Kind
from crib.cutters.gauged import Candidate, Gauging, Measured
from crib.cutters.speech import Order, Speech


def _fits(measured: Measured) -> Iterator[Candidate]:
    """Threads that a die with such a hole between its teeth cuts."""
    from crib.cutters.thread_gauging import die

    return die(measured)


KIND = Kind(
    name="die",
    words="die",
    plural="dies",
    size_keys=("thread",),
    is_plain=True,
    gauging=Gauging("hole_mm", _fits, needs=("hole_mm",)),
    speech=Speech(common=True, order=Order.THREAD),
    example=Cutter(0, "die", thread="1/4-20", diameter_mm=25.4),
)

"""Arbors for cutters with a bore: the bore is the arbor's, and the flange limits how deep they go."""

from __future__ import annotations

from crib.cutters.base import Cutter
from crib.holders.base import Held, Holding
from crib.lengths import in_words

_SLACK = 0.001 * 25.4


def hold(cutter: Cutter, holding: Holding) -> Held | None:
    """The arbor for the bore; None where it has no bore."""
    bore = cutter.bore_mm
    if bore is None:
        return None
    said = in_words(bore, holding.units)
    if holding.arbors is None:
        return Held(True, f"{said} arbor", assumed=f"an arbor for the {said} bore: no arbors on record")
    if any(abs(size - bore) <= _SLACK for size, _ in holding.arbors):
        return Held(True, f"{said} arbor")
    nearest = min((size for size, _ in holding.arbors), key=lambda size: abs(size - bore), default=None)
    return Held(False, "no arbor", f"no arbor for a bore of {said}", rule="HD1", has=nearest, needs=bore,
                fix=f"a {said} arbor")

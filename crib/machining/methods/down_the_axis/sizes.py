"""Why a cutter can have no part in something round: its size against the limits, its middle, its edges."""

from __future__ import annotations

from crib.cutters.base import Cutter
from crib.cutters.edges import BROKEN, SERRATED, edges
from crib.findings.message import apart, said
from crib.machining.methods.base import Limit
from crib.units import Size

SLACK = 1e-6

_FLAT_DEG = 170.0
"""From this angle on a drill counts as ground flat [deg]."""


def is_within(mm: float, size: Size) -> bool:
    """Whether what comes out lies inside the limits."""
    return size.lo - SLACK <= mm <= size.hi + SLACK


def limit_of(mm: float, size: Size) -> tuple[float, str, str]:
    """The limit that is missed [mm], which one it is in words, and to which side of it the right one lies."""
    return (size.hi, "over the most", "or less") if mm > size.hi else (size.lo, "under the least", "or more")


def unknown() -> Limit:
    """That nothing can be said of a cutter without its size."""
    return Limit("G7", "its size isn't known", fix="mic the diameter", unsure=True)


def by_condition(cutter: Cutter) -> Limit | None:
    """That nothing is made to size with broken or serrated edges, nor with those of the other hand; None where they are
    whole."""
    if cutter.hand == "left":
        return Limit("G10", "it cuts left-handed: the spindle would run backwards", short=0.0)
    if (state := edges(cutter)) not in (*BROKEN, SERRATED):
        return None
    return Limit("CD1", said("{state}: no hole to size with it", state=state), short=0.0)


def is_ground_flat(cutter: Cutter) -> bool:
    """Whether a drill has no point."""
    return (cutter.angle_deg or 0.0) >= _FLAT_DEG


def tooth_too_wide(has: float, most: float) -> Limit | None:
    """That one tooth is wider than a groove may be [mm]; None where it isn't."""
    if has <= most + SLACK:
        return None
    have, needs = apart(has, most)
    return Limit("FC1", said("its tooth, {has} wide, is wider than the groove may be, {needs}", has=have, needs=needs),
                 has, most, said("a tooth of {needs} or less would go in", needs=needs), has - most)

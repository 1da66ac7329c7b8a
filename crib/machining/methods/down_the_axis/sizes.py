"""Why a cutter can have no part in something round: its size against the limits, its middle, its edges."""

from __future__ import annotations

from crib.cutters import goes_down
from crib.cutters.base import Cutter, Down
from crib.cutters.edges import BROKEN, SERRATED, edges
from crib.findings.finding import NO_CHANGE
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


def unseen(miss: Limit) -> Limit:
    """What its middle keeps a mill from, where nobody looked whether its teeth reach that: it may do."""
    says = said("whether its teeth reach the centre isn't on record: {miss}", miss=miss.says)
    return miss._replace(says=says, short=0.0, unsure=True)


def by_condition(cutter: Cutter) -> Limit | None:
    """That nothing is made to size with broken or serrated edges, nor with those of the other hand; None where they are
    whole."""
    if cutter.hand == "left":
        return Limit("G10", "it cuts left-handed: the spindle would run backwards", short=0.0)
    if (state := edges(cutter)) not in (*BROKEN, SERRATED):
        return None
    return Limit("CD1", said("{state}: no hole to size with it", state=state), short=0.0)


def leaves_a_radius(cutter: Cutter, most: float, is_of_its_size: bool) -> Limit | None:
    """That a mill's corner, or its ball, leaves a floor no flat one, whatever else is measured of it [mm]; None where
    it may. `is_of_its_size`: whether nothing but that keeps it out."""
    corner = cutter.corner_radius_mm or 0.0
    if not goes_down(cutter, Down.MILLING) or corner <= most + SLACK:
        return None
    has, needs = apart(corner, most)
    return Limit("G11", said("it leaves a radius of {has} in the floor's corner, {needs} may be", has=has, needs=needs),
                 corner, most, said("would go if the floor radius may be {has}", has=has) if is_of_its_size else
                 NO_CHANGE, corner - most)


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

"""What holds a cutter: one file for each kind of holder, asked in the order below."""

from __future__ import annotations

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.holders import arbors, collets
from crib.holders.base import Held, Holding, above_shank, noses
from crib.light.records import replace

_HOLDERS = (arbors.hold, collets.hold)


def hold(cutter: Cutter, holding: Holding) -> Held:
    """What would hold a cutter for cutting on its side, or why nothing does."""
    for holder in _HOLDERS:
        if (held := holder(cutter, holding)) is not None:
            return held
    disc = kind_of(cutter).on_arbor
    return Held(False, "no holder", "it has neither shank nor bore on record", rule="HD1",
                fix="measure its bore" if disc else "measure its shank",
                parts=noses(above_shank(cutter), "", None, 0.0, holding))


def is_held_alike(cutter: Cutter, holding: Holding, other: Holding) -> bool:
    """Whether `hold` gives the same of both, told where they differ in their collets without asking it."""
    if replace(holding, collets=other.collets) != other:
        return hold(cutter, holding) == hold(cutter, other)
    return cutter.bore_mm is not None or collets.is_alike(cutter, holding, other)

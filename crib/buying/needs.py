"""A need: a room and what it calls for; and a cutter that could be bought for it."""

from __future__ import annotations

from dataclasses import dataclass

from crib.cutters.base import Cutter
from crib.features.base import CallsFor, Feature
from crib.geometry.outline import Room
from crib.holders import hold
from crib.holders.base import Holding
from crib.shop import Shop
from crib.units import in_words

FIRST_ID = 1_000_000_000
"""From this number on a cutter isn't owned."""

TO_ORDER, MEMORY = "made to size", "from memory of usual"
THOU = 0.0254
LONGER_MM = 1.0
"""What a cutter that is made to size is longer than it must be [mm]."""


@dataclass(frozen=True)
class Wanted:
    """A cutter that could be bought. `source`: where its size is from, or `made to size`; `ask`: what to look for when
    it is bought."""

    cutter: Cutter
    source: str
    ask: str = ""


@dataclass(frozen=True)
class Need:
    """A room of a feature and what it calls for. `room` is None for what isn't cleared as one, a tapping hole say."""

    feature: Feature
    name: str
    calls: CallsFor
    shop: Shop
    room: Room | None = None

    @property
    def deep_mm(self) -> float:
        """From the surface to the lowest floor [mm]."""
        return max((d.size.hi for d in self.feature.dimensions if d.sort == "depth"), default=0.0)


def new(kind: str, **sizes: object) -> Cutter:
    """A sharp cutter of high-speed steel that isn't numbered yet."""
    return Cutter(0, kind, condition="sharp", material="hss").but(**sizes)


def shank_for(shop: Shop, diameter: float) -> float:
    """A shank that is made for a diameter, one that a collet takes if there is one."""
    usual = [size for size in (9.525, 12.7, 19.05, 25.4) if size >= min(diameter, 25.4)]
    return ([size for size in usual if is_held(shop, size)] or usual)[0]


def is_held(shop: Shop, shank: float) -> bool:
    """Whether a collet takes a shank [mm]."""
    return hold(Cutter(0, "end-mill", shank_mm=shank), Holding(shop.collets_mm)).ok


def ask_for(cutter: Cutter, units: str) -> str:
    """What to look for in a cutter with a neck."""
    neck, reach = in_words(cutter.neck_mm or 0.0, units), in_words(cutter.reach_mm or 0.0, units)
    return f"a neck of {neck} or less, a reach of {reach} or more"

"""What is asked for as a scene by itself: the metal, what must go, and its sizes; no cutter yet."""

from __future__ import annotations

from crib.geometry.outline import Outline
from crib.geometry.region import Region
from crib.light.records import dataclass
from crib.pages.scene import DimensionLine
from crib.pages.scenes import sizes_of


@dataclass(frozen=True)
class Outlined:
    """A feature in its section [nm]: the metal, what of it goes, its sizes."""

    stock: Region
    gone: Region
    dimensions: tuple[DimensionLine, ...]


def outlined(outline: Outline, is_round: bool) -> Outlined:
    """The scene of a feature by its outline; `is_round`: it is made down its axis."""
    return Outlined(outline.stock | outline.obstacles, outline.aim, sizes_of(outline, is_round))

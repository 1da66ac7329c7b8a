"""The crib that a use case is handed, opened once and for all of it."""

from __future__ import annotations

from crib.cutters.base import Cutter
from crib.shop import Shop
from crib.store import SOURCES, Crib, crib_exists, open_crib

__all__ = ["SOURCES", "Crib", "Cutter", "crib_exists", "open_crib", "units_of"]


def units_of(where: str | None, units: str | None) -> str:
    """The units that bare numbers are in: as asked, else the crib's, else, where there is none yet, a new one's."""
    if units:
        return units
    if not crib_exists(where):
        return Shop().units
    with open_crib(where) as crib:
        return crib.units

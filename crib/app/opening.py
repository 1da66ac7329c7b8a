"""The crib that a use case is handed, opened once and for all of it."""

from __future__ import annotations

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.findings.finding import Finding
from crib.findings.message import Message
from crib.shop import Shop
from crib.store import SOURCES, Crib, begin_crib, crib_exists, open_crib

__all__ = ["SOURCES", "Crib", "Cutter", "begin_crib", "begin_in", "crib_exists", "open_crib", "units_for",
           "units_of", "usual_units"]


def units_of(where: str | None, units: str | None) -> str:
    """The units that bare numbers are in: as asked, else the crib's, else, where there is none yet, a new one's."""
    if units:
        return units
    if not crib_exists(where):
        return Shop().units
    with open_crib(where) as crib:
        return crib.units


def usual_units() -> str:
    """The units of a crib that begins, where nothing else was said."""
    return Shop().units


def begin_in(crib: Crib, units: str | None) -> None:
    """Let a crib that began just now read bare sizes in the units that its first cutters were said in."""
    if units and units != usual_units() and not crib.last_change():
        crib.set_shop({"units": units})


def units_for(found: Finding, where: str | None, units: str | None) -> str:
    """The units to say something in: as asked, else the crib's, if what is said has facts and the crib can be read."""
    if not isinstance(found.says, Message) and not isinstance(found.fix, Message):
        return units or Shop().units
    try:
        return units_of(where, units)
    except CribError:
        return Shop().units

"""The shop's settings: shown, and set as they are typed."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from crib.app.opening import open_crib, units_of
from crib.findings.errors import CribError
from crib.intake.shop_settings import read_settings
from crib.intake.unlikely_settings import unlikely
from crib.shop import Shop


def shop(where: str | None, units: str | None, texts: Mapping[str, str],
         is_meant: Callable[[str], bool] | None = None) -> Shop:
    """The settings of the crib at a place, after setting those that are given; that begins a crib where there is none.
    Bare sizes are in `units`, else in the crib's. `is_meant` says of a question whether a value that no shop has is
    meant all the same. Raises `CribError`, also where it isn't."""
    changes = read_settings(texts, units_of(where, units)) if texts else {}
    for question, help in unlikely(texts, changes, units_of(where, units)):
        if is_meant is None or not is_meant(question):
            raise CribError("unlikely", question, "", help)
    with open_crib(where, create=bool(changes), units=units) as crib:
        return crib.set_shop(changes) if changes else crib.shop()


def unsaid() -> Shop:
    """The settings of a shop of which nothing was said yet."""
    return Shop()

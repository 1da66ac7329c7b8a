"""Prices that the owner has seen: which of them is a candidate's. None is built in."""

from __future__ import annotations

import re
from collections.abc import Sequence

from crib.cutters.base import Cutter
from crib.light.patterns import pattern
from crib.light.records import dataclass

_SAME_MM = 0.0005 * 25.4
_SECOND_HAND = pattern(r"\b(?:used|second[\s-]*hand|pre[\s-]*owned|estate|auction)\b", re.IGNORECASE)
_SIZES = ("diameter_mm", "face_mm", "bore_mm", "radius_mm")


@dataclass(frozen=True)
class Price:
    """A price seen for a cutter, or for a collet of a size [mm]: in the crib's currency, on a day, in the owner's own
    words of what and where."""

    price: float
    shipping: float
    seen: str
    words: str
    where: str = ""
    cutter: Cutter | None = None
    collet_mm: float | None = None

    @property
    def second_hand(self) -> bool:
        """Whether it was seen for one that others have used."""
        return _SECOND_HAND.search(f"{self.words} {self.where}") is not None

    @property
    def source(self) -> str:
        """Where the price is from, in words."""
        return ", ".join(part for part in ("price seen", self.where, self.seen) if part)


def price_of(cutter: Cutter, prices: Sequence[Price], long_mm: float | None = None) -> Price | None:
    """The price seen last for a new cutter of that kind and size. `long_mm`: the length of cut of one that is bought by
    it, for the usual one is cheaper."""
    fitting = [price for price in prices if price.cutter is not None and is_same(price.cutter, cutter)
               and not price.second_hand
               and (long_mm is None or (price.cutter.length_of_cut_mm or 0.0) >= long_mm - _SAME_MM)]
    return max(fitting, key=lambda price: price.seen, default=None)


def collet_price(size_mm: float, prices: Sequence[Price]) -> Price | None:
    """The price seen last for a collet."""
    fitting = [one for one in prices if one.collet_mm is not None and abs(one.collet_mm - size_mm) <= _SAME_MM]
    return max(fitting, key=lambda price: price.seen, default=None)


def is_same(seen: Cutter, wanted: Cutter) -> bool:
    """Whether a price is for such a cutter: the same kind and thread, and every size that both have.

    >>> is_same(Cutter(0, "drill", diameter_mm=5.1054), Cutter(1, "drill", diameter_mm=5.1, shank_mm=5.1))
    True
    """
    if seen.kind != wanted.kind or (seen.thread or None) != (wanted.thread or None):
        return False
    if seen.angle_deg is not None and wanted.angle_deg is not None and seen.angle_deg != wanted.angle_deg:
        return False
    for key in _SIZES:
        here, there = _size(seen, key), _size(wanted, key)
        if here is not None and there is not None and abs(here - there) > _SAME_MM:
            return False
    return True


def _size(cutter: Cutter, key: str) -> float | None:
    value: float | None = getattr(cutter, key)
    return cutter.nominal_mm if value is None and key == "diameter_mm" else value

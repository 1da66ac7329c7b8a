"""What is owned already, whatever it is called, and so isn't offered."""

from __future__ import annotations

from collections.abc import Iterable

from crib.buying.prices import is_same
from crib.cutters import kind_of
from crib.cutters.base import Cutter

OUT_OF_SERVICE = ("dull", "chipped", "burnt", "bent")
_AT_LEAST = ("length_of_cut_mm", "reach_mm")
_SLACK_MM = 0.0005 * 25.4


def owned_one(wanted: Cutter, owned: Iterable[Cutter]) -> Cutter | None:
    """The owned cutter in fair order that is what would be bought: the same kind and sizes, as long or longer, as thin
    or thinner in the neck. A size that isn't known is no reason to buy: it is measured first.

    >>> mill = Cutter(3, "end-mill", diameter_mm=9.525, shank_mm=9.525, condition="used")
    >>> owned_one(Cutter(0, "end-mill", diameter_mm=9.53, shank_mm=9.525), [mill]) is mill
    True
    >>> owned_one(Cutter(0, "end-mill", diameter_mm=9.53, length_of_cut_mm=50.0), [mill.but(length_of_cut_mm=19.0)])
    """
    return next((one for one in owned if one.condition not in OUT_OF_SERVICE and is_same(one, wanted)
                 and _size_known(one) and _serves_as_well(one, wanted)), None)


def _size_known(one: Cutter) -> bool:
    """Whether its size isn't only a mark that a regrinding has put out of date."""
    return one.diameter_mm is not None or "thread" in kind_of(one).size_keys


def _serves_as_well(one: Cutter, wanted: Cutter) -> bool:
    long = all(_at_least(getattr(one, key), getattr(wanted, key)) for key in _AT_LEAST)
    thin = _at_least(wanted.neck_mm, one.neck_mm)
    held = one.shank_mm is None or wanted.shank_mm is None or abs(one.shank_mm - wanted.shank_mm) <= _SLACK_MM
    corner = abs((one.corner_radius_mm or 0.0) - (wanted.corner_radius_mm or 0.0)) <= _SLACK_MM
    chamfer = wanted.thread is None or one.tap_chamfer in (None, wanted.tap_chamfer)
    return long and thin and held and corner and chamfer


def _at_least(has: float | None, wants: float | None) -> bool:
    return has is None or wants is None or has >= wants - _SLACK_MM

"""The shanks that cutters usually have, by their size: fractions of an inch, and whole millimetres for metric ones."""

from __future__ import annotations

from crib.cutters.base import Cutter

_SIXTY_FOURTH, _NEAR = 25.4 / 64, 1e-6
_END_MILLS = ((6.0, 6.0), (10.0, 10.0), (14.0, 12.0), (18.0, 16.0), (23.0, 20.0), (30.0, 25.0))
"""Metric end mills: up to this diameter, on a shank of this [mm] (from memory of DIN 844)."""

_DISCS = ((16.0, 10.0), (22.0, 12.0), (32.0, 16.0))
"""Metric T-slot cutters, and keyseat cutters like them (from memory of DIN 851)."""

_REAMERS = ((9.525, 7.9375), (11.1125, 9.525), (14.2875, 11.1125), (17.4625, 14.2875), (20.6375, 15.875),
            (23.8125, 19.05), (25.4, 22.225))
"""Chucking reamers with a straight shank: up to this diameter, on a shank of this [mm] (from memory of ASME B94.2)."""


def reamer_shank(diameter_mm: float) -> float:
    """The usual shank of a chucking reamer [mm]: thinner than it is across from 3/8 on, so that it follows its hole.

    >>> reamer_shank(12.7), reamer_shank(6.35)
    (11.1125, 6.35)
    """
    return diameter_mm if diameter_mm < 9.5 else _by(_REAMERS, diameter_mm - 0.05, diameter_mm - 3.175)


def end_mill_shank(cutter: Cutter) -> float:
    """The usual shank of an end mill [mm]: metric ones by DIN 844; inch ones 3/8 to 3/8, else their own size (memory).

    >>> end_mill_shank(Cutter(1, "end-mill", diameter_mm=8.0)), end_mill_shank(Cutter(1, "end-mill", diameter_mm=6.35))
    (10.0, 9.525)
    """
    size = _named(cutter)
    if is_metric(size):
        return _by(_END_MILLS, size, 32.0)
    return max(cutter.diameter_mm or size, 9.525) if size <= 12.7 else cutter.diameter_mm or size


def disc_shank(cutter: Cutter) -> float:
    """The usual shank of a keyseat or T-slot cutter [mm]: a half inch, metric ones by DIN 851 (both from memory).

    >>> [disc_shank(Cutter(1, "t-slot-cutter", diameter_mm=mm)) for mm in (18.0, 19.05)]
    [12.0, 12.7]
    """
    size = _named(cutter)
    return _by(_DISCS, size, 25.0) if is_metric(size) else 12.7


def is_metric(size_mm: float) -> bool:
    """Whether a size is one of the metric ones: a half or whole millimetre, and no fraction of an inch in 64ths.

    >>> [is_metric(mm) for mm in (8.0, 19.05, 63.5, 4.5)]
    [True, False, False, True]
    """
    return _is_multiple(size_mm, 0.5) and not _is_multiple(size_mm, _SIXTY_FOURTH)


def _named(cutter: Cutter) -> float:
    """The size that it is called by: a metric one that was ground under its size is on a metric shank still."""
    return cutter.nominal_mm or cutter.diameter_mm or 0.0


def _is_multiple(size: float, of: float) -> bool:
    return size > 0 and abs(size / of - round(size / of)) * of < _NEAR


def _by(rows: tuple[tuple[float, float], ...], size: float, above: float) -> float:
    return next((shank for most, shank in rows if size <= most + _NEAR), above)

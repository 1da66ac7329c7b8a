"""Spring collets: each takes its own size and a hair under it, never the next size with a shim. A drill chuck holds no
cutter that cuts on its side."""

from __future__ import annotations

from functools import lru_cache

from crib.cutters.base import Cutter
from crib.findings.message import InWords, said
from crib.holders.base import Held, Holding, above_shank, noses
from crib.light.records import replace

UNDER = 0.003 * 25.4
"""A fractional spring collet takes a shank this much under its size (common practice)."""

_SLACK = 1e-6


def hold(cutter: Cutter, holding: Holding) -> Held | None:
    """The collet for the shank; None where it has no shank."""
    shank = cutter.shank_mm
    if shank is None:
        return None
    held = _collet(shank, "shank_mm" in cutter.assumed, holding.collets, holding.chuck)
    nose = noses(above_shank(cutter), "collet nose", holding.collet_nose, holding.collet_length, holding)
    return replace(held, parts=nose)


def is_alike(cutter: Cutter, some: Holding, others: Holding) -> bool:
    """Whether of some collets the same takes a cutter's shank as of others."""
    shank, unsure = cutter.shank_mm, "shank_mm" in cutter.assumed
    return shank is None or _collet(shank, unsure, some.collets, some.chuck) == _collet(
        shank, unsure, others.collets, others.chuck)


@lru_cache(maxsize=256)
def _collet(shank: float, unsure: bool, collets: tuple[float, ...] | None, chuck_mm: float | None) -> Held:
    """The collet for a shank, kept, for of thousands of shanks a few dozen differ; `unsure`: it is only assumed."""
    size = InWords(shank)
    if collets is None:
        return Held(True, said("{size} collet", size=size),
                    assumed=said("a collet for the {size} shank: no collets on record", size=size))
    fits = [one for one in collets if -_SLACK <= one - shank <= UNDER + _SLACK]
    if fits:
        return Held(True, said("{fits} collet", fits=InWords(min(fits))))
    nearest = min(collets, key=lambda one: (abs(one - shank), one), default=None)
    near = said("the nearest is {nearest}", nearest=InWords(nearest)) if nearest is not None else "there are no collets"
    only_chuck = not unsure and chuck_mm is not None and shank <= chuck_mm + _SLACK
    guess = " (the shank is assumed, not measured)" if unsure else ""
    chuck = "; the drill chuck would, and nothing cuts on its side in a drill chuck" if only_chuck else ""
    says = said("no collet takes the {size} shank: {near}{guess}{chuck}", size=size, near=near, guess=guess,
                chuck=chuck)
    return Held(
        False,
        "no collet",
        says,
        rule="HD2" if only_chuck else "HD1",
        has=nearest,
        needs=shank,
        fix=said("measure the shank, or find a collet for {size}" if unsure else "a collet for {size}", size=size),
        unsure=unsure and nearest is not None,
    )

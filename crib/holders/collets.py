"""Spring collets: each takes its own size and a hair under it, never the next size with a shim. A drill chuck holds no
cutter that cuts on its side."""

from __future__ import annotations

from dataclasses import replace

from crib.cutters.base import Cutter
from crib.holders.base import Held, Holding, above_shank, noses
from crib.units import in_words

UNDER = 0.003 * 25.4
"""A fractional spring collet takes a shank this much under its size (common practice)."""

_SLACK = 1e-6


def hold(cutter: Cutter, holding: Holding) -> Held | None:
    """The collet for the shank; None where it has no shank."""
    shank = cutter.shank_mm
    if shank is None:
        return None
    held = _collet(cutter, shank, holding)
    nose = noses(above_shank(cutter), "collet nose", holding.collet_nose, holding.collet_length, holding)
    return replace(held, parts=nose)


def _collet(cutter: Cutter, shank: float, holding: Holding) -> Held:
    said = in_words(shank, holding.units)
    if holding.collets is None:
        return Held(True, f"{said} collet", assumed=f"a collet for the {said} shank: no collets on record")
    fits = [size for size in holding.collets if -_SLACK <= size - shank <= UNDER + _SLACK]
    if fits:
        return Held(True, f"{in_words(min(fits), holding.units)} collet")
    nearest = min(holding.collets, key=lambda size: (abs(size - shank), size), default=None)
    near = f"the nearest is {in_words(nearest, holding.units)}" if nearest is not None else "there are no collets"
    unsure = "shank_mm" in cutter.assumed
    only_chuck = not unsure and holding.chuck is not None and shank <= holding.chuck + _SLACK
    says = f"no collet takes a {said} shank: {near}" + (" (the shank is assumed, not measured)" if unsure else "")
    if only_chuck:
        says += "; the drill chuck would, and nothing cuts on its side in a drill chuck"
    return Held(
        False,
        "no collet",
        says,
        rule="HD2" if only_chuck else "HD1",
        has=nearest,
        needs=shank,
        fix=f"measure the shank, or find a {said} collet" if unsure else f"a {said} collet",
        unsure=unsure and nearest is not None,
    )

"""What is there to hold with, what came of asking, and what of a holder stands about the cutter."""

from __future__ import annotations

from crib.cutters.base import Clearances, Cutter
from crib.cutters.shapes import cylinder
from crib.findings.message import Text
from crib.geometry.silhouette import Part
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple

STANDS_OUT_MM = 38.1
"""Shank or arbor between the cutter and the holder's nose [mm], where its length isn't known (from memory)."""

GRIP_MM = 25.4
"""Shank inside the holder [mm], where the overall length is known (from memory)."""

_SPINDLE_MM = 100.0
_CLEAR = Clearances()


class Arbor(NamedTuple):
    """An arbor [mm]: its flange on both sides of the cutter, the nose above it and how far up that begins, None where
    the owner hasn't said."""

    bore: float
    flange: float
    nose: float | None = None
    reach: float | None = None


@dataclass(frozen=True)
class Holding:
    """Collets and arbors that are owned, in mm; None where the owner hasn't said. `nose`: the spindle's; `collet_nose`
    and `collet_length`: what holds the collets below it, None where they close in the spindle itself."""

    collets: tuple[float, ...] | None = None
    chuck: float | None = None
    arbors: tuple[Arbor, ...] | None = None
    nose: float = 50.8
    collet_nose: float | None = None
    collet_length: float = STANDS_OUT_MM
    clear: Clearances = _CLEAR


@dataclass(frozen=True)
class Held:
    """Whether it can be held; the holder in words, or why not, with the rule, both numbers [mm] and what would do.
    `parts`: what of the holder and the spindle stands about the cutter, counted from its lower face. `unsure`: whether
    it turns on a shank that nobody measured."""

    ok: bool
    label: Text
    says: Text = ""
    rule: str = ""
    has: float | None = None
    needs: float | None = None
    fix: Text | None = None
    assumed: Text | None = None
    parts: tuple[Part, ...] = ()
    unsure: bool = False


def stick_out(cutter: Cutter, reach: float) -> float:
    """How far a cutter that reaches so far stands out of what holds it on its side [mm]: no further than it must, while
    the rest of the shank, up to twice the usual grip, goes up into the collet."""
    return max(reach, (cutter.overall_length_mm or 0.0) - 2 * GRIP_MM)


def above_shank(cutter: Cutter) -> float:
    """How high over the lower face the holder begins [mm]: as far up as the overall length lets the cutter stand out,
    else above a usual length of shank."""
    reach = max(cutter.reach_mm or 0.0, cutter.length_of_cut_mm or 0.0, 1.0)
    if cutter.overall_length_mm is None:
        return reach + STANDS_OUT_MM
    return max(cutter.overall_length_mm - GRIP_MM, reach)


def noses(low: float, name: str, across: float | None, length: float, holding: Holding) -> tuple[Part, ...]:
    """The holder's nose from a height up, where it has one, and the spindle's above it."""
    clear = holding.clear
    parts: tuple[Part, ...] = ()
    if across is not None and length > 0:
        parts = (cylinder(name, low, low + length, across, clear.neck, clear.end),)
        low += length
    return (*parts, cylinder("spindle nose", low, low + _SPINDLE_MM, holding.nose, clear.neck, clear.end))

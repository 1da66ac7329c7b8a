"""What lets a tool down between closed ends where nothing is open yet: told of bare sizes, before anything is drawn."""

from __future__ import annotations

from math import inf

from crib.cutters.base import Kind
from crib.handbook.closed_ends import CORE_SHARE
from crib.light.tuples import NamedTuple
from crib.units import NM

_HAIR = 4
"""Sizes that are rounded to whole nanometres differ by less [nm]."""


class Doorway(NamedTuple):
    """What lets a tool down in the first room, which is open at the top and in which nothing is open yet: `half` its
    length, and the radius of the widest hole with a flat floor that a drill makes there [nm]. Of a room with round
    corners only the radius up to which a tool may follow another round its walls; negative in others."""

    half: int
    flat: int
    follows: int = -1

    def keeps_out(self, kind: Kind, is_on_centre: bool, radius: float) -> bool:
        """Whether a tool of a radius [nm] surely gets down neither by itself nor after holes alone.

        Its first pass at the floor begins where no other pass is at that height. What doesn't cut on centre, and runs
        no more than its width along, wants a hole there that is as wide at the floor itself as what its end teeth
        don't reach: its own passes before end higher, and the cone of a point is narrower there. A disc that fell in
        where a hole is wider than itself would find no metal there: it follows none.
        """
        if kind.buried:
            return radius > self.follows + _HAIR
        if self.follows >= 0 or is_on_centre:
            return False
        return 2 * radius >= self.half + _HAIR and CORE_SHARE * radius > self.flat + _HAIR

    def tells(self, kind: Kind, is_on_centre: bool, across_mm: float) -> bool | None:
        """Whether a cutter so wide surely gets in, or surely doesn't; None where only its passes tell."""
        radius = across_mm / 2 * NM
        if self.keeps_out(kind, is_on_centre, radius):
            return False
        return True if self.follows < 0 and is_on_centre and radius <= self.half - _HAIR else None

    def short(self, kind: Kind, across_mm: float) -> float:
        """By how much one that is kept out falls short at the least, where nothing else is in its way [mm]: of a run
        that is longer than it is wide; of round corners that isn't told."""
        if self.follows >= 0:
            return 0.0
        return inf if kind.buried else max(0.0, 2 * (across_mm - (self.half + _HAIR) / NM))

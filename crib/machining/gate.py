"""What a room asks of a cutter's bare sizes: a method's limits, and what must clear above the teeth, as plain numbers.
A cutter that surely can't is told by how much it falls short at the least, and nothing else is made of it."""

from __future__ import annotations

from collections.abc import Callable
from math import inf

from crib.cutters.base import Kind
from crib.geometry.region import Region, box
from crib.machining.sizes import Most, Sizes
from crib.records import NamedTuple

_SLACK = 1e-5
"""Sizes nearer than this [mm] to what turns the scale are looked at more closely: the section is drawn in whole
nanometres."""

PROBE = 1000
"""How thin a slice of the wall beside a room is looked at [nm]."""


class Beside(NamedTuple):
    """Metal that stands beside the cutter where it must stand. `inset`: how far the teeth reach under it; `slop`: by
    how much less that may be. `low`, `high`: from where to where it stands above the lower face [mm]."""

    inset: float
    slop: float
    low: float
    high: float


class Whole(NamedTuple):
    """A room that straight teeth which come down to the floor surely clear. `narrow`: a cutter is stepped up to so
    wide; `own`: from where to where its own width does; `tall`: teeth no taller; `deep`: how deep it goes; `inset`: how
    far the teeth reach under what stands beside there; `half`: how far that stands from the middle; `bite`: the least
    bite that will do [mm]."""

    narrow: float
    own: tuple[float, float]
    deep: float
    bite: float = 0.0
    tall: float = inf
    inset: float = 0.0
    half: float = inf


class Gate(NamedTuple):
    """What a room asks [mm]: teeth no wider and no taller, and in few levels (`levels`: by how much a height falls
    short of that). `least_short`: whatever else is in the way, it falls short by no less than this, if by less than it
    tells. `beside`: metal beside it; `whole`: which cutters surely do. `upright`: by how much a kind of cutter of a
    diameter falls short that doesn't move as the room wants. `passes`: what it takes at the least to clear the whole
    room alone, biting so much at the most."""

    widest: float = inf
    tallest: float = inf
    levels: Callable[[float], float] | None = None
    least_short: float = inf
    beside: Beside | None = None
    whole: Whole | None = None
    upright: Callable[[Kind, float], float] | None = None
    passes: Callable[[Sizes, Most], int] = lambda sizes, most: 0

    def limit(self, sizes: Sizes) -> float:
        """By how much the sizes of the teeth break a limit [mm]; 0 where they surely break none."""
        if sizes.diameter > self.widest + _SLACK:
            return sizes.diameter - self.widest
        if sizes.height > self.tallest + _SLACK:
            return sizes.height - self.tallest
        return self.levels(sizes.height) if self.levels else 0.0

    def shortfall(self, sizes: Sizes) -> float:
        """By how much a cutter surely falls short at the least [mm]; 0 where it may do."""
        if short := self.limit(sizes):
            return short
        return min(self._in_the_way(sizes), self.least_short) if self.beside and sizes.is_square else 0.0

    def _in_the_way(self, sizes: Sizes) -> float:
        """The least by which something above the teeth meets what stands beside; 0 where nothing surely does."""
        assert self.beside is not None
        inset, slop, low, high = self.beside
        room, found = sizes.diameter / 2 - inset, inf
        for piece in sizes.pieces:
            across, up = piece.beside - room, high + piece.end - piece.low
            if across > slop + _SLACK and up > _SLACK and piece.high + piece.end > low + _SLACK:
                found = min(found, max(min(across - slop, up, 2 * piece.radius) - _SLACK, _SLACK))
        return 0.0 if found == inf else found

    def does(self, sizes: Sizes, least_bite: float) -> bool:
        """Whether a cutter surely clears the room, which takes no less than so much at a bite."""
        if self.whole is None or not sizes.is_square or least_bite < self.whole.bite or self.limit(sizes):
            return False
        narrow, (least, most), deep, _, tall, inset, half = self.whole
        if sizes.height >= tall or not (sizes.diameter < narrow or least < sizes.diameter < most):
            return False
        room = min(sizes.diameter / 2 - inset, half) - _SLACK
        return all(piece.low - piece.end > deep + _SLACK or piece.beside < room for piece in sizes.pieces)


def is_full(region: Region, left: int, low: int, right: int, high: int) -> bool:
    """Whether a rectangle lies in a region wholly."""
    return not box(left, low, right, high) - region


def is_free(region: Region, left: int, low: int, right: int, high: int) -> bool:
    """Whether nothing of a region lies in a rectangle."""
    return not region & box(left, low, right, high)

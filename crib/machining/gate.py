"""What a room asks of a cutter's bare sizes: a method's limits, and what must clear above the teeth, as plain numbers.
A cutter that surely can't is told by how much it falls short at the least, and nothing else is made of it."""

from __future__ import annotations

from collections.abc import Callable
from math import inf

from crib.cutters.base import Kind
from crib.geometry.region import Region, box
from crib.light.tuples import NamedTuple
from crib.machining.batches import Band, Batch
from crib.machining.sizes import Most, Sizes

SLACK = 1e-5
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


class Count(NamedTuple):
    """What a tool takes at the least to clear a room alone: passes, how many of them at half the feed, how often it is
    measured, how often it goes half the way between closed ends besides, how many passes under a lip cut both walls at
    once."""

    passes: int
    slow: int = 0
    checks: int = 1
    returns: int = 0
    both: int = 0


class Gate(NamedTuple):
    """What a room asks [mm]: teeth no wider and no taller, and in few levels (`levels`: by how much a height falls
    short of that; none does from `enough` on). `least_short`: whatever else is in the way, it falls short by no less
    than this, if by less than it tells. `beside`: metal beside it; `whole`: which cutters surely do. `upright`: by how
    much a kind of cutter of a diameter falls short that doesn't move as the room wants. `fewest`: what it takes at
    the least to clear the whole room alone for a cutter that is no wider and no taller, and bites no more, with nothing
    but teeth, and the room that is asked for over them, up to some height; `closely`:
    what one takes, as closely as the bounds of the search tell it."""

    widest: float = inf
    tallest: float = inf
    levels: Callable[[float], float] | None = None
    enough: float = inf
    least_short: float = inf
    beside: Beside | None = None
    whole: Whole | None = None
    upright: Callable[[Kind, float], float] | None = None
    fewest: Callable[[Sizes, Most, float], Count] = lambda sizes, most, lowest: Count(0)
    closely: Callable[[Sizes, Most], Count] | None = None

    def limit(self, sizes: Sizes) -> float:
        """By how much the sizes of the teeth break a limit [mm]; 0 where they surely break none."""
        return self.limit_of(sizes.diameter, sizes.height)

    def limit_of(self, across: float, tall: float) -> float:
        """The same of teeth so wide and so tall [mm]."""
        if across > self.widest + SLACK:
            return across - self.widest
        if tall > self.tallest + SLACK:
            return tall - self.tallest
        return 0.0 if tall >= self.enough or self.levels is None else self.levels(tall)

    def is_broken_by(self, band: Band) -> bool:
        """Whether all of a band break a limit: the least is too much, or the tallest are too low."""
        return band.narrowest > self.widest + SLACK or band.lowest > self.tallest + SLACK or (
            self.levels is not None and 0 < band.tallest < self.enough and self.levels(band.tallest) > 0)

    def limits(self, batch: Batch) -> list[float]:
        """The same of each of a batch."""
        widest, tallest, levels, enough = self.widest, self.tallest, self.levels, self.enough
        over, above = widest + SLACK, tallest + SLACK
        return [across - widest if across > over else tall - tallest if tall > above else
                0.0 if tall >= enough or levels is None else levels(tall)
                for across, tall in zip(batch.diameters, batch.heights, strict=True)]

    def shortfall(self, sizes: Sizes) -> float:
        """By how much a cutter surely falls short at the least [mm]; 0 where it may do."""
        return self.limit(sizes) or self.in_the_way(sizes)

    def in_the_way(self, sizes: Sizes) -> float:
        """The least by which something above the teeth meets what stands beside; 0 where nothing surely does."""
        if self.beside is None or not sizes.is_square:
            return 0.0
        inset, slop, low, high = self.beside
        room, found = sizes.diameter / 2 - inset, inf
        asks, low = room + slop + SLACK, low + SLACK
        for piece_low, piece_high, beside, end, radius in sizes.pieces:
            up = high + end - piece_low
            if up > SLACK and beside > asks and piece_high + end > low:
                found = min(found, max(min(beside - room - slop, up, 2 * radius) - SLACK, SLACK))
        return 0.0 if found == inf else min(found, self.least_short)

    @property
    def does_is_clear(self) -> bool:
        """Whether nothing is in the way of what surely does: that is held to no less of the metal beside."""
        if self.whole is None or self.beside is None:
            return self.beside is None
        return self.whole.inset >= self.beside.inset and self.beside.slop >= 0.0 and (
            self.whole.deep >= self.beside.high)

    @property
    def least_bite(self) -> float:
        """The least bite that surely does [mm]."""
        return self.whole.bite if self.whole else inf

    def does(self, sizes: Sizes) -> bool:
        """Whether a cutter that breaks no limit surely clears the room, if its bite will do."""
        if self.whole is None or not sizes.is_square:
            return False
        narrow, (least, most), deep, _, tall, inset, half = self.whole
        if sizes.height >= tall or not (sizes.diameter < narrow or least < sizes.diameter < most):
            return False
        room = min(sizes.diameter / 2 - inset, half) - SLACK
        return is_above(sizes, deep, room)


def is_above(sizes: Sizes, deep: float, room: float) -> bool:
    """Whether all of a cutter but its teeth is surely over what stands so high above its lower face, or narrower than
    the room that there is from its axis [mm]."""
    deep += SLACK
    return not [True for low, _, beside, end, _ in sizes.pieces if beside >= room and low - end <= deep]


def is_full(region: Region, left: int, low: int, right: int, high: int) -> bool:
    """Whether a rectangle lies in a region wholly."""
    return not box(left, low, right, high) - region


def is_free(region: Region, left: int, low: int, right: int, high: int) -> bool:
    """Whether nothing of a region lies in a rectangle."""
    return not region & box(left, low, right, high)

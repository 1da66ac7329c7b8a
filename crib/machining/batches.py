"""Cutters that are alike but for their sizes, looked at together: of a large crib most are told apart by a pass over
two columns of numbers, and nothing is made of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cached_property
from math import log2
from operator import attrgetter

from crib.cutters import KINDS
from crib.cutters.base import Cutter, Kind
from crib.cutters.edges import SERRATED, is_serrated
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple

_in_common: Callable[[Cutter], tuple[object, ...]] = attrgetter(
    "kind", "material", "condition", "hand", "corner_radius_mm", "bore_mm", "overruled")
_diameter: Callable[[Cutter], float | None] = attrgetter("diameter_mm")


Profile = tuple[float, float | None, float | None, float, float, float, float, float, float, float]
"""A cutter's `Stem`, and where what holds its shank begins [mm]."""


_WIDE, _TALL, _LEAST_TALL, _MOST_TALL = 6, 2, 1.0, 40.0
"""Bands to a doubling of the width and of the height, and from where to where heights are told apart [mm]."""

_NO_SIZE = (-10**6, 0, None)
"""The band of those whose width isn't known."""


class Band(NamedTuple):
    """Where those stand in a batch that are nearly of one size and have as many teeth: the least and the most of their
    widths and heights [mm], and their teeth."""

    where: Sequence[int]
    narrowest: float
    widest: float
    lowest: float
    tallest: float
    teeth: int | None


@dataclass
class Batch:
    """Cutters of one kind and steel, in one state, with their places among all; `kind`: None for one that isn't
    known; `held`: whether something holds each, or may, once somebody has asked; `same`: the same cutters at other
    places, of which all that is worked out stands."""

    kind: Kind | None
    cutters: list[Cutter]
    places: list[int]
    held: Sequence[bool] = ()
    same: Batch | None = None

    @property
    def one(self) -> Cutter:
        """A cutter that has what all of them have in common."""
        return self.cutters[0]

    @property
    def is_bare(self) -> bool:
        """Whether their sizes alone tell of them: their teeth are one straight piece on a shank."""
        return self.kind is not None and self.kind.stem is not None and self.one.bore_mm is None

    @cached_property
    def diameters(self) -> list[float]:
        """How wide they are [mm]."""
        return self.same.diameters if self.same else [across or 0.0 for across in map(_diameter, self.cutters)]

    @cached_property
    def heights(self) -> list[float]:
        """How tall their teeth are [mm]."""
        assert self.kind is not None
        return self.same.heights if self.same else list(map(self.kind.teeth, self.cutters))

    @cached_property
    def profiles(self) -> list[Profile | None]:
        """What stands above their teeth, as far as somebody has asked for it."""
        return self.same.profiles if self.same else [None] * len(self.cutters)

    @cached_property
    def bands(self) -> list[Band]:
        """Those of one another's size, but for a little; no others than are `held`."""
        found: dict[tuple[int, int, int | None], list[int]] = {}
        for at, (across, tall, is_held) in enumerate(zip(self.diameters, self.heights, self.held, strict=True)):
            if is_held:
                place = (int(_WIDE * log2(across)), int(_TALL * log2(min(max(tall, _LEAST_TALL), _MOST_TALL))),
                         self.cutters[at].flutes) if across else _NO_SIZE
                if place in found:
                    found[place].append(at)
                else:
                    found[place] = [at]
        return [self._band(where) for where in found.values()]

    @cached_property
    def whole(self) -> Band:
        """All of them, where nothing is told of their sizes."""
        return Band(range(len(self.cutters)), 0.0, 0.0, 0.0, 0.0, None)

    def _band(self, where: list[int]) -> Band:
        across, tall = [self.diameters[at] for at in where], [self.heights[at] for at in where]
        return Band(where, min(across), max(across), min(tall), max(tall), self.cutters[where[0]].flutes)

    @cached_property
    def least_price(self) -> float:
        """The least that one of them cost, nothing where that isn't on record."""
        return min([cutter.price or 0.0 for cutter in self.cutters])

    def of(self, some: Sequence[int]) -> Batch:
        """Some of them, by where they stand in it."""
        return Batch(self.kind, [self.cutters[at] for at in some], [self.places[at] for at in some])

    def among(self, some: Sequence[int], places: list[int]) -> Batch:
        """Some of them, which stand at other places: what was worked out of all stands where it is all of them."""
        if len(some) < len(self.cutters):
            return Batch(self.kind, [self.cutters[at] for at in some], places)
        return Batch(self.kind, self.cutters, places, same=self.same or self)


def among(every: Sequence[Batch], some: Sequence[int]) -> Iterator[Batch]:
    """Of cutters that were put together those at some places among all, counted anew in that order."""
    places = {place: at for at, place in enumerate(some)}
    for batch in every:
        where = [at for at, place in enumerate(batch.places) if place in places]
        if where:
            yield batch.among(where, [places[batch.places[at]] for at in where])


def batched(cutters: Iterable[Cutter]) -> Iterator[Batch]:
    """Cutters put together by what they have in common."""
    found: dict[tuple[object, ...], Batch] = {}
    for place, cutter in enumerate(cutters):
        key = _in_common(cutter)
        if (cutter.note or cutter.marking) and is_serrated(cutter):
            key = (*key, SERRATED)
        batch = found.get(key)
        if batch is None:
            batch = found[key] = Batch(KINDS.get(cutter.kind), [], [])
        batch.cutters.append(cutter)
        batch.places.append(place)
    yield from found.values()

"""Cutters that are alike but for their sizes, looked at together: of a large crib most are told apart by a pass over
two columns of numbers, and nothing is made of them."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import cached_property
from operator import attrgetter

from crib.cutters import KINDS
from crib.cutters.base import Cutter, Kind
from crib.cutters.edges import SERRATED, is_serrated
from crib.light.records import dataclass

_in_common: Callable[[Cutter], tuple[object, ...]] = attrgetter(
    "kind", "material", "condition", "hand", "corner_radius_mm", "bore_mm", "overruled")
_diameter: Callable[[Cutter], float | None] = attrgetter("diameter_mm")


@dataclass
class Batch:
    """Cutters of one kind and steel, in one state, with their places among all; `kind`: None for one that isn't
    known."""

    kind: Kind | None
    cutters: list[Cutter]
    places: list[int]

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
        return [across or 0.0 for across in map(_diameter, self.cutters)]

    @cached_property
    def heights(self) -> list[float]:
        """How tall their teeth are [mm]."""
        assert self.kind is not None
        return list(map(self.kind.teeth, self.cutters))

    def of(self, some: Sequence[int]) -> Batch:
        """Some of them, by where they stand in it."""
        return Batch(self.kind, [self.cutters[at] for at in some], [self.places[at] for at in some])


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

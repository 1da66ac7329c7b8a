"""What is clear from above, height by height, while operations go on. A body that stands somewhere has a disc at each
height; what it passes over on a straight way is that disc drawn out."""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property, lru_cache
from itertools import pairwise
from math import inf

from crib.geometry.box_outline import clearance, holds, nearest_edge
from crib.geometry.layers import Layers
from crib.geometry.operation import Operation, Path, Point
from crib.geometry.region import FAR
from crib.geometry.rounded_box import RoundedBox, joined, least_out
from crib.light.records import dataclass, field, replace


@lru_cache(maxsize=4096)
def segments(path: Path) -> tuple[RoundedBox, ...]:
    """The straight pieces of a way, as cores without a radius; one point where it doesn't move. Kept: the same way is
    gone on every level, by one body after the other.

    >>> segments(((0, 0), (0, 5)))
    (RoundedBox(left=0, low=0, right=0, high=5, radius=0),)
    """
    pairs = list(pairwise(path)) or [(path[0], path[0])]
    return tuple(RoundedBox(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1]), 0) for a, b in pairs)


@lru_cache(maxsize=4096)
def _passed(path: Path, radius: int) -> frozenset[RoundedBox]:
    """What a disc passes over on a way; kept as the way itself is."""
    return frozenset(piece.grown(radius) for piece in segments(path))


@dataclass(frozen=True)
class Slab:
    """What is clear between two heights: what goes `straight` up, and `more` at the lower and at the upper one of what
    doesn't."""

    low: int
    high: int
    straight: frozenset[RoundedBox]
    more: tuple[frozenset[RoundedBox], ...] = ()

    @cached_property
    def clear(self) -> tuple[frozenset[RoundedBox], ...]:
        """All of it, at the lower and at the upper height; one of them where they are alike."""
        return tuple(dict.fromkeys(joined(self.straight, one) for one in self.more)) or (self.straight,)

    def clear_at(self, place: int) -> frozenset[RoundedBox]:
        """All of it at the lower height, 0, or at the upper one, 1."""
        return self.clear[place if len(self.clear) > 1 else 0]

    def holds(self, at: Point, radius: int) -> bool:
        """Whether a round lies in it."""
        return all(holds(RoundedBox(*at, *at, radius), shapes) for shapes in self.clear)


Slant = tuple[int, int, int, int]
"""What gets wider or narrower on its way up: from and to which height, and its radius at both."""


@dataclass
class Cleared:
    """What is clear at each height below the top; it grows step by step. `straight`: between two `heights` what
    goes straight up; `slanted`: what doesn't, by its core, the narrowest first."""

    top: int = 0
    heights: list[int] = field(default_factory=list)
    straight: list[frozenset[RoundedBox]] = field(default_factory=lambda: [frozenset()])
    slanted: dict[RoundedBox, tuple[Slant, ...]] = field(default_factory=dict)
    known: dict[tuple[int, int], list[Slab]] = field(default_factory=dict)

    @staticmethod
    def of(layers: Layers, operations: Iterable[Operation] = ()) -> Cleared:
        """What was free before, and what some steps have cleared."""
        cleared = Cleared(layers.top, [-FAR, layers.top])
        for layer in layers.before:
            cleared._add(frozenset((layer.shape,)), layer.low, layer.high)
        return cleared.grown(operations)

    def take(self, one: Operation) -> None:
        """One more step is done."""
        self.known.clear()
        heights, before, pieces = [*self.heights], [*self.straight], segments(one.path)
        slants: list[Slant] = []
        for part in one.form.sure:
            low, high = one.z + part.low, one.z + part.high
            if part.radius_low == part.radius_high:
                self._add(_passed(one.path, part.radius_low), low, high)
            else:
                slants.append((low, high, part.radius_low, part.radius_high))
        # what was kept wasn't passed by what went straight up before: only what does since may pass it
        since = {one for z, now in zip(self.heights, self.straight, strict=False)
                 for one in now - before[bisect_right(heights, z) - 1]} if self.slanted else ()
        kept = {core: self._not_passed(core, its, least_out(core, since)) for core, its in self.slanted.items()}
        for core in dict.fromkeys(pieces) if slants else ():
            fresh = self._not_passed(core, slants, -inf)
            kept[core] = tuple(sorted((*kept.get(core, ()), *fresh), key=_widest))
        self.slanted = {core: its for core, its in kept.items() if its}

    def grown(self, operations: Iterable[Operation]) -> Cleared:
        """What is clear after some more steps; this one stays what it is."""
        grown = replace(self, heights=[*self.heights], straight=[*self.straight], slanted={**self.slanted}, known={})
        for one in operations:
            if one.path:
                grown.take(one)
        return grown

    def _not_passed(self, core: RoundedBox, slants: Sequence[Slant], out: float) -> tuple[Slant, ...]:
        """Of what slants about a core, the narrowest first, all but what something that goes straight up has cleared
        whole; where the core reaches `out` of what does by more than nothing, however narrow, nobody has."""
        if out + _widest(slants[0]) > 0:
            return tuple(slants)
        outs: dict[int, float] = {}

        def is_passed(slant: Slant) -> bool:
            low, high, *_ = slant
            wide = _widest(slant)
            if out + wide > 0:
                return False
            for place in range(bisect_right(self.heights, low) - 1, bisect_left(self.heights, min(high, self.top))):
                if place not in outs:
                    outs[place] = least_out(core, self.straight[place])
                if outs[place] + wide > 0:
                    return False
            return True

        return tuple([slant for slant in slants if not is_passed(slant)])

    def _add(self, shapes: frozenset[RoundedBox], low: int, high: int) -> None:
        low, high = min(low, self.top), min(high, self.top)
        for z in (low, high):
            place = bisect_left(self.heights, z)
            if self.heights[place] != z:
                self.heights.insert(place, z)
                self.straight.insert(place, self.straight[place - 1])
        for place in range(bisect_left(self.heights, low), bisect_left(self.heights, high)):
            self.straight[place] = joined(self.straight[place], shapes)

    def slabs(self, low: int, high: int, also: Iterable[int] = ()) -> list[Slab]:
        """What is clear between two heights below the top, in slabs between the heights at which anything changes
        (`also`: there too)."""
        low, high, more = min(low, self.top), min(high, self.top), tuple(also)
        if more:
            return list(self._slabs(low, high, more))
        if (low, high) not in self.known:
            self.known[low, high] = list(self._slabs(low, high, more))
        return self.known[low, high]

    def _slabs(self, low: int, high: int, also: tuple[int, ...]) -> Iterator[Slab]:
        edges = {low, high, *also, *self.heights}
        slanted = [(core, one) for core, its in self.slanted.items() for one in its if one[0] < high and one[1] > low]
        for _, (bottom, top, *_) in slanted:
            edges |= {bottom, top}
        for bottom, top in pairwise(sorted(z for z in edges if low <= z <= high)):
            straight = self.straight[bisect_right(self.heights, bottom) - 1]
            here = [one for one in slanted if one[1][0] <= bottom and top <= one[1][1]]
            more = tuple(frozenset(_slanted_at(z, here)) for z in (bottom, top)) if here else ()
            yield Slab(bottom, top, straight, more)

    def just_over(self, z: int) -> frozenset[RoundedBox]:
        """What is clear just over a height."""
        return self.slabs(z, z + 1)[0].clear[0]

    def edge_at(self, at: Point, z: int) -> Point | None:
        """The nearest edge of what is clear just below a height; None where there is no edge."""
        axis = RoundedBox(*at, *at, 0)
        shapes = min(self.slabs(z - 1, z)[-1].clear, key=lambda clear: clearance(axis, clear))
        edge = nearest_edge(*at, shapes)
        return (round(edge[0]), round(edge[1])) if edge else None

    def is_free(self, at: Point, z: int, radius: int) -> bool:
        """Whether a round is clear from a height up to the top."""
        return all(slab.holds(at, radius) for slab in self.slabs(z, self.top))


def _widest(slant: Slant) -> int:
    return max(slant[2], slant[3])


def _slanted_at(z: int, slanted: Iterable[tuple[RoundedBox, Slant]]) -> Iterator[RoundedBox]:
    for core, (low, high, under, over) in slanted:
        yield core.grown(under + (over - under) * (z - low) // (high - low))

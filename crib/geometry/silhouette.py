"""Silhouettes: a turning body as a stack of discs, a radius for each height above its lower face.

All numbers here and in this package are whole nanometres.
"""

from __future__ import annotations

from functools import cached_property
from itertools import pairwise

from crib.light.records import dataclass
from crib.light.tuples import NamedTuple


class Part(NamedTuple):
    """A piece of a turning body between two heights above its lower face; the radius runs straight between its ends.

    `side` and `end` are the clearances that a part which must not touch asks for, beside and above or below it.
    """

    name: str
    low: int
    high: int
    radius_low: int
    radius_high: int
    side: int = 0
    end: int = 0

    @property
    def widest(self) -> int:
        return max(self.radius_low, self.radius_high)

    def radius_at(self, height: int) -> int:
        """Radius at a height within the part."""
        if self.radius_low == self.radius_high:
            return self.radius_low
        run = self.radius_high - self.radius_low
        return self.radius_low + run * (height - self.low) // (self.high - self.low)


@dataclass(frozen=True)
class Silhouette:
    """A turning body in its own frame: what it surely removes, what it may touch, and what must stay clear.

    Where every size is known `sure` and `may` are the same.
    """

    sure: tuple[Part, ...]
    may: tuple[Part, ...]
    clear: tuple[Part, ...] = ()

    def __hash__(self) -> int:
        """Kept, for bodies are what is looked up by, again and again."""
        known: int | None = self.__dict__.get("_hash")
        if known is None:
            known = self.__dict__["_hash"] = hash((self.sure, self.may, self.clear))
        return known

    @cached_property
    def radius(self) -> int:
        """The greatest radius that it surely removes with."""
        return max(part.widest for part in self.sure)

    @cached_property
    def height(self) -> int:
        """How high above its lower face it surely removes."""
        return max(part.high for part in self.sure)

    @cached_property
    def girth(self) -> int:
        """How far from its axis anything of it may touch, or wants clear beside it."""
        return max(part.widest + part.side for part in (*self.may, *self.clear))

    @cached_property
    def foot(self) -> int:
        """How high above its lower face anything of it begins, or wants clear under it."""
        return min(part.low - part.end for part in (*self.may, *self.clear))

    @cached_property
    def low(self) -> int:
        """How high above its lower face it begins to remove."""
        return min(part.low for part in self.sure)

    @cached_property
    def edge(self) -> Part:
        """The tallest of the parts that surely remove: the edge that side walls are made with."""
        return max(self.sure, key=lambda part: part.high - part.low)

    @cached_property
    def base(self) -> int:
        """The radius at which its edge, drawn on, meets the height of the lower face."""
        edge = self.edge
        return edge.radius_low + round(edge.low * (edge.radius_low - edge.radius_high) / (edge.high - edge.low))

    def run(self, rise: int) -> float:
        """How far its edge comes in for such a rise; negative where it spreads."""
        edge = self.edge
        return rise * (edge.radius_low - edge.radius_high) / (edge.high - edge.low)

    @cached_property
    def grows(self) -> bool:
        """Whether what it removes is nowhere narrower than below."""
        return all(part.radius_low <= part.radius_high for part in self.sure) and all(
            a.radius_high <= b.radius_low for a, b in pairwise(self.sure)
        )

"""Plane regions cut into slabs, and what is made of two of them."""

from __future__ import annotations

from collections.abc import Iterable
from functools import cached_property, lru_cache, reduce

from crib.geometry.slabs import BOTH, EITHER, FIRST_ALONE, Kept, Slab, Span, along, combined, stack
from crib.light.records import dataclass

FAR = 1_000_000_000
"""A metre: as far as any region reaches."""


@dataclass(frozen=True)
class Region:
    """Slabs from the lowest up, apart from each other."""

    slabs: tuple[Slab, ...] = ()

    def __bool__(self) -> bool:
        return bool(self.slabs)

    def __hash__(self) -> int:
        """Kept, for regions are what is looked up by, again and again."""
        known: int | None = self.__dict__.get("_hash")
        if known is None:
            known = self.__dict__["_hash"] = hash(self.slabs)
        return known

    def spans_at(self, z: int) -> tuple[tuple[int, int], ...]:
        """The intervals at a height; at an edge between two slabs those of the slab above."""
        for slab in self.slabs:
            if slab.low <= z < slab.high:
                return tuple(_at(span, slab, z) for span in slab.spans)
        return ()

    def __or__(self, other: Region) -> Region:
        if not (self and other):
            return self or other
        for below, above in ((self, other), (other, self)):
            if below.slabs[-1].high <= above.slabs[0].low:
                return pile((*below.slabs, *above.slabs))
        return _combine(self, other, EITHER)

    def __and__(self, other: Region) -> Region:
        return _combine(self, other, BOTH) if _meet(self, other) else Region()

    def __sub__(self, other: Region) -> Region:
        return _combine(self, other, FIRST_ALONE) if _meet(self, other) else self

    @cached_property
    def area(self) -> int:
        """Twice the area, whole."""
        return sum(
            (slab.high - slab.low) * (s.right_low - s.left_low + s.right_high - s.left_high)
            for slab in self.slabs
            for s in slab.spans
        )

    @property
    def mirrored(self) -> Region:
        """The same with left and right changed over."""
        return Region(tuple(
            Slab(slab.low, slab.high, tuple(
                Span(-s.right_low, -s.left_low, -s.right_high, -s.left_high) for s in reversed(slab.spans)
            ))
            for slab in self.slabs
        ))

    def bounds(self) -> tuple[int, int, int, int]:
        """Left, low, right, high. Raises ValueError where it is empty."""
        return self._bounds

    @cached_property
    def _bounds(self) -> tuple[int, int, int, int]:
        spans = [s for slab in self.slabs for s in slab.spans]
        return (
            min(min(s.left_low, s.left_high) for s in spans),
            self.slabs[0].low,
            max(max(s.right_low, s.right_high) for s in spans),
            self.slabs[-1].high,
        )


NOTHING = Region()


def box(left: int, low: int, right: int, high: int) -> Region:
    """A rectangle; nothing where it has no width or no height.

    >>> box(-2, -5, 2, 0).spans_at(-1)
    ((-2, 2),)
    """
    return trapezoid(low, high, left, right, left, right)


def trapezoid(low: int, high: int, left_low: int, right_low: int, left_high: int, right_high: int) -> Region:
    """A slab with one span."""
    if high <= low or (right_low <= left_low and right_high <= left_high):
        return Region()
    return Region((Slab(low, high, (Span(left_low, right_low, left_high, right_high),)),))


def union(regions: Iterable[Region]) -> Region:
    """All of them together."""
    some = [region for region in regions if region]
    while len(some) > 2:
        some = [reduce(Region.__or__, some[i : i + 2]) for i in range(0, len(some), 2)]
    return reduce(Region.__or__, some, Region())


def pile(slabs: Iterable[Slab]) -> Region:
    """A region of slabs that are given from the lowest up, apart from each other."""
    done: list[Slab] = []
    for slab in slabs:
        stack(done, slab)
    return Region(tuple(done))


def may_meet(a: Region, b: Region) -> bool:
    """Whether two regions may share anything: told of slabs by the rectangles round their spans.

    >>> may_meet(box(0, 0, 2, 2), box(1, 1, 3, 3)), may_meet(box(0, 0, 2, 2), box(2, 0, 3, 3))
    (True, False)
    """
    j = 0
    for p in a.slabs:
        while j < len(b.slabs) and b.slabs[j].high <= p.low:
            j += 1
        for q in b.slabs[j:]:
            if q.low >= p.high:
                break
            if any(min(s[0], s[2]) < max(t[1], t[3]) and min(t[0], t[2]) < max(s[1], s[3])
                   for s in p.spans for t in q.spans):
                return True
    return False


def _at(span: Span, slab: Slab, z: int) -> tuple[int, int]:
    return (
        along(span.left_low, span.left_high, slab.low, slab.high, z),
        along(span.right_low, span.right_high, slab.low, slab.high, z),
    )


def _meet(a: Region, b: Region) -> bool:
    """Whether two regions share any height."""
    return bool(a and b) and a.slabs[0].low < b.slabs[-1].high and b.slabs[0].low < a.slabs[-1].high


@lru_cache(maxsize=1024)
def _combine(a: Region, b: Region, keep: Kept) -> Region:
    """Of two pairs in five the same is asked again within a question."""
    return Region(combined(a.slabs, b.slabs, keep))

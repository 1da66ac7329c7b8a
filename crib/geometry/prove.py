"""The proof: cut a plan again from stock, step by step, sharing nothing with whoever made the plan but the bodies and
where they stand."""

from __future__ import annotations

import heapq
from collections.abc import Sequence
from dataclasses import dataclass
from functools import reduce
from itertools import count, pairwise
from typing import NamedTuple

from crib.geometry.faces import FINE, Made, Standing, made
from crib.geometry.free_positions import Gap, cut, gaps
from crib.geometry.outline import Outline
from crib.geometry.region import Region, Span
from crib.geometry.silhouette import Form


class Step(NamedTuple):
    """A body that passes along the section, standing at x with its lower face at z; `tag` says whose step it is."""

    form: Form
    x: int
    z: int
    tag: int = 0


class Tight(NamedTuple):
    """The closest that anything which must not touch comes to metal, at which step."""

    step: int
    gap: Gap


@dataclass(frozen=True)
class Verdict:
    """What a plan leaves standing of `least`, how deep it cuts beyond `most`, and its tightest spot.

    `left_kept` is what it leaves outside the waivers. `rubs` are the steps at which a clearance isn't kept.
    """

    left: int
    left_kept: int
    gouge: int
    tight: Tight | None
    rubs: tuple[Tight, ...]
    faces: tuple[Made, ...]
    removed: Region

    @property
    def holds(self) -> bool:
        """Whether nothing was left outside the waivers, nothing gouged, nothing rubbed, and every face that leans was
        made by edges that lie along it."""
        return (self.left_kept <= FINE and self.gouge <= FINE and not self.rubs
                and all(made.is_along for made in self.faces))


def prove(outline: Outline, steps: Sequence[Step]) -> Verdict:
    """Cut the steps in order from stock and measure what comes of it."""
    standing = outline.stock | outline.obstacles
    sure, may = Region(), Region()
    tight: Tight | None = None
    rubs = []
    cuts = [cut(step.form.sure, step.x, step.z) for step in steps]
    for number, (step, mine) in enumerate(zip(steps, cuts, strict=True)):
        touched = mine if step.form.may == step.form.sure else cut(step.form.may, step.x, step.z)
        standing = standing - (mine & outline.stock) if outline.obstacles else standing - mine
        for gap in gaps(step.form.clear, standing, step.x, step.z):
            here = Tight(number, gap)
            if gap.slack < 0:
                rubs.append(here)
            if tight is None or gap.gap < tight.gap.gap:
                tight = here
        sure, may = sure | mine, may | touched
    sure = sure & outline.stock
    standings = [Standing(step.tag, step.x, step.z, mine) for step, mine in zip(steps, cuts, strict=True)]
    left = outline.least - sure
    return Verdict(
        left=farthest(left, sure),
        left_kept=0 if outline.is_waived(left) else farthest(_not_waived(outline, left), sure),
        gouge=farthest((may & (outline.stock | outline.obstacles)) - outline.most, outline.most),
        tight=tight,
        rubs=tuple(rubs),
        faces=tuple(made(face, standings, sure, left) for face in outline.faces),
        removed=sure,
    )


def _not_waived(outline: Outline, left: Region) -> Region:
    return reduce(Region.__sub__, (waiver.region for waiver in outline.waivers), left)


def farthest(points: Region, reference: Region) -> int:
    """The greatest distance from a point of one region to the nearest point of another, to `FINE` or a thousandth.

    By branch and bound: the distance to one convex piece is greatest at a corner of a convex cell, so the least of
    those over the pieces bounds the distance within the cell. Infinitely far (2**62) where there is nothing to measure
    to.

    >>> from crib.geometry.region import box
    >>> farthest(box(0, 0, 3000, 4000), box(-10, -10, 0, 0))
    5000
    """
    if not points:
        return 0
    if not reference:
        return 2**62
    quads = [_corners(slab.low, slab.high, s) for slab in reference.slabs for s in slab.spans]
    cells = [_Cell.of(slab.low, slab.high, span, quads) for slab in points.slabs for span in slab.spans]
    best = max(cell.reached for cell in cells)
    heap = [(-cell.bound, number, cell) for number, cell in enumerate(cells)]
    heapq.heapify(heap)
    turn = count(len(heap))
    while heap:
        bound, _, cell = heapq.heappop(heap)
        if -bound <= best + max(FINE, best / 1000):
            break
        for half in cell.halves():
            best = max(best, half.reached)
            heapq.heappush(heap, (-half.bound, next(turn), half))
    return round(best)


@dataclass(frozen=True)
class _Cell:
    """A convex piece of points: the pieces that may be nearest, the distance reached at a corner, and the most that
    there can be within."""

    low: int
    high: int
    span: Span
    near: Sequence[Quad]
    reached: float
    bound: float

    @staticmethod
    def of(low: int, high: int, span: Span, quads: Sequence[Quad]) -> _Cell:
        corners = _corners(low, high, span)
        rows = [[_to_quad(quad, *corner) for corner in corners] for quad in quads]
        bound = min(max(row) for row in rows)
        size = max(span.right_low - span.left_low, span.right_high - span.left_high) + high - low
        near = [quad for quad, row in zip(quads, rows, strict=True) if min(row) - size <= bound]
        return _Cell(low, high, span, near, max(min(column) for column in zip(*rows, strict=True)), bound)

    def halves(self) -> list[_Cell]:
        """The cell cut in two, whichever way bounds it closer; across its longer side where both do alike."""
        span = self.span
        wide = max(span.right_low - span.left_low, span.right_high - span.left_high) > self.high - self.low
        cuts = (_across, _level) if wide else (_level, _across)
        ways = [[_Cell.of(*half, self.near) for half in cut(self.low, self.high, span)] for cut in cuts]
        return min(ways, key=lambda way: round(max(half.bound for half in way)))


def _across(low: int, high: int, s: Span) -> tuple[tuple[int, int, Span], ...]:
    at_low, at_high = (s.left_low + s.right_low) // 2, (s.left_high + s.right_high) // 2
    return (low, high, Span(s.left_low, at_low, s.left_high, at_high)), (
        low,
        high,
        Span(at_low, s.right_low, at_high, s.right_high),
    )


def _level(low: int, high: int, s: Span) -> tuple[tuple[int, int, Span], ...]:
    left, right, middle = (s.left_low + s.left_high) // 2, (s.right_low + s.right_high) // 2, (low + high) // 2
    return (low, middle, Span(s.left_low, s.right_low, left, right)), (
        middle,
        high,
        Span(left, right, s.left_high, s.right_high),
    )


Quad = tuple[tuple[float, float], ...]


def _corners(low: int, high: int, s: Span) -> Quad:
    return ((s.left_low, low), (s.right_low, low), (s.right_high, high), (s.left_high, high))


def _to_quad(quad: Quad, x: float, z: float) -> float:
    inside = True
    nearest = float("inf")
    for (x0, z0), (x1, z1) in pairwise((*quad, quad[0])):
        dx, dz = x1 - x0, z1 - z0
        if dx * (z - z0) - dz * (x - x0) < 0:
            inside = False
        length = dx * dx + dz * dz
        t = min(1.0, max(0.0, ((x - x0) * dx + (z - z0) * dz) / length)) if length else 0.0
        nearest = min(nearest, ((x - x0 - t * dx) ** 2 + (z - z0 - t * dz) ** 2) ** 0.5)
    return 0.0 if inside else nearest

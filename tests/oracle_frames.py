"""A second opinion on what is cut down an axis and on what is seen from above: grids of cells, for any kind of feature.

What is asked and what is done come as numbers alone: trapezoids, rounded boxes, stacks of discs, corners of ways. A
cell is metal or not by its centre; nothing of the kernel's sweeps, intervals, signed distances or fixed points is used.
Tests allow `NEAR`, two cells, as the other grids do.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from tests import oracle

Bits = NDArray[np.bool_]
Reals = NDArray[np.float64]

Disc = tuple[float, float, float, float, float, float]
"""A piece of a body: low, high, radius low and high, clearance beside and above or below [mm]."""

Leaning = tuple[float, float, float, float, float, float]
"""Low, high, left and right at the low end, left and right at the high end [mm]."""

Shape = tuple[float, float, float, float, float]
"""Left, low, right, high of a core, and the radius that it is grown by [mm]."""

Level = tuple[float, float, Shape]
"""From a height to a height, and what it is there [mm]."""


@dataclass(frozen=True)
class Body:
    """What a body cuts, may touch, and must keep clear, as discs from its lower face up [mm]."""

    sure: tuple[Disc, ...]
    may: tuple[Disc, ...]
    clear: tuple[Disc, ...]


@dataclass(frozen=True)
class Stroke:
    """A body and where it goes: its lower face; from above the corners of its way and what must be free where it comes
    down, None where it goes on; round an axis how far beside it its own axis stands before, and while it goes round
    [mm]."""

    body: Body
    z: float
    path: tuple[tuple[float, float], ...] = ()
    free: float | None = 0.0
    beside: tuple[float, float] | None = None


@dataclass(frozen=True)
class Found:
    """What the grid finds: how far anything stands from what is gone, how deep it cuts where it mustn't [mm]; the
    strokes that surely rub, and those that may; those that surely are forced down."""

    left: float
    gouge: float
    rubs: frozenset[int]
    may_rub: frozenset[int]
    forced: frozenset[int]


@dataclass(frozen=True)
class Round:
    """What is asked about an axis, as trapezoids: the metal before, what must go, what may."""

    stock: tuple[Leaning, ...]
    least: tuple[Leaning, ...]
    most: tuple[Leaning, ...]


def about_an_axis(asked: Round, strokes: Sequence[Stroke], cell: float) -> Found:
    """Cut strokes down an axis out of the half-section, cell by cell."""
    near = 2 * cell
    wide = max((abs(x) for _, _, *xs in (*asked.least, *asked.most) for x in xs if abs(x) < 500), default=5.0)
    wide = max([wide, *(r + max(map(abs, one.beside or (0.0,))) for one in strokes
                        for d in (*one.body.sure, *one.body.clear) for r in d[2:4])]) + 4 * cell
    lows = [z for low, high, *_ in (*asked.least, *asked.most) for z in (low, high) if abs(z) < 500]
    low = min([*lows, *(one.z for one in strokes)]) - 2.0
    r = (np.arange(round(wide / cell)) + 0.5) * cell
    z = (np.arange(round((1.0 - low) / cell)) + 0.5) * cell + low
    stock, least, most = (_drawn(shape, r, z) for shape in (asked.stock, asked.least, asked.most))
    gone, touched = np.zeros_like(stock), np.zeros_like(stock)
    rubs, may_rub, forced = set(), set(), set()
    for number, one in enumerate(strokes):
        if one.beside is not None:
            before = stock & ~gone
            gone |= _ring(one.body.sure, np.abs(r - abs(one.beside[1])), z - one.z)
            touched |= _on_its_way(one, r, z, cell)
            for by, into in ((-near, rubs), (near, may_rub)):
                if _is_met(one, r, z, cell, by, before, stock & ~gone):
                    into.add(number)
            continue
        core = (r < (one.free or 0.0) - cell / 2)[None, :] & (z > one.z + cell / 2)[:, None]
        if (stock & ~gone & least & core).any():
            forced.add(number)
        gone |= r[None, :] < _widest_yet(one.body.sure, z - one.z)[:, None]
        touched |= r[None, :] < _widest_yet(one.body.may, z - one.z)[:, None]
        standing = stock & ~gone
        for bottom, _, a, b, side, end in one.body.clear:
            beside = max(a, b) + side
            for by, into in ((-near, rubs), (near, may_rub)):
                if (standing & (r < beside + by)[None, :] & (z > one.z + bottom - end - by)[:, None]).any():
                    into.add(number)
    return Found(_far(least & ~gone, gone, cell), _far(touched & stock & ~most, most, cell), frozenset(rubs),
                 frozenset(may_rub), frozenset(forced))


def _ring(discs: Iterable[Disc], off: Reals, up: Reals) -> Bits:
    """The cells that a body fills as it goes round, which are so far off the way of its axis."""
    radius = _radius(discs, up)[:, None]
    return (off[None, :] < radius) & (radius > 0)


def _off_the_way(one: Stroke, r: Reals, cell: float) -> Reals:
    """How far each radius is from where its axis stands on the way out, a cell apart at the most."""
    assert one.beside is not None
    start, end = one.beside
    stands = np.abs(np.linspace(start, end, 2 + int(abs(end - start) / cell)))
    return np.asarray(np.abs(r[None, :] - stands[:, None]).min(axis=0))


def _on_its_way(one: Stroke, r: Reals, z: Reals, cell: float) -> Bits:
    """What it may pass over: down where it comes down, then out."""
    found = _ring(one.body.may, _off_the_way(one, r, cell), z - one.z)
    if one.free is not None and one.beside is not None:
        found |= np.abs(r[None, :] - abs(one.beside[0])) < _widest_yet(one.body.may, z - one.z)[:, None]
    return found


def _is_met(one: Stroke, r: Reals, z: Reals, cell: float, by: float, before: Bits, standing: Bits) -> bool:
    """Whether what must keep clear comes to metal, by so much more or less: on its way down to what stood before, but
    for what the teeth open there; on the way out to what stands then."""
    assert one.beside is not None
    start, end = one.beside
    if one.free is not None:
        opened = np.abs(r[None, :] - abs(start)) < _widest_yet(one.body.sure, z - one.z)[:, None]
        there = before & ~opened if start == end else before
        for bottom, _, a, b, side, up in one.body.clear:
            if (there & (np.abs(r - abs(start)) < max(a, b) + side + by)[None, :]
                    & (z > one.z + bottom - up - by)[:, None]).any():
                return True
    off = _off_the_way(one, r, cell)
    for bottom, top, a, b, side, up in one.body.clear:
        grown: Disc = (bottom - up - by, top + up + by, a + side + by, b + side + by, 0.0, 0.0)
        if (standing & _ring((grown,), off, z - one.z)).any():
            return True
    return False


def _drawn(shapes: Iterable[Leaning], r: Reals, z: Reals) -> Bits:
    """The cells of a half-section that lie in any of some trapezoids."""
    found = np.zeros((len(z), len(r)), dtype=bool)
    for low, high, left_low, right_low, left_high, right_high in shapes:
        share = (z - low) / (high - low)
        left, right = (a + (b - a) * share for a, b in ((left_low, left_high), (right_low, right_high)))
        rows = (z > low) & (z < high)
        found |= rows[:, None] & (r[None, :] > left[:, None]) & (r[None, :] < right[:, None])
    return found


def _radius(discs: Iterable[Disc], up: Reals) -> Reals:
    """How wide a body is at heights over its lower face."""
    found = np.zeros(len(up))
    for low, high, a, b, *_ in discs:
        inside = (up > low) & (up < high)
        found = np.where(inside, np.maximum(found, a + (b - a) * (up - low) / (high - low)), found)
    return found


def _widest_yet(discs: Sequence[Disc], up: Reals) -> Reals:
    """How wide what came down past a height was."""
    return np.maximum.accumulate(_radius(discs, up))


def _far(some: Bits, others: Bits, cell: float) -> float:
    return oracle.farthest(some, others) / oracle.CELL * cell if some.any() else 0.0


@dataclass(frozen=True)
class Seen:
    """What is asked from above: what must go, what may, what was free, and over what nothing stands."""

    least: tuple[Level, ...]
    most: tuple[Level, ...]
    before: tuple[Level, ...]
    top: float


def from_above(asked: Seen, strokes: Sequence[Stroke], cell: float, margin: float = 1.0) -> Found:
    """Cut strokes along their ways out of a block, a level at a time at every height at which anything changes."""
    near = 2 * cell
    x, y = _grid(asked, strokes, cell, margin)
    off = cache(lambda path: _off(x, y, path))
    heights = np.array(list(_heights(asked, strokes)))
    sure = [_radius(one.body.sure, heights - one.z) for one in strokes]
    may_be = [_radius(one.body.may, heights - one.z) for one in strokes]
    held = cache(lambda shape: _inside(x, y, (shape,)))

    def drawn(levels: Iterable[Level]) -> Bits:
        """The cells in what some levels are at this height; a shape that goes on over many is drawn once."""
        return np.logical_or.reduce([held(shape) for low, high, shape in levels if low < z < high] or [nothing])

    nothing = np.zeros((len(y), len(x)), dtype=bool)
    left = gouge = 0.0
    rubs, may_rub, forced = set(), set(), set()
    floor = min((low for low, _, _ in asked.most), default=0.0)
    for level, z in enumerate(heights):
        before = drawn(asked.before)
        gone, touched = before.copy(), np.zeros_like(before)
        for number, one in enumerate(strokes):
            away = off(one.path)
            if one.free and z > one.z + near and np.where(gone, np.inf, off(one.path[:1])).min() < one.free - near:
                forced.add(number)
            if sure[number][level] > 0:
                gone |= away < sure[number][level]
            if may_be[number][level] > 0:
                touched |= away < may_be[number][level]
            beside = [d for d in one.body.clear if one.z + d[0] - d[5] - near < z < one.z + d[1] + d[5] + near]
            nearest = np.where(gone, np.inf, away).min() if beside else np.inf
            for low, high, a, b, side, end in beside:
                for by, into in ((-near, rubs), (near, may_rub)):
                    if one.z + low - end - by < z < one.z + high + end + by and nearest < max(a, b) + side + by:
                        into.add(number)
        must, may = drawn(asked.least), drawn(asked.most)
        left = max(left, _far(must & ~gone, gone, cell))
        if z < floor:
            gouge = max(gouge, floor - z if touched.any() else 0.0)
        else:
            gouge = max(gouge, _far(touched & ~may, may, cell))
    return Found(left, gouge, frozenset(rubs), frozenset(may_rub), frozenset(forced))


def _grid(asked: Seen, strokes: Sequence[Stroke], cell: float, margin: float) -> tuple[Reals, Reals]:
    """Cells round the ways and round what must go."""
    far = max((r for one in strokes for d in one.body.sure for r in d[2:4]), default=1.0) + margin
    xs = [x for one in strokes for x, _ in one.path] + [v for *_, s in asked.least for v in (s[0], s[2])]
    ys = [y for one in strokes for _, y in one.path] + [v for *_, s in asked.least for v in (s[1], s[3])]
    return tuple((np.arange(round((max(some) - min(some) + 2 * far) / cell)) + 0.5) * cell + min(some) - far
                 for some in (xs, ys))  # type: ignore[return-value]


def _heights(asked: Seen, strokes: Sequence[Stroke]) -> Iterator[float]:
    """The middle between every two heights at which anything changes, below the top."""
    edges = {z for low, high, _ in (*asked.least, *asked.most, *asked.before) for z in (low, high)}
    for one in strokes:
        edges |= {one.z + z for d in (*one.body.sure, *one.body.may) for z in d[:2]}
        edges |= {one.z + z + by for d in one.body.clear for z, by in ((d[0], -d[5]), (d[1], d[5]))}
    lowest = min((low for low, _, _ in (*asked.least, *asked.most) if low > -500), default=-1.0) - 1.0
    kept = sorted({z for z in edges if lowest < z < asked.top} | {asked.top, lowest})
    yield from ((a + b) / 2 for a, b in pairwise(kept) if b - a > 1e-6)


def _off(x: Reals, y: Reals, path: Sequence[tuple[float, float]]) -> Reals:
    """How far each cell is from a way along and across."""
    squares = np.full((len(y), len(x)), np.inf)
    for a, b in list(pairwise(path)) or [(path[0], path[0])]:
        dx, dy = (np.maximum(np.maximum(min(p, q) - at, at - max(p, q)), 0.0)
                  for at, p, q in ((x, a[0], b[0]), (y, a[1], b[1])))
        np.minimum(squares, (dx**2)[None, :] + (dy**2)[:, None], out=squares)
    return np.asarray(np.sqrt(squares))


def _inside(x: Reals, y: Reals, shapes: Iterable[Shape]) -> Bits:
    """The cells in any of some rounded boxes."""
    found = np.zeros((len(y), len(x)), dtype=bool)
    for left, low, right, high, radius in shapes:
        dx, dy = (np.maximum(np.maximum(a - at, at - b), 0.0) for at, a, b in ((x, left, right), (y, low, high)))
        found |= np.hypot(dx[None, :], dy[:, None]) <= radius
    return found

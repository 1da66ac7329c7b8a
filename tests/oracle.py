"""A second opinion on plans: a brute-force grid, built from raw numbers only.

Nothing here looks at the program's outlines, silhouettes or regions: a feature is drawn from its sizes and limits, a
cutter from its diameter, face, neck, fillet, reach, shank and corner, in cells of `CELL` mm. A cell is metal or not
by its centre. Distances are between centres of cells, so that they are out by a cell's diagonal at the most where
edges fall between cells, and by nothing where edges lie on them; tests allow `NEAR`, two cells.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import chain, pairwise
from typing import Any

import numpy as np
from numpy.typing import NDArray

CELL = 0.02
"""Side of a cell [mm]."""

NEAR = 2 * CELL
"""How far grid and proof may differ [mm]: a cell for each of the two edges that a distance is measured between."""

RUB = 0.002 * 25.4
"""What a shank that follows the teeth must be thinner on each side [mm]; common practice, no source."""

STICK_OUT = 38.1
"""How much shank stands out above the reach where the overall length isn't known [mm]."""

GRIP = 25.4
"""How much of the shank is inside the holder [mm]."""

NOSE = 100.0
"""How tall the spindle's nose is drawn [mm]."""

Bits = NDArray[np.bool_]
Rect = tuple[float, float, float, float]
"""Left, low, right, high [mm]."""

Leaning = tuple[float, float, float, float, float, float]
"""Low, high, left and right at the low end, left and right at the high end [mm]."""

Shape = Rect | Leaning


def bounds(shape: Shape) -> Rect:
    """The rectangle round a shape."""
    if len(shape) == 4:
        return shape
    low, high, left, right, left_high, right_high = shape
    return min(left, left_high), low, max(right, right_high), high


@dataclass(frozen=True)
class Raw:
    """A cutter by its numbers [mm]. `tall`: height of the teeth; `buried`: of the keyseat and T-slot sort."""

    diameter: float
    tall: float
    neck: float | None
    reach: float | None
    shank: float
    overall: float | None = None
    fillet: float = 0.0
    corner: float = 0.0
    buried: bool = False

    def radii(self, up: NDArray[np.float64]) -> NDArray[np.float64]:
        """The radius of the teeth at heights above the lower face; a rounded corner is a true arc."""
        corner = min(self.corner, self.diameter / 2)
        radius = np.full(len(up), self.diameter / 2)
        if corner > 0:
            below = np.clip(corner - up, 0.0, corner)
            radius -= np.where(up < corner, corner - np.sqrt(corner**2 - below**2), 0.0)
        return radius

    @classmethod
    def of(cls, cutter: dict[str, Any]) -> Raw:
        """From a cutter as other programs read it."""
        buried = cutter["kind"] != "end-mill"
        return cls(
            cutter["diameter_mm"],
            cutter["face_mm"] if buried else cutter["length_of_cut_mm"],
            cutter["neck_mm"],
            cutter["reach_mm"],
            cutter["shank_mm"],
            cutter["overall_length_mm"],
            (cutter["neck_fillet_mm"] or 0.0) if buried else 0.0,
            cutter["corner_radius_mm"] or 0.0,
            buried,
        )

    def stem(self, clear: Clear) -> list[tuple[str, float, float, float, float, float]]:
        """What must not touch: name, from and to above the lower face, radius, clearance beside and above or below. A
        neck on record that has no room below the shank is there nevertheless: what stands on the teeth is as fat."""
        beside = clear.neck if self.buried else RUB
        top = max(self.tall, self.reach or self.tall)
        end = max(top, self.overall if self.overall is not None else top + STICK_OUT)
        parts, low = [], self.tall
        if self.neck is not None and top > low:
            if self.fillet:
                high = min(top, low + self.fillet)
                parts.append(("fillet", low, high, self.neck / 2 + self.fillet, beside, 0.0))
                low = high
            parts.append(("neck", low, top, self.neck / 2, beside, 0.0))
            low = top
        shank = max(self.shank, self.neck or 0.0) if self.buried and low == self.tall else self.shank
        parts.append(("shank", low, end, shank / 2, beside, clear.end))
        if self.overall is not None:
            low = max(self.overall - GRIP, self.tall, self.reach or 0.0, 1.0)
            parts.append(("nose", low, low + NOSE, clear.nose / 2, clear.neck, clear.end))
        return [part for part in parts if part[2] > part[1]]


@dataclass(frozen=True)
class Clear:
    """The clearances asked, and the spindle's nose [mm]."""

    neck: float
    end: float
    nose: float


@dataclass(frozen=True)
class Sketch:
    """A feature from its sizes: what must go, what may go, the metal before and what stands beside it [mm]."""

    least: tuple[Shape, ...]
    most: tuple[Shape, ...]
    stock: tuple[Shape, ...]
    walls: tuple[Rect, ...] = ()


Limits = tuple[float, float, float]
"""Least, middle, most of a size [mm]."""

AWAY = 1e6


def sketch(kind: str, sizes: dict[str, Limits], walls: Sequence[tuple[float, float]] = (),
           on_side: bool = False) -> Sketch:
    """Draw a slot, a T-slot or a step. The head's height counts from the floor that is aimed at; a step's x from the
    finished wall that is aimed at. Walls by height and distance, below nought in front. A slot `on_side` opens at the
    right, x from its face and z from its middle; a step so is one with width and depth changed over."""
    beside = tuple((distance, 0.0, AWAY, height) if distance > 0 else (-AWAY, 0.0, distance, height)
                   for height, distance in walls)
    depth = sizes["depth"]
    if kind == "slot" and on_side:
        least, most = ((-depth[i], -sizes["width"][i] / 2, 0.0, sizes["width"][i] / 2) for i in (0, 2))
        return Sketch((least,), (most,), ((-AWAY, -AWAY, 0.0, AWAY),), beside)
    if kind == "step":
        width, depth = (depth, sizes["width"]) if on_side else (sizes["width"], depth)
        edge = width[1]
        least, most = ((edge - width[i], -depth[i], edge, 0.0) for i in (0, 2))
        return Sketch((least,), (most,), ((-AWAY, -AWAY, edge, 0.0),), beside)
    stock = ((-AWAY, -AWAY, AWAY, 0.0),)
    if kind == "slot":
        least, most = (_about(sizes["width"][i], -depth[i], 0.0) for i in (0, 2))
        return Sketch((least,), (most,), stock, beside)
    drawn = []
    for i in (0, 2):
        ceiling = -depth[1] + sizes["head_height"][i]
        low = ceiling if i == 0 else -depth[2]
        drawn.append((_about(sizes["throat"][i], low, 0.0), _about(sizes["head_width"][i], -depth[i], ceiling)))
    return Sketch(drawn[0], drawn[1], stock, beside)


def _about(width: float, low: float, high: float) -> Rect:
    return (-width / 2, low, width / 2, high)


class Grid:
    """Cells from left to right and from low to high."""

    def __init__(self, left: float, low: float, right: float, high: float) -> None:
        columns, rows = round((right - left) / CELL), round((high - low) / CELL)
        self.x = (round(left / CELL) + np.arange(columns) + 0.5) * CELL
        self.z = (round(low / CELL) + np.arange(rows) + 0.5) * CELL

    def none(self) -> Bits:
        return np.zeros((len(self.z), len(self.x)), dtype=bool)

    def fill(self, shapes: Iterable[Shape]) -> Bits:
        """The cells whose centre is in any of the shapes."""
        cells = self.none()
        for shape in shapes:
            left, low, right, high = bounds(shape)
            here = _run((self.z > low) & (self.z < high)), _run((self.x > left) & (self.x < right))
            if len(shape) == 4:
                cells[here] = True
                continue
            low, high, left, right, left_high, right_high = shape
            share, x = ((self.z[here[0]] - low) / (high - low))[:, None], self.x[None, here[1]]
            cells[here] |= (x > left + share * (left_high - left)) & (x < right + share * (right_high - right))
        return cells

    def teeth(self, raw: Raw, x: float, z: float) -> tuple[tuple[slice, slice], Bits]:
        """The cells that the teeth fill, with the axis at x and the lower face at z: in which rows and columns, and
        which of those."""
        up, across = self.z - z, np.abs(self.x - x)
        rows, columns = _run((up > 0) & (up < raw.tall)), _run(across < raw.diameter / 2)
        return (rows, columns), across[None, columns] < raw.radii(up[rows])[:, None]


def _run(some: Bits) -> slice:
    """The places from the first to the last of some in a row."""
    places = np.flatnonzero(some)
    return slice(int(places[0]), int(places[-1]) + 1) if len(places) else slice(0, 0)


@dataclass(frozen=True)
class Found:
    """What the grid finds [mm]. `left` and `gouge` as the proof has them, infinite where there is nothing to measure
    to; `gap`: the least distance of anything that doesn't cut from standing metal, 0 where it is in it; `slack`: the
    least room over the clearances asked, negative where they aren't kept; `rubs`: `slack` for each pass; `idle`:
    whether a pass went through air only."""

    left: float
    gouge: float
    gap: float
    slack: float
    rubs: tuple[float, ...]
    idle: bool


def walk(drawn: Sketch, clear: Clear, passes: Sequence[tuple[Raw, float, float]]) -> Found:
    """Cut the passes (cutter, x, z) in order out of the stock."""
    grid = _grid(drawn, clear, passes)
    stock, walls = grid.fill(drawn.stock), grid.fill(drawn.walls)
    least, most = grid.fill(drawn.least), grid.fill(drawn.most)
    removed, touched, metal = grid.none(), grid.none(), stock | walls
    gap, rubs, idle = np.inf, [], False
    for raw, x, z in passes:
        here, teeth = grid.teeth(raw, x, z)
        cut = teeth & stock[here]
        touched[here] |= cut | (teeth & walls[here])
        removed[here] |= cut
        metal[here] &= ~cut | walls[here]
        idle |= not cut.any()
        near, slack = _stand(grid, metal, raw, x, z, clear)
        gap = min(gap, near)
        rubs.append(slack)
    return Found(farthest(least & ~removed, removed), farthest(touched & ~most, most), gap, min(rubs, default=np.inf),
                 tuple(rubs), idle)


def _grid(drawn: Sketch, clear: Clear, passes: Sequence[tuple[Raw, float, float]]) -> Grid:
    """Wide enough for all that moves, a little deeper than anything cuts, and as high as the walls, or as the metal is
    where some of it is above what is cut, up to where the highest part of a cutter begins."""
    wide = max((abs(x) + max(raw.diameter, raw.shank) / 2 for raw, x, _ in passes), default=1.0)
    walls = (min(abs(rect[0]), abs(rect[2])) for rect in drawn.walls)
    drawn_most = [bounds(shape) for shape in drawn.most]
    wide = max(wide, *(max(rect[2], -rect[0]) for rect in drawn_most), *walls) + 0.5
    deep = min(min(rect[1] for rect in drawn_most), min((z for _, _, z in passes), default=0.0)) - 0.5
    deep = min(deep, min((z + low for raw, _, z in passes for _, low, *_ in raw.stem(clear)), default=0.0))
    high = max((rect[3] for rect in (*drawn.walls, *map(bounds, drawn.stock))), default=0.0)
    if high > 0:
        high = min(high, max((z + low for raw, _, z in passes for _, low, *_ in raw.stem(clear)), default=0.0)) + 0.5
        high = max(high, *(rect[3] for rect in (*drawn.walls, *drawn_most)))
    return Grid(-wide, deep, wide, high)


def _stand(grid: Grid, metal: Bits, raw: Raw, x: float, z: float, clear: Clear) -> tuple[float, float]:
    """The least distance and the least slack of all that doesn't cut, every cell of metal a square."""
    near, slack = np.inf, np.inf
    middle = int(np.searchsorted(grid.x, x))
    right, left = metal[:, middle:], metal[:, :middle][:, ::-1]
    nearest = np.minimum(_first(right, grid.x[middle:] - x), _first(left, x - grid.x[:middle][::-1]))
    for _, low, high, radius, side, end in raw.stem(clear):
        up = np.maximum(z + low - grid.z, grid.z - z - high) - CELL / 2
        in_row = nearest - radius - CELL / 2
        near = min(near, float(np.hypot(np.maximum(in_row, 0), np.maximum(up, 0)).min()))
        slack = min(slack, float(np.maximum(in_row - side, up - end).min()))
    return near, slack


def _first(metal: Bits, away: NDArray[np.float64]) -> NDArray[np.float64]:
    """How far away the first cell of each row is."""
    if not metal.shape[1]:
        return np.full(len(metal), np.inf)
    places = metal.argmax(axis=1)
    return np.where(metal[np.arange(len(metal)), places], away[places], np.inf)


MANY, BLOCK = 2000, 8
"""From so many cells on they are taken by blocks, so many cells wide and high."""


def farthest(points: Bits, reference: Bits) -> float:
    """The greatest distance from a cell of one set to the nearest cell of another [mm]: every row is looked through;
    the distance straight up, down or across bounds it and tells which cells to look at first. Of many one of each
    block is looked at before, for no other of it is farther away by more than they are apart."""
    with_points = _run(points.any(axis=1))
    if with_points == slice(0, 0):
        return 0.0
    if not reference.any():
        return np.inf
    along = _straight_up(reference)[with_points]
    bounds = np.where(points[with_points], np.minimum(along, _straight_along(reference[with_points])), 0)
    at = np.arange(reference.shape[1])

    def off(rows: NDArray[np.int_], columns: NDArray[np.int_]) -> NDArray[np.float64]:
        squares = (at[None, :] - columns[:, None]) ** 2 + along[rows].astype(float) ** 2
        return np.asarray(np.sqrt(squares.min(axis=1)))

    first = np.unravel_index(bounds.argmax(), bounds.shape)
    best = float(off(*(np.array([place]) for place in first))[0])
    rows, columns = np.nonzero(bounds > best)
    most = bounds[rows, columns].astype(float)
    if len(rows) > MANY:
        _, firsts, block = np.unique(rows // BLOCK * len(at) + columns // BLOCK, return_index=True, return_inverse=True)
        first_off = np.concatenate([off(rows[some], columns[some]) for k in range(0, len(firsts), 256)
                                    for some in [firsts[k : k + 256]]])
        best = max(best, float(first_off.max()))
        most = np.minimum(most, first_off[block] + BLOCK * 2**0.5)
        still = most > best
        rows, columns, most = rows[still], columns[still], most[still]
    order = np.argsort(-most, kind="stable")
    for place in range(0, len(order), 64):
        some = order[place : place + 64]
        if most[some[0]] <= best:
            break
        best = max(best, float(off(rows[some], columns[some]).max()))
    return best * CELL


def _straight_up(reference: Bits) -> NDArray[np.signedinteger[Any]]:
    """For each cell how many cells away, straight up or down, the nearest reference cell is; more than the grid is wide
    and high together where there is none."""
    count = _counts(reference)
    away = np.where(reference, count(0), count(sum(reference.shape)))
    for before, here in chain(pairwise(away), pairwise(away[::-1])):
        np.minimum(here, before + count(1), out=here)
    return away


def _straight_along(reference: Bits) -> NDArray[np.signedinteger[Any]]:
    """The same to the left or right: from the last one before it, and the first one after it."""
    count, wide, far = _counts(reference), reference.shape[1], sum(reference.shape)
    at = np.arange(wide, dtype=count)
    before = np.where(reference, at, count(-far))
    after = np.where(reference, at, count(wide + far))
    np.maximum.accumulate(before, axis=1, out=before)
    np.minimum.accumulate(after[:, ::-1], axis=1, out=after[:, ::-1])
    return np.minimum(at - before, after - at)


def _counts(cells: Bits) -> type[np.int16 | np.int32]:
    """Small whole numbers that are large enough to count the cells of a grid one way and the other."""
    return np.int16 if 4 * sum(cells.shape) < 2**15 else np.int32


def can_stand(cuts: Sequence[Rect], stem: Sequence[Rect], keep: Bits, standing: Bits) -> Bits:
    """Brute-force reach in whole cells: for every x and z of the cells' corners, whether what cuts (rectangles about
    the axis, from the lower face) meets no cell of `keep` and what doesn't, its clearance included, none of
    `standing`. The answer has a row for each corner's z, a column for each x.
    """
    rows, columns = keep.shape
    free = np.ones((rows + 1, columns + 1), dtype=bool)
    up, along = np.arange(rows + 1), np.arange(columns + 1)
    for rects, metal in ((cuts, keep), (stem, standing)):
        counted = np.zeros((rows + 1, columns + 1), dtype=int)  # the cells of metal below and left of a corner
        counted[1:, 1:] = metal.cumsum(axis=0).cumsum(axis=1)
        for left, low, right, high in rects:
            bottom, top = (np.clip(up + int(edge), 0, rows)[:, None] for edge in (low, high))
            first, last = (np.clip(along + int(edge), 0, columns)[None, :] for edge in (left, right))
            free &= counted[top, last] - counted[bottom, last] - counted[top, first] + counted[bottom, first] == 0
    return free

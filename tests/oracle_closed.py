"""A second opinion on closed ends: a brute-force block of cells in three dimensions, built from raw numbers only.

Nothing here looks at the program's layers, shapes or silhouettes. The feature is drawn from its sizes, cell by cell at
each height; each pass is drawn from the corners of its way and the cutter's numbers; a cell is metal or not by its
centre. Distances are measured level by level. Tests allow `NEAR`, two cells.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

import numpy as np
from numpy.typing import NDArray

from tests import oracle
from tests.oracle import Bits, Clear, Raw

CELL = 0.05
NEAR = 2 * CELL

Limits = tuple[float, float, float]
Body = tuple[Raw, float]
"""A cutter and the height of its lower face."""
Way = tuple[tuple[float, float], ...]
Window = tuple[slice, slice]
"""Rows and columns of a level."""

EVERYWHERE: Window = (slice(None), slice(None))


@dataclass(frozen=True)
class Pass:
    """A cutter, the corners of its way (along from the left end, across), its lower face."""

    raw: Raw
    path: Way
    z: float


@dataclass(frozen=True)
class Found:
    """What the block finds [mm]: as the proof has them; `slack` of each pass, negative where it rubs; `down`: the
    widest round that was free all the way down where each pass begins."""

    left: float
    gouge: float
    slack: tuple[float, ...]
    down: tuple[float, ...]


class Block:
    """Cells along, across and up, about the middle of the feature, with the surface at the top. Levels between two
    `rows` at which anything begins or ends hold the same, so that one stands for all of them: `z` is the middle of the
    lowest."""

    def __init__(self, long: float, wide: float, deep: float, heights: Iterable[float], bodies: Iterable[Body]) -> None:
        self.x = (np.arange(-round(long / 2 / CELL), round(long / 2 / CELL)) + 0.5) * CELL
        self.y = (np.arange(-round(wide / 2 / CELL), round(wide / 2 / CELL)) + 0.5) * CELL
        self._every = (np.arange(-round(deep / CELL), 0) + 0.5) * CELL
        begin = {0, *map(self._row, heights)}
        for raw, z in bodies:
            radii = [_radius(raw, level - z) for level in self._every]
            begin.update(row for row, (here, over) in enumerate(pairwise(radii), 1) if here != over)
        self._rows = sorted(begin - {len(self._every)})
        self.z = self._every[self._rows]
        self._leg = np.empty((len(self.y), len(self.x)))

    def _row(self, height: float) -> int:
        return int(np.searchsorted(self._every, height))

    def none(self) -> Bits:
        return np.zeros((len(self.z), len(self.y), len(self.x)), dtype=bool)

    def rows(self, low: float, high: float) -> slice:
        """The levels between two heights at which something begins or ends."""
        places = {row: place for place, row in enumerate((*self._rows, len(self._every)))}
        return slice(places[self._row(low)], places[self._row(high)])

    def near(self, path: Way, far: float) -> Window:
        """The rows and columns in which a cell may lie no farther than so from a way."""
        rows, columns = (slice(int(np.searchsorted(at, min(along) - far)), int(np.searchsorted(at, max(along) + far)))
                         for at, along in ((self.y, [y for _, y in path]), (self.x, [x for x, _ in path])))
        return rows, columns

    def off(self, path: Way, here: Window = EVERYWHERE) -> NDArray[np.float64]:
        """How far each cell of a level is from a way."""
        x, y = self.x[here[1]], self.y[here[0]]
        squares = np.empty((len(y), len(x)))
        for number, (a, b) in enumerate(list(pairwise(path)) or [(path[0], path[0])]):
            along, across = _outside(x, a[0], b[0]), _outside(y, a[1], b[1])
            leg = self._leg[here] if number else squares
            np.add((across**2)[:, None], (along**2)[None, :], out=leg)
            if number:
                np.minimum(squares, leg, out=squares)
        return np.asarray(np.sqrt(squares, out=squares))

    def stadium(self, long: float, wide: float) -> Bits:
        """Round ends, as wide as the room."""
        half = max(0.0, (long - wide) / 2)
        return self.off(((-half, 0.0), (half, 0.0))) < wide / 2

    def rounded(self, long: float, wide: float, corner: float) -> Bits:
        """A rectangle with round corners; no rounder than half its width."""
        corner = min(corner, long / 2, wide / 2)
        dx = np.maximum(np.abs(self.x) - (long / 2 - corner), 0.0)[None, :]
        dy = np.maximum(np.abs(self.y) - (wide / 2 - corner), 0.0)[:, None]
        return (np.hypot(dx, dy) <= corner) & self.rectangle(long, wide)

    def rectangle(self, long: float, wide: float) -> Bits:
        return (np.abs(self.x) < long / 2)[None, :] & (np.abs(self.y) < wide / 2)[:, None]


def _outside(at: NDArray[np.float64], a: float, b: float) -> NDArray[np.float64]:
    return np.maximum(np.maximum(min(a, b) - at, at - max(a, b)), 0.0)


def walk(kind: str, sizes: dict[str, Limits], clear: Clear, passes: Sequence[Pass]) -> Found:
    """Cut the passes in order out of a block of metal."""
    long, deep = sizes["length"], sizes["depth"]
    wide = sizes.get("head_width", sizes.get("width", (0, 0, 0)))
    reach = max((one.raw.diameter for one in passes), default=1.0)
    block = Block(max(long[2], sizes.get("head_length", long)[2]) + reach + 1, wide[2] + reach + 1, deep[2] + 0.5,
                  _heights(sizes, clear, passes), {(one.raw, one.z) for one in passes})
    least, most = _drawn(block, kind, sizes)
    removed = block.none()
    if "entry_hole" in sizes:
        removed[block.rows(-deep[1], 0.0)] |= block.off(((0.0, 0.0),)) < sizes["entry_hole"][0] / 2
        most[block.rows(-deep[1], 0.0)] |= removed[block.rows(-deep[1], 0.0)]
    before, metal = removed.copy(), ~removed
    slack, down, ways = [], [], dict[Way, NDArray[np.float64]]()
    for one in passes:
        path = tuple((along - long[1] / 2, across) for along, across in one.path)
        down.append(_free(block, metal, path[0], one.z))
        if path not in ways:
            ways[path] = block.off(path)
        off = ways[path]
        radii = [_radius(one.raw, z - one.z) for z in block.z]
        for radius, levels in groupby(range(len(radii)), key=radii.__getitem__):
            if radius > 0:
                here = slice(first := next(levels), first + 1 + sum(1 for _ in levels))
                metal[here] &= off >= radius
        slack.append(_slack(block, metal, one, off, clear))
    removed = ~metal
    return Found(_left(block, least, removed), _gouge(block, removed & ~before, most, -deep[2]), tuple(slack),
                 tuple(down))


def _heights(sizes: dict[str, Limits], clear: Clear, passes: Sequence[Pass]) -> Iterator[float]:
    """Where anything begins or ends, but for teeth."""
    depth, height = sizes["depth"], sizes.get("head_height", (0.0, 0.0, 0.0))
    yield from (0.0, *(-deep for deep in depth), *(-depth[1] + high for high in height))
    for one in passes:
        yield one.z
        for _, low, high, _, _, end in one.raw.stem(clear):
            yield from (one.z + low - end, min(0.0, one.z + high + end))


def _drawn(block: Block, kind: str, sizes: dict[str, Limits]) -> tuple[Bits, Bits]:
    """What must go, with ends as round as can be, and what may, with square ones."""
    long, deep = sizes["length"], sizes["depth"]
    least, most = block.none(), block.none()
    if kind == "slot":
        least[block.rows(-deep[0], 0.0)] |= block.stadium(long[0], sizes["width"][0])
        most[block.rows(-deep[2], 0.0)] |= block.rectangle(long[2], sizes["width"][2])
        return least, most
    if kind == "pocket":
        corner = sizes["corner_radius"]
        least[block.rows(-deep[0], 0.0)] |= block.rounded(long[0], sizes["width"][0], corner[2])
        most[block.rows(-deep[2], 0.0)] |= block.rounded(long[2], sizes["width"][2], corner[0])
        return least, most
    throat, head, height = sizes["throat"], sizes["head_width"], sizes["head_height"]
    least[block.rows(-deep[1] + height[0], 0.0)] |= block.stadium(long[0], throat[0])
    most[block.rows(-deep[2], 0.0)] |= block.rectangle(long[2], throat[2])
    own = sizes.get("head_length")
    level = block.stadium(own[0], head[0]) if own else block.rectangle(long[0] - throat[2], head[0])
    least[block.rows(-deep[0], -deep[1] + height[0])] |= level
    most[block.rows(-deep[2], -deep[1] + height[2])] |= block.rectangle((own or long)[2], head[2])
    return least, most


def _radius(raw: Raw, up: float) -> float:
    if not 0 < up < raw.tall:
        return 0.0
    corner = min(raw.corner, raw.diameter / 2)
    inset = corner - np.sqrt(corner**2 - (corner - up) ** 2) if up < corner else 0.0
    return float(raw.diameter / 2 - inset)


def _free(block: Block, metal: Bits, at: tuple[float, float], z: float) -> float:
    """The radius that is free round a point, from a height up."""
    over = metal[block.rows(z, 0.0)].any(axis=0)
    along, across = (block.x - at[0]) ** 2, (block.y - at[1]) ** 2
    return float(np.sqrt((np.where(over, along, np.inf).min(axis=1) + across).min()))


def _slack(block: Block, metal: Bits, one: Pass, off: NDArray[np.float64], clear: Clear) -> float:
    """The least room over the clearances asked of all that doesn't cut."""
    found = np.inf
    for _, low, high, radius, side, end in one.raw.stem(clear):
        level = metal[block.rows(one.z + low - end, min(0.0, one.z + high + end))].any(axis=0)
        found = min(found, float(np.where(level, off, np.inf).min()) - radius - side)
    return found


def _left(block: Block, least: Bits, removed: Bits) -> float:
    worst, seen = 0.0, None
    for wanted, gone in zip(least, removed, strict=True):
        left = wanted & ~gone
        if left.any() and (seen is None or not (np.array_equal(left, seen[0]) and np.array_equal(gone, seen[1]))):
            worst, seen = max(worst, oracle.farthest(left, gone) / oracle.CELL * CELL), (left, gone)
    return worst


def _gouge(block: Block, touched: Bits, most: Bits, floor: float) -> float:
    worst, seen = 0.0, None
    for z, cut, may in zip(block.z, touched, most, strict=True):
        if z < floor:
            worst = max(worst, floor - z + CELL / 2 if cut.any() else 0.0)
            continue
        over = cut & ~may
        if over.any() and (seen is None or not np.array_equal(over, seen)):
            worst, seen = max(worst, oracle.farthest(over, may) / oracle.CELL * CELL), over
    return worst

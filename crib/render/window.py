"""Which piece of the cross-section to show, and at what scale."""

from __future__ import annotations

from crib.geometry.region import Region
from crib.geometry.silhouette import Silhouette
from crib.light.records import dataclass, replace
from crib.pages.scene import Body, body_of

FAR = 300_000_000
"""Beyond this [nm] an edge is where the stock was given up, not where the part ends."""

CELL_HEIGHT = 2
"""A terminal's cell is about twice as tall as it is wide."""


@dataclass(frozen=True)
class Pane:
    """A rectangle of the cross-section [nm]."""

    left: int
    right: int
    bottom: int
    top: int


@dataclass(frozen=True)
class Grid:
    """Cells over the cross-section: `cell` is one's width [nm]. The surface runs through the middle of a row."""

    left: int
    top: int
    cell: int
    columns: int
    rows: int

    @property
    def tall(self) -> int:
        """A cell's height [nm]."""
        return self.cell * CELL_HEIGHT

    def column(self, x: int) -> int:
        """The column that x [nm] falls into, which may be off the grid."""
        return (x - self.left) // self.cell

    def row(self, z: int) -> int:
        """The row that z [nm] falls into, which may be off the grid."""
        return (self.top - z) // self.tall

    def x(self, column: float) -> int:
        """The left edge of a column [nm]; with a half, its middle."""
        return self.left + round(column * self.cell)

    def z(self, row: float) -> int:
        """The upper edge of a row [nm]; with a half, its middle."""
        return self.top - round(row * self.tall)


def choose(stock: Region, finished: Region, form: Silhouette, x: int, z: int, columns: int, rows: int,
           low: bool = False) -> Grid:
    """A grid of at most `columns` by `rows` that shows the finished feature, the metal round it, and the cutter up to
    a bit of shank above the surface; `low`: as little of what is above it as can be."""
    gone = removed(stock, finished, x, form.radius)
    box = window(stock, gone, form, x, z)
    if low:
        roof = max(gone.top, 0) + max(gone.right - gone.left, gone.top - gone.bottom) // 6
        box = replace(box, top=min(box.top, roof))
    cell = max(1, -(-(box.right - box.left) // (columns - 2)), -(-(box.top - box.bottom) // ((rows - 2) * CELL_HEIGHT)))
    middle = (gone.left + gone.right) // 2
    before, after = _cells(middle - box.left, cell), _cells(box.right - middle, cell)
    above, below = _cells(box.top, cell * CELL_HEIGHT), _cells(-box.bottom, cell * CELL_HEIGHT)
    return Grid(middle - before * cell - cell // 2, above * cell * CELL_HEIGHT + cell, cell, before + after + 1,
                above + below + 1)


def window(stock: Region, gone: Pane, form: Silhouette, x: int, z: int) -> Pane:
    """What is worth showing: the feature and some metal round it, and the cutter's lower end; of a cutter that comes
    from the side the part that is in the work, up to what stands nearest to it."""
    if _is_lidded(stock, gone):
        return _beside(gone, form, x, z)
    wide, deep = gone.right - gone.left, -gone.bottom
    stem = [z + part.low for part in form.clear if body_of(part) == Body.SHANK]
    size = max(deep, wide)
    top = min(max([0, *stem[:1]]) + size // 6, max(deep, wide // 2))
    stem_shown = [part for part in form.clear if z + part.low < top and body_of(part) != Body.HOLDER]
    shown = [*form.sure, *stem_shown]
    reach = max(part.widest for part in shown)
    side, under = size // 5, max(wide // 8, deep // 6)
    front, back = _walls(stock, gone, 2 * max(size, reach))
    return Pane(min(gone.left - side, x - reach - side // 4, front - side // 2),
               max(gone.right + side, x + reach + side // 4, back + side // 2), min(gone.bottom, z) - under, top)


def _walls(stock: Region, gone: Pane, near: int) -> tuple[int, int]:
    """Where what stands beside the work in front and at the back begins, if it is near; else the edges of what is
    gone."""
    spans = stock.spans_at(gone.top)
    fronts = [right for _, right in spans if gone.left - near <= right <= gone.left]
    backs = [left for left, _ in spans if gone.right <= left <= gone.right + near]
    return max(fronts, default=gone.left), min(backs, default=gone.right)


def _is_lidded(stock: Region, gone: Pane) -> bool:
    """Whether metal stands over what is gone, so that it was cut from the side."""
    return any(left < gone.right and right > gone.left for left, right in stock.spans_at(gone.top))


def _beside(gone: Pane, form: Silhouette, x: int, z: int) -> Pane:
    wide, tall = gone.right - gone.left, gone.top - gone.bottom
    pad = max(tall, wide // 4)
    seen = [part for part in form.clear if gone.bottom - pad < z + part.high and z + part.low < gone.top + pad]
    nearest = min((x - part.widest for part in seen), default=gone.right)
    right = max(gone.right + wide // 2, min(nearest + wide // 2, gone.right + 2 * wide))
    return Pane(gone.left - wide // 5, right, gone.bottom - pad, gone.top + pad)


def removed(stock: Region, finished: Region, x: int, radius: int) -> Pane:
    """The rectangle round what is gone of the stock. Where that runs on for ever, to a bit beyond the cutter."""
    edges: list[int] = []
    slabs = [slab for slab in finished.slabs if slab.spans]
    bottom = min((slab.low for slab in slabs), default=0)
    top = max((slab.high for slab in slabs), default=0)
    for slab in slabs:
        for height in (slab.low + 1, slab.high - 1):
            metal = stock.spans_at(height)
            for left, right in finished.spans_at(height):
                edges += [min(max(edge, start), end) for edge in (left, right) for start, end in metal]
    near = [edge for edge in edges if abs(edge) < FAR]
    if len(near) < len(edges) or not near:
        near += [x - radius, x + radius]
    return Pane(min(near), max(near), bottom if slabs else -radius, top)


def _cells(length: int, cell: int) -> int:
    """Whole cells on one side of a cell's middle that hold a length."""
    return max(0, -(-(length - cell // 2) // cell))

"""Cells over a long feature seen from above: what doesn't fit is broken out of its middle."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from crib.light.records import dataclass
from crib.light.tuples import NamedTuple
from crib.render.window import CELL_HEIGHT

BREAK = 4
"""Columns that a break takes."""


class Extent(NamedTuple):
    """From where to where along a feature [nm]."""

    left: int
    right: int


class Strip(NamedTuple):
    """Columns from the first on that show the feature from a place on."""

    first: int
    columns: int
    left: int


@dataclass(frozen=True)
class Stretch:
    """Cells over pieces of a feature: `cell` is one's width [nm]. The centre line is in the middle of a row.
    `from_break` and `to_break`: the drawing begins or ends with a break."""

    pieces: tuple[Strip, ...]
    cell: int
    rows: int
    from_break: bool = False
    to_break: bool = False

    @property
    def columns(self) -> int:
        """All columns, breaks included."""
        last = self.pieces[-1]
        return last.first + last.columns + BREAK * self.to_break

    @property
    def breaks(self) -> list[int]:
        """The first column of every break."""
        inner = [right.first - BREAK for _, right in pairwise(self.pieces)]
        last = self.pieces[-1]
        return [0] * self.from_break + inner + [last.first + last.columns] * self.to_break

    def column(self, x: int) -> int:
        """The column that x falls into; where that is broken out, the middle of the break."""
        for piece in self.pieces:
            if x < piece.left:
                return piece.first - BREAK // 2 if piece is not self.pieces[0] or self.from_break else 0
            if x < piece.left + piece.columns * self.cell:
                return piece.first + (x - piece.left) // self.cell
        return self.columns - 1 - self.to_break * (BREAK // 2)

    def shows(self, x: int) -> bool:
        """Whether a place is in one of the pieces."""
        return any(piece.left <= x < piece.left + piece.columns * self.cell for piece in self.pieces)

    def x(self, piece: Strip, column: float) -> int:
        """The left edge of a piece's own column [nm]; with a half, its middle."""
        return piece.left + round(column * self.cell)

    def y(self, row: float) -> int:
        """The upper edge of a row [nm]; with a half, its middle."""
        return round((self.rows / 2 - row) * self.cell * CELL_HEIGHT)

    def row(self, y: int) -> int:
        """The row that y falls into."""
        return int(self.rows / 2 - y / (self.cell * CELL_HEIGHT))


def stretch(whole: Extent, needed: Sequence[Extent], half: int, columns: int, rows: int) -> Stretch:
    """Cells for what reaches `half` to each side of the centre line: the whole of it where that stays readable, else
    the needed pieces, the first of them at any rate and the others as they find room."""
    cell = max(1, -(-2 * half // (CELL_HEIGHT * (rows - 1))))
    coarse = -(-(whole.right - whole.left) // columns)
    if coarse <= cell * 3 // 2:
        return _laid_out([whole], max(cell, coarse), half, whole)
    while True:
        for count in range(len(needed), 0, -1):
            kept = sorted(needed[:count])
            breaks = len(kept) - 1 + (kept[0].left > whole.left) + (kept[-1].right < whole.right)
            taken = sum(_cells(span, cell) for span in kept) + BREAK * breaks
            if taken <= columns:
                return _laid_out(_wider(kept, whole, cell, columns - taken), cell, half, whole)
        cell = cell * 9 // 8 + 1


def _wider(spans: Sequence[Extent], whole: Extent, cell: int, spare: int) -> list[Extent]:
    """Spans grown by what is to spare, those that meet drawn together."""
    more = spare // (2 * len(spans)) * cell
    grown: list[Extent] = []
    for span in spans:
        left = span.left - more * (1 if span.right < whole.right else 2)
        right = span.right + more * (1 if span.left > whole.left else 2)
        span = Extent(max(whole.left, left), min(whole.right, right))
        if grown and span.left <= grown[-1].right + BREAK * cell:
            span = Extent(grown.pop().left, span.right)
        grown.append(span)
    return grown


def _laid_out(spans: Sequence[Extent], cell: int, half: int, whole: Extent) -> Stretch:
    from_break, to_break = spans[0].left > whole.left, spans[-1].right < whole.right
    first, pieces = BREAK * from_break, []
    for span in spans:
        count = _cells(span, cell)
        spare = count * cell - (span.right - span.left)
        left = span.left - (spare if span.right == whole.right and span.left > whole.left else
                            spare // 2 if span == whole else 0)
        pieces.append(Strip(first, count, left))
        first += count + BREAK
    tall = cell * CELL_HEIGHT
    return Stretch(tuple(pieces), cell, 1 + 2 * max(1, -(-(half - tall // 2) // tall)), from_break, to_break)


def _cells(span: Extent, cell: int) -> int:
    return -(-(span.right - span.left) // cell)

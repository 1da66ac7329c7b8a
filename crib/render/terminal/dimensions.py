"""Sizes written beside the picture: upright ones on its right, level ones below it."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from crib.light.tuples import NamedTuple
from crib.pages.scene import DimensionLine
from crib.render.terminal.canvas import Canvas
from crib.render.terminal.strokes import Strokes
from crib.render.window import Grid

_MOST_OF_WIDTH = 3
_BETWEEN = 2


class Label(NamedTuple):
    """A size as it is written beside a picture, between `low` and `high` [nm]."""

    says: str
    across: bool
    low: int
    high: int


def labels(sizes: Sequence[DimensionLine], say: Callable[[DimensionLine], str]) -> list[Label]:
    """Sizes with what is written beside them."""
    return [Label(f"{one.name} {say(one)}", one.across, one.low, one.high) for one in sizes]


def margin(labels: Sequence[Label], width: int, share: int = _MOST_OF_WIDTH) -> int:
    """Columns to keep free on the right for upright sizes; none where they would take more than that share of the
    width."""
    tall = _by_length(labels)
    if not tall:
        return 0
    need = _BETWEEN * len(tall) + max(len(label.says) for label in tall) + 1
    return need if need * share <= width else 0


def upright(sheet: Canvas, grid: Grid, labels: Sequence[Label], pen: Strokes) -> None:
    """Draw the upright sizes, the longest next to the picture; its words stand where no shorter one is."""
    tall = _by_length(labels)
    rows = [(max(0, grid.row(label.high)), min(grid.rows - 1, grid.row(label.low))) for label in tall]
    for place, (label, (first, last)) in enumerate(zip(tall, rows, strict=True)):
        column = grid.columns - 1 + _BETWEEN * (place + 1)
        for row in range(first, last + 1):
            sheet.put(row, column, pen.stem_top if row == first else pen.stem_bottom if row == last else pen.stem)
        taken = {row for top, end in rows[place + 1:] for row in range(top, end + 1)}
        free = [row for row in range(first + 1, last) if row not in taken]
        if free:
            sheet.put(free[len(free) // 2], column + 2, label.says)
        elif last - first < 2 and not taken:
            sheet.put(first, column + 2, label.says)
        else:
            sheet.put(max(0, first - 1), column, label.says)


def across(grid: Grid, labels: Sequence[Label], width: int, pen: Strokes) -> list[str]:
    """Lines below the picture: the zero of x, then the level sizes, narrowest first."""
    lines = [at(grid.column(0) - 1, "cross 0", width)]
    for label in sorted((label for label in labels if label.across), key=lambda label: label.high - label.low):
        first, last = max(0, grid.column(label.low)), min(width - 1, grid.column(label.high))
        lines.append(level(first, last, label.says, width, pen))
    return lines


def level(first: int, last: int, says: str, width: int, pen: Strokes) -> str:
    """A level size from one column to another, its words in the middle, or beyond it where they find no room."""
    inside, said = last - first - 1, f" {says} "
    if len(said) + 2 <= inside:
        return at(first, pen.rule_left + said.center(inside, pen.rule) + pen.rule_right, width)
    return at(first, pen.rule_left + pen.rule * max(0, inside) + pen.rule_right + said.rstrip(), width)


def listed(labels: Sequence[Label]) -> list[str]:
    """The upright sizes in words, where there is no room beside the picture."""
    tall = [label.says for label in labels if not label.across]
    return [", ".join(tall)] if tall else []


def _by_length(labels: Sequence[Label]) -> list[Label]:
    return sorted((label for label in labels if not label.across), key=lambda label: label.low - label.high)


def at(column: int, text: str, width: int) -> str:
    """Text at a column, moved left where it would run over the width."""
    return (" " * max(0, min(column, width - len(text))) + text)[:width]

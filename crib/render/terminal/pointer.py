"""What is tightest in a view from above: an arrow out of the metal, and the words where there is room for them."""

from __future__ import annotations

from crib.pages.scene import FromAbove, tight_words
from crib.render.terminal.canvas import Canvas
from crib.render.terminal.paint import Look
from crib.render.terminal.stretch import Stretch
from crib.render.terminal.strokes import Strokes
from crib.render.text import folded
from crib.render.words import words

Cells = set[tuple[int, int]]


def said(scene: FromAbove, units: str) -> str:
    """What is said of the tight spot."""
    return words(tight_words(scene.tight), units) if scene.tight else ""


def is_at_a_wall(scene: FromAbove) -> bool:
    """Whether the tight spot is across from the axis rather than along."""
    return scene.spot is not None and abs(scene.spot[1] - scene.y_nm) > abs(scene.spot[0] - scene.x_nm)


def arrow(scene: FromAbove, pen: Strokes) -> str:
    """The arrow that points at the tight spot out of the metal."""
    if scene.spot is None:
        return ""
    if is_at_a_wall(scene):
        return pen.down if scene.spot[1] > scene.y_nm else pen.up
    return pen.from_right[0] if scene.spot[0] > scene.x_nm else pen.from_left[-1]


def points(sheet: Canvas, grid: Stretch, scene: FromAbove, text: str, edges: Cells, pen: Strokes) -> bool:
    """Point at the tight spot out of the metal, with a line that may cross what the lip hides; false where the words
    find no room."""
    if scene.spot is None:
        return True
    row, column = grid.row(scene.spot[1]), grid.column(scene.spot[0])
    if is_at_a_wall(scene):
        return _point_across(sheet, row, column, scene, text, edges, pen)
    return _point_along(sheet, row, column, scene, text, edges, pen)


def _point_across(
    sheet: Canvas, row: int, column: int, scene: FromAbove, text: str, edges: Cells, pen: Strokes
) -> bool:
    """From behind or before a wall: the words to the left or right of the arrow, or of a line that leads to it."""
    assert scene.spot is not None
    step = -1 if scene.spot[1] > scene.y_nm else 1
    while (row, column) in edges and (row + step, column) in edges:
        row += step
    start = row + 1 + step
    sheet.put(start, column, arrow(scene, pen), Look.TIGHT)
    for at in range(start, -1 if step < 0 else sheet.rows, step):
        for first in (column - len(text) - 1, column + 2):
            if sheet.blank(at, max(0, first - 1), len(text) + 1) and sheet.get(at, first + len(text)) == " ":
                sheet.put(at, first, text, Look.TIGHT)
                for between in range(start + step, at + step, step):
                    sheet.put(between, column, pen.stem)
                return True
    return False


def _point_along(
    sheet: Canvas, row: int, column: int, scene: FromAbove, text: str, edges: Cells, pen: Strokes
) -> bool:
    """From beyond an end: an arrow, and the words where all that is drawn ends."""
    assert scene.spot is not None
    step = 1 if scene.spot[0] > scene.x_nm else -1
    while (row, column + step) in edges:
        column += step
    told = folded(text, 2) or [text]
    rows = range(row + 1, row + 1 + len(told))
    drawn = [c for at in rows for c in range(sheet.columns) if sheet.get(at, c) != " "]
    beyond = max(drawn) if step > 0 else min(drawn)
    length = max(map(len, told))
    first = beyond + 3 if step > 0 else beyond - 2 - length
    if first < 0 or first + length > sheet.columns:
        sheet.put(row + 1, column + step, arrow(scene, pen), Look.TIGHT)
        return False
    for at, line in zip(rows, told, strict=True):
        sheet.put(at, first, line if step > 0 else line.rjust(length), Look.TIGHT)
    for c in range(column + step, beyond + 2 * step, step):
        sheet.put(row + 1, c, pen.rule)
    sheet.put(row + 1, column + step, arrow(scene, pen), Look.TIGHT)
    return True

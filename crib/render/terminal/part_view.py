"""A part from above in a terminal, as it lies in each of its set-ups, to scale: its edges, and on each feature the
numbers of the operations that make it."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest

from crib.light.tuples import NamedTuple
from crib.pages.part.scene import Box, Edge, Mark, PartScene, Ring, labelled
from crib.parts.part import Face
from crib.render.terminal.canvas import Canvas
from crib.render.terminal.paint import Look, marks_of, painted
from crib.render.terminal.strokes import Strokes, strokes
from crib.render.text import wide

_ASPECT = 2.0
"""A sign is so many times as high as it is wide."""

_WIDE, _LEAST, _LOW, _TALL, _BESIDE, _NARROW, _GAP, _LAST = 56, 3, 9, 14, 8, 26, 3, 4
"""Signs that a picture is wide at the most, rows that each has at the least and all together from so many to so
many, the room
beside for a number, how wide the widest is at the least, and what stands between two that lie side by side."""

_DONE = "x"
"""What stands behind the numbers of what is done."""


class _Grid(NamedTuple):
    """Where a picture lies: signs for each mm across, rows for each mm of its depth, that depth [mm], and how many
    signs and rows it has."""

    scale: float
    down: float
    deep: float
    columns: int
    rows: int

    def column(self, x: float) -> int:
        return min(self.columns - 1, round(x * self.scale))

    def row(self, y: float) -> int:
        """The row of a place so far from the near edge; the first is the farthest one."""
        return min(self.rows - 1, max(0, round((self.deep - y) * self.down)))


def of_scenes(scenes: Sequence[PartScene], width: int, lines: bool = True, tall: int | None = None) -> list[str]:
    """The pictures at one scale, no wider than that and at the most so `tall`, and never taller than is looked at in
    one go: as many as there is room for, two side by side where that helps, those first that have most to show."""
    most = min(max(tall or _TALL, _LOW), _TALL)
    fullest = sorted(scenes, key=lambda scene: -len(scene.marks))
    for count in range(len(scenes), 0, -1):
        those = [scene for scene in scenes if scene in fullest[:count]]
        fits = [(scale, rows) for rows in (_pairs(those), [[one] for one in those])
                if (scale := _scale(rows, min(width, _WIDE * len(rows[0])), most))
                and all(len(row) == 1 or _across(row, scale) <= width for row in rows)]
        if fits or count == 1:
            scale, rows = max(fits, key=lambda one: one[0]) if fits else (_lowest(those[0], width, most), [those])
            return [line for row in rows for line in _beside(row, width, lines, scale)]
    return []


def _lowest(scene: PartScene, width: int, most: int) -> float:
    """The scale at which a picture is low enough, however narrow that makes it."""
    return min((min(width, _WIDE) - 1) / scene.wide, (most - 2) * _ASPECT / scene.deep)


def _pairs(scenes: Sequence[PartScene]) -> list[list[PartScene]]:
    return [list(scenes[at:at + 2]) for at in range(0, len(scenes), 2)]


def _scale(rows: Sequence[Sequence[PartScene]], width: int, most: int) -> float:
    """The largest scale at which rows of pictures fit; nought where the widest would be too narrow to read."""
    room = min((width - (_GAP + _LAST) * (len(row) - 1) - len(row)) / sum(scene.wide for scene in row) for row in rows)
    widest = max(scene.wide for row in rows for scene in row)
    scale = room
    while sum(max(_rows(scene, scale) for scene in row) + 1 for row in rows) > most and scale * widest > _NARROW:
        scale *= 0.97
    fits = sum(max(_rows(scene, scale) for scene in row) + 1 for row in rows) <= most
    return scale if fits and scale * widest > _NARROW * 0.9 else 0.0


def _own(scene: PartScene, scale: float) -> int:
    """Signs that a picture with the shortest of its titles is wide."""
    return max(_grid(scene, scale).columns, len(title(scene, 0)))


def _across(row: Sequence[PartScene], scale: float) -> int:
    """Signs that pictures side by side take at the least."""
    return sum(_own(scene, scale) for scene in row) + _GAP * (len(row) - 1)


def _beside(row: Sequence[PartScene], width: int, lines: bool, scale: float) -> list[str]:
    """Pictures side by side, each as wide as it is at this scale, and what is over shared out to their words."""
    if len(row) == 1:
        return of_scene(row[0], width, lines, scale)
    spare = max(0, width - _across(row, scale))
    left, right = (of_scene(scene, _own(scene, scale) + spare // 2, lines, scale) for scene in row)
    across = max(map(wide, left)) + _GAP
    return [painted((one + " " * (across - wide(one)) + other).rstrip(),
                    [*marks_of(one), *marks_of(other, len(one) + across - wide(one))])
            for one, other in zip_longest(left, right, fillvalue="")]


def _rows(scene: PartScene, scale: float) -> int:
    return max(_LEAST, round(scene.deep * scale / _ASPECT) + 1)


def _grid(scene: PartScene, scale: float) -> _Grid:
    """At that scale; what is too thin for it is drawn as wide and as high as anything is at the least."""
    columns, rows = max(_LEAST, round(scene.wide * scale) + 1), _rows(scene, scale)
    return _Grid((columns - 1) / scene.wide if columns == _LEAST else scale,
                 (rows - 1) / scene.deep if rows == _LEAST else scale / _ASPECT, scene.deep, columns, rows)


def of_scene(scene: PartScene, width: int, lines: bool, scale: float) -> list[str]:
    """One set-up: its title, and the part with what lies towards whoever stands there at its lower edge."""
    pen = strokes(lines)
    grid = _grid(scene, scale)
    sheet = Canvas(min(width, grid.columns + _BESIDE), grid.rows)
    _frame(sheet, grid, Box(0, 0, scene.wide, scene.deep), pen, Edge.SEEN)
    for mark in scene.marks:
        for edge, shape in sorted(mark.edges, key=lambda one: one[0] == Edge.SEEN):
            if isinstance(shape, Box):
                _frame(sheet, grid, shape, pen, edge)
            else:
                _ring(sheet, grid, shape)
    told: set[str] = set()
    for shape, mark in labelled(scene.marks):
        if _label(sheet, grid, shape, mark, mark.label in told):
            told.add(mark.label)
    return [title(scene, width), *sheet.lines()]


def title(scene: PartScene, width: int = 100) -> str:
    """Which set-up, and how the work lies, as far as there is room for it."""
    sides = scene.sides
    turned = "" if sides.left == Face.LEFT else f", {sides.left} to the left"
    every = (f"Set-up {scene.number}: {scene.up} up, {sides.away} face away from you{turned}",
             f"Set-up {scene.number}: {scene.up} up, {sides.away} face away", f"Set-up {scene.number}: {scene.up} up")
    return next((one for one in every if len(one) <= width), every[-1])


def _frame(sheet: Canvas, grid: _Grid, box: Box, pen: Strokes, edge: Edge) -> None:
    """A rectangle; one that is too low for two lines is one."""
    left, right = grid.column(box.left), grid.column(box.right)
    top, bottom = grid.row(box.away), grid.row(box.near)
    dash, upright = (pen.rule, pen.stem) if edge == Edge.SEEN else (pen.dash, pen.dash_upright)
    for row in {top, bottom}:
        for at in range(left, right + 1):
            _put(sheet, row, at, dash, pen)
    for at in {left, right}:
        for row in range(top, bottom + 1):
            _put(sheet, row, at, upright, pen)
    if edge == Edge.SEEN and top != bottom and left != right:
        corners = ((top, left), (top, right), (bottom, left), (bottom, right))
        for (row, at), metal in zip(corners, _CORNERS, strict=True):
            _corner(sheet, grid, row, at, pen.edges[metal], pen)


_CORNERS = ((False, False, False, True), (False, False, True, False), (False, True, False, False),
            (True, False, False, False))
"""Of a rectangle: where there is metal beyond the corners of a sign."""


def _corner(sheet: Canvas, grid: _Grid, row: int, at: int, glyph: str, pen: Strokes) -> None:
    """The corner of a rectangle; at the part's own edge a line that ends there."""
    level, upright = row in (0, grid.rows - 1), at in (0, grid.columns - 1)
    if not level and upright:
        glyph = pen.rule_left if at == 0 else pen.rule_right
    elif level and not upright:
        glyph = pen.stem_top if row == 0 else pen.stem_bottom
    if level != upright or sheet.get(row, at) in (" ", pen.rule, pen.stem, pen.dash, pen.dash_upright):
        sheet.put(row, at, glyph)


def _put(sheet: Canvas, row: int, at: int, glyph: str, pen: Strokes) -> None:
    """A stroke, where none that is seen stands yet."""
    if sheet.get(row, at) in (" ", pen.dash, pen.dash_upright):
        sheet.put(row, at, glyph)


def _ring(sheet: Canvas, grid: _Grid, ring: Ring) -> None:
    """A hole: its mouth where it is wide enough, else a sign at its axis."""
    row, column, half = grid.row(ring.y), grid.column(ring.x), round(ring.radius * grid.scale)
    if half >= 2:
        sheet.put(row, column - half, "(")
        sheet.put(row, column + half, ")")
    else:
        sheet.put(row, column, "o")


def _label(sheet: Canvas, grid: _Grid, shape: Box | Ring, mark: Mark, again: bool) -> bool:
    """The numbers of what is made there in it, or beside it, where nothing is written yet; `again`: they stand at
    another of the same, so that here they only stand in its own row. Whether they stand."""
    text = f"{mark.label}{_DONE if mark.is_done else ''}"
    row, places = _places(grid, shape, len(text))
    places.sort(key=lambda at: at + len(text) >= grid.columns)
    near = [row] if again else sorted((row, row + 1, row - 1),
                                      key=lambda line: line != row and line in (0, grid.rows - 1))
    free = ((line, at) for over in ((False,) if again else (False, True)) for line in near for at in places
            if _is_over(grid, at, len(text)) is over and _is_free(sheet, line, at, len(text)))
    found = next(free, None)
    if found is not None:
        sheet.put(*found, text, Look.HEAD)
    return found is not None


def _is_over(grid: _Grid, at: int, long: int) -> bool:
    """Whether what is so long would run over the edge of the part."""
    return at < grid.columns <= at + long


def _is_free(sheet: Canvas, row: int, at: int, long: int) -> bool:
    """Whether nothing is written there yet, nor right beside it."""
    return at > 0 and sheet.holds(row, at + long - 1) and all(
        not sheet.get(row, place).isalnum() for place in range(at - 1, at + long + 1))


def _places(grid: _Grid, shape: Box | Ring, long: int) -> tuple[int, list[int]]:
    """The row of a label, and the columns at which it may begin, the best first."""
    if isinstance(shape, Ring):
        row, column, half = grid.row(shape.y), grid.column(shape.x), round(shape.radius * grid.scale)
        beside = [column + max(half, 1) + 1, column - max(half, 1) - long]
        middle = column - long // 2
        return row, [middle, *beside] if half > long // 2 + 1 else [*beside, middle]
    row = grid.row((shape.near + shape.away) / 2)
    left, right = grid.column(shape.left), grid.column(shape.right)
    middle = (left + right - long + 1) // 2
    return row, [middle, *(middle + by for far in range(4, max(8, right - left) // 2, 3) for by in (-far, far)),
                 right + 1, left - long]

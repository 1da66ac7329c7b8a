"""A feature with closed ends from above in a terminal, to scale: its outline, what its lip hides, the cutter at its
stop."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from itertools import pairwise

from crib.findings.message import Measure
from crib.geometry.rounded_box import RoundedBox
from crib.pages.above import ends
from crib.pages.scene import FromAbove, body_of
from crib.render.terminal import dimensions, pointer
from crib.render.terminal.canvas import Canvas
from crib.render.terminal.paint import Look
from crib.render.terminal.pointer import Cells
from crib.render.terminal.stretch import Extent, Stretch, Strip, stretch
from crib.render.terminal.strokes import Strokes, strokes
from crib.render.text import folded, wrap
from crib.render.words import words

Corners = tuple[bool, bool, bool, bool]

_WIDE = 80
_ROWS, _ROWS_NARROW = 15, 13
_PAD = 2
_TITLE = "From above, the back at the top"


def of_scene(scene: FromAbove, units: str, width: int = 100, lines: bool = True) -> list[str]:
    """The view as lines of at most `width` characters; `lines`: box lines and blocks, else plain ASCII."""
    said = pointer.said(scene, units)
    pen, grid = strokes(lines), choose(scene, width, said)
    sheet = Canvas(width, grid.rows + 2)
    hidden = _edges(sheet, grid, lambda x, y: _stands(scene, scene.under, x, y), lambda cell: _dashed(cell, pen))
    if scene.hole:
        _edges(sheet, grid, lambda x, y: x * x + y * y > scene.hole**2, lambda _: pen.trace)
    edges = _edges(sheet, grid, lambda x, y: _stands(scene, scene.opening, x, y), lambda cell: _bent(cell, pen))
    _cutter(sheet, grid, scene, edges, pen)
    _breaks(sheet, grid, pen)
    told = pointer.points(sheet, grid, scene, said, edges, pen)
    drawn = sheet.lines()
    while not drawn[0]:
        drawn.pop(0)
    while not drawn[-1]:
        drawn.pop()
    foot = [] if told else wrap(f"{pointer.arrow(scene, pen)} {said}", width)
    rows = [*_heading(scene, grid, units, width, pen), *drawn, *_below(scene, grid, units, width, pen), *foot]
    return [*rows, *_key(scene, grid, bool(hidden - edges), width, pen)]


def choose(scene: FromAbove, width: int, said: str = "") -> Stretch:
    """Which pieces to show, and at what scale: at any rate the end where the cutter stands; the entry hole, the other
    end."""
    left, right = ends(scene.opening | scene.under)
    left = scene.zero if scene.is_open else left
    half = max(one.high + one.radius for one in scene.opening | scene.under)
    rows = _ROWS if width >= _WIDE else _ROWS_NARROW
    pad = half * 2 * _PAD // rows
    whole = Extent(min(left, scene.x_nm - scene.teeth) - pad, max(right, scene.x_nm + scene.teeth) + pad)
    reach = scene.teeth + pad
    here, there = Extent(scene.x_nm - reach, whole.right), Extent(whole.left, left + half + pad)
    if scene.x_nm * 2 < left + right:
        here, there = Extent(whole.left, scene.x_nm + reach), Extent(right - half - pad, whole.right)
    middle = [Extent(-scene.hole - pad, scene.hole + pad)] if scene.hole else []
    return stretch(whole, [here, *middle, there], half, width - _room(scene, width, said), rows)


def _room(scene: FromAbove, width: int, said: str) -> int:
    """Columns that are kept for the words beside the right-hand end."""
    if not scene.spot or width < _WIDE or pointer.is_at_a_wall(scene) or scene.spot[0] < scene.x_nm:
        return 0
    return max(map(len, folded(said, 2)), default=0) + len("<- ") + 2


def _stands(scene: FromAbove, shapes: frozenset[RoundedBox], x: int, y: int) -> bool:
    """Whether there is metal."""
    return not (scene.is_open and x < scene.zero) and all(one.off(x, y) > 0 for one in shapes)


def _edges(sheet: Canvas, grid: Stretch, stands: Callable[[int, int], bool], glyph: Callable[[Corners], str]) -> Cells:
    """Draw the edge between metal and none, by which corners of a cell are in metal; gives its cells."""
    edges = set()
    for piece in grid.pieces:
        corners = [[stands(grid.x(piece, c), grid.y(r)) for c in range(piece.columns + 1)]
                   for r in range(grid.rows + 1)]
        for row, (above, below) in enumerate(pairwise(corners)):
            for c in range(piece.columns):
                cell = (above[c], above[c + 1], below[c], below[c + 1])
                if any(cell) and not all(cell):
                    edges.add((row, piece.first + c))
                    sheet.put(row + 1, piece.first + c, glyph(cell))
    return edges


def _bent(cell: Corners, pen: Strokes) -> str:
    glyph = pen.edges[cell]
    return pen.bends.get(glyph, glyph)


def _dashed(cell: Corners, pen: Strokes) -> str:
    """A dash along the edge: upright only where it doesn't run level at all."""
    return pen.dash_upright if cell[0] == cell[2] and cell[1] == cell[3] else pen.dash


def _cutter(sheet: Canvas, grid: Stretch, scene: FromAbove, edges: Cells, pen: Strokes) -> None:
    """Fill in the teeth to a quarter of a cell, and what stands over them; the opening's edge stays visible."""
    body = scene.body.widest if scene.body else 0
    for row, column, piece, c in _cells(grid):
        quarters = [_within(grid, scene, piece, c + dx, row + dy, scene.teeth)
                    for dy in (0.25, 0.75) for dx in (0.25, 0.75)]
        if (row, column) in edges:
            continue
        if scene.body and _within(grid, scene, piece, c + 0.5, row + 0.5, body):
            sheet.put(row + 1, column, pen.bodies[body_of(scene.body)])
        elif any(quarters):
            glyph = pen.quarters[quarters[0], quarters[1], quarters[2], quarters[3]]
            if glyph != " ":
                sheet.put(row + 1, column, glyph, Look.TEETH)


def _cells(grid: Stretch) -> Iterator[tuple[int, int, Strip, int]]:
    for piece in grid.pieces:
        for row in range(grid.rows):
            for c in range(piece.columns):
                yield row, piece.first + c, piece, c


def _within(grid: Stretch, scene: FromAbove, piece: Strip, column: float, row: float, radius: int) -> bool:
    dx, dy = grid.x(piece, column) - scene.x_nm, grid.y(row) - scene.y_nm
    return dx * dx + dy * dy < radius * radius


def _breaks(sheet: Canvas, grid: Stretch, pen: Strokes) -> None:
    """Two zigzags where something is left out."""
    for first in grid.breaks:
        for row in range(1, grid.rows + 1):
            glyph = pen.falling if row % 2 else pen.rising
            sheet.put(row, first, f"{glyph}  {glyph}")


def _heading(scene: FromAbove, grid: Stretch, units: str, width: int, pen: Strokes) -> list[str]:
    """Two lines over the view that say where the cutter stands, or three."""
    column = grid.column(scene.x_nm)
    stop = (f"pass {scene.pass_no}: stop at table {words(Measure(scene.along_mm), units)}, "
            f"cross {words(Measure(scene.across_mm, sign=True), units)}")
    title, said = ([], f"{_TITLE}; {stop}") if len(f"{_TITLE}; {stop}") <= width else ([_TITLE], stop)
    return [*title, " " * max(0, min(column - len(said) // 2, width - len(said))) + said, " " * column + pen.down]


def _below(scene: FromAbove, grid: Stretch, units: str, width: int, pen: Strokes) -> list[str]:
    """Where positions along count from, and the sizes; a size whose end isn't shown has no stroke there."""
    rows = [dimensions.at(grid.column(scene.zero), "table 0", width)] if grid.shows(scene.zero) else []
    labels = dimensions.labels(scene.dimensions, lambda one: words(Measure(one.mm), units))
    for label in sorted(labels, key=lambda label: label.high - label.low):
        if label.low == -scene.hole and not grid.shows(0):
            continue
        said = dimensions.level(grid.column(label.low), grid.column(label.high), label.says, width, pen)
        if not grid.shows(label.low):
            said = said.replace(pen.rule_left, pen.rule, 1)
        rows.append(said if grid.shows(label.high) else pen.rule.join(said.rsplit(pen.rule_right, 1)))
    return rows


def _key(scene: FromAbove, grid: Stretch, hidden: bool, width: int, pen: Strokes) -> list[str]:
    """What the characters stand for, of those that were drawn; no entry is parted between lines."""
    body = [body_of(scene.body)] if scene.body else []
    said = [f"{pen.teeth * 2} teeth", *(f"{pen.bodies[role] * 2} {role}" for role in body)]
    said += [f"{pen.dash * 2} under the lip"] if hidden else []
    said += [f"{pen.trace * 2} entry hole"] if scene.hole and grid.shows(0) else []
    said += [f"{pen.falling}{pen.rising} left out"] if grid.breaks else []
    whole = "   ".join(one.replace(" ", "\xa0") for one in said)
    return [line.replace("\xa0", " ") for line in wrap(whole, width)]

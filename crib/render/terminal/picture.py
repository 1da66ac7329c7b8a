"""The cross-section in a terminal, to scale and without colour: metal hatched, the feature empty, the cutter in it."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from itertools import pairwise

from crib.findings.message import Measure
from crib.geometry.region import Region
from crib.geometry.silhouette import Part, Silhouette
from crib.pages.scene import Scene, body_of, tight_words
from crib.planning.told.advice import TightSpot
from crib.render import window
from crib.render.terminal import dimensions
from crib.render.terminal.canvas import Canvas
from crib.render.terminal.dimensions import Label
from crib.render.terminal.paint import Look
from crib.render.terminal.strokes import Strokes, strokes
from crib.render.text import folded, wrap
from crib.render.window import Grid
from crib.render.words import drawn, words
from crib.units import NM

Cells = set[tuple[int, int]]
Intervals = tuple[tuple[int, int], ...]

_HATCH_EVERY = 3
_WIDE = 80
_ROWS, _ROWS_NARROW = 25, 22
_LEAST_ROWS, _ABOUT, _SHARE_LOW = 9, 3, 2
"""Of a low picture: rows of the section at the least, the lines over and under it (where the cutter stands, nought, the
signs), and the share of its width that upright sizes may take."""

_NEAR = (0, -1, 1, -2, 2, -3, 3)


def of_scene(scene: Scene, units: str, width: int = 100, lines: bool = True, tall: int | None = None,
             grid: Grid | None = None) -> list[str]:
    """The picture of a scene: the cutter standing in the finished feature. No line is longer than `width` characters.
    `lines`: box lines and blocks, else plain ASCII; `tall`: how many lines it may take, as long as it can be read;
    `grid`: the cells that this comes to, where it is known."""
    pen, tight = strokes(lines), scene.tight
    labels = dimensions.labels(scene.dimensions, partial(drawn, units=units))
    margin, grid = _margin(labels, width, tall), grid or grid_of(scene, units, width, tall)
    sheet = Canvas(width, grid.rows)
    standing = scene.stock - scene.finished
    edges = _metal(sheet, grid, standing, pen)
    _cutter(sheet, grid, scene.form, scene.x_nm, scene.z_nm, edges, pen)
    _open_gaps(sheet, grid, scene.form, scene.x_nm, scene.z_nm, standing, pen)
    _lines_of_reference(sheet, grid, scene.stock, pen, ("surface, Z 0", "surface", "Z 0") if scene.on_top else ("Z 0",))
    said = words(tight_words(tight), units) if tight else ""
    if margin:
        dimensions.upright(sheet, grid, labels, pen)
    told = tight is None or _tight(sheet, grid, tight, scene.x_nm, said, edges, pen) or tall is not None
    stands = scene.dialled or (scene.x_nm / NM, scene.z_nm / NM)
    head = _axis(grid, scene.x_nm, stands, scene.slide, units, width, pen, tall is not None)
    below = dimensions.across(grid, labels, width, pen)
    foot = [] if told else [f"{pen.from_right} {said}"]
    if labels and not margin:
        foot += dimensions.listed(labels)
    rows = head + sheet.lines() + below + [line for text in foot for line in wrap(text, width)]
    return [*rows, *wrap(key(sheet, pen), width)]


def grid_of(scene: Scene, units: str, width: int, tall: int | None = None) -> Grid:
    """The cells that a scene is drawn in; what is said over and under it counts with how `tall` it may be."""
    margin = _margin(dimensions.labels(scene.dimensions, partial(drawn, units=units)), width, tall)
    rows = _ROWS if width >= _WIDE else _ROWS_NARROW
    if tall is not None:
        rows = max(_LEAST_ROWS, min(rows, tall - _ABOUT - sum(one.across for one in scene.dimensions)))
    return window.choose(scene.stock, scene.finished, scene.form, scene.x_nm, scene.z_nm, width - margin, rows,
                         tall is not None)


def _margin(labels: Sequence[Label], width: int, tall: int | None) -> int:
    return dimensions.margin(labels, width) if tall is None else dimensions.margin(labels, width, _SHARE_LOW)


def key(sheet: Canvas, pen: Strokes) -> str:
    """What the characters stand for, of those that were drawn."""
    drawn = sheet.signs()
    names = {pen.teeth: "teeth", **{glyph: str(role) for role, glyph in pen.bodies.items()}, pen.hatch: "metal"}
    return "   ".join(f"{glyph * 2} {name}" for glyph, name in names.items()
                      if glyph in drawn or (glyph == pen.teeth and drawn & _shades(pen)))


def _shades(pen: Strokes) -> set[str]:
    """The signs of teeth that fill a part of a cell alone."""
    return {glyph for glyph in pen.quarters.values() if glyph != " "}


def _metal(sheet: Canvas, grid: Grid, standing: Region, pen: Strokes) -> Cells:
    """Hatch what stands and draw its edge, by which corners of a cell are in metal; gives the edge's cells."""
    middle = grid.x(grid.columns / 2)
    across = [_inward(grid.x(c), middle) for c in range(grid.columns + 1)]
    rows = [standing.spans_at(grid.z(row) - 1) for row in range(grid.rows + 1)]
    known = {spans: [_inside(spans, x) for x in across] for spans in {*rows}}
    corners = [known[spans] for spans in rows]
    edges = set()
    for row, (above, below) in enumerate(pairwise(corners)):
        slants = _slants(standing, grid, row)
        for c, cell in enumerate(zip(above, above[1:], below, below[1:], strict=False)):
            if True in cell and False in cell:
                edges.add((row, c))
                sheet.put(row, c, _slanted(cell, slants[c], pen) if c in slants else pen.edges[cell])
            elif cell[0] and (row + c) % _HATCH_EVERY == 0:
                sheet.put(row, c, pen.hatch)
    return edges


def _inward(x: int, middle: int) -> int:
    """A nanometre towards the middle, so that left and right are drawn alike where an edge falls between cells."""
    return x + (1 if x < middle else -1)


def _inside(spans: Intervals, x: int) -> bool:
    return any(left < x < right for left, right in spans)


def _slants(standing: Region, grid: Grid, row: int) -> dict[int, str]:
    """Columns of a row through which an edge of the metal runs aslant: `rising` or `falling` to the right, `steeply`
    before it where a cell a row is enough, `beside` for the cells next to that one."""
    top, middle, bottom = (
        [edge for span in standing.spans_at(grid.z(row + part) - 1) for edge in span] for part in (0, 0.5, 1)
    )
    found: dict[int, str] = {}
    if not len(top) == len(middle) == len(bottom):
        return found
    for high, half, low in zip(top, middle, bottom, strict=True):
        run = low - high
        if abs(run) <= grid.cell // 4 or abs(half - (high + low) // 2) >= grid.cell // 8:
            continue
        way = "rising" if run < 0 else "falling"
        steep = abs(run) < grid.cell * 5 // 2
        for c in range(grid.column(min(high, low)), grid.column(max(high, low)) + 1):
            found[c] = way if not steep else f"steeply {way}" if c == grid.column(half) else "beside"
    return found


def _slanted(cell: tuple[bool, bool, bool, bool], way: str, pen: Strokes) -> str:
    """A sloping stroke, but for cells that the edge crosses nearly level."""
    if way == "beside":
        return " "
    level = cell[0] == cell[1] and cell[2] == cell[3] and not way.startswith("steeply")
    return pen.rule if level else pen.rising if way.endswith("rising") else pen.falling


def _cutter(sheet: Canvas, grid: Grid, form: Silhouette, x: int, z: int, edges: Cells, pen: Strokes) -> None:
    """Fill in the cutter: teeth to a quarter of a cell, the rest by whole cells; the metal's edge stays visible."""
    cutting = _shades(pen)
    places = [[abs(grid.x(c + dx) - x) for dx in (0.25, 0.5, 0.75)] for c in range(grid.columns)]
    for row in range(grid.rows):
        upper, lower = (_reach(form.sure, grid.z(row + dz) - z) for dz in (0.25, 0.75))
        height = grid.z(row + 0.5) - z
        bodies = [(part.radius_at(height), pen.bodies[body_of(part)]) for part in form.clear
                  if part.low <= height < part.high]
        widest = max(upper, lower, *(radius for radius, _ in bodies))
        for c, (left, middle, right) in enumerate(places):
            if left >= widest <= right and middle >= widest:
                continue
            other = next((glyph for radius, glyph in bodies if middle < radius), " ")
            glyph = _body((left < upper, right < upper, left < lower, right < lower), other, pen)
            if glyph != " " and ((row, c) not in edges or (glyph == pen.teeth and sheet.get(row, c) == " ")):
                sheet.put(row, c, glyph, Look.TEETH if glyph in cutting else None)


def _reach(parts: Sequence[Part], height: int) -> int:
    """The radius of parts at a height; nought where there are none."""
    return max((part.radius_at(height) for part in parts if part.low <= height < part.high), default=0)


def _body(quarters: tuple[bool, bool, bool, bool], other: str, pen: Strokes) -> str:
    """What of the cutter a cell shows: by the quarters of it in which there are teeth, and what else is in its
    middle."""
    if any(quarters) and other == " ":
        return pen.quarters[quarters]
    return pen.teeth if sum(quarters) >= 2 else other


def _open_gaps(sheet: Canvas, grid: Grid, form: Silhouette, x: int, z: int, standing: Region, pen: Strokes) -> None:
    """Show air beside a neck or shank that clears by less than a cell; else it would look as if it rubbed."""
    soft = set(pen.bodies.values())
    hidden: set[tuple[int, str]] = set()
    for row in range(grid.rows):
        height = grid.z(row + 0.5) - 1
        radius = max((p.radius_at(height - z) for p in form.clear if p.low <= height - z < p.high), default=0)
        spans = standing.spans_at(height)
        body = [c for c, glyph in enumerate(sheet.row(row)) if glyph in soft]
        if len(body) < 4 or any(left < x + radius and right > x - radius for left, right in spans):
            continue
        for c, beside, edge in ((body[0], body[0] - 1, x - radius), (body[-1], body[-1] + 1, x + radius)):
            if sheet.get(row, beside) != " " and not any(edge in span for span in spans):
                hidden.add((c, sheet.get(row, c)))
    for row in range(grid.rows):
        for c, glyph in hidden:
            if sheet.get(row, c) == glyph and not {sheet.get(row, c - 1), sheet.get(row, c + 1)} <= soft:
                sheet.put(row, c, " ")


def _lines_of_reference(sheet: Canvas, grid: Grid, stock: Region, pen: Strokes, names: Sequence[str]) -> None:
    """The line from which x is dialled, and the one from which z is, by the longest of its names that finds room."""
    middle, surface = grid.column(0), grid.row(0)
    for row in range(grid.rows):
        if sheet.blank(row, middle, 1) and (row < surface or sheet.blank(row, middle - 1, 3)):
            sheet.put(row, middle, pen.centre)
    for c in range(grid.columns):
        if sheet.blank(surface, c, 1) and _inside(stock.spans_at(-1), grid.x(c + 0.5)):
            sheet.put(surface, c, pen.surface)
    for said in names:
        if sheet.blank(surface - 1, 1, len(said) + 1):
            sheet.put(surface - 1, 1, said)
            return


def _axis(
    grid: Grid, x: int, stands: tuple[float, float], slide: str, units: str, width: int, pen: Strokes, low: bool
) -> list[str]:
    """Two lines over the picture that say where the cutter stands, across and down [mm], or one over a `low` one."""
    across, down = stands
    column = min(grid.column(x), grid.columns - 1)
    pointer = pen.down if column == grid.column(x) else pen.from_left[-1]
    said = f"cutter at {slide} {words(Measure(across, sign=True), units)}, Z {words(Measure(down), units)}"
    if low:
        behind = column + 2 + len(said) <= width or column < len(said) + 1
        return [" " * column + f"{pointer} {said}" if behind else f"{said} {pointer}".rjust(column + 1)]
    start = max(0, min(column - len(said) // 2, width - len(said)))
    return [" " * start + said, " " * column + pointer]


def _tight(
    sheet: Canvas, grid: Grid, tight: TightSpot, axis: int, said: str, edges: Cells, pen: Strokes
) -> bool:
    """Point at the tight spot from the side away from the cutter; false where the words find no room there."""
    spot = round(tight.x_mm * NM)
    column, row, right = grid.column(spot), grid.row(round(tight.z_mm * NM)), spot >= axis
    for lines in (1, 2, 3):
        text = folded(said, lines)
        for near in _NEAR:
            if text and _point(sheet, row + near, column, right, text, edges, pen):
                return True
    for near in _NEAR:
        if _point(sheet, row + near, column, right, [""], edges, pen):
            return False
    sheet.put(row, column + (1 if right else -1), pen.from_right[0] if right else pen.from_left[-1], Look.TIGHT)
    return False


def _point(
    sheet: Canvas, row: int, column: int, right: bool, text: list[str], edges: Cells, pen: Strokes
) -> bool:
    """Write the words with their arrow, if there is nothing but hatching and air there."""
    step = 1 if right else -1
    beyond = [c for c in range(column - step, column + 3 * step, step) if (row, c) in edges]
    wall = beyond[0] if beyond else column
    arrow = pen.from_right if right else pen.from_left
    length = max(map(len, text)) + len(arrow) + 2
    start = wall + 1 if right else wall - length
    cells = [(r, c) for r in range(row, row + len(text)) for c in range(start, start + length)]
    if not all(sheet.holds(*cell) and cell not in edges and sheet.get(*cell) in (" ", pen.hatch) for cell in cells):
        return False
    for line in text:
        sheet.put(row, start, f"{arrow} {line}".ljust(length) if right else f"{line} {arrow}".rjust(length), Look.TIGHT)
        row, arrow = row + 1, " " * len(arrow)
    return True

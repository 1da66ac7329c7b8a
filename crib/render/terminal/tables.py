"""Tables in columns: cells are wrapped at words, and what is too wide still loses the columns that are needed least,
and says so."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import zip_longest

from crib.light.hints import TYPE_CHECKING
from crib.light.patterns import pattern
from crib.pages.blocks import ALWAYS, Align, Fit, Table
from crib.render.text import columns, one_line, paragraph, spelt, wide, wrapped
from crib.render.words import words

if TYPE_CHECKING:
    import re

_ARROW = pattern("[←→↑↓] ")
_TOGETHER = pattern(r"[←→↑↓] |(?<=\d) x (?=[\d.#])")
"""What isn't parted at its blanks: an arrow and its word, sizes with an x between them."""

_GAP = 2
_GLUE = "\xa0"
_ROOMY, _LEAST = 20, 10
"""A cell that is wrapped keeps so many letters while columns can be left out, and so many at the least, or its longest
word."""

Rows = list[list[str]]


def laid_out(table: Table, below: Sequence[Sequence[str]], units: str, width: int, arrows: bool = True,
             whole: bool = False) -> list[str]:
    """A table as lines of at most `width` characters; `below`: what stands under each row; `arrows`: whether they
    can be written; `whole`: a list keeps each row on a line."""
    rows = [[one_line(words(cell, units)) for cell in row.cells] for row in table.rows]
    if not arrows:
        rows = [[spelt(_ARROW.sub("", cell)) for cell in row] for row in rows]
    heads = [words(column.head, units) if any(row[at] for row in rows) else ""
             for at, column in enumerate(table.columns)]
    for at, column in enumerate(table.columns):
        if column.align == Align.POINT:
            for row in rows:
                row[at] = _to_the_point(row[at], units)
    if any(heads):
        rows, below = [heads, *rows], [(), *below]
    lines, indent = columns(rows, _right(table)), " " * table.indent
    if max(map(wide, lines), default=0) + table.indent <= width or (table.fit == Fit.ALL and whole):
        return [part for line, under in zip(lines, below, strict=True) for part in (indent + line, *under)]
    if table.fit == Fit.DROP:
        return _dropped(table, rows, below, units, width)
    if table.fit == Fit.ALL and (fitted := _fitted(rows, frozenset(range(len(rows[0]))), width - table.indent, _LEAST)):
        return [indent + line for row in rows for line in _row(row, fitted, _right(table))]
    if table.fit == Fit.WRAP:
        return [part for line in lines for part in paragraph(line, width, indent, table.indent + 2)]
    if table.fit == Fit.RAGGED:
        return [part.replace(_GLUE, " ") for row in rows for part in
                paragraph((" " * _GAP).join(map(_whole, filter(None, row))), width, indent, table.indent + 2)]
    told = rows[1:] if any(heads) else rows
    return [part for row in told for part in paragraph(", ".join(filter(None, row)), width, indent, table.indent + 2)]


def _whole(cell: str) -> str:
    """A cell that isn't parted where it is a number with its unit and the like: `660 rpm`, `passes 3-12`."""
    return cell.replace(" ", _GLUE) if len(cell) <= _ROOMY and cell.count(" ") == 1 else cell


def _to_the_point(text: str, units: str) -> str:
    """A blank in the place of a fourth decimal, which inches may have."""
    return text + " " if units == "in" and len(text.rpartition(".")[2]) == 3 else text


def _right(table: Table) -> frozenset[int]:
    return frozenset(at for at, column in enumerate(table.columns) if column.align != Align.LEFT)


def _dropped(table: Table, rows: Rows, below: Sequence[Sequence[str]], units: str, width: int) -> list[str]:
    """Columns left out, the least important first, until the rest fits with what may be wrapped."""
    room, right = width - table.indent, _right(table)
    wraps = frozenset(at for at, column in enumerate(table.columns) if column.wraps)
    spare = sorted((at for at, column in enumerate(table.columns) if column.importance < ALWAYS),
                   key=lambda at: table.columns[at].importance)
    gone: list[int] = []
    while (fitted := _fitted(rows, wraps, room, _ROOMY)) is None and spare:
        gone.append(spare.pop(0))
        rows = [["" if at == gone[-1] else cell for at, cell in enumerate(row)] for row in rows]
    fitted, gap = fitted or _fitted(rows, wraps, room, _LEAST) or _fitted(rows, wraps, room, 1), _GAP
    giving = [at for at, column in enumerate(table.columns) if column.yields and fitted is None]
    while fitted is None and (fitted := _fitted(rows, wraps, room, 1, gap := 1)) is None and giving:
        gone.append(giving.pop())
        rows = [["" if at == gone[-1] else cell for at, cell in enumerate(row)] for row in rows]
        fitted, gap = _fitted(rows, wraps, room, 1), _GAP
    fitted = fitted or _widths(rows)
    out: list[str] = []
    for row, under in zip(rows, below, strict=True):
        out += [*((" " * table.indent + line)[:width].rstrip() for line in _row(row, fitted, right, gap)), *under]
    return out + _left_out(table, gone, units, width)


def _widths(rows: Rows) -> list[int]:
    return [max(wide(row[at]) for row in rows) for at in range(len(rows[0]))]


def _fitted(rows: Rows, wraps: frozenset[int], room: int, least: int, gap: int = _GAP) -> list[int] | None:
    """How wide each column is in so much room, those that wrap made narrower where they have to be, the widest first;
    None where that isn't enough."""
    widths = _widths(rows)
    floors = [_floor([row[at] for row in rows], least) if at in wraps else widths[at] for at in range(len(widths))]
    over = sum(widths) + gap * (sum(1 for width in widths if width) - 1) - room
    while over > 0:
        at = max(range(len(widths)), key=lambda at: (widths[at] > floors[at], widths[at]))
        if widths[at] <= floors[at]:
            return None
        widths[at] -= 1
        over -= 1
    return [max(wide(line) for row in rows for line in _in_lines(row[at], width)) for at, width in enumerate(widths)]


def _floor(cells: Sequence[str], least: int) -> int:
    """The narrowest that a column may get: no number is parted."""
    parts = (word.replace(_GLUE, " ") for cell in cells for word in _TOGETHER.sub(_glued, cell).split(" "))
    longest = max(map(wide, parts), default=0)
    return min(max(map(wide, cells)), max(least, longest))


def _row(row: Sequence[str], widths: Sequence[int], right: frozenset[int], gap: int = _GAP) -> list[str]:
    """A row in as many lines as its longest cell needs."""
    kept = [at for at, width in enumerate(widths) if width]
    parts = [_in_lines(row[at], widths[at]) for at in kept]
    lines = []
    for cells in zip_longest(*parts, fillvalue=""):
        set_in = [(" " * (widths[at] - wide(cell)) + cell) if at in right else cell + " " * (widths[at] - wide(cell))
                  for at, cell in zip(kept, cells, strict=True)]
        lines.append((" " * gap).join(set_in).rstrip())
    return lines


def _in_lines(cell: str, width: int) -> list[str]:
    if wide(cell) <= width:
        return [cell]
    return [line.replace(_GLUE, " ") for line in wrapped(_TOGETHER.sub(_glued, cell), width)]


def _glued(found: re.Match[str]) -> str:
    """What stays together, with no blank in it."""
    return found[0].replace(" ", _GLUE)


def _left_out(table: Table, gone: Sequence[int], units: str, width: int) -> list[str]:
    """What is said in the place of columns that are left out, else their names."""
    names = {at: words(table.columns[at].head, units) for at in gone}
    told = {at: words(table.columns[at].instead, units) for at in gone}
    silent = [names[at] for at in gone if not (told[at] or table.silent)]
    out = paragraph(f"left out for want of width: {', '.join(silent)}", width, "  ") if silent else []
    for at in gone:
        if told[at]:
            out += paragraph(told[at], width, f"  {names[at]}: ")
    return out

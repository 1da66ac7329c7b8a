"""Tables in columns: what is too wide loses the columns that are needed least, and says so."""

from __future__ import annotations

import re
from collections.abc import Sequence

from crib.pages.blocks import ALWAYS, Align, Fit, Table
from crib.render.text import columns, one_line, paragraph, wide
from crib.render.words import words

_ARROW = re.compile("^[←→↑↓] ")
_SHORT = 4
"""What may be cut short is cut down to so many letters before more is left out; no number is ever cut."""

Rows = list[list[str]]


def laid_out(table: Table, below: Sequence[Sequence[str]], units: str, width: int, arrows: bool = True) -> list[str]:
    """A table as lines of at most `width` characters; `below`: what stands under each row; `arrows`: whether they
    can be written."""
    rows = [[one_line(words(cell, units)) for cell in row.cells] for row in table.rows]
    if not arrows:
        rows = [[_ARROW.sub("", cell) for cell in row] for row in rows]
    heads = [words(column.head, units) if any(row[at] for row in rows) else ""
             for at, column in enumerate(table.columns)]
    for at, column in enumerate(table.columns):
        if column.align == Align.POINT:
            for row in rows:
                row[at] = _to_the_point(row[at], units)
    if any(heads):
        rows, below = [heads, *rows], [(), *below]
    if table.fit == Fit.DROP:
        return _dropped(table, rows, below, units, width)
    lines, indent = columns(rows, _right(table)), " " * table.indent
    if table.fit == Fit.ALL or max(map(wide, lines), default=0) + table.indent <= width:
        return [indent + line for line in lines]
    if table.fit == Fit.WRAP:
        return [part for line in lines for part in paragraph(line, width, indent, table.indent + 2)]
    told = rows[1:] if any(heads) else rows
    return [part for row in told for part in paragraph(", ".join(filter(None, row)), width, indent, table.indent + 2)]


def _to_the_point(text: str, units: str) -> str:
    """A blank in the place of a fourth decimal, which inches may have."""
    return text + " " if units == "in" and len(text.rpartition(".")[2]) == 3 else text


def _right(table: Table) -> frozenset[int]:
    return frozenset(at for at, column in enumerate(table.columns) if column.align != Align.LEFT)


def _dropped(table: Table, rows: Rows, below: Sequence[Sequence[str]], units: str, width: int) -> list[str]:
    """Columns left out, the least important first, until the rest fits; what may be cut short is, before the last."""
    room, right = width - table.indent, _right(table)
    spare = sorted((at for at, column in enumerate(table.columns) if column.importance < ALWAYS),
                   key=lambda at: table.columns[at].importance)
    shrinking = next((at for at, column in enumerate(table.columns) if column.shrinks), None)
    longest = max((len(row[shrinking]) for row in rows), default=0) if shrinking is not None else 0
    gone: list[int] = []
    while spare and _overhang(rows, right, room) > (longest - _SHORT if len(spare) == 1 and longest else 0):
        gone.append(spare.pop(0))
        rows = [["" if at == gone[-1] else cell for at, cell in enumerate(row)] for row in rows]
    if shrinking is not None:
        most = max(_SHORT, longest - max(0, _overhang(rows, right, room)))
        rows = [[_cut(cell, most) if at == shrinking else cell for at, cell in enumerate(row)] for row in rows]
    out: list[str] = []
    for line, under in zip(columns(rows, right), below, strict=True):
        out += [(" " * table.indent + line)[:width].rstrip(), *under]
    return out + _left_out(table, gone, units, width)


def _overhang(rows: Rows, right: frozenset[int], room: int) -> int:
    """By how much a table is too wide."""
    return max(map(wide, columns(rows, right)), default=0) - room


def _cut(text: str, length: int) -> str:
    return text if len(text) <= length else text[: length - 1].rstrip() + "."


def _left_out(table: Table, gone: Sequence[int], units: str, width: int) -> list[str]:
    """The names of the columns that are left out, and what is said in the place of some."""
    if not gone:
        return []
    names = [words(table.columns[at].head, units) for at in gone]
    out = paragraph(f"left out for want of width: {', '.join(names)}", width, "  ")
    for at, name in zip(gone, names, strict=True):
        if instead := words(table.columns[at].instead, units):
            out += paragraph(instead, width, f"  {name}: ")
    return out

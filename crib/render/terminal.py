"""Blocks as lines for a terminal, in the reader's units and no wider than asked. What draws is loaded when it is drawn
with: a list has no need of the kernel."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from typing import Any, NamedTuple

from crib.pages.blocks import Block, Bullets, Drawing, Heading, Lineup, Paragraph, Spacer, Table, TickList
from crib.render import tables
from crib.render.text import as_ascii, paragraph
from crib.render.words import words


class Page(NamedTuple):
    """How a page is shown: `in` or `mm`, at most so wide, with box lines and blocks or in plain ASCII; `whole`: lists
    keep each row on a line, for programs that read them."""

    units: str
    width: int
    lines: bool
    whole: bool = False


def lines(blocks: Iterable[Block], units: str, width: int = 100, lines: bool = True, whole: bool = False) -> list[str]:
    """The blocks as lines of at most `width` characters; `lines`: with box lines and blocks, else plain ASCII; `whole`:
    lists that other programs read keep each row on a line."""
    page = Page(units, width, lines, whole)
    rows = [line for block in blocks for line in _SHOWN[type(block)](block, page)]
    return rows if lines else [part for line in rows for part in as_ascii(line, width)]


def _paragraph(one: Paragraph, page: Page) -> list[str]:
    label = words(one.label, page.units)
    lead = " " * one.indent + (f"{label}: " if label else "")
    return paragraph(words(one.text, page.units), page.width, lead, one.hang)


def _bullets(one: Bullets, page: Page) -> list[str]:
    out: list[str] = []
    for place, item in enumerate(one.items):
        lead, hang = ("  - ", 4) if one.first is None else (f"  {one.first + place}. ", 5)
        out += paragraph(words(item, page.units), page.width, lead, hang)
    return out


def _table(one: Table, page: Page) -> list[str]:
    below = [[line for part in row.below for line in _paragraph(part, page)] for row in one.rows]
    return tables.laid_out(one, below, page.units, page.width, page.lines, page.whole)


def _figure(one: Drawing, page: Page) -> list[str]:
    from crib.pages.scene import Scene
    from crib.render import picture, plan_view

    if isinstance(one.scene, Scene):
        return picture.of_scene(one.scene, page.units, page.width, page.lines)
    return plan_view.of_scene(one.scene, page.units, page.width, page.lines)


def _tick_list(one: TickList, page: Page) -> list[str]:
    boxes = "  ".join(f"[{' ' * (len(box) - 2)}]" for box in one.boxes)
    rows = [f"  {boxes}  {number:>4}  {words(item, page.units)}" for number, item in one.items]
    return [words(one.title, page.units), "  " + "  ".join(one.boxes), *rows, f"  {words(one.more, page.units)}", ""]


def _lineup(one: Lineup, page: Page) -> list[str]:
    from crib.render import lineup

    items = [(words(said, page.units), shape) for said, shape in one.items]
    return lineup.lines(words(one.title, page.units), items, page.units, page.width, page.lines)


_SHOWN: dict[type, Callable[[Any, Page], Sequence[str]]] = {
    Heading: lambda one, page: [words(one.text, page.units)],
    Paragraph: _paragraph,
    Bullets: _bullets,
    Table: _table,
    TickList: _tick_list,
    Drawing: _figure,
    Lineup: _lineup,
    Spacer: lambda one, page: [""],
}

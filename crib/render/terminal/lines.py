"""Blocks as lines for a terminal, in the reader's units and no wider than asked. What draws is loaded when it is drawn
with: a list has no need of the kernel."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from itertools import zip_longest

from crib.light.hints import Any
from crib.light.tuples import NamedTuple
from crib.pages.blocks import Beside, Block, Bullets, Drawing, Heading, Lineup, Paragraph, Spacer, Table, TickList, Tone
from crib.render.terminal import one_screen, tables
from crib.render.terminal.paint import Look, Mark, marks_of, painted
from crib.render.text import as_ascii, paragraph, wide
from crib.render.words import words

_LEAST_TEXT, _LEAST_DRAWING, _BETWEEN = 36, 36, "   "
"""Columns that a drawing and the text beside it have at the least, and what stands between them."""


class Page(NamedTuple):
    """How a page is shown: `in` or `mm`, at most so wide, with box lines and blocks or in plain ASCII; `whole`: lists
    keep each row on a line, for programs that read them; `tall`: how many lines a drawing may take. `known`: of a page
    that is laid out again and again what was laid out, by its identity and what else it hangs on."""

    units: str
    width: int
    lines: bool
    whole: bool = False
    tall: int | None = None
    known: dict[tuple[object, ...], tuple[object, Sequence[str]]] | None = None


def lines(blocks: Iterable[Block], units: str, width: int = 100, lines: bool = True, whole: bool = False,
          most: int | None = None) -> list[str]:
    """The blocks as lines of at most `width` characters; `lines`: with box lines and blocks, else plain ASCII; `whole`:
    lists that other programs read keep each row on a line; `most`: so many lines are aimed at, and a drawing that has
    its text beside it gets what is left of them."""
    page = Page(units, width, lines, whole)
    rows = _rows(tuple(blocks), page) if most is None else _aimed(list(blocks), page, most)
    return rows if lines else [part for line in rows for part in as_ascii(line, width)]


def _rows(blocks: Sequence[Block], page: Page) -> list[str]:
    return [line for block in blocks for line in _shown(block, page)]


def _shown(block: Block, page: Page) -> Sequence[str]:
    tall = page.tall if isinstance(block, Beside | Drawing) else None
    return _once(page, block, (page.width, tall), lambda: _SHOWN[type(block)](block, page))


def _once(page: Page, shown: object, place: tuple[object, ...], show: Callable[[], Sequence[str]]) -> Sequence[str]:
    """Something laid out, once for each page and what it hangs on."""
    if page.known is None:
        return show()
    if (id(shown), *place) not in page.known:
        page.known[id(shown), *place] = shown, show()  # it is kept, so that no other gets its identity
    return page.known[id(shown), *place][1]


def _aimed(blocks: Sequence[Block], page: Page, most: int) -> list[str]:
    """No more lines than `most`, where the drawing can be made low enough and the page give way enough."""
    page = page._replace(known={})

    def aimed(those: Sequence[Block]) -> list[str]:
        rest = _rows([block for block in those if not isinstance(block, Beside)], page)
        return _rows(those, page._replace(tall=max(_LOWEST, most - len(rest))))

    return one_screen.laid_out(blocks, most, aimed, lambda those: _rows(those, page))


_LOWEST = 9
"""No drawing gets lower than it is with so many lines."""


_TONES = {Tone.GOOD: Look.GOOD, Tone.MIND: Look.MIND, Tone.BAD: Look.BAD}


def _paragraph(one: Paragraph, page: Page) -> list[str]:
    label = words(one.label, page.units)
    lead = " " * one.indent + (f"{label}: " if label else "")
    rows = paragraph(words(one.text, page.units), page.width, lead, one.hang)
    if label and rows:
        rows[0] = painted(rows[0], [Mark(one.indent, one.indent + len(label) + 1, _TONES.get(one.tone, Look.HEAD)
                                         if one.tone else Look.HEAD)])
    return rows


def _heading(one: Heading, page: Page) -> list[str]:
    text = words(one.text, page.units)
    return [painted(text, [Mark(0, len(text), Look.HEAD)])]


def _bullets(one: Bullets, page: Page) -> list[str]:
    out: list[str] = []
    for place, item in enumerate(one.items):
        lead, hang = ("  - ", 4) if one.first is None else (f"  {one.first + place}. ", 5)
        out += paragraph(words(item, page.units), page.width, lead, hang)
    return out


def _table(one: Table, page: Page) -> list[str]:
    below = [[line for part in row.below for line in _paragraph(part, page)] for row in one.rows]
    return tables.laid_out(one, below, page.units, page.width, page.lines, page.whole)


def _figure(one: Drawing, page: Page) -> Sequence[str]:
    """A drawing. What draws one sort of scene isn't loaded for another: a part's takes as long as a short answer."""
    from crib.pages.scene import FromAbove, HolesFromAbove, Scene

    if isinstance(one.scene, Scene):
        from crib.render.terminal import picture

        scene, grid = one.scene, picture.grid_of(one.scene, page.units, page.width, page.tall)
        return _once(page, scene, (page.width, page.tall is None, grid), lambda: picture.of_scene(
            scene, page.units, page.width, page.lines, page.tall, grid))
    if isinstance(one.scene, HolesFromAbove):
        from crib.render.terminal import holes_view

        return holes_view.of_scene(one.scene, page.units, page.width, page.tall)
    if isinstance(one.scene, FromAbove):
        from crib.render.terminal import plan_view

        return plan_view.of_scene(one.scene, page.units, page.width, page.lines)
    from crib.render.terminal import part_view

    return part_view.of_scenes(one.scene.those, page.width, page.lines, page.tall)


def _beside(one: Beside, page: Page) -> list[str]:
    """The drawing, and what is set from it to its right; under it where there is no need to save lines, or where that
    gets too narrow."""
    room = page.width - _LEAST_TEXT - len(_BETWEEN)
    if page.tall is None or room < _LEAST_DRAWING:
        return [*_figure(one.drawing, page), *(line for part in one.text for line in _paragraph(part, page))]
    drawn = _shown(one.drawing, page._replace(width=min(room, page.width * 3 // 5)))
    left = max(map(wide, drawn))
    text = [line for part in one.text
            for line in _shown(part, page._replace(width=page.width - left - len(_BETWEEN)))]
    both = zip_longest(drawn, text, fillvalue="")
    return [painted((figure + " " * (left - wide(figure)) + _BETWEEN + said).rstrip(),
                    [*marks_of(figure), *marks_of(said, len(figure) + left - wide(figure) + len(_BETWEEN))])
            for figure, said in both]


def _tick_list(one: TickList, page: Page) -> list[str]:
    boxes = "  ".join(f"[{' ' * (len(box) - 2)}]" for box in one.boxes)
    rows = [f"  {boxes}  {number:>4}  {words(item, page.units)}" for number, item in one.items]
    return [words(one.title, page.units), "  " + "  ".join(one.boxes), *rows, f"  {words(one.more, page.units)}", ""]


def _lineup(one: Lineup, page: Page) -> list[str]:
    from crib.render.terminal import lineup

    items = [(words(said, page.units), shape) for said, shape in one.items]
    return lineup.lines(words(one.title, page.units), items, page.units, page.width, page.lines)


_SHOWN: dict[type, Callable[[Any, Page], Sequence[str]]] = {
    Heading: _heading,
    Paragraph: _paragraph,
    Bullets: _bullets,
    Table: _table,
    TickList: _tick_list,
    Drawing: _figure,
    Beside: _beside,
    Lineup: _lineup,
    Spacer: lambda one, page: [""],
}

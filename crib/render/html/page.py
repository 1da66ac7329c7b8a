"""Blocks as one page for a browser or a printer: no script, no other file, light and dark, black and white."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from html import escape
from itertools import count
from typing import Any

from crib.findings.message import Fact
from crib.light.tuples import NamedTuple
from crib.pages.blocks import (
    Align,
    Beside,
    Block,
    Bullets,
    Drawing,
    Heading,
    Lineup,
    Paragraph,
    Row,
    Spacer,
    Table,
    TickList,
)
from crib.pages.part.scene import PartScenes
from crib.pages.scene import Scene
from crib.render.svg import drawing as svg
from crib.render.svg import holes as svg_holes
from crib.render.svg import paper as svg_paper
from crib.render.svg import part as svg_part
from crib.render.text import plain
from crib.render.words import words

_STYLE = """
:root{color-scheme:light dark;--paper:Canvas}
body{color:CanvasText;background:Canvas;font:16px/1.4 sans-serif;max-width:190mm;margin:auto;padding:4mm}
h2{font-size:1.1em;margin:1.2em 0 .3em;break-after:avoid}p{margin:.3em 0}
section{margin-bottom:1em}table{border-collapse:collapse;font-variant-numeric:tabular-nums}
.wide{overflow-x:auto}.many{font-size:.75em;white-space:nowrap}.many th,.many td{padding:.2em .4em}
th,td{padding:.15em .5em;text-align:left;border-bottom:1px solid #8888;vertical-align:top}
.right,.point{text-align:right}.below td{border:0;padding-top:0;font-size:.9em}.in{margin-left:1.5em}
figure{margin:.5em 0;break-inside:avoid}svg{max-width:100%;height:auto}tr,li{break-inside:avoid}
.boxes{list-style:none;padding:0}.box{display:inline-block;width:1em;height:1em;border:1.5px solid;margin-right:.6em}
@media print{body{font-size:11pt;padding:0}.wide{overflow:visible}.many{font-size:8pt}}
"""

_MANY = 7
"""Columns from which on a table is set small and never broken inside a cell."""


class Reader(NamedTuple):
    """How a page is shown: `in` or `mm`; `numbers` tells its drawings apart."""

    units: str
    numbers: Iterator[int]

    def said(self, fact: Fact) -> str:
        """Something to be said, as it stands in a page."""
        return escape(plain(words(fact, self.units)))


def page(blocks: Iterable[Block], units: str, title: str) -> str:
    """The blocks as a whole page, in `in` or `mm`."""
    body = fragment(blocks, units)
    return (f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>{escape(title)}</title>'
            f'<meta name="viewport" content="width=device-width,initial-scale=1"><style>{_STYLE}</style></head>\n'
            f"<body>\n{body}\n</body></html>\n")


def fragment(blocks: Iterable[Block], units: str, first: int = 1) -> str:
    """The blocks as a part of a page that brings its own style; its drawings are told apart by numbers from the `first`
    on."""
    reader = Reader(units, count(first))
    body = "\n".join(_SHOWN[type(block)](block, reader) for block in blocks)
    return f"<section>\n{body}\n</section>"


def _paragraph(one: Paragraph, reader: Reader) -> str:
    label = f"<b>{reader.said(one.label)}:</b> " if one.label else ""
    return f'<p{" class=in" if one.indent else ""}>{label}{reader.said(one.text)}</p>'


def _bullets(one: Bullets, reader: Reader) -> str:
    items = "".join(f"<li>{reader.said(item)}</li>" for item in one.items)
    return f"<ul>{items}</ul>" if one.first is None else f'<ol start="{one.first}">{items}</ol>'


def _table(one: Table, reader: Reader) -> str:
    """Every column that anything stands in: a page can be scrolled and printed small."""
    kept = [at for at in range(len(one.columns)) if any(reader.said(row.cells[at]) for row in one.rows)]
    kinds = {at: "" if (align := one.columns[at].align) == Align.LEFT else f' class="{align}"' for at in kept}
    heads = [f"<th{kinds[at]}>{reader.said(one.columns[at].head)}</th>" for at in kept]
    shown = f"<thead><tr>{''.join(heads)}</tr></thead>" if any(column.head for column in one.columns) else ""
    rows = "".join(_row(row, kinds, reader) for row in one.rows)
    many = ' class="many"' if len(kept) > _MANY else ""
    return f'<div class="wide" tabindex="0"><table{many}>{shown}<tbody>{rows}</tbody></table></div>'


def _row(row: Row, kinds: dict[int, str], reader: Reader) -> str:
    cells = "".join(f"<td{kind}>{reader.said(row.cells[at])}</td>" for at, kind in kinds.items())
    below = "".join(f'<tr class="below"><td colspan="{len(kinds)}">{reader.said(one.text)}</td></tr>'
                    for one in row.below)
    return f"<tr>{cells}</tr>{below}"


def _tick_list(one: TickList, reader: Reader) -> str:
    boxes = "".join(f'<span class="box" title="{escape(box)}"></span>' for box in one.boxes)
    items = "".join(f"<li>{boxes}<b>{number}</b> {reader.said(item)}</li>" for number, item in one.items)
    return (f"<h2>{reader.said(one.title)}</h2><p>{escape(', '.join(one.boxes))}</p>"
            f'<ul class="boxes">{items}</ul><p>{reader.said(one.more)}</p>')


def _figure(one: Drawing, reader: Reader) -> str:
    name = f"figure-{next(reader.numbers)}"
    if isinstance(one.scene, PartScenes):
        return "".join(f"<figure>{svg_part.part(scene)}</figure>" for scene in one.scene.those)
    drawn = (svg.section(one.scene, reader.units, name) if isinstance(one.scene, Scene)
             else svg_holes.above(one.scene, reader.units, name))
    return f"<figure>{drawn}</figure>"


def _beside(one: Beside, reader: Reader) -> str:
    text = "".join(_paragraph(part, reader) for part in one.text)
    return f'<div class="beside">{_figure(one.drawing, reader)}<div>{text}</div></div>'


def _lineup(one: Lineup, reader: Reader) -> str:
    scale = svg.common_scale([shape for _, shape in one.items if shape])
    drawn = ((said, svg.silhouette(shape, scale) if shape else "no size is known") for said, shape in one.items)
    rows = "".join(f"<figure><figcaption>{reader.said(said)}</figcaption>{shape}</figure>" for said, shape in drawn)
    return f"<h2>{reader.said(one.title)}, {svg_paper.scale_words(scale)}</h2>{rows}"


_SHOWN: dict[type, Callable[[Any, Reader], str]] = {
    Heading: lambda one, reader: f"<h2>{reader.said(one.text)}</h2>",
    Paragraph: _paragraph,
    Bullets: _bullets,
    Table: _table,
    TickList: _tick_list,
    Drawing: _figure,
    Beside: _beside,
    Lineup: _lineup,
    Spacer: lambda one, reader: "</section>\n<section>",
}

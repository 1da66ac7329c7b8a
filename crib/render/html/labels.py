"""Sheets of labels to print: drawings with their sizes in mm."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from html import escape

from crib.light.records import dataclass
from crib.pages.labels import Tag
from crib.pages.scene import Shape
from crib.render.svg.drawing import pieces
from crib.render.svg.paper import n


@dataclass(frozen=True)
class Sheet:
    """A sheet of labels [mm], and the paper's name."""

    paper: str
    width: float
    height: float
    down: int
    across: int = 3
    label_width: float = 64.0
    label_height: float = 30.0

    @property
    def each(self) -> int:
        """Labels on one sheet."""
        return self.across * self.down


SHEETS = {"a4": Sheet("A4", 210.0, 297.0, 9), "letter": Sheet("Letter", 215.9, 279.4, 8)}
"""By the paper; a printer leaves some 5 mm of it blank at its edges, from memory."""

_CODE, _CODE_TOP, _EDGE, _WORDS = 18.0, 1.0, 2.0, 25
_DRAWING_HEIGHT = 8.0
"""What is drawn stays clear of the code: a reader wants white round it."""

_LINE = 'stroke="#000" stroke-width=".2"'
_SCALES = {1.0: "1:1", 0.5: "1:2", 0.25: "1:4", 0.125: "1:8", 0.1: "1:10", 0.05: "1:20"}
_HATCH = ('<defs><pattern id="hatch" width="1.2" height="1.2" patternUnits="userSpaceOnUse" '
          'patternTransform="rotate(45)"><line x1="0" y1="0" x2="0" y2="1.2" stroke="#000" stroke-width=".25"/>'
          "</pattern></defs>")


def sheet_of(paper: str | None, units: str) -> Sheet:
    """The sheet for a paper; where none is said, Letter for inches and A4 for millimetres.

    >>> sheet_of(None, "in").paper, sheet_of(None, "mm").paper, sheet_of("a4", "in").paper
    ('Letter', 'A4', 'A4')
    """
    return SHEETS[paper or ("letter" if units == "in" else "a4")]


def pages(tags: Sequence[Tag], sheet: Sheet) -> list[str]:
    """A drawing for each sheet, its sizes in mm."""
    return [_page(tags[at : at + sheet.each], sheet) for at in range(0, len(tags), sheet.each)]


def as_html(tags: Sequence[Tag], sheet: Sheet) -> str:
    """All sheets as one page to print."""
    style = (f"@page{{size:{sheet.paper};margin:0}}body{{margin:0}}svg{{display:block;page-break-after:always}}"
             "svg:last-child{page-break-after:auto}")
    sheets = "\n".join(pages(tags, sheet))
    return (f'<!DOCTYPE html>\n<html lang="en"><head><meta charset="utf-8"><title>Labels</title>'
            f"<style>{style}</style></head>\n<body>\n{sheets}\n</body></html>\n")


def _page(tags: Sequence[Tag], sheet: Sheet) -> str:
    left = (sheet.width - sheet.across * sheet.label_width) / 2
    top = (sheet.height - sheet.down * sheet.label_height) / 2
    parts = []
    for place, tag in enumerate(tags):
        row, column = divmod(place, sheet.across)
        x, y = left + column * sheet.label_width, top + row * sheet.label_height
        label = "".join(_label(tag, sheet))
        parts.append(f'<g id="label-{tag.number}" transform="translate({n(x)} {n(y)})">{label}</g>')
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{n(sheet.width)}mm" height="{n(sheet.height)}mm" '
            f'viewBox="0 0 {n(sheet.width)} {n(sheet.height)}" font-family="sans-serif">{_HATCH}\n'
            + "\n".join(parts) + "\n</svg>")


def _label(tag: Tag, sheet: Sheet) -> Iterator[str]:
    """One label: words at the left, the code at the right, the silhouette under the words."""
    wide, high = sheet.label_width, sheet.label_height
    yield (f'<rect x=".5" y=".5" width="{n(wide - 1)}" height="{n(high - 1)}" rx="1.5" fill="none" stroke="#000" '
           'stroke-width=".2"/>')
    yield f'<text x="{n(_EDGE)}" y="6" font-size="4.6" font-weight="bold">{tag.number}</text>'
    place = escape(tag.place[:18])
    yield f'<text x="{n(wide - _CODE - _EDGE - 2)}" y="6" font-size="3.2" text-anchor="end">{place}</text>'
    for row, words in enumerate(_wrapped(tag.words)):
        yield f'<text x="{n(_EDGE)}" y="{n(10 + 3.4 * row)}" font-size="2.9">{escape(words)}</text>'
    yield _code(tag.code, wide - _CODE - _EDGE, _CODE_TOP)
    if tag.shape:
        yield _drawing(tag.shape, _EDGE, high - _EDGE - _DRAWING_HEIGHT, wide - 2 * _EDGE - 1)


def _wrapped(label: str) -> list[str]:
    """A label on at most three lines."""
    lines = [""]
    for word in label.split():
        if len(lines[-1]) + len(word) > _WORDS and lines[-1]:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}".strip()
    return lines[:2] + ([lines[2] + (" ..." if len(lines) > 3 else "")] if len(lines) > 2 else [])


def _code(text: str, x: float, y: float) -> str:
    """The code as one path of dark squares; room around it is part of its size."""
    import segno

    matrix = segno.make(text, error="m", micro=False).matrix
    border = 2
    unit = _CODE / (len(matrix) + 2 * border)
    squares = "".join(f"M{column + border} {row + border}h1v1h-1z" for row, cells in enumerate(matrix)
                      for column, dark in enumerate(cells) if dark)
    return (f'<g transform="translate({n(x)} {n(y)}) scale({unit:.4f})" shape-rendering="crispEdges">'
            f'<path d="{squares}" fill="#000"/></g>')


def _drawing(shape: Shape, x: float, y: float, room: float) -> str:
    """The silhouette on its side at the largest usual scale that fits, with the scale beside it."""
    fits = [scale for scale in _SCALES if shape.length * scale <= room - 10 and shape.width * scale <= _DRAWING_HEIGHT]
    scale = fits[0] if fits else min((room - 10) / shape.length, _DRAWING_HEIGHT / shape.width)
    drawn = "".join(pieces(shape, scale, f'fill="#000" {_LINE}', f'fill="url(#hatch)" {_LINE}'))
    said = _SCALES.get(scale, "not to scale") + (" ~" if shape.typical else "")
    return (f'<g transform="translate({n(x)} {n(y + _DRAWING_HEIGHT / 2)})">{drawn}<text x="{n(room)}" '
            f'y="{n(_DRAWING_HEIGHT / 2)}" font-size="2.2" text-anchor="end">{said}</text></g>')

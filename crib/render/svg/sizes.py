"""A drawing as a whole: its title, its sizes with their lines (ISO 129-1), what is said of its tight spot."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from html import escape
from math import hypot

from crib.pages.scene import DimensionLine
from crib.render.svg.paper import TEXT, THIN, Paper, head, length, line, n, ring, text

ROW = 6.0
"""Between dimension lines [mm]."""


def whole(sheet: Paper, view: Iterable[str], beside: Iterable[str], title: str, those: Sequence[DimensionLine] = (),
          say: Callable[[DimensionLine], str] = str, right: float = 0.0, below: float = 0.0) -> str:
    """A drawing: what is cut off at the edge of its box, what stands beside that as far as `right` and `below` its
    sizes, these, and its title."""
    tall = sum(not one.across for one in those)
    far = max((sheet.x(one.high) for one in those if one.across), default=0.0)
    ends = [far + 4 + length(f"{one.name} {say(one)}") for one in those if one.across]
    width = max(sheet.right + 2 + (ROW * tall + TEXT if tall else 0), sheet.left + length(title), right, *ends)
    height = sheet.bottom + 5 + ROW * (len(those) - tall) + below
    clip = (f'<clipPath id="{sheet.name}-box"><rect x="{n(sheet.left)}" y="{n(sheet.top)}" '
            f'width="{n(sheet.right - sheet.left)}" height="{n(sheet.bottom - sheet.top)}"/></clipPath>')
    return (f'<svg xmlns="http://www.w3.org/2000/svg" width="{n(width)}mm" height="{n(height)}mm" '
            f'viewBox="0 0 {n(width)} {n(height)}" role="img" aria-label="{escape(title)}" fill="none" '
            f'stroke="currentColor" stroke-width="{THIN}" font-family="sans-serif" font-size="{TEXT}">'
            f"<defs>{clip}{_hatch(sheet.name, 'metal', 45, 2.2)}{_hatch(sheet.name, 'taken', -45, 1.1)}</defs>"
            f'{text(sheet.left, TEXT, title)}<g clip-path="url(#{sheet.name}-box)">{"".join(view)}</g>'
            f'{"".join(beside)}</svg>')


def _hatch(name: str, what: str, angle: int, apart: float) -> str:
    return (f'<pattern id="{name}-{what}" width="{apart}" height="{apart}" patternUnits="userSpaceOnUse" '
            f'patternTransform="rotate({angle})"><path d="M0 0V{apart}" stroke="currentColor" stroke-width=".3"/>'
            "</pattern>")


def tight(place: tuple[float, float] | None, told: str, title: str, sheet: Paper) -> Iterator[str]:
    """A ring about the tight spot on the paper, with a line to what is said of it, behind the title; no ring where the
    spot lies outside of the drawing."""
    if place is None:
        return
    (x, y), to = place, _beside(place, title, sheet)
    yield text(to, TEXT, told)
    if not (sheet.left <= x <= sheet.right and sheet.top <= y <= sheet.bottom):
        return
    yield ring(x, y, 2.0)
    far = hypot(to - x, TEXT + 1 - y) or 1.0
    yield line(x + 2 * (to - x) / far, y + 2 * (TEXT + 1 - y) / far, to, TEXT + 1)


def _beside(place: tuple[float, float], title: str, sheet: Paper) -> float:
    """Where it is said what a place on the paper is: behind the title, and to the right of the place [mm]."""
    return max(sheet.left + length(title) + 5, place[0] + 4)


def ends_at(place: tuple[float, float] | None, told: str, title: str, sheet: Paper) -> float:
    """Where that ends [mm]."""
    return _beside(place, title, sheet) + length(told) if place else 0.0


def sizes(those: Sequence[DimensionLine], say: Callable[[DimensionLine], str], sheet: Paper) -> Iterator[str]:
    """Sizes with their lines: level ones below, the shortest first, upright ones on the right (ISO 129-1)."""
    level = sorted((one for one in those if one.across), key=lambda one: one.mm)
    tall = sorted((one for one in those if not one.across), key=lambda one: one.mm)
    said = {one: f"{one.name} {say(one)}".strip() for one in those}
    far = max((one.high for one in level), default=0)
    drawn = [*(_level(one, said[one], row, sheet, far) for row, one in enumerate(level, start=1)),
             *(_upright(one, said[one], row, sheet) for row, one in enumerate(tall, start=1))]
    yield from (f'<g class="size">{one}</g>' for one in drawn)


def _level(one: DimensionLine, said: str, row: int, sheet: Paper, farthest: int) -> str:
    """A size across, in a row below; where its words find no room they stand beyond the lines of all the others."""
    a, b, y = sheet.x(one.low), sheet.x(one.high), sheet.bottom + ROW * row
    told = text((a + b) / 2, y - 1, said, "middle")
    if length(said) > b - a:
        beyond = max(b + 2.5, sheet.x(farthest)) + 1
        told = line(b, y, beyond - 0.5, y) + text(beyond, y + 1, said)
    return line(a, sheet.bottom + 1, a, y + 1) + line(b, sheet.bottom + 1, b, y + 1) + _arrows(a, y, b, y) + told


def _upright(one: DimensionLine, said: str, row: int, sheet: Paper) -> str:
    """A size up and down, in a row on the right; where its words find no room they begin at the end that is nearer to
    the edge of the drawing, and run inwards."""
    a, b, x = sheet.y(one.high), sheet.y(one.low), sheet.right + ROW * row
    at, anchor = (a + b) / 2, "middle"
    if length(said) > b - a:
        at, anchor = (a, "end") if a + b < sheet.top + sheet.bottom else (b, "start")
    told = f'<g transform="translate({n(x + TEXT)} {n(at)}) rotate(-90)">{text(0, 0, said, anchor)}</g>'
    return line(sheet.right + 1, a, x + 1, a) + line(sheet.right + 1, b, x + 1, b) + _arrows(x, a, x, b) + told


def _arrows(a: float, b: float, c: float, d: float) -> str:
    """A dimension line with its heads; they stand outside where there is no room between."""
    short = abs(c - a) + abs(d - b) < 7
    heads = "".join(head(x, y, (dx if not short else -dx), (dy if not short else -dy))
                    for x, y, dx, dy in ((a, b, *_towards(a, b, c, d)), (c, d, *_towards(c, d, a, b))))
    return line(a, b, c, d) + heads


def _towards(a: float, b: float, c: float, d: float) -> tuple[float, float]:
    return (float(c > a) - float(c < a), float(d > b) - float(d < b))

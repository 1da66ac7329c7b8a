"""A piece out of the middle of a feature with open ends, from above, as a vector drawing: its edges, the wall that is
cut, the cutter and the way that it goes."""

from __future__ import annotations

from collections.abc import Iterator

from crib.pages.scene import Strip
from crib.render.svg.paper import CHAIN, CUT, DASHED, THICK, THIN, Paper, arrow, line, n, paper, scale_words
from crib.render.svg.sizes import whole
from crib.render.window import Pane

_TEETH = 0.25


def strip(scene: Strip, section: Pane, name: str = "strip", wide: float = 46.0, high: float = 34.0) -> str:
    """The view, the back at the top, at most so wide and high [mm]; of what lies across no more than the section
    shows."""
    sheet = paper(_box(scene, section), name, wide, high)
    title = f"from above, back up, {scale_words(sheet.scale)}"
    return whole(sheet, [*_edges(scene, sheet), *_cutter(scene, sheet)], _breaks(sheet), title)


def _box(scene: Strip, section: Pane) -> Pane:
    """Edges, walls and the cutter with a bit round them."""
    across = (*scene.seen, *scene.hidden, *scene.cut)
    shown = [y for y in across if section.left <= y <= section.right]
    low, high = min((*shown, scene.y_nm - scene.teeth)), max((*shown, scene.y_nm + scene.teeth))
    pad = (high - low) // 6
    along = max((high - low) * 2 // 3, scene.teeth * 3 // 2)
    return Pane(-along, along, low - pad, high + pad)


def _edges(scene: Strip, sheet: Paper) -> Iterator[str]:
    """What is seen thick, what is hidden dashed, what is cut thickest."""
    for kind, edges, how in (("under", scene.hidden, f'stroke-dasharray="{DASHED}"'),
                             ("edge", scene.seen, f'stroke-width="{THICK}"'),
                             ("cut", scene.cut, f'stroke-width="{CUT}"')):
        path = "".join(f"M{n(sheet.left)} {n(sheet.y(y))}H{n(sheet.right)}" for y in edges)
        yield f'<path class="{kind}" d="{path}" {how}/>'


def _cutter(scene: Strip, sheet: Paper) -> Iterator[str]:
    """The teeth, their axis, and an arrow each way that they go."""
    x, y, r = sheet.x(0), sheet.y(scene.y_nm), scene.teeth / 1e6 * sheet.scale
    yield (f'<circle class="teeth" cx="{n(x)}" cy="{n(y)}" r="{n(r)}" fill="currentColor" '
           f'fill-opacity="{_TEETH}" stroke-width="{THIN}"/>')
    yield line(sheet.left, y, sheet.right, y, CHAIN) + line(x, y - r - 2, x, y + r + 2, CHAIN)
    for feed in scene.feeds:
        way = {"right": 1, "left": -1}.get(feed.split(" ")[0], 0)
        yield from arrow(x, y, x + way * (sheet.right - x - 1), y)


def _breaks(sheet: Paper) -> Iterator[str]:
    """Both ends are broken off: thin lines with a zigzag (ISO 128-2)."""
    for x in (sheet.left, sheet.right):
        middle = (sheet.top + sheet.bottom) / 2
        yield (f'<path class="break" d="M{n(x)} {n(sheet.top)}V{n(middle - 1.5)}L{n(x - 1.2)} {n(middle - 0.5)}'
               f'L{n(x + 1.2)} {n(middle + 0.5)}L{n(x)} {n(middle + 1.5)}V{n(sheet.bottom)}"/>')

"""Holes round a circle from above as a vector drawing: each with its number, their circle and its centre lines."""

from __future__ import annotations

from collections.abc import Iterator

from crib.pages.scene import DimensionLine, FromAbove, HolesFromAbove
from crib.render.svg import plan as svg_plan
from crib.render.svg.paper import CHAIN, TEXT, THICK, Paper, line, n, paper, scale_words, text
from crib.render.svg.sizes import sizes, whole
from crib.render.window import Pane
from crib.render.words import drawn


def above(scene: FromAbove | HolesFromAbove, units: str, name: str = "plan", wide: float = 150.0, high: float = 60.0
          ) -> str:
    """The view from above of whatever is seen from there."""
    if isinstance(scene, FromAbove):
        return svg_plan.plan(scene, units, name, wide, high)
    return holes(scene, units, name, wide, max(high, 80.0))


def holes(scene: HolesFromAbove, units: str, name: str = "holes", wide: float = 150.0, high: float = 80.0) -> str:
    """The view of a circle of holes, at most so wide and high [mm]."""
    sheet = paper(_box(scene), name, wide, high)
    title = f"from above, the back at the top, {scale_words(sheet.scale)}"

    def say(one: DimensionLine) -> str:
        return drawn(one, units)

    return whole(sheet, [*_circle(scene, sheet), *_holes(scene, sheet)], sizes(scene.dimensions, say, sheet), title,
                 scene.dimensions, say)


def _box(scene: HolesFromAbove) -> Pane:
    (x, y), far = scene.middle, scene.around + 2 * scene.radius + scene.around // 8
    return Pane(x - far, x + far, y - far, y + far)


def _circle(scene: HolesFromAbove, sheet: Paper) -> Iterator[str]:
    x, y, around = sheet.x(scene.middle[0]), sheet.y(scene.middle[1]), scene.around / 1e6 * sheet.scale
    yield f'<circle class="circle" cx="{n(x)}" cy="{n(y)}" r="{n(around)}" stroke-dasharray="{CHAIN}"/>'
    yield line(x - around - 3, y, x + around + 3, y, CHAIN) + line(x, y - around - 3, x, y + around + 3, CHAIN)


def _holes(scene: HolesFromAbove, sheet: Paper) -> Iterator[str]:
    """Each hole, its number in it or beside it, towards the middle of the circle."""
    radius = scene.radius / 1e6 * sheet.scale
    for number, (x, y) in enumerate(scene.holes, start=1):
        at, up = sheet.x(x), sheet.y(y)
        yield f'<circle class="hole" cx="{n(at)}" cy="{n(up)}" r="{n(radius)}" stroke-width="{THICK}"/>'
        share = 0.0 if radius > TEXT else (radius + TEXT) / max(scene.around / 1e6 * sheet.scale, 1e-9)
        inward = (sheet.x(scene.middle[0]) - at) * share, (sheet.y(scene.middle[1]) - up) * share
        yield text(at + inward[0], up + inward[1] + TEXT / 3, str(number), "middle")

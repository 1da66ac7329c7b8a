"""A cutter from the side as a vector drawing, its axis upright, with the sizes to check before it goes in."""

from __future__ import annotations

from collections.abc import Iterator
from functools import partial

from crib.findings.message import Measure
from crib.geometry.silhouette import Part
from crib.pages.scene import CutterScene, DimensionLine
from crib.render.svg import drawing as svg
from crib.render.svg.paper import CHAIN, THICK, Paper, line, paper, scale_words
from crib.render.svg.sizes import sizes, whole
from crib.render.window import Pane
from crib.render.words import words

_SHANK = 6_000_000
"""How much is shown of what holds the teeth, beyond the sizes [nm]."""


def cutter(scene: CutterScene, units: str, name: str = "cutter", wide: float = 40.0, high: float = 45.0) -> str:
    """The drawing, its view at most so wide and high [mm]."""
    sheet = paper(_box(scene), name, wide, high)
    say = partial(_size, units=units)
    return whole(sheet, _drawn(scene, sheet), sizes(scene.dimensions, say, sheet),
                     scale_words(sheet.scale), scene.dimensions, say)


def _size(one: DimensionLine, units: str) -> str:
    return words(Measure(one.mm), units)


def _box(scene: CutterScene) -> Pane:
    """The teeth, as long as twice what they are wide, and a bit of what holds them."""
    parts = (*scene.form.sure, *scene.form.clear)
    half = max(scene.form.radius, *(part.widest for part in parts))
    whole = max(part.high for part in parts)
    sized = max((one.high for one in scene.dimensions if not one.across), default=0)
    top = min(whole, max(sized, min(scene.form.height, 4 * half)) + _SHANK)
    return Pane(-half - half // 8, half + half // 8, -half // 8, top)


def _drawn(scene: CutterScene, sheet: Paper) -> Iterator[str]:
    for kind, shade, parts in (("body", 0.0, scene.form.clear), ("teeth", 0.3, scene.form.sure)):
        for part in parts:
            yield (f'<path class="{kind}" d="{_part(part, sheet)}" stroke-width="{THICK}" fill="currentColor" '
                   f'fill-opacity="{shade}"/>')
    yield line(sheet.x(0), sheet.top, sheet.x(0), sheet.bottom, CHAIN)


def _part(part: Part, sheet: Paper) -> str:
    return svg.polygon([(-part.radius_low, part.low), (part.radius_low, part.low), (part.radius_high, part.high),
                        (-part.radius_high, part.high)], sheet)

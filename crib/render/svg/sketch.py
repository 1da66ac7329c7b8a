"""What is asked for as a drawing to scale: metal hatched, its sizes; without a cutter."""

from __future__ import annotations

from crib.pages.scene import DimensionLine
from crib.pages.sketch import Outlined
from crib.render.svg import drawing as svg
from crib.render.svg.paper import CHAIN, line, paper, scale_words
from crib.render.svg.sizes import sizes, whole
from crib.render.window import FAR, Pane
from crib.render.words import drawn


def sketch(scene: Outlined, units: str, name: str, with_sizes: bool = True, is_titled: bool = True, wide: float = 90.0,
           high: float = 60.0) -> str:
    """The drawing; its sizes are only named where they aren't said yet."""
    sheet = paper(_pane(scene), name, wide, high)
    standing = scene.stock - scene.gone
    view = [f'<path class="metal" d="{svg.area(standing, sheet)}" stroke="none" fill="url(#{name}-metal)"/>',
            *svg.edges(standing, sheet), line(sheet.left, sheet.y(0), sheet.right, sheet.y(0), CHAIN)]
    dimensions = [one for one in scene.dimensions if one.high > one.low]

    def say(one: DimensionLine) -> str:
        return drawn(one, units) if with_sizes else ""

    scale = scale_words(sheet.scale) if with_sizes else "not to scale yet"
    title = f"what is asked for, {scale}" if is_titled else ""
    return whole(sheet, view, sizes(dimensions, say, sheet), title, dimensions, say)


def _pane(scene: Outlined) -> Pane:
    """What goes, with some metal round it; what runs on for ever is cut off."""
    spans = [(slab.low, slab.high, span) for slab in scene.gone.slabs for span in slab.spans]
    sides = [edge for _, _, span in spans for edge in (span.left_low, span.left_high, span.right_low, span.right_high)
             if abs(edge) < FAR] or [0]
    levels = [level for low, high, _ in spans for level in (low, high) if abs(level) < FAR] or [0]
    left, right, bottom, top = min(sides), max(sides), min(levels), max(0, *levels)
    size = max(right - left, top - bottom, 1)
    return Pane(left - size // 3, right + size // 3, bottom - size // 4, top + size // 12)

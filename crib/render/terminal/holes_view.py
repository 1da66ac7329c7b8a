"""Holes round a circle from above in a terminal, about to scale: their numbers where they stand."""

from __future__ import annotations

from crib.pages.scene import HolesFromAbove
from crib.render.terminal.canvas import Canvas
from crib.render.words import drawn

_ROWS, _LEAST_ROWS, _SHAPE = 15, 7, 2
"""How many lines it takes at the most and at the least, and how much taller than wide a character is."""


def of_scene(scene: HolesFromAbove, units: str, width: int = 100, tall: int | None = None) -> list[str]:
    """The view as lines of at most `width` characters, `tall` of them at the most."""
    rows = min(_ROWS, (width - 6) // _SHAPE, max(_LEAST_ROWS, (tall or _ROWS) - 2))
    columns = rows * _SHAPE
    sheet = Canvas(width, rows + 1)

    def cell(x: int, y: int) -> tuple[int, int]:
        across, down = (x - scene.middle[0]) / scene.around, (scene.middle[1] - y) / scene.around
        return round((down + 1) / 2 * rows), 2 + round((across + 1) / 2 * columns)

    row, column = cell(*scene.middle)
    sheet.put(row, column, "+")
    for number, place in enumerate(scene.holes, start=1):
        row, column = cell(*place)
        sheet.put(row, column, str(number))
    size = ", ".join(f"{one.name} {drawn(one, units)}" for one in scene.dimensions)
    return [f"From above, the back at the top: {size}", *sheet.lines()]

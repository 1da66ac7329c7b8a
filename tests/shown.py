"""Pages as a terminal shows them."""

from __future__ import annotations

from collections.abc import Iterable

from crib.pages.blocks import Block
from crib.render.terminal import lines as terminal


def shown(blocks: Iterable[Block], units: str = "in", width: int = 100, lines: bool = True) -> list[str]:
    """The lines of a page."""
    return terminal.lines(blocks, units, width, lines)

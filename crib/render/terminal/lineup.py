"""Silhouettes in a terminal, one under the other and all to one scale, each under its words."""

from __future__ import annotations

from collections.abc import Sequence

from crib.pages.scene import Piece, Shape
from crib.units import in_words

_TEETH, _SHANK = "█", "░"
_ASCII = str.maketrans("█░", "#=")
_TALLER = 2.1
"""How much taller than wide a character is."""

_MOST_ROWS, _INDENT = 7, 6
_SCALES = (25.4 / 32, 25.4 / 16, 25.4 / 8, 25.4 / 4, 25.4 / 2)


def lines(title: str, items: Sequence[tuple[str, Shape | None]], units: str, width: int,
          blocks: bool = True) -> list[str]:
    """The words and silhouettes under their title, with what the signs mean; `blocks`: drawn with blocks, else
    in plain ASCII."""
    scale = _scale([shape for _, shape in items if shape], width - _INDENT)
    rows = [f"{title}; {_TEETH * 2} cuts, {_SHANK * 2} doesn't",
            f"a character is {_said(scale, units)} wide; ~ drawn as usual where a size isn't known"]
    for words, shape in items:
        rows += ["", words]
        rows += [" " * _INDENT + row for row in (picture(shape, scale) if shape else ["(no size is known)"])]
    return rows if blocks else [row.translate(_ASCII) for row in rows]


def picture(shape: Shape, scale: float) -> list[str]:
    """A silhouette on its side, a character for each `scale` mm along it.

    >>> disc = Shape((Piece(0.0, 2.0, 5.0, 5.0, True), Piece(2.0, 6.0, 2.0, 2.0, False)), False)
    >>> picture(disc, 1.0)
    ['██', '██░░░░', '██░░░░', '██░░░░', '██']
    """
    start = min(piece.low for piece in shape.pieces)
    columns = max(1, round(shape.length / scale))
    half = round(shape.width / 2 / (scale * _TALLER) - 0.35)
    rows = []
    for row in range(-half, half + 1):
        off = max(0.0, abs(row) - 0.35) * scale * _TALLER
        cells = [_cell(shape.pieces, start + (column + 0.5) * scale, off) for column in range(columns)]
        rows.append("".join(cells).rstrip())
    return rows


def _cell(pieces: Sequence[Piece], at: float, off: float) -> str:
    """What stands at a place along the axis, so far off it."""
    found = " "
    for piece in pieces:
        if piece.low <= at <= piece.high:
            share = (at - piece.low) / (piece.high - piece.low)
            radius = piece.radius_low + share * (piece.radius_high - piece.radius_low)
            if off <= radius:
                found = _TEETH if piece.cuts or found == _TEETH else _SHANK
    return found


def _scale(shapes: Sequence[Shape], columns: int) -> float:
    """The largest scale at which everything fits."""
    long, wide = max((s.length for s in shapes), default=1.0), max((s.width for s in shapes), default=1.0)
    fits = [scale for scale in _SCALES if long / scale <= columns and wide / (scale * _TALLER) <= _MOST_ROWS]
    return fits[0] if fits else _SCALES[-1]


def _said(mm: float, units: str) -> str:
    return f"{in_words(mm, 'in')} in" if units == "in" else f"{mm:.1f} mm"

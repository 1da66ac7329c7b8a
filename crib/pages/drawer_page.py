"""A place with what should lie in it: a row of words for each cutter and its silhouette, all to one scale."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.base import Cutter
from crib.pages.silhouette import Piece, Silhouette, silhouette
from crib.units import in_words

_TEETH, _SHANK = "█", "░"
_TALLER = 2.1
"""How much taller than wide a character is."""

_MOST_ROWS, _INDENT = 7, 6
_SCALES = (25.4 / 32, 25.4 / 16, 25.4 / 8, 25.4 / 4, 25.4 / 2)


def drawer_page(place: str, cutters: Sequence[Cutter], units: str, width: int) -> list[str]:
    """The lines of a place."""
    drawn = [(cutter, silhouette(cutter)) for cutter in cutters]
    scale = _scale([shape for _, shape in drawn if shape], width - _INDENT)
    count = sum(cutter.count for cutter in cutters)
    lines = [f"{place}: {count} cutter{'' if count == 1 else 's'}; {_TEETH * 2} cuts, {_SHANK * 2} doesn't",
             f"a character is {_said(scale, units)} wide; ~ drawn as usual where a size isn't known"]
    for cutter, shape in drawn:
        lines += ["", _words(cutter, shape, place)]
        lines += [" " * _INDENT + row for row in (picture(shape, scale) if shape else ["(no size is known)"])]
    return lines


def picture(shape: Silhouette, scale: float) -> list[str]:
    """A silhouette on its side, a character for each `scale` mm along it.

    >>> disc = Silhouette((Piece(0.0, 2.0, 5.0, 5.0, True), Piece(2.0, 6.0, 2.0, 2.0, False)), False)
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


def tick_list(place: str, cutters: Sequence[Cutter]) -> list[str]:
    """A place as a list to tick on paper."""
    lines = [place, "  there  dull  missing"]
    for cutter in cutters:
        many = f", {cutter.count} of them" if cutter.count > 1 else ""
        gone = f"  ({'; '.join(cutter.away)})" if cutter.away else "  (was missing)" if not cutter.count else ""
        where = f"  [{cutter.drawer}]" if cutter.drawer and cutter.drawer.lower() != place.lower() else ""
        lines.append(f"  [   ]  [  ]  [     ]  {cutter.id:>4}  {cutter.label}{many}{gone}{where}")
    return [*lines, "  more that lies here: ______________________________", ""]


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


def _scale(shapes: Sequence[Silhouette], columns: int) -> float:
    """The largest scale at which everything fits."""
    long, wide = max((s.length for s in shapes), default=1.0), max((s.width for s in shapes), default=1.0)
    fits = [scale for scale in _SCALES if long / scale <= columns and wide / (scale * _TALLER) <= _MOST_ROWS]
    return fits[0] if fits else _SCALES[-1]


def _words(cutter: Cutter, shape: Silhouette | None, place: str) -> str:
    parts = [cutter.label]
    parts += ["missing" if not cutter.count else f"{cutter.count} of them"] if cutter.count != 1 else []
    parts += cutter.away
    parts += [word for word in (cutter.material, cutter.condition) if word != "unknown"]
    parts += [f"in {cutter.drawer}"] if cutter.drawer and cutter.drawer.lower() != place.lower() else []
    return f"{cutter.id:>4}{'~' if shape and shape.typical else ' '} {', '.join(parts)}"


def _said(mm: float, units: str) -> str:
    return f"{in_words(mm, 'in')} in" if units == "in" else f"{mm:.1f} mm"

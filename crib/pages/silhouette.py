"""A cutter's outline from the side, in mm: teeth, and what holds them; drawn from what is known, else as typical."""

from __future__ import annotations

from crib.cutters import kind_of
from crib.cutters.base import Clearances, Cutter
from crib.findings.errors import CribError
from crib.geometry.silhouette import Part
from crib.pages.scene import Piece, Shape

_NM = 1e6
_FACE_SHARE, _LENGTH_SHARE, _SHANK_LENGTH = 0.2, 2.5, 30.0


def silhouette(cutter: Cutter) -> Shape | None:
    """The outline of a cutter; None where no size of it is known."""
    if (cutter.diameter_mm or cutter.nominal_mm or cutter.thread or cutter.radius_mm or cutter.shank_mm) is None:
        return None
    kind = kind_of(cutter)
    known = cutter.but(diameter_mm=cutter.diameter_mm or cutter.nominal_mm)
    filled = kind.fill(known)
    for unknown in (one for one in kind.unknowns(filled) if getattr(filled, one.key) is None):
        filled = filled.but(**{unknown.key: _between(unknown.kindest, unknown.worst, filled)})
    typical = filled != known or cutter.diameter_mm is None
    draw = kind.form or kind.on_axis
    try:
        form = draw(filled, Clearances()) if draw else None
    except (CribError, ValueError, TypeError, ZeroDivisionError):
        form = None
    if form is None:
        return Shape(_plainly(filled), True)
    pieces = (*_pieces(form.sure, True), *_pieces(form.clear, False))
    return Shape((*pieces, *_other_end(cutter, pieces)), typical)


def _other_end(cutter: Cutter, pieces: tuple[Piece, ...]) -> tuple[Piece, ...]:
    """The teeth at the far end of a double-ender, of its own diameter."""
    if len(cutter.ends) < 2 or not (first := cutter.ends[0].diameter_mm) or not (second := cutter.ends[1].diameter_mm):
        return ()
    top, share = max(piece.high for piece in pieces), second / first
    teeth = [piece for piece in pieces if piece.cuts]
    length = max(piece.high for piece in teeth)
    return tuple(Piece(top + length - piece.high, top + length - piece.low, share * piece.radius_high,
                       share * piece.radius_low, True) for piece in teeth)


def _between(kindest: float, worst: float, cutter: Cutter) -> float:
    """A likely size for one that isn't known: neither end of what it could be."""
    least, most = sorted((kindest, worst))
    return min(most, max(least + (most - least) * 0.15, 0.4 * (cutter.diameter_mm or 0.0)))


def _pieces(parts: tuple[Part, ...], cuts: bool) -> tuple[Piece, ...]:
    return tuple(Piece(part.low / _NM, part.high / _NM, part.radius_low / _NM, part.radius_high / _NM, cuts)
                 for part in parts if part.high > part.low)


def _plainly(cutter: Cutter) -> tuple[Piece, ...]:
    """The outline of a kind that has no form yet: a disc, one piece from end to end, or a body on its shank."""
    radius, kind = (cutter.diameter_mm or cutter.shank_mm or 2 * (cutter.radius_mm or 3.0)) / 2, kind_of(cutter)
    if "face_mm" in kind.shown_keys or (cutter.bore_mm and not cutter.shank_mm):
        return (Piece(0.0, cutter.face_mm or _FACE_SHARE * radius, radius, radius, True),)
    tip = cutter.tip_mm / 2 if cutter.tip_mm is not None else radius
    cut = cutter.length_of_cut_mm or cutter.face_mm or _LENGTH_SHARE * radius
    if kind.is_plain:
        return (Piece(0.0, cutter.overall_length_mm or cut, radius, radius, False),)
    shank = (cutter.shank_mm or 2 * radius) / 2
    return (Piece(0.0, cut, tip, radius, True),
            Piece(cut, max(cutter.overall_length_mm or 0.0, cut + _SHANK_LENGTH), shank, shank, False))

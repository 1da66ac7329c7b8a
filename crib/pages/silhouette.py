"""A cutter's outline from the side, in mm: teeth, and what holds them; drawn from what is known, else as typical."""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan

from crib.cutters import kind_of
from crib.cutters.base import Clearances, Cutter
from crib.findings.errors import CribError
from crib.geometry.silhouette import Part

_NM = 1e6
_FACE_SHARE, _LENGTH_SHARE, _SHANK_LENGTH = 0.2, 2.5, 30.0
_DISCS = ("slitting-saw", "side-cutter", "angle-cutter", "form-cutter", "face-mill")


@dataclass(frozen=True)
class Piece:
    """A piece between two places along the axis, straight from one radius to the other [mm]; `cuts`: it has teeth."""

    low: float
    high: float
    radius_low: float
    radius_high: float
    cuts: bool


@dataclass(frozen=True)
class Silhouette:
    """The pieces from the cutting end on. `typical`: some of its sizes aren't known and were drawn as is usual."""

    pieces: tuple[Piece, ...]
    typical: bool

    @property
    def length(self) -> float:
        """From end to end [mm]."""
        return max(piece.high for piece in self.pieces) - min(piece.low for piece in self.pieces)

    @property
    def width(self) -> float:
        """Across the widest piece [mm]."""
        return 2 * max(max(piece.radius_low, piece.radius_high) for piece in self.pieces)


def silhouette(cutter: Cutter) -> Silhouette | None:
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
        return Silhouette(_plainly(filled), True)
    pieces = (*_pieces(form.sure, True), *_pieces(form.clear, False))
    return Silhouette((*pieces, *_other_end(cutter, pieces)), typical)


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
    """The outline of a kind that has no form yet: a disc, or a body on its shank."""
    radius = (cutter.diameter_mm or cutter.shank_mm or 2 * (cutter.radius_mm or 3.0)) / 2
    if cutter.kind in _DISCS or (cutter.bore_mm and not cutter.shank_mm):
        return (Piece(0.0, cutter.face_mm or _FACE_SHARE * radius, radius, radius, True),)
    tip = cutter.tip_mm / 2 if cutter.tip_mm is not None else radius
    cut = cutter.length_of_cut_mm or cutter.face_mm or _LENGTH_SHARE * radius
    body = Piece(0.0, cut, tip, radius, True)
    if cutter.kind == "dovetail-cutter":
        neck = max(0.3 * radius, radius - cut / tan(radians(cutter.angle_deg or 60.0)))
        return Piece(0.0, cut, radius, neck, True), Piece(cut, cut + _SHANK_LENGTH, neck, neck, False)
    if cutter.kind in ("blank", "die", "broach"):
        return (Piece(0.0, cutter.overall_length_mm or cut, radius, radius, False),)
    shank = (cutter.shank_mm or 2 * radius) / 2
    return body, Piece(cut, max(cutter.overall_length_mm or 0.0, cut + _SHANK_LENGTH), shank, shank, False)

"""Form cutters with a rounded rim on a bore: convex ones make a round groove, concave ones a rounded edge. Which of the
two one is, its note says."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from crib.cutters import on_arbor
from crib.cutters.base import Clearances, Cutter, Kind, Motion, Unknown
from crib.cutters.gauged import by_size, parts_of_an_inch, whole_mm
from crib.cutters.proposals import MEMORY, Need, Wanted, new
from crib.cutters.speech import Name, Order, Speech
from crib.geometry.arcs import quarter
from crib.geometry.silhouette import Part, Silhouette
from crib.units import nm

CONVEX, CONCAVE = "convex", "concave"
_TEETH, _WALL_MM, _BORE_MM = 12, 3.0, 25.4
"""Teeth of such a cutter, what stands beside the round of a concave one, and the usual bore [mm]. From memory."""

_DIAMETER_SHARE = 8.0
"""The diameter of a new one, in radii: 2-1/4 in for 1/4 [-]. From memory."""


def _is(cutter: Cutter, which: str) -> bool:
    return which in (cutter.note or "").lower()


def _face(cutter: Cutter) -> float:
    """How wide it is: what is on record, else its round and what stands beside [mm]."""
    wide = 2 * (cutter.radius_mm or 0.0)
    return max(wide, cutter.face_mm or (wide + 2 * _WALL_MM if _is(cutter, CONCAVE) else wide))


def _fill(cutter: Cutter) -> Cutter:
    known = cutter.but(face_mm=_face(cutter) or cutter.face_mm)
    return on_arbor.fill(known, _TEETH)


def _unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """Its diameter, its radius, and which way it is round."""
    asked = []
    if cutter.diameter_mm is None:
        radius = cutter.radius_mm or 6.35
        asked.append(Unknown("diameter_mm", 2 * _DIAMETER_SHARE * radius, 3 * radius,
                             "mic the diameter over the teeth"))
    if cutter.radius_mm is None:
        face = cutter.face_mm or 6.35
        asked.append(Unknown("radius_mm", face / 2, face / 8, "measure its radius with a gauge", position=True))
    elif not _is(cutter, CONVEX) and not _is(cutter, CONCAVE):
        asked.append(Unknown("radius_mm", cutter.radius_mm, cutter.radius_mm,
                             "is it convex or concave? write it in its note", position=True))
    return tuple(asked)


def _form(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The rim with its round, chords inside the true arc, so that what it surely cuts is never overstated."""
    face, rim, radius = nm(_face(cutter)), nm((cutter.diameter_mm or 0.0) / 2), nm(cutter.radius_mm or 0.0)
    beside = (face - 2 * radius) // 2
    half = [(out, up) for out, up in quarter(radius)]
    if _is(cutter, CONCAVE):
        out = [(beside + up, rim - out) for out, up in half]
    else:
        out = [(beside + up, rim - radius + out) for out, up in half]
    heights = [*out, *((face - z, r) for z, r in reversed(out))]
    ends = [(0, heights[0][1]), *heights, (face, heights[-1][1])]
    teeth = tuple(Part("teeth", low, high, one, other) for (low, one), (high, other) in pairwise(ends) if high > low)
    return Silhouette(teeth, teeth)


def _proposes(need: Need) -> Iterator[Wanted]:
    """For a round groove, a convex one of its radius with a bore that an arbor takes."""
    if need.room is None or need.corner is None:
        return
    radius = round(sum(need.corner) / 2, 6)
    bore = need.arbors[0] if need.arbors else _BORE_MM
    yield Wanted(new("form-cutter", radius_mm=radius, diameter_mm=round(bore + _DIAMETER_SHARE * radius, 1),
                     face_mm=2 * radius, bore_mm=bore, note=CONVEX), f"{MEMORY} sizes")


KIND = Kind(
    name="form-cutter",
    words="form cutter",
    plural="form cutters",
    size_keys=("radius_mm", "diameter_mm"),
    shown_keys=("radius_mm", "face_mm"),
    form=_form,
    fill=_fill,
    unknowns=_unknowns,
    motions=frozenset({Motion.ALONG}),
    operation="forming",
    buried=True,
    on_arbor=True,
    proposes=_proposes,
    cautions=lambda group: ("hands well clear of an arbor cutter; guard it where you can",),
    is_ground_from_blanks=True,
    gauging=by_size("form-cutter", "radius convex or concave cutter",
                    lambda: (*parts_of_an_inch(1, 32, 32), *whole_mm(1, 12)), "radius_mm"),
    speech=Speech(
        largest=203.2,
        names=(Name(r"convex cutters?|convex", CONVEX), Name(r"concave cutters?|concave", CONCAVE)),
        order=Order.ROUND,
    ),
    example=Cutter(0, "form-cutter", radius_mm=3.175, diameter_mm=57.15, face_mm=6.35, bore_mm=25.4, note=CONVEX),
)

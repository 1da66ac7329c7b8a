"""Corner-rounding cutters: a concave edge over a pilot, which runs along the wall below the edge that is rounded; on a
shank, or a disc with a bore whose small side is put downwards on the arbor."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from crib.cutters.base import Clearances, Cutter, Kind, Motion, Unknown
from crib.cutters.proposals import MEMORY, Need, Wanted, new
from crib.cutters.shapes import cylinder
from crib.cutters.speech import Name, Speech
from crib.geometry.arcs import quarter
from crib.geometry.silhouette import Part, Silhouette
from crib.units import nm

_STANDS_OUT, _SHANK_MM = 38.1, 12.7
_PILOT_SHARE, _LEAST_PILOT_MM = 2.0, 4.0
"""The pilot of a usual one, in radii, and at the least [mm]. From memory."""


def pilot_mm(radius: float) -> float:
    """The pilot that one of a radius usually has [mm]. From memory."""
    return max(_LEAST_PILOT_MM, _PILOT_SHARE * radius)


def _fill(cutter: Cutter) -> Cutter:
    """Across its teeth it is its pilot and its radius on both sides, and so the other way round; a usual shank where
    none was stated and it has no bore; a disc is as high as its round where nothing was stated."""
    known = cutter
    if known.tip_mm is None and _is_disc(known) and known.diameter_mm is not None and known.radius_mm is not None:
        known = known.but(tip_mm=round(known.diameter_mm - 2 * known.radius_mm, 6))
    if known.diameter_mm is None and known.tip_mm is not None and known.radius_mm is not None:
        known = known.but(diameter_mm=round(known.tip_mm + 2 * known.radius_mm, 6))
    if _is_disc(known):
        return known.but(end_teeth=False, face_mm=max(known.face_mm or 0.0, known.radius_mm or 0.0) or None)
    if known.shank_mm is None:
        known = known.but(shank_mm=_SHANK_MM, assumed=tuple(dict.fromkeys((*known.assumed, "shank_mm"))))
    return known


def _is_disc(cutter: Cutter) -> bool:
    return cutter.bore_mm is not None and cutter.shank_mm is None


def _unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """Its radius and its pilot: where it stands hangs on both."""
    asked = []
    if cutter.radius_mm is None:
        asked.append(Unknown("radius_mm", 3.175, 1.0, "measure its radius with a gauge", position=True))
    if _is_disc(cutter) and cutter.tip_mm is None:
        if cutter.diameter_mm is None:
            asked.append(Unknown("diameter_mm", 63.5, 12.7, "mic the diameter over the teeth", position=True))
    elif cutter.tip_mm is None:
        usual = pilot_mm(cutter.radius_mm or 3.175)
        asked.append(Unknown("tip_mm", usual, usual / 2, "mic the pilot, its small end", position=True))
    return tuple(asked)


def _form(cutter: Cutter, clear: Clearances) -> Silhouette:
    """From the pilot out along the arc, whose centre is level with the pilot's end; over it the shank, or the rest of a
    disc, as wide as it is."""
    radius, pilot = nm(cutter.radius_mm or 0.0), nm((cutter.tip_mm or 0.0) / 2)
    heights = [(out, pilot + up) for out, up in quarter(radius)]
    teeth = tuple(Part("teeth", low, high, one, other) for (low, one), (high, other) in pairwise(heights)
                  if high > low)
    if _is_disc(cutter):
        rest = (Part("teeth", radius, nm(cutter.face_mm or 0.0), pilot + radius, pilot + radius),)
        teeth += rest if rest[0].high > radius else ()
        return Silhouette(teeth, teeth)
    top, size, shank = radius / 1e6, 2 * (pilot + radius) / 1e6, cutter.shank_mm or _SHANK_MM
    stem = cylinder("shank", top, top + _STANDS_OUT, shank, 0.0, clear.end if shank > size else 0.0)
    return Silhouette(teeth, teeth, (stem,))


def _proposes(need: Need) -> Iterator[Wanted]:
    """For a rounded edge, one of its radius."""
    if need.room is None or need.room.rounded is None:
        return
    radius = round(need.room.rounded[1] / 1e6, 6)
    yield Wanted(new("corner-rounding-cutter", radius_mm=radius, tip_mm=pilot_mm(radius), flutes=4,
                     diameter_mm=round(pilot_mm(radius) + 2 * radius, 6), shank_mm=_SHANK_MM), f"{MEMORY} sizes")


KIND = Kind(
    name="corner-rounding-cutter",
    words="corner-rounding cutter",
    plural="corner-rounding cutters",
    size_keys=("radius_mm", "diameter_mm"),
    shown_keys=("radius_mm",),
    form=_form,
    fill=_fill,
    unknowns=_unknowns,
    motions=frozenset({Motion.ROUND}),
    operation="forming",
    may_be_bored=True,
    proposes=_proposes,
    is_ground_from_blanks=True,
    speech=Speech(
        names=(Name(r"corner ?round(?:er|ing)?s?(?: cutters?| end ?mills?| em)?"),),
        order=("radius_mm",),
        fields={"pilot_mm": "tip_mm"},
        wanted=("tip_mm", "shank_mm"),
        looks=lambda values: () if "tip_mm" in values or {"bore_mm", "diameter_mm"} <= values.keys() else (
            "mic the pilot, its small end",),
    ),
    example=Cutter(0, "corner-rounding-cutter", radius_mm=3.175, tip_mm=6.35, diameter_mm=12.7, shank_mm=12.7,
                   material="hss"),
)

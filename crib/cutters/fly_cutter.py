"""Fly cutters: one bit in a holder, for faces. Their diameter is the swing of the bit; the bit stands out below the
body by what is called their length of cut."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Clearances, Cutter, Kind, Motion, Unknown
from crib.cutters.proposals import TO_ORDER, Need, Wanted, new
from crib.cutters.shapes import cylinder, rounded_end
from crib.cutters.speech import Name, Speech
from crib.geometry.outline import Opening
from crib.geometry.silhouette import Silhouette

_OUT_MM, _LEAST_OUT_MM, _MOST_OUT_MM, _NOSE_MM = 6.35, 3.0, 19.05, 0.8
"""How far a bit usually stands out below the body, from what to what it may, and the radius of its nose [mm]. From
memory."""

_BODY_SHARE, _BODY_MM, _SHANK_MM = 0.8, 25.4, 38.1
"""The body across, of the swing [-], its height and the shank above it [mm]. From memory."""

BITE_MM = 0.060 * 25.4
"""What a single bit takes down at once [mm]. Common practice."""

_PAST_MM, _WIDEST_MM = 0.5 * 25.4, 4 * 25.4
"""How much wider than its face it is proposed, and the widest that is [mm]. Common practice."""


def _fill(cutter: Cutter) -> Cutter:
    """One tooth; a bit as it is usually set and ground."""
    given = (("length_of_cut_mm", _OUT_MM), ("corner_radius_mm", _NOSE_MM))
    typical = {key: value for key, value in given if getattr(cutter, key) is None}
    return cutter.but(**typical, flutes=1, assumed=tuple(dict.fromkeys((*cutter.assumed, *typical))))


def _unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """The swing, and how far the bit stands out."""
    asked = []
    if cutter.diameter_mm is None:
        asked.append(Unknown("diameter_mm", _WIDEST_MM, _BODY_MM, "measure the swing, across the bit's path"))
    if cutter.length_of_cut_mm is None:
        asked.append(Unknown("length_of_cut_mm", _MOST_OUT_MM, _LEAST_OUT_MM,
                             "measure how far the bit stands out below the body", False))
    return tuple(asked)


def _form(cutter: Cutter, clear: Clearances) -> Silhouette:
    """What the bit sweeps, the body above it, the shank."""
    swing, out = cutter.diameter_mm or 0.0, cutter.length_of_cut_mm or 0.0
    bit = rounded_end("bit", swing, min(cutter.corner_radius_mm or 0.0, out / 2, swing / 2), out)
    top, shank = out + _BODY_MM, min(cutter.shank_mm or swing, _BODY_SHARE * swing)
    return Silhouette(bit, bit, (cylinder("body", out, top, _BODY_SHARE * swing, clear.neck, clear.end),
                                 cylinder("shank", top, top + _SHANK_MM, shank, clear.neck, clear.end)))


def _proposes(need: Need) -> Iterator[Wanted]:
    """For a face that is open on both sides, one that reaches over it."""
    if need.room and need.room.opens(Opening.LEFT, Opening.RIGHT):
        swing = round(need.room.aim.width / 1e6 + _PAST_MM, 1)
        if swing <= _WIDEST_MM:
            yield Wanted(new("fly-cutter", diameter_mm=swing, shank_mm=need.shank_for(swing)), TO_ORDER,
                         "a holder whose bit swings so wide")


KIND = Kind(
    name="fly-cutter",
    words="fly cutter",
    plural="fly cutters",
    size_keys=("diameter_mm", "shank_mm"),
    form=_form,
    fill=_fill,
    unknowns=_unknowns,
    motions=frozenset({Motion.ALONG}),
    operation="fly cutting",
    bite_mm=BITE_MM,
    proposes=_proposes,
    cautions=lambda group: ("stand out of the line of a fly cutter; tool and its screw tight",),
    speech=Speech(
        largest=254.0,
        times_shank=12.0,
        names=(Name(r"fly ?cutters?"),),
        noun="fly ?cutter",
        looks=lambda values: () if "diameter_mm" in values else ("measure the swing, across the bit's path",),
    ),
    example=Cutter(0, "fly-cutter", diameter_mm=63.5, shank_mm=12.7),
)

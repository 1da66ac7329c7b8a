"""Trepanning tools: a bar with a square tooth at its end, for grooves in a face round an axis. A boring head carries it
round. Their face is how wide the tooth is, their length of cut how far it stands out below the bar, their smallest hole
the outside of the smallest groove whose wall the tooth's heel clears."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion, Unknown
from crib.cutters.proposals import LONGER_MM, TO_ORDER, Need, Wanted, new
from crib.cutters.shapes import cylinder
from crib.cutters.speech import Name, Speech
from crib.geometry.outline import Opening
from crib.geometry.silhouette import Silhouette

_LEAST_FACE, _MOST_FACE, _LEAST_OUT, _MOST_OUT, _WIDEST = 0.5, 12.7, 1.0, 25.4, 203.2
"""How wide and how long a tooth could be, and the largest groove that one is ground for [mm]. From memory."""

_BAR_MM, _BAR_LONG = 12.7, 50.8
"""A usual bar, and how far it stands out of the head [mm]. From memory."""

_HEEL_SHARE = 0.9
"""How much smaller than the groove's outside the one is that it is ordered for [-]. From memory."""


def _unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """The tooth's width and length, and what its heel clears, where they aren't known."""
    asked = []
    if cutter.face_mm is None:
        asked.append(Unknown("face_mm", _LEAST_FACE, _MOST_FACE, "mic the width of its tooth", position=True))
    if cutter.length_of_cut_mm is None:
        asked.append(Unknown("length_of_cut_mm", _MOST_OUT, _LEAST_OUT,
                             "measure how far the tooth stands out below the bar", position=True))
    if cutter.min_hole_mm is None:
        asked.append(Unknown("min_hole_mm", 0.0, _WIDEST, "try its heel in rings: the smallest that it turns in is the "
                             "outside of the smallest groove", position=True))
    return tuple(asked)


def _on_axis(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The tooth as wide as it is, about its own middle, and the bar over it."""
    face, out = cutter.face_mm or 0.0, cutter.length_of_cut_mm or 0.0
    teeth = (cylinder("tooth", 0.0, out, face),)
    bar = cylinder("shank", out, out + _BAR_LONG, cutter.diameter_mm or _BAR_MM, clear.neck, clear.end)
    return Silhouette(teeth, teeth, (bar,))


def _proposes(need: Need) -> Iterator[Wanted]:
    """For a groove round an axis in a face, with a tooth of its width."""
    room = need.room
    if room is None or room.open != frozenset({Opening.TOP}) or room.least.left <= 0:
        return
    yield Wanted(new("trepanning-tool", diameter_mm=_BAR_MM, face_mm=round(room.aim.width / 1e6, 3),
                     length_of_cut_mm=round(need.deep + need.end + LONGER_MM, 3), shank_mm=12.7,
                     min_hole_mm=round(_HEEL_SHARE * room.least.right / 5e5, 3)), TO_ORDER)


KIND = Kind(
    name="trepanning-tool",
    words="trepanning tool",
    plural="trepanning tools",
    size_keys=("face_mm", "diameter_mm"),
    shown_keys=("face_mm", "length_of_cut_mm", "min_hole_mm", "shank_mm"),
    on_axis=_on_axis,
    unknowns=_unknowns,
    motions=frozenset({Motion.DOWN}),
    down=frozenset({Down.TREPANNING}),
    proposes=_proposes,
    cautions=lambda group: ("a trepanning tool swings wide of the spindle: turn it round by hand first, nothing in its "
                            "way",),
    speech=Speech(
        names=(Name(r"trepanning (?:tools?|cutters?|bars?)"),
               Name(r"face[- ]groov(?:e|ing) (?:tools?|bars?|cutters?)")),
        beside=r"tooth|out",
        order=("face_mm", "length_of_cut_mm"),
        fields={"bore_mm": "min_hole_mm"},
        wanted=("face_mm", "length_of_cut_mm", "min_hole_mm", "shank_mm"),
    ),
    example=Cutter(0, "trepanning-tool", diameter_mm=12.7, face_mm=6.35, length_of_cut_mm=6.35, min_hole_mm=38.1,
                   shank_mm=12.7, material="hss"),
)

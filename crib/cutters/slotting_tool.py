"""Slotting tools: one point on a bar, pushed through a bore with the spindle locked. Their diameter is the bar's, their
face the width of the point; the smallest hole that they go into is the bar with the point standing out of it."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion
from crib.cutters.proposals import TO_ORDER, Need, Wanted, new
from crib.cutters.shapes import cylinder
from crib.cutters.speech import Name, Speech
from crib.findings.errors import wrong
from crib.findings.finding import Finding
from crib.findings.message import InWords, said
from crib.geometry.silhouette import Silhouette

POINT_MM = 3.0
"""How high the point is that cuts [mm]. From memory."""

GRIP_MM = 25.4
_BAR_SHARE, _OUT_SHARE = 0.55, 0.8
"""The bar and the least hole of one that is proposed, of the hub's depth under its edge [-]. From memory."""


def _check(cutter: Cutter) -> tuple[Finding, ...]:
    """A point that doesn't stand out of its bar cuts nothing."""
    if cutter.min_hole_mm is None or cutter.diameter_mm is None or cutter.min_hole_mm > cutter.diameter_mm:
        return ()
    says = said("its point doesn't stand out of a bar of {bar}", bar=InWords(cutter.diameter_mm))
    return (wrong(says, said("{hole}", hole=InWords(cutter.min_hole_mm)),
                  "the smallest hole is the bar and what the point stands out"),)


def stands_out(cutter: Cutter) -> float | None:
    """How far the point stands out of the bar [mm]; None where that isn't known."""
    if cutter.min_hole_mm is None or cutter.diameter_mm is None:
        return None
    return cutter.min_hole_mm - cutter.diameter_mm


def reach(cutter: Cutter) -> float | None:
    """How deep it goes [mm], by what is on record; None where nothing is."""
    if cutter.reach_mm is not None:
        return cutter.reach_mm
    return max(0.0, cutter.overall_length_mm - GRIP_MM) if cutter.overall_length_mm is not None else None


def ground(blank: Cutter, width_mm: float, deep_mm: float) -> Cutter | None:
    """A blank with a point of that width ground on its end, its stem behind the point ground away by a depth [mm];
    None where too little of it would be left: half of its thickness at the least (from memory)."""
    size = blank.diameter_mm or blank.shank_mm
    if size is None or width_mm > size or deep_mm > size / 2:
        return None
    return blank.but(kind=KIND.name, face_mm=width_mm, min_hole_mm=size, diameter_mm=size - deep_mm, shank_mm=size,
                     flutes=1, condition="sharp", measured=(), questions=(),
                     label=f"slotting tool ground from no. {blank.id}, {blank.label}")


def _on_axis(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The point, and the bar behind it."""
    bar = cutter.diameter_mm or 0.0
    out = (cutter.min_hole_mm or 1.2 * bar) - bar
    teeth = (cylinder("point", 0.0, POINT_MM, bar + 2 * out),)
    return Silhouette(teeth, teeth, (cylinder("bar", POINT_MM, max(reach(cutter) or 4 * bar, POINT_MM + 1), bar),))


def _proposes(need: Need) -> Iterator[Wanted]:
    if need.face is not None and need.hole is not None:
        wide = round(sum(need.face) / 2, 6)
        bar, least = round(_BAR_SHARE * need.hole, 6), round(_OUT_SHARE * need.hole, 6)
        yield Wanted(new(KIND.name, face_mm=wide, diameter_mm=bar, min_hole_mm=least, shank_mm=need.shank_for(bar),
                         reach_mm=4 * bar), TO_ORDER)


KIND = Kind(
    name="slotting-tool",
    words="slotting tool",
    plural="slotting tools",
    size_keys=("face_mm", "diameter_mm"),
    shown_keys=("face_mm", "min_hole_mm"),
    on_axis=_on_axis,
    check=_check,
    motions=frozenset({Motion.DOWN}),
    down=frozenset({Down.SLOTTING}),
    by_hand=lambda cutter: True,
    proposes=_proposes,
    is_ground_from_blanks=True,
    cautions=lambda group: ("lock the spindle against turning and take its power off before you slot with it",),
    speech=Speech(
        names=(Name(r"(?:key ?way|key ?seat(?:ing)?) (?:slotting )?(?:tools?|bars?)|"
                    r"slotting (?:tools?|bars?)|shaper tools?"),),
        beside=r"bar|round bar",
        order=("face_mm", "diameter_mm"),
        fields={"bore_mm": "min_hole_mm", "width_mm": "face_mm"},
        wanted=("diameter_mm", "min_hole_mm", "shank_mm"),
    ),
    example=Cutter(0, "slotting-tool", face_mm=4.7625, diameter_mm=12.7, min_hole_mm=17.4625, shank_mm=12.7,
                   reach_mm=50.8, material="hss"),
)

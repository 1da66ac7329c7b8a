"""Boring bars: one tooth that a head sets out to any size above the least."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion
from crib.cutters.proposals import TO_ORDER, Need, Wanted, new
from crib.cutters.shapes import cylinder
from crib.cutters.speech import Speech
from crib.findings.errors import wrong
from crib.findings.finding import Finding
from crib.findings.message import InWords, said
from crib.geometry.silhouette import Silhouette

_TOOTH, _GRIP = 3.0, 25.4


def _check(cutter: Cutter) -> tuple[Finding, ...]:
    """A boring bar can't enter a hole that is narrower than the bar."""
    if cutter.min_hole_mm is None or cutter.diameter_mm is None or cutter.min_hole_mm > cutter.diameter_mm:
        return ()
    hole = InWords(cutter.min_hole_mm)
    says = said("a bar of {bar} can't bore a hole of {hole}", bar=InWords(cutter.diameter_mm), hole=hole)
    return (wrong(says, said("{hole}", hole=hole),
                       "the smallest hole is wider than the bar"),)


def reach(cutter: Cutter) -> float:
    """How deep a bar goes [mm]: what is on record, else what stands out of its holder."""
    return cutter.reach_mm or max(0.0, (cutter.overall_length_mm or 0.0) - _GRIP) or 4 * (cutter.diameter_mm or 0.0)


def _on_axis(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The circle of the tooth at its least hole, and the bar behind it."""
    size = cutter.min_hole_mm or 1.2 * (cutter.diameter_mm or 0.0)
    teeth = (cylinder("tooth", 0.0, _TOOTH, size),)
    bar = cutter.diameter_mm or 0.9 * size
    return Silhouette(teeth, teeth, (cylinder("bar", _TOOTH, max(reach(cutter), _TOOTH + 1.0), bar),))


def _proposes(need: Need) -> Iterator[Wanted]:
    if need.limits is not None:
        least = need.limits[0]
        yield Wanted(new("boring-bar", diameter_mm=round(0.6 * least, 6), min_hole_mm=round(0.75 * least, 6),
                         shank_mm=12.7), TO_ORDER)


KIND = Kind(
    name="boring-bar",
    words="boring bar",
    plural="boring bars",
    size_keys=("diameter_mm", "min_hole_mm"),
    shown_keys=("min_hole_mm",),
    on_axis=_on_axis,
    check=_check,
    motions=frozenset({Motion.DOWN}),
    down=frozenset({Down.BORING}),
    proposes=_proposes,
    speech=Speech(fields={"bore_mm": "min_hole_mm"}, wanted=("min_hole_mm", "shank_mm")),
    example=Cutter(0, "boring-bar", diameter_mm=9.525, min_hole_mm=11.1125),
)

"""Boring bars: one tooth that a head sets out to any size above the least."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion
from crib.cutters.drill import jobber
from crib.cutters.proposals import MEMORY, Need, Wanted, new
from crib.cutters.shapes import cylinder
from crib.cutters.speech import Speech
from crib.findings.errors import wrong
from crib.findings.finding import Finding
from crib.findings.message import InWords, said
from crib.geometry.silhouette import Silhouette
from crib.handbook.boring import BEFORE_BORING_MM, BORED_LEAST
from crib.handbook.drill_sizes import made_between

_TOOTH, _GRIP = 3.0, 25.4
_SHANK, _METRIC_SHANK = 12.7, 12.0
_BARS = {False: tuple(25.4 * part for part in (1 / 2, 3 / 8, 5 / 16, 1 / 4, 3 / 16)), True: (12.0, 10.0, 8.0, 6.0, 5.0)}
_OVER_BAR = {False: 25.4 / 16, True: 1.5}
"""Of bars as they are sold, by whether they are metric: the shank where no head says which, how thick they are, and by
how much the least hole is over that [mm]. From memory."""

_DRILLS = 2
"""So many drills are proposed before each bar."""


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
    """The stiffest usual bars of the shop's heads that go into a hole before the bore, and the drills that make it, the
    largest that a chuck takes, of the shop's own series; where the shop has no head, one."""
    if need.limits is None:
        return
    shank = min(need.bars, default=_METRIC_SHANK if need.metric else _SHANK)
    drills: dict[float, None] = {}
    for bar in _BARS[need.metric]:
        least_hole = bar + _OVER_BAR[need.metric]
        before = _drills(need, least_hole + BORED_LEAST)
        if bar <= shank and before:
            yield Wanted(new("boring-bar", diameter_mm=round(bar, 6), min_hole_mm=round(least_hole, 6),
                             shank_mm=shank), f"{MEMORY} sizes")
            drills.update(dict.fromkeys(before[-_DRILLS:]))
    yield from (jobber(mm) for mm in sorted(drills, reverse=True))
    if drills and not need.bars:
        yield Wanted(new("boring-head", diameter_mm=50.0 if need.metric else 50.8, bore_mm=shank), f"{MEMORY} sizes")


def _drills(need: Need, at_least: float) -> list[float]:
    """The drills of the shop's own series that a chuck takes and whose hole a bar goes into, under the bore [mm]."""
    at_most = (need.limits or (0.0, 0.0))[0] - BEFORE_BORING_MM
    return [mm for mm, name in made_between(at_least - 0.5, min(at_most, need.chuck))
            if name.endswith("mm") == need.metric and at_least <= need.drilled(mm) <= at_most]


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

"""Counterbores: a flat end on a pilot that runs in the hole. Their lower face is that of the teeth."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion
from crib.cutters.pointed import pilot_check
from crib.cutters.proposals import THOU, TO_ORDER, Need, Wanted, new
from crib.cutters.shapes import cylinder
from crib.cutters.speech import Name, Order, Speech
from crib.geometry.silhouette import Silhouette

_TEETH, _PILOT_LENGTH = 19.05, 6.35


def _on_axis(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The teeth, and the pilot below them, which must find its hole."""
    size = cutter.diameter_mm or 0.0
    teeth = (cylinder("teeth", 0.0, cutter.length_of_cut_mm or _TEETH, size),)
    pilot = cutter.pilot_mm
    return Silhouette(teeth, teeth, (cylinder("pilot", -_PILOT_LENGTH, 0.0, pilot),) if pilot else ())


def _proposes(need: Need) -> Iterator[Wanted]:
    if need.limits is not None:
        pilot = round(need.hole - 2 * THOU, 6) if need.hole is not None else None
        middle = round(sum(need.limits) / 2 - THOU, 6)
        yield Wanted(new("counterbore", diameter_mm=middle, pilot_mm=pilot, shank_mm=12.7, flutes=3), TO_ORDER)


KIND = Kind(
    name="counterbore",
    words="counterbore",
    plural="counterbores",
    shown_keys=("pilot_mm",),
    on_axis=_on_axis,
    check=pilot_check,
    motions=frozenset({Motion.DOWN}),
    down=frozenset({Down.COUNTERBORING}),
    in_chuck=True,
    proposes=_proposes,
    speech=Speech(
        names=(Name(r"counter ?bores?|cbore"),),
        noun="counter ?bore",
        heard={"cbore": "counterbore", "c'bore": "counterbore"},
        order=Order.SCREW,
        small=True,
        wanted=("pilot_mm",),
    ),
    example=Cutter(0, "counterbore", diameter_mm=10.31875, pilot_mm=6.746875),
)

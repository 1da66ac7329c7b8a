"""Reamers: they size a hole that is there, with their lead and their sides."""

from __future__ import annotations

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion
from crib.cutters.shapes import cone, cylinder
from crib.cutters.speech import Order, Speech
from crib.geometry.silhouette import Form

LEAD_MM = 1.5
"""The lead of a chucking reamer, which a blind hole's end keeps [mm]. .05 to .10 in is usual, common practice."""

_START, _BODY = 0.8, 38.1


def _on_axis(cutter: Cutter, clear: Clearances) -> Form:
    """The lead, thinner by the stock that it finds, and the body; its end doesn't cut."""
    size = cutter.diameter_mm or 0.0
    start = max(size - _START, 0.5 * size)
    teeth = (*cone("lead", 0.0, LEAD_MM, start, size),
             cylinder("body", LEAD_MM, max(cutter.length_of_cut_mm or _BODY, LEAD_MM + 1.0), size))
    return Form(teeth, teeth, (cylinder("end", 0.0, 0.5, start * 0.9),))


KIND = Kind(
    name="reamer",
    words="reamer",
    plural="reamers",
    on_axis=_on_axis,
    motions=frozenset({Motion.DOWN}),
    down=frozenset({Down.REAMING}),
    in_chuck=True,
    speech=Speech(
        common=True,
        heard={"rimmer": "reamer", "rimer": "reamer"},
        order=Order.FIT,
        small=True,
    ),
    example=Cutter(0, "reamer", diameter_mm=9.525, flutes=6),
)

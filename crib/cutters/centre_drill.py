"""Centre drills: a short pilot with its own point, and a 60 degree cone behind it."""

from __future__ import annotations

from itertools import pairwise

from crib.cutters.base import Clearances, Cutter, Down, Kind, Motion, Unknown
from crib.cutters.gauged import Made, by_size
from crib.cutters.pointed import pilot_check
from crib.cutters.shapes import cone, cylinder
from crib.cutters.speech import Name, Order, Speech
from crib.geometry.silhouette import Part, Silhouette
from crib.handbook.numbered import CENTRE_DRILLS
from crib.handbook.points import point_length
from crib.units import read

_PILOT_SHARE, _BODY = 1.2, 6.35
"""Length of the pilot in its diameters [-], from memory; body that stands out [mm]."""

_PILOT_ACROSS, _SHORT_PILOT, _LONG_PILOT = 0.3, 0.8, 2.0
"""Diameter of a usual pilot as a share of the body's; length of a short and of a long one in its diameters (from
memory)."""


def _fill(cutter: Cutter) -> Cutter:
    """The usual cone, and a body that is the shank."""
    given = {"angle_deg": 60.0, "shank_mm": cutter.diameter_mm}
    typical = {key: value for key, value in given.items() if value is not None and getattr(cutter, key) is None}
    return cutter.but(**typical, assumed=tuple(dict.fromkeys((*cutter.assumed, *typical))))


def _on_axis(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The point, the pilot, the cone, and as much body as stands out."""
    teeth = _teeth(cutter)
    top, size = teeth[-1].high / 1e6, 2 * teeth[-1].radius_high / 1e6
    whole = (*teeth, cylinder("body", top, top + _BODY, size))
    return Silhouette(whole, whole)


def _along_edge(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The point, the pilot and the cone, where it is fed sideways along an edge. The cone is the edge that works, so
    the pilot is told in pieces that are shorter."""
    point, pilot, edge = _teeth(cutter)
    top, size = edge.high / 1e6, 2 * edge.radius_high / 1e6
    count = 1 + 2 * (pilot.high - pilot.low) // (edge.high - edge.low)
    steps = [pilot.low + (pilot.high - pilot.low) * k // count for k in range(count + 1)]
    teeth = (point, *(pilot._replace(low=low, high=high) for low, high in pairwise(steps)), edge)
    return Silhouette(teeth, teeth, (cylinder("shank", top, top + 6 * _BODY, size),))


def _unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """The pilot and where its cone begins, on which every position along an edge hangs."""
    size, asked = cutter.diameter_mm, []
    if size is not None and cutter.tip_mm is None:
        asked.append(Unknown("tip_mm", _PILOT_ACROSS * size, 0.5 * size, "mic the pilot", False))
    if size is not None and cutter.reach_mm is None:
        pilot = cutter.tip_mm or _PILOT_ACROSS * size
        short, long = (point_length(pilot, 118.0) + share * pilot for share in (_SHORT_PILOT, _LONG_PILOT))
        asked.append(Unknown("reach_mm", short, long, "measure from its tip to where the cone begins", False,
                             position=True))
    return tuple(asked)


def _teeth(cutter: Cutter) -> tuple[Part, Part, Part]:
    pilot = cutter.tip_mm or _PILOT_ACROSS * (cutter.diameter_mm or 0.0)
    size = max(cutter.diameter_mm or 0.0, pilot + 0.1)
    point = point_length(pilot, 118.0)
    straight = max(point + 0.01, cutter.reach_mm or point + _PILOT_SHARE * pilot)
    top = straight + point_length(size, cutter.angle_deg or 60.0, pilot)
    tip, = cone("point", 0.0, point, 0.0, pilot)
    edge, = cone("cone", straight, top, pilot, size)
    return tip, cylinder("pilot", point, straight, pilot), edge


KIND = Kind(
    name="centre-drill",
    words="centre drill",
    plural="centre drills",
    size_keys=("diameter_mm", "tip_mm"),
    shown_keys=("angle_deg",),
    form=_along_edge,
    on_axis=_on_axis,
    fill=_fill,
    unknowns=_unknowns,
    check=pilot_check,
    motions=frozenset({Motion.DOWN, Motion.EDGE}),
    down=frozenset({Down.SPOTTING}),
    in_chuck=True,
    gauging=by_size("centre-drill", "centre drill", lambda: (
        Made(read(body, "in").mm, f"#{number}") for number, (body, _) in CENTRE_DRILLS.items()), rare=True),
    speech=Speech(
        largest=38.1,
        names=(Name(r"(?:cent(?:er|re)) drills?"),),
        noun="cent(?:er|re) drill",
        heard={"center-drill": "center drill", "centre-drill": "center drill"},
        phrases=((r"\bcent(?:er|re) drill", "center drill"),
                 (r"\bc[ '/-]drills?\b|\bctr\.? drills?\b", "center drill"),
                 (r"\bcomb(?:o|ined|ination)? drill (?:and |& ?)?(?:countersink|c(?:sk|'?sink|/sink))",
                  "center drill")),
        order=Order.PILOTED,
    ),
    example=Cutter(0, "centre-drill", diameter_mm=7.9375, tip_mm=2.778125, angle_deg=60.0),
)

"""Countersinks: a cone that widens the mouth of a hole."""

from __future__ import annotations

from crib.cutters.base import Cutter, Down, Kind, Motion
from crib.cutters.gauged import by_angle
from crib.cutters.pointed import along_edge, fill, on_axis, point_unknowns
from crib.cutters.speech import Angle, Name, Speech

KIND = Kind(
    name="countersink",
    words="countersink",
    plural="countersinks",
    shown_keys=("angle_deg", "flutes"),
    form=along_edge,
    on_axis=on_axis,
    fill=fill,
    unknowns=point_unknowns,
    motions=frozenset({Motion.DOWN, Motion.EDGE}),
    down=frozenset({Down.COUNTERSINKING}),
    in_chuck=True,
    gauging=by_angle(
        "countersink", "countersink or point",
        lambda angle: f"{angle:g} is between its two edges: a protractor across the point",
        (60.0, 70.0, 75.0, 82.0, 90.0, 100.0, 118.0, 120.0, 135.0)),
    speech=Speech(
        names=(Name(r"counter ?sinks?|csks?|c ?sinks?|c'sink"),),
        noun="counter ?sink",
        heard={"csk": "countersink", "c'sink": "countersink", "csink": "countersink"},
        small=True,
        angle=Angle.POINT,
        wanted=("angle_deg",),
    ),
    example=Cutter(0, "countersink", diameter_mm=12.7, angle_deg=82.0, flutes=3),
)

"""Spot drills: a stiff body with a plain point."""

from __future__ import annotations

from crib.cutters.base import Cutter, Down, Kind, Motion
from crib.cutters.gauged import by_angle
from crib.cutters.pointed import along_edge, fill, on_axis, point_unknowns
from crib.cutters.speech import Angle, Name, Speech

KIND = Kind(
    name="spot-drill",
    words="spot drill",
    plural="spot drills",
    shown_keys=("angle_deg",),
    form=along_edge,
    on_axis=on_axis,
    fill=fill,
    unknowns=point_unknowns,
    motions=frozenset({Motion.DOWN, Motion.EDGE}),
    down=frozenset({Down.SPOTTING, Down.COUNTERSINKING}),
    in_chuck=True,
    gauging=by_angle("spot-drill", "spot drill",
                     lambda angle: f"{angle:g} is between its edges and its flutes are short and straight-sided",
                     (82.0, 90.0, 118.0, 120.0, 142.0)),
    speech=Speech(
        largest=38.1,
        names=(Name(r"spot(?:ting)? drills?|spotters?"),),
        noun="spot(?:ting)? drill|spotter",
        small=True,
        angle=Angle.PLAIN,
        tells={"ground flat": {"angle_deg": 180.0}},
        wanted=("angle_deg",),
    ),
    example=Cutter(0, "spot-drill", diameter_mm=12.7, angle_deg=90.0),
)

"""Countersinks: a cone that widens the mouth of a hole."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Cutter, Down, Kind, Motion
from crib.cutters.gauged import IN, by_angle
from crib.cutters.pointed import along_edge, fill, on_axis, point_unknowns
from crib.cutters.proposals import MEMORY, Need, Wanted, new
from crib.cutters.speech import Angle, Name, Speech

_MADE = tuple(IN * n / 8 for n in (2, 3, 4, 5, 6, 8, 10, 12))
"""The bodies that countersinks are made with [mm]. From memory."""


def _proposes(need: Need) -> Iterator[Wanted]:
    """The smallest of the angle that is wide enough."""
    if need.angle is None or need.diameter is None:
        return
    angle = sum(need.angle) / 2
    for across in [size for size in _MADE if size >= need.diameter[0] - 1e-6][:1]:
        yield Wanted(new("countersink", diameter_mm=across, angle_deg=angle, flutes=3, tip_mm=0.0,
                         shank_mm=min(across, 12.7)), f"{MEMORY} sizes")


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
    proposes=_proposes,
    gauging=by_angle(
        "countersink", "countersink or point",
        lambda angle: f"{angle:g} is between its two edges: a protractor across the point",
        (60.0, 70.0, 75.0, 82.0, 90.0, 100.0, 118.0, 120.0, 135.0)),
    speech=Speech(
        names=(Name(r"counter ?sinks?|csks?|c ?sinks?|c'sink"),),
        noun="counter ?sink",
        heard={"csk": "countersink", "c'sink": "countersink", "csink": "countersink",
               "c/sink": "countersink"},
        small=True,
        angle=Angle.POINT,
        wanted=("angle_deg",),
    ),
    example=Cutter(0, "countersink", diameter_mm=12.7, angle_deg=82.0, flutes=3),
)

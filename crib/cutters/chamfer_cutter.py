"""Chamfer cutters: a cone with a flat at its tip, on a shank."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Cutter, Kind, Motion
from crib.cutters.gauged import by_angle
from crib.cutters.pointed import along_edge, fill, point_unknowns
from crib.cutters.proposals import Need, Wanted, new
from crib.cutters.speech import Angle, Name, Speech


def _proposes(need: Need) -> Iterator[Wanted]:
    """Those wide enough, of the angle that is called for."""
    from crib.handbook import stock

    called = need.usual_angle(stock.CHAMFER_ANGLES)
    if called is None:
        return
    angle, source = called
    least = need.diameter[0] if need.diameter else 0.0
    for one in stock.chamfers():
        if one.diameter_mm >= least - 1e-6 and need.is_held(one.diameter_mm):
            yield Wanted(new("chamfer-cutter", diameter_mm=one.diameter_mm, tip_mm=one.tip_mm, angle_deg=angle,
                             shank_mm=one.diameter_mm, flutes=4), source)


KIND = Kind(
    name="chamfer-cutter",
    words="chamfer cutter",
    plural="chamfer cutters",
    size_keys=("diameter_mm", "nominal_mm"),
    shown_keys=("angle_deg", "flutes"),
    form=along_edge,
    fill=fill,
    unknowns=point_unknowns,
    motions=frozenset({Motion.EDGE}),
    proposes=_proposes,
    gauging=by_angle("chamfer-cutter", "chamfer cutter",
                     lambda angle: f"{angle:g} is between its two edges, and there is a flat at its tip",
                     (60.0, 82.0, 90.0, 100.0, 120.0)),
    speech=Speech(
        names=(Name(r"chamfer(?:ing)?(?: ?(?:mills?|bits?|cutters?|tools?))?"),),
        small=True,
        angle=Angle.EDGE,
        wanted=("angle_deg",),
    ),
    example=Cutter(0, "chamfer-cutter", diameter_mm=12.7, angle_deg=90.0, tip_mm=1.5875, shank_mm=12.7, flutes=4,
                   material="hss"),
)

"""What chamfer cutters, centre drills, spot drills and countersinks share: a cone on a body, and a pilot where there is
one."""

from __future__ import annotations

from crib.cutters import in_doubt
from crib.cutters.base import Clearances, Cutter, Unknown
from crib.cutters.shapes import cone, cylinder
from crib.findings.errors import wrong
from crib.findings.finding import Finding
from crib.findings.message import InWords, said
from crib.geometry.silhouette import Silhouette
from crib.handbook.points import point_length

_BODY, _STANDS_OUT = 12.7, 38.1

_BLUNT = 0.1
"""Flat at the tip of a usual point, as a share of its diameter (from memory)."""

_WIDEST_SHANK = 12.7
"""Points wider than this are usually on a shank of this size [mm] (from memory)."""


def fill(cutter: Cutter) -> Cutter:
    """A usual shank where none was stated: of the cutter's own size, a half inch for wider ones."""
    size = cutter.diameter_mm or cutter.nominal_mm
    if size is None or cutter.shank_mm is not None:
        return cutter
    return cutter.but(shank_mm=min(size, _WIDEST_SHANK), assumed=tuple(dict.fromkeys((*cutter.assumed, "shank_mm"))))


def on_axis(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The cone from its tip to the body, and as much body as stands out."""
    size, tip = cutter.diameter_mm or 0.0, cutter.tip_mm or 0.0
    point = point_length(size, cutter.angle_deg or 90.0, tip)
    teeth = (*cone("cone", 0.0, point, tip, size), cylinder("body", point, point + _BODY, size))
    return Silhouette(teeth, teeth)


def along_edge(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The cone along an edge, where it is fed sideways: what is above its widest cuts nothing."""
    size, tip = cutter.diameter_mm or 0.0, cutter.tip_mm or 0.0
    point = point_length(size, cutter.angle_deg or 90.0, tip)
    shank = cutter.shank_mm or size
    return Silhouette(cone("cone", 0.0, point, tip, size), cone("cone", 0.0, point, tip, size),
                (cylinder("shank", point, point + _STANDS_OUT, shank, 0.0, clear.end if shank > size else 0.0),))


def point_unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """The diameter of a reground one, the included angle and the flat at the tip, where they aren't known: along an
    edge every position hangs on them."""
    asked = []
    size = cutter.diameter_mm or cutter.nominal_mm
    if cutter.diameter_mm is None and size is not None:
        asked.append(Unknown("diameter_mm", size, size - 0.06 * 25.4, "mic the diameter: it was reground"))
    if cutter.angle_deg is None:
        asked.append(Unknown("angle_deg", 90.0, 60.0, "measure the angle between its edges with a gauge"))
    asked += in_doubt.unknown(cutter)
    if cutter.tip_mm is None and size is not None:
        asked.append(Unknown("tip_mm", 0.0, _BLUNT * size, "mic the flat at its tip, 0 where it is sharp", False))
    return tuple(asked)


def pilot_check(cutter: Cutter) -> tuple[Finding, ...]:
    """A pilot as wide as the body leaves nothing to cut with."""
    pilot = cutter.tip_mm if cutter.kind == "centre-drill" else cutter.pilot_mm
    if pilot is None or cutter.diameter_mm is None or pilot < cutter.diameter_mm:
        return ()
    shown = InWords(pilot)
    return (wrong(said("a pilot of {pilot} is as wide as the body", pilot=shown), said("{pilot}", pilot=shown),
                       "--diameter is the body's, the pilot is thinner"),)

"""What centre drills, spot drills and countersinks share: a cone on a body, and a pilot where there is one."""

from __future__ import annotations

from crib.cutters.base import Clearances, Cutter
from crib.cutters.shapes import cone, cylinder
from crib.diagnostics import Diagnostic
from crib.handbook.points import point_length
from crib.lengths import in_words
from crib.section.form import Form

_BODY = 12.7


def on_axis(cutter: Cutter, clear: Clearances) -> Form:
    """The cone from its tip to the body, and as much body as stands out."""
    size, tip = cutter.diameter_mm or 0.0, cutter.tip_mm or 0.0
    point = point_length(size, cutter.angle_deg or 90.0, tip)
    teeth = (*cone("cone", 0.0, point, tip, size), cylinder("body", point, point + _BODY, size))
    return Form(teeth, teeth)


def pilot_check(cutter: Cutter) -> tuple[Diagnostic, ...]:
    """A pilot as wide as the body leaves nothing to cut with."""
    pilot = cutter.tip_mm if cutter.kind == "centre-drill" else cutter.pilot_mm
    if pilot is None or cutter.diameter_mm is None or pilot < cutter.diameter_mm:
        return ()
    shown = in_words(pilot, "in")
    return (Diagnostic("impossible", f"a pilot of {shown} is as wide as the body", shown,
                       "--diameter is the body's, the pilot is thinner"),)

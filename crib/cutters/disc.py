"""What keyseat and T-slot cutters share: a disc of teeth on a neck."""

from __future__ import annotations

from crib.cutters.base import Clearances, Cutter, Unknown
from crib.cutters.checks import no_fatter, no_longer
from crib.cutters.shanks import disc_shank
from crib.cutters.shapes import cylinder, stem
from crib.findings.errors import Diagnostic
from crib.geometry.silhouette import Form

_STICK_OUT = 38.1
BURIED = "chips can't get out by themselves: clear them at every stop and after every pass, or the neck snaps"
BURIED_ALUMINIUM = "in aluminium stop often inside a pass and clear the chips: they weld to the teeth"
_THIN_NECK = 0.25
"""The thinnest neck that such a cutter could have, as a share of its diameter (from memory)."""


def fill(cutter: Cutter) -> Cutter:
    """Typical values for what only makes a difference to the time: eight teeth, a usual shank."""
    given = (("flutes", 8), ("shank_mm", disc_shank(cutter)))
    typical = {key: value for key, value in given if getattr(cutter, key) is None}
    return cutter.but(**typical, assumed=tuple(dict.fromkeys((*cutter.assumed, *typical))))


def unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """The diameter of a reground one, the face, the neck and the reach, where they aren't known."""
    asked = []
    size = cutter.diameter_mm or cutter.nominal_mm
    if cutter.diameter_mm is None and size is not None:
        asked.append(Unknown("diameter_mm", size, size - 0.06 * 25.4, "mic the diameter: it was reground"))
    if size is not None and cutter.face_mm is None:
        asked.append(Unknown("face_mm", size / 8, size / 2, "mic the face (the width of the teeth)"))
    if size is not None and cutter.neck_mm is None:
        asked.append(Unknown("neck_mm", _THIN_NECK * size, size * 0.98, "mic the neck behind the teeth"))
    if cutter.reach_mm is None:
        face = cutter.face_mm or (size or 0.0) / 8
        asked.append(Unknown("reach_mm", face + 101.6, face, "measure the reach, from the lower face to the shank"))
    return tuple(asked)


def form(cutter: Cutter, clear: Clearances) -> Form:
    """The disc, the neck with its fillet, and the shank."""
    diameter, face = cutter.diameter_mm or 0.0, cutter.face_mm or 0.0
    teeth = (cylinder("teeth", 0.0, face, diameter),)
    reach = max(face, cutter.reach_mm or face)
    top = max(reach, cutter.overall_length_mm or reach + _STICK_OUT)
    shank = cutter.shank_mm or diameter
    return Form(
        teeth,
        teeth,
        stem(face, cutter.neck_mm, cutter.neck_fillet_mm, reach, shank, top, clear.neck, clear.neck, clear.end),
    )


def check(cutter: Cutter) -> tuple[Diagnostic, ...]:
    """A neck as fat as the teeth, a face longer than the reach, a reach longer than the cutter."""
    return (
        *no_fatter(cutter, "neck_mm", "diameter_mm", "the neck", "the diameter over the teeth"),
        *no_fatter(cutter, "neck_mm", "nominal_mm", "the neck", "the diameter over the teeth"),
        *no_longer(cutter, "face_mm", "reach_mm", "the face", "the reach (face and neck together)"),
        *no_longer(cutter, "reach_mm", "overall_length_mm", "the reach", "the overall length"),
    )


def cautions(group: str) -> tuple[str, ...]:
    """Chips stay where they are cut. Common practice, no source."""
    return (BURIED_ALUMINIUM if group == "aluminium" else BURIED,)

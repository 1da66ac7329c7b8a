"""What keyseat and T-slot cutters share: a disc of teeth on a neck."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Clearances, Cutter, Unknown
from crib.cutters.proposals import LONGER_MM, THOU, Need, new
from crib.cutters.shanks import disc_shank
from crib.cutters.shapes import Stem, cylinder
from crib.findings.finding import Finding
from crib.geometry.silhouette import Silhouette
from crib.light.tuples import NamedTuple

_STICK_OUT = 38.1
BURIED = "chips can't get out by themselves: clear them at every stop and after every pass, or the neck snaps"
BURIED_ALUMINIUM = "in aluminium stop often inside a pass and clear the chips: they weld to the teeth"
_THIN_NECK, FATTEST_NECK = 0.25, 0.98
"""The thinnest and the fattest neck that such a cutter could have, as shares of its diameter (from memory)."""


class Disc(NamedTuple):
    """A disc that is made: diameter, face, shank [mm]."""

    diameter: float
    face: float
    shank: float


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
        asked.append(Unknown("neck_mm", _THIN_NECK * size, FATTEST_NECK * size, "mic the neck behind the teeth"))
    if cutter.reach_mm is None:
        face = cutter.face_mm or (size or 0.0) / 8
        asked.append(Unknown("reach_mm", face + 101.6, face, "measure the reach, from the lower face to the shank"))
    return tuple(asked)


def form(cutter: Cutter, clear: Clearances) -> Silhouette:
    """The disc, the neck with its fillet, and the shank."""
    teeth = (cylinder("teeth", 0.0, cutter.face_mm or 0.0, cutter.diameter_mm or 0.0),)
    return Silhouette(teeth, teeth, stem(cutter, clear).parts)


def teeth(cutter: Cutter) -> float:
    """How tall its teeth are [mm]."""
    return cutter.face_mm or 0.0


def stem(cutter: Cutter, clear: Clearances) -> Stem:
    """The neck and the shank of a cutter, filled in or not."""
    face = teeth(cutter)
    reach = max(face, cutter.reach_mm or face)
    return on_a_neck(cutter, face, reach, max(reach, cutter.overall_length_mm or reach + _STICK_OUT), clear)


def on_a_neck(cutter: Cutter, face: float, reach: float, top: float, clear: Clearances) -> Stem:
    """The neck with its fillet, and the shank [mm]. Where nothing is known to lie between the teeth and the shank, what
    stands there is as fat as the neck could be, and where the shank isn't known, as fat as the teeth let it be: a neck
    that isn't known must not clear because a shank is thin."""
    diameter = cutter.diameter_mm or 0.0
    known = cutter.shank_mm is not None
    shank = (cutter.shank_mm if known else disc_shank(cutter)) or diameter
    if reach <= face:
        guess = FATTEST_NECK * diameter if not known or "shank_mm" in cutter.assumed else 0.0
        shank = max(shank, cutter.neck_mm or 0.0, guess)
    return Stem(face, cutter.neck_mm, cutter.neck_fillet_mm, reach, shank, top, clear.neck, clear.neck, clear.end)


def check(cutter: Cutter) -> tuple[Finding, ...]:
    """A neck as fat as the teeth, a face longer than the reach, a reach longer than the cutter."""
    from crib.cutters.checks import no_fatter, no_longer

    return (
        *no_fatter(cutter, "neck_mm", "diameter_mm", "the neck", "the diameter over the teeth"),
        *no_fatter(cutter, "neck_mm", "nominal_mm", "the neck", "the diameter over the teeth"),
        *no_longer(cutter, "face_mm", "reach_mm", "the face", "the reach (face and neck together)"),
        *no_longer(cutter, "reach_mm", "overall_length_mm", "the reach", "the overall length"),
    )


def cautions(group: str) -> tuple[str, ...]:
    """Chips stay where they are cut. Common practice, no source."""
    return (BURIED_ALUMINIUM if group == "aluminium" else BURIED,)


def neck_limit(need: Need, diameter: float) -> float | None:
    """The fattest neck that goes through the opening above and clears the lip when the wall is reached [mm]; None where
    there is no lip."""
    if need.room is None or need.opening is None:
        return None
    over = max(0.0, need.room.aim.width / 1e6 - diameter)
    return round(need.opening - over - 2 * need.neck - THOU, 6)


def under_a_lip(need: Need, kind: str, disc: Disc, marking: str | None = None, neck: float | None = None
                ) -> Iterator[Cutter]:
    """A disc for a room under a lip, where its neck goes in; `neck`: that of the standard, where it has one."""
    limit = neck_limit(need, disc.diameter)
    from crib.handbook.stock import NECK_SHARE

    usual = NECK_SHARE * disc.diameter if neck is None else neck
    if limit is not None and limit > 0.1 * disc.diameter and (neck is None or neck <= limit):
        reach = need.deep + need.end + LONGER_MM
        yield new(kind, diameter_mm=disc.diameter, face_mm=disc.face, neck_mm=round(min(usual, limit), 6),
                  shank_mm=disc.shank, reach_mm=round(max(reach, disc.face), 6), flutes=8, marking=marking)

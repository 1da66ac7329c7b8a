"""What dovetail cutters and single-angle cutters share: teeth that are widest at their lower face, and lean inwards."""

from __future__ import annotations

from itertools import pairwise
from math import cos, pi, radians, sin, tan

from crib.cutters import in_doubt
from crib.cutters.base import Cutter, Unknown
from crib.findings.errors import wrong
from crib.findings.finding import Finding
from crib.findings.message import Deg, InWords, said
from crib.geometry.silhouette import Part
from crib.units import nm

_CHORDS = 8
_THIN_NECK = 0.25
"""The thinnest neck that such a cutter could have, as a share of its diameter (from memory)."""

_USUAL_DEG, _FLATTEST_DEG = 60.0, 45.0


def teeth(diameter: float, face: float, angle: float, corner: float, flat: float) -> tuple[Part, ...]:
    """The teeth from the lower face up: a flat or a rounded corner at the widest, then the flank. Chords stay inside
    the true arc, so that what it surely cuts is never overstated. Lengths in mm, the angle from the face [deg].

    >>> [(part.low, part.high, part.radius_low, part.radius_high) for part in teeth(20.0, 5.0, 45.0, 0.0, 0.0)]
    [(0, 5000000, 10000000, 5000000)]
    """
    run = 1 / tan(radians(angle))
    parts: list[Part] = []
    low, radius = 0.0, diameter / 2
    if corner > 0:
        points = _arc(radius, corner, angle)
        parts += [Part("teeth", nm(z0), nm(z1), nm(r0), nm(r1)) for (r0, z0), (r1, z1) in pairwise(points)
                  if nm(z1) > nm(z0)]
        radius, low = points[-1]
    elif flat > 0:
        parts.append(Part("teeth", 0, nm(flat), nm(radius), nm(radius)))
        low = flat
    if nm(face) > nm(low):
        parts.append(Part("teeth", nm(low), nm(face), nm(radius), nm(radius - (face - low) * run)))
    return tuple(parts)


def _arc(radius: float, corner: float, angle: float) -> list[tuple[float, float]]:
    """Points (radius, height) of the rounded corner, from the lower face to the flank."""
    centre = radius - corner
    first, last = -pi / 2, pi / 2 - radians(angle)
    turns = [first + (last - first) * i / _CHORDS for i in range(_CHORDS + 1)]
    return [(centre + corner * cos(turn), corner + corner * sin(turn)) for turn in turns]


def unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """The diameter of a reground one, the angle, the height of the teeth, where they aren't known."""
    asked = []
    size = cutter.diameter_mm or cutter.nominal_mm
    if cutter.diameter_mm is None and size is not None:
        asked.append(Unknown("diameter_mm", size, size - 0.06 * 25.4, "mic the diameter: it was reground"))
    if cutter.angle_deg is None:
        asked.append(Unknown("angle_deg", _USUAL_DEG, _FLATTEST_DEG, "what angle, by protractor from the face?"))
    asked += in_doubt.unknown(cutter)
    if size is not None and cutter.face_mm is None:
        asked.append(Unknown("face_mm", 0.4 * size, 0.1 * size, "measure the height of the teeth"))
    return tuple(asked)


def stem_unknowns(cutter: Cutter) -> tuple[Unknown, ...]:
    """The neck and the reach, where they aren't known."""
    asked = []
    size = cutter.diameter_mm or cutter.nominal_mm
    if size is not None and cutter.neck_mm is None:
        asked.append(Unknown("neck_mm", _THIN_NECK * size, size * 0.98, "mic the neck"))
    if cutter.reach_mm is None:
        face = cutter.face_mm or 0.4 * (size or 0.0)
        asked.append(Unknown("reach_mm", face + 101.6, face, "measure the reach, from the lower face to the shank"))
    return tuple(asked)


def check(cutter: Cutter) -> tuple[Finding, ...]:
    """A flank that doesn't lean, and teeth that would run together before they end."""
    angle, face, size = cutter.angle_deg, cutter.face_mm, cutter.diameter_mm
    if angle is not None and angle >= 90:
        return (wrong(said("a flank of {angle} degrees doesn't undercut", angle=Deg(angle)), f"{angle:g}",
                           "--angle is the flank's angle from the face, 60 on most"),)
    if not angle or face is None or size is None or face / tan(radians(angle)) < size / 2:
        return ()
    says = said("teeth {face} high at {angle} degrees come to a point before they end", face=InWords(face),
                angle=Deg(angle))
    return (wrong(says, said("{face}", face=InWords(face)),
                       "--face is the height of the teeth, along the axis"),)

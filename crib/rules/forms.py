"""Rules on what a cutter's own form makes, or a tilt: angles and radii closer than that is ground, set or measured."""

from __future__ import annotations

from collections.abc import Iterator
from math import radians

from crib.features.base import Dimension
from crib.findings.finding import Finding, Grade, off_drawing
from crib.findings.message import Deg, Mm, said
from crib.handbook.bands import ANGLE_DEG, RADIUS_MM
from crib.machining.draft import Draft
from crib.rules.catalogue import PRACTICE

_SLACK = 1e-9
_ROUND = ("round radius", "fillet radius", "floor radius", "pocket corner radius")
"""Dimensions that are a radius."""


def angles(draft: Draft) -> Iterator[Finding]:
    """G12: an angle closer than a protractor holds wants a sine bar, or a cutter proved on one."""
    for angle in draft.question.feature.request.angles.values():
        usual, careful = ANGLE_DEG
        if angle.band is not None and careful - _SLACK <= angle.band < usual - _SLACK:
            how = ("the work tilted on a sine bar, no protractor" if draft.question.setup.tilts
                   or draft.question.setup.clampings else "a cutter whose own angle was proved against a sine bar")
            yield Finding("G12", Grade.WARN, said(
                "{least} to {most} degrees holds with care only: {how}", least=Deg(angle.deg - angle.band),
                most=Deg(angle.deg + angle.band), how=how), PRACTICE)


def radii(draft: Draft) -> Iterator[Finding]:
    """G12: a radius closer than cutters are ground wants one that was measured."""
    for one in _radii(draft):
        if RADIUS_MM[1] - _SLACK <= one.size.band / 2 < RADIUS_MM[0] - _SLACK:
            yield Finding("G12", Grade.WARN, said(
                "{name} {least} to {most} holds with care only: it is as round as its cutter, so try that in scrap and "
                "measure the round", name=one.name, least=Mm(one.size.lo, places=4), most=Mm(one.size.hi, places=4)),
                          PRACTICE)


def misses(draft: Draft) -> Iterator[Finding]:
    """How far beyond its nearer limit an angle or a radius may come out even with care."""
    question = draft.question
    long = max((room.aim.height for room in question.outline.rooms), default=0) / 1e6
    for angle in question.feature.request.angles.values():
        if angle.band is not None and angle.band < ANGLE_DEG[1] - _SLACK:
            says = said("no way here holds an angle to {band} degrees, {held} at the best: the face is off over its "
                        "height by", band=angle.band, held=ANGLE_DEG[1])
            yield off_drawing("G12", says, radians(ANGLE_DEG[1] - angle.band) * long,
                              of_mm=2 * radians(angle.band) * long or long)
    for one in _radii(draft):
        if one.size.band / 2 < RADIUS_MM[1] - _SLACK:
            says = said("{size} is as round as its cutter and may come out outside its limits", size=one.name)
            yield off_drawing("G12", says, RADIUS_MM[1] - one.size.band / 2, beyond=True, of_mm=one.size.band)


def _radii(draft: Draft) -> Iterator[Dimension]:
    return (one for one in draft.question.dimensions if one.name in _ROUND and one.size.given
            and one.size.band > _SLACK)


RULES = (angles, radii)

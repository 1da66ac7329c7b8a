"""An angle on record that may have been counted otherwise: from one side or between both, from the face or not. While
such a question is open the angle isn't known."""

from __future__ import annotations

from crib.cutters.base import Cutter, Unknown
from crib.light.hints import Any

_FLAT_DEG = 180.0


def each_side(included_deg: float) -> str:
    """Asks whether an angle was meant for a side: `is it 45 degrees a side, 90 included?`"""
    return f"is it {included_deg / 2:g} degrees a side, {included_deg:g} included?"


def included(deg: float) -> str:
    """Asks whether an angle is the one between both sides."""
    return f"is {deg:g} degrees the included angle?"


def from_face(deg: float) -> str:
    """Asks whether an angle counts from the face, as a flank's does."""
    return f"is {deg:g} degrees the flank's angle from the face?"


def question(cutter: Cutter) -> str | None:
    """The open question about the angle on record, None where there is none.

    >>> question(Cutter(1, "chamfer-cutter", angle_deg=90.0, questions=("is it 45 degrees a side, 90 included?",)))
    'is it 45 degrees a side, 90 included?'
    """
    if cutter.angle_deg is None or not cutter.questions:
        return None
    asks = tuple(say(cutter.angle_deg) for say in (each_side, included, from_face))
    return next((one for one in cutter.questions if one.startswith(asks)), None)


def unknown(cutter: Cutter) -> tuple[Unknown, ...]:
    """The angle as something that isn't known, with the angles that it could be; none where no question is open, or
    where it can't be another: twice a right angle is no point."""
    open_question, angle = question(cutter), cutter.angle_deg
    if open_question is None or angle is None:
        return ()
    if open_question.startswith(each_side(angle)):
        other = angle / 2
    elif open_question.startswith(included(angle)):
        other = 2 * angle
    else:
        other = 90 - angle / 2 if "incl" in open_question else 90 - angle
    if not 0 < other < _FLAT_DEG:
        return ()
    return (Unknown("angle_deg", angle, other, open_question, False, (angle, other)),)


def with_sizes(cutter: Cutter, **sizes: Any) -> Cutter:
    """The cutter with sizes that are known then: one whose angle is among them is asked about it no longer."""
    if "angle_deg" not in sizes:
        return cutter.but(**sizes)
    was = question(cutter)
    return cutter.but(**sizes, questions=tuple(one for one in cutter.questions if one != was))

"""Dovetails: the angle of the flanks and the width at the sharp corners, by pins of two sizes laid in them, or by one
size with the width at the surface and the height."""

from __future__ import annotations

from collections.abc import Iterator
from math import atan, degrees

from crib.cutters.gauged import ANGLE_DEG, Candidate, Gauging, Measured, fine, outside
from crib.findings.errors import CribError
from crib.findings.message import Deg, said
from crib.handbook.dovetails import flank_run, pin_constant
from crib.planning.gauging.base import Thing

_ANGLES = (45.0, 50.0, 55.0, 60.0)
_FLATTEST, _STEEPEST = 20.0, 85.0
"""Between what flanks are looked for [deg]."""

_KINDS = {True: "dovetail", False: "dovetail-slide"}


def _fits(measured: Measured) -> Iterator[Candidate]:
    """The usual angles that its pins fit, with the width at the corners that each would give."""
    pins = measured.pins or ()
    angle = _angle(measured)
    sense = -1 if measured.is_slot else 1
    place, called = ("floor", "dovetail slot") if measured.is_slot else ("root", "dovetail slide")
    pin, size = pins[0]
    for usual in _ANGLES:
        width = size - sense * pin * pin_constant(usual)
        off_deg = round(angle - usual, 3)
        off = sense * (size - _size(measured, usual)) if len(pins) < 2 else (pins[0][0] - pins[-1][0]) * (
            pin_constant(angle) - pin_constant(usual))
        why = said("the flanks measure {angle} degrees; with {pin} pins {width} wide across the sharp corners at its "
                   f"{place}", angle=f"{angle:.2f}", pin=fine(pin), width=fine(width))
        label = said(f"{{usual}} degree {called}, {{width}} at the {place}", usual=Deg(usual), width=fine(width))
        yield Candidate(_KINDS[measured.is_slot], label, off, why, off_deg=off_deg,
                        beyond=outside(off_deg, -ANGLE_DEG, ANGLE_DEG), order=(abs(off_deg),))


def _angle(measured: Measured) -> float:
    """The flanks' angle by two sizes of pins, else by the surface. Raises `CribError` where too little was measured,
    and where no flank fits."""
    pins = measured.pins or ()
    sense = -1 if measured.is_slot else 1
    if len(pins) >= 2:
        (one, over), (two, over_two) = pins[:2]
        constant = sense * (over - over_two) / (one - two) if one != two else 0.0
        angle = 2 * degrees(atan(1 / (constant - 1))) if constant > 1 else 0.0
    elif measured.opening_mm is None or measured.height_mm is None:
        raise CribError("usage", "one pin alone doesn't tell the angle", "",
                        "a second pin: --pin 1/2,1/4 with both sizes; or --opening and --height")
    else:
        angle = _by_the_surface(measured)
    if not _FLATTEST <= angle <= _STEEPEST:
        raise CribError("pins", "no dovetail has flanks that those sizes fit", "",
                        "measure again: over pins it is a slide, between pins a slot; the larger pin gives a slide the "
                        "larger size and a slot the smaller")
    return angle


def _by_the_surface(measured: Measured) -> float:
    """The angle at which one pin gives the size that was measured, by halving: the flatter the flank, the more its
    corner lies off the surface's edge."""
    low, high = _FLATTEST - 1, _STEEPEST + 1
    sense = -1 if measured.is_slot else 1
    for _ in range(60):
        middle = (low + high) / 2
        too_flat = sense * (_size(measured, middle) - (measured.pins or ())[0][1]) < 0
        low, high = (middle, high) if too_flat else (low, middle)
    return (low + high) / 2


def _size(measured: Measured, angle: float) -> float:
    """The size over or between one size of pins at an angle, from the width at the surface."""
    pin = (measured.pins or ())[0][0]
    sense = -1 if measured.is_slot else 1
    corners = (measured.opening_mm or 0.0) - sense * 2 * flank_run(measured.height_mm or 0.0, angle)
    return corners + sense * pin * pin_constant(angle)


def _of(is_slot: bool) -> Gauging:
    return Gauging("pins", lambda measured: _fits(measured) if measured.is_slot == is_slot else (), needs=("pins",))


SLOT = Thing(_KINDS[True], ("dovetail slot", "dovetail way", "female dovetail"), _of(True))
SLIDE = Thing(_KINDS[False], ("male dovetail", "dovetail slide"), _of(False))

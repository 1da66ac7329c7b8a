"""Pieces that slanted outlines are made of: edges that lean, the widths of dovetails, pins, corners. Millimetres in,
whole nanometres out."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from math import ceil, floor, radians, tan

from crib.features.base import refuse
from crib.features.request import Request
from crib.findings.message import InWords, Message, a, said
from crib.geometry.outline import Box, Face, Lean
from crib.geometry.region import Region, box
from crib.handbook.dovetails import EDGE_BREAK_MM, pin_contact, suitable_pin
from crib.light.records import replace
from crib.units import Size, nm

RISE = 1_000_000_000
"""The rise that leans are told over [nm]."""

_SAME_MM = 0.0005 * 25.4
"""Two sizes that differ by less say the same [mm]."""

MATING_BAND_DEG, FLANK_BAND_DEG = 0.05, 0.25
"""How far a flank's angle may be off, with an old part to fit and without [deg]. Common practice, no source."""


def flank(angle_deg: float, band_deg: float) -> Lean:
    """A flank that leans over the room, by its angle from the floor and how far that may be off."""
    def run(deg: float) -> float:
        return RISE / tan(radians(deg))

    return Lean(round(run(angle_deg)), RISE, floor(run(angle_deg + band_deg)), ceil(run(angle_deg - band_deg)))


def slope(angle_deg: float, band_deg: float) -> Lean:
    """An edge that opens upwards, by its angle from the upright and how far that may be off."""
    def run(deg: float) -> float:
        return -RISE * tan(radians(deg))

    return Lean(round(run(angle_deg)), RISE, floor(run(angle_deg + band_deg)), ceil(run(angle_deg - band_deg)))


def band_of(request: Request) -> float:
    """How far the angle of a flank may be off [deg]."""
    typed = request.angle().band
    return typed if typed is not None else MATING_BAND_DEG if request.mating else FLANK_BAND_DEG


def one_of(request: Request, ways: Mapping[str, Callable[[Size], float]], what: str) -> Size:
    """The width that a dovetail has at its sharp corners, from whichever size was given: `ways` tells for each key how
    much it is less than that width [mm]. Raises `CribError` where none was given, or two that contradict each other.
    """
    return one_way(request, {key: partial(_more, by=by) for key, by in ways.items()}, what)


def one_way(request: Request, ways: Mapping[str, Callable[[Size], Size]], what: str) -> Size:
    """A size by whichever of several was given: `ways` makes it of each. Raises `CribError` where none was given, or
    two that contradict each other."""
    given = {key: request.sizes[key] for key in ways if key in request.sizes}
    if not given:
        options = " or ".join("--" + key.replace("_", "-") for key in ways)
        raise refuse(f"{a(request.kind)} needs {what}", "", f"give {options}")
    found = {key: ways[key](size) for key, size in given.items()}
    (first, width), *others = found.items()
    for key, other in others:
        if abs(other.nominal - width.nominal) > _SAME_MM:
            says = said("--{first} {first_text} and --{second} {second_text} contradict each other: the second would "
                        "make {what} {makes}", first=first.replace("_", "-"), first_text=given[first].text,
                        second=key.replace("_", "-"), second_text=given[key].text, what=what,
                        makes=InWords(round(other.nominal, 4)))
            raise refuse(says, given[key].text, "one of the two")
    return width


def in_proportion(size: Size, times: float, more: float = 0.0) -> Size:
    """So many times a size and so much more [mm], its limits with it.

    >>> wide = in_proportion(Size(2.0, 1.9, 2.2, "2mm"), 2.0, 6.0)
    >>> wide.nominal, wide.lo, wide.hi
    (10.0, 9.8, 10.4)
    """
    lo, hi = (round(times * mm + more, 9) for mm in (size.lo, size.hi))
    return replace(size, nominal=round(times * size.nominal + more, 9), lo=lo, hi=hi,
                   aim=None if size.aim is None else round(times * size.aim + more, 9))


def _more(size: Size, by: Callable[[Size], float]) -> Size:
    return in_proportion(size, 1.0, by(size))


def pin_of(request: Request, height: float) -> tuple[float | None, bool]:
    """The pin to measure with [mm], and whether it was named: else the largest standard one that suits. Raises
    `CribError` for one that touches above the flank, and where a size over pins was given without the pin."""
    angle = request.angle().deg
    named = request.sizes.get("pin")
    over = next((key for key in ("between_pins", "over_pins") if key in request.sizes), None)
    if named is None:
        if over:
            raise refuse(f"--{over.replace('_', '-')} needs the pins that it was measured with", "", "give --pin 1/4")
        return suitable_pin(height, angle, request.units), False
    touches = pin_contact(named.mid, angle)
    if touches > height - EDGE_BREAK_MM:
        most = suitable_pin(height, angle, request.units)
        touched, whole, left, broken = (InWords(round(mm, 4)) for mm in (
            touches, height, height - EDGE_BREAK_MM, EDGE_BREAK_MM))
        right = said("{most} or smaller", most=InWords(most)) if most else "no standard pin is small enough"
        says = said("a pin of {pin} is too big: it would touch the flank {touched} up, and of the flank's {whole} only "
                    "{left} is left with {broken} of its edge broken", pin=named.text, touched=touched, whole=whole,
                    left=left, broken=broken)
        raise refuse(says, named.text, right)
    return named.mid, True


def pins(pin: float, named: bool, height: float) -> Message:
    """The pins: `pins of 5/16`; where none were named, up to where others may touch."""
    if named:
        return said("pins of {pin}", pin=InWords(pin))
    return said("pins of {pin} (any that touches the flank below {below})", pin=InWords(pin),
                below=InWords(height - EDGE_BREAK_MM))


def relieved(corners: tuple[tuple[int, int], ...], size: int) -> Region:
    """Squares about corners, within so much of them."""
    region = Region()
    for x, z in corners:
        region = region | box(x - size, z - size, x + size, z + size)
    return region


def leaning_face(name: str, metal: int, at: tuple[int, int, int], lean: Lean, low: int, start: int, high: int) -> Face:
    """A face that stands at least, aim and most (`at`) at the height `low`, and is asked about from `start` up."""
    shift = metal * lean.over(start - low)
    least, aim, most = (x - shift for x in at)
    return Face(name, True, metal, aim, least, most, start, high, lean)


def three(make: Callable[[int], Box]) -> tuple[Box, Box, Box]:
    """A box at its least, middle and most: made from 0, 1, 2."""
    return make(0), make(1), make(2)


def halves(size: Size) -> tuple[int, int, int]:
    """Half of a size: least, middle, most [nm]."""
    return nm(size.lo / 2), nm(size.mid / 2), nm(size.hi / 2)

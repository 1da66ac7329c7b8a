"""Taper reamers, for pins. Recorded and found, not reckoned with yet."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters.base import Cutter, Kind
from crib.cutters.gauged import IN, Candidate, Gauging, Measured, fine, outside
from crib.cutters.speech import Name, Order, Speech
from crib.findings.message import said
from crib.handbook.numbered import TAPER_PINS

_SLOPE, _OFF_MM = 0.25 / 12, 0.003 * IN
"""A taper pin's growth over its length [-], and how far off it is with calipers at both ends [mm]. ASME B18.8.2, from
memory; common practice."""


def _fits(measured: Measured) -> Iterator[Candidate]:
    """The taper pins whose large ends lie between its two diameters."""
    if measured.diameter_mm is None or measured.small_mm is None or not measured.length_mm:
        return
    large, small = max(measured.diameter_mm, measured.small_mm), min(measured.diameter_mm, measured.small_mm)
    off = large - small - _SLOPE * measured.length_mm
    for number, end in TAPER_PINS.items():
        size = float(end) * IN
        beyond = outside(off, -_OFF_MM, _OFF_MM) + outside(size, small, large + _OFF_MM)
        yield Candidate("taper-reamer", f"#{number} taper pin reamer", off,
                        said("1/4 in to the foot; the pin is {size} at its large end", size=fine(size)), beyond=beyond)


KIND = Kind(
    name="taper-reamer",
    words="taper reamer",
    plural="taper reamers",
    gauging=Gauging("small_mm", _fits, needs=("diameter_mm", "small_mm", "length_mm")),
    speech=Speech(
        names=(Name(r"(?:morse|mt)(?: ?\d)?(?: taper)?(?: (?:finishing|roughing))? reamers?", "Morse taper"),
               Name(r"taper(?:ed)? pin(?: reamers?)?", "taper pin"), Name(r"taper(?:ed)? reamers?")),
        beside="reamers?",
        order=Order.PIN,
    ),
    example=Cutter(0, "taper-reamer", diameter_mm=6.35),
)

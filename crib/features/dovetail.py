"""A dovetail slot: a floor that is wider than the mouth, between flanks that lean over it.

Its width counts across the sharp corners, at the floor that is aimed at. A rough slot is opened from above first.
"""

from __future__ import annotations

from crib.features.base import AngleSpec, CallsFor, Dimension, Feature, FeatureKind, SizeSpec, refuse
from crib.features.request import Request
from crib.features.shapes import metal, walls
from crib.features.slants import band_of, flank, halves, leaning_face, one_of, pin_of, pins, relieved, three
from crib.features.speech import Speech
from crib.findings.message import InWords, Text, said
from crib.geometry.outline import Box, Face, Lean, Opening, Outline, Room, Waiver
from crib.geometry.region import FAR, Region, box, trapezoid
from crib.handbook.dovetails import (
    GIB_GAP_MM,
    SLOT_UNDER_MM,
    between_pins,
    flank_run,
    gib_room,
    pin_constant,
    pin_contact,
    suitable_pin,
)
from crib.units import Size, nm

_MOST_OF_MOUTH = 0.5
"""The thickest gib, as a share of the mouth that it is added to; a usual one is far thinner (from memory)."""


def draw(request: Request) -> Feature:
    """The slot about its centre line; with a gib its front flank is set over."""
    angle, depth = request.angle().deg, request.size("depth")
    run = flank_run(depth.mid, angle)
    pin, named = pin_of(request, depth.mid)
    width = one_of(request, {
        "width": lambda size: 0.0,
        "opening": lambda size: 2 * run,
        "between_pins": lambda size: (pin or 0.0) * pin_constant(angle),
    }, "the width across its sharp corners at the floor")
    gib = request.sizes.get("gib")
    over = nm(gib_room(gib.mid, angle)) if gib else 0
    lean = flank(angle, band_of(request))
    _check(request, width, run)
    pin = _side_by_side(request, pin if named else None, width.mid + over / 1e6)
    if gib:
        _check_gib(gib, width.mid - 2 * run, request)
    shape = _Shape(width, depth, lean, over, request.corner_relief)
    wide = Size(width.nominal + over / 1e6, width.lo + over / 1e6, width.hi + over / 1e6, width.text, width.given)
    return Feature(
        kind="dovetail",
        words="dovetail",
        request=request,
        outline=shape.outline(request),
        dimensions=(
            Dimension("flanks width", "width", wide, ("back flank", "front flank")),
            Dimension("depth", "depth", depth, ("floor",), ("slot",)),
        ),
        calls_for={
            "slot": CallsFor(("end-mill",)),
            "flanks": CallsFor(("dovetail-cutter",), face=(depth.mid, FAR / 1e6),
                               angle=(angle - band_of(request), angle + band_of(request))),
        },
        kindest={kind: {"angle_deg": angle} for kind in ("dovetail-cutter", "angle-cutter")},
        measures=tuple(_measures(request, wide.mid, pin, named, angle, depth.mid)),
        assumed=(said("{gap} left to adjust the gib", gap=InWords(GIB_GAP_MM)),) if gib else (),
        reckoned={"width_mm": width.nominal, "opening_mm": width.nominal - 2 * run},
    )


def _side_by_side(request: Request, pin: float | None, width: float) -> float | None:
    """The pin that was named, else one that suits. Raises `CribError` where two that were named don't go into a slot so
    wide."""
    angle, depth = request.angle().deg, request.size("depth").mid
    fits = suitable_pin(depth, angle, request.units, width)
    if pin and between_pins(width, pin, angle) <= 0:
        says = said("two pins of {pin} don't go in side by side: they want {need} across the sharp corners, {wide} is "
                    "there", pin=request.size("pin").text, need=InWords(round(pin * pin_constant(angle), 4)),
                    wide=InWords(round(width, 4)))
        raise refuse(says, request.size("pin").text, said("{fits} or smaller", fits=InWords(fits)) if fits else
                     "no standard pin is small enough")
    return pin or fits


def _measures(request: Request, width: float, pin: float | None, named: bool, angle: float,
              depth: float) -> list[tuple[Text, float]]:
    """What to measure it by."""
    found: list[tuple[Text, float]] = [("opening at the surface", width - 2 * flank_run(depth, angle)),
                                       ("width across the sharp corners", width)]
    if pin:
        found += [(said("size between {pins}", pins=pins(pin, named, depth)), between_pins(width, pin, angle)),
                  ("the pin touches the flank at a height of", pin_contact(pin, angle))]
    return found


def _check(request: Request, width: Size, run: float) -> None:
    depth = request.size("depth")
    mouth = width.lo - 2 * run
    if mouth <= 0:
        most = InWords(round(width.lo / 2 / (run / depth.mid), 3))
        says = said("a dovetail {wide} wide and {deep} deep would have no mouth: its flanks meet below the surface",
                    wide=InWords(width.lo), deep=depth.text)
        raise refuse(says, depth.text, said("a depth under {most}, or a greater width", most=most))


def _check_gib(gib: Size, mouth: float, request: Request) -> None:
    """Raises `CribError` for a gib that leaves the slide hardly any width."""
    if gib.mid > _MOST_OF_MOUTH * mouth:
        wide, most = (InWords(round(mm, 3)) for mm in (mouth, _MOST_OF_MOUTH * mouth))
        says = said("a gib of {gib} is too thick for a dovetail {wide} wide at its mouth", gib=gib.text, wide=wide)
        right = said("{most} at the most, half the mouth; the gib is its thickness, square to the flank", most=most)
        raise refuse(says, gib.text, right)


class _Shape:
    """The outline in whole nanometres, from its sizes."""

    def __init__(self, width: Size, depth: Size, lean: Lean, over: int, relief: float) -> None:
        self.lean, self.over = lean, over
        self.halves, self.depths = halves(width), (nm(depth.lo), nm(depth.mid), nm(depth.hi))
        self.floor, self.top = -self.depths[1], lean.over(self.depths[1])
        self.corners = ((self.halves[1], self.floor), (-self.halves[1] - over, self.floor))
        self.relief = relieved(self.corners, nm(relief)) if relief else Region()
        self.spare = nm(relief)

    def at(self, which: int) -> Region:
        """The slot at its least, middle or most."""
        half, low = self.halves[which], -self.depths[which]
        down, top = self.lean.over(low - self.floor), self.top
        return trapezoid(low, 0, -half - self.over + down, half - down, -half - self.over + top, half - top)

    def rooms(self) -> tuple[Room, Room]:
        """The rough slot, and the flanks."""
        mouth = self.halves[0] - self.top
        under = min(nm(SLOT_UNDER_MM), mouth // 4)
        off = (3 * under // 2, under, under // 2)
        rough = three(lambda i: Box(-mouth - self.over + off[i], -self.depths[i], mouth - off[i], 0))
        flanks = three(lambda i: Box(-self.halves[i] - self.over, -self.depths[i], self.halves[i], 0))
        return (Room("slot", *rough, open=frozenset({Opening.TOP})), Room("flanks", *flanks, lean=self.lean))

    def faces(self) -> tuple[Face, ...]:
        """Both flanks above what the corners are relieved by, and the floor between."""
        start, half = self.floor + self.spare, self.halves
        front = (-half[0] - self.over, -half[1] - self.over, -half[2] - self.over)
        return (
            leaning_face("back flank", 1, half, self.lean, self.floor, start, 0),
            leaning_face("front flank", -1, front, self.lean, self.floor, start, 0),
            Face("floor", False, -1, self.floor, -self.depths[0], -self.depths[2],
                 -half[0] - self.over + self.spare, half[0] - self.spare),
        )

    def outline(self, request: Request) -> Outline:
        """What must go and what may."""
        least, stock = self.at(0) - self.relief, metal(request, self.depths[2] / 1e6)
        allowed = min(self.depths[1] // 4, self.halves[1] // 8)
        left = relieved(self.corners, allowed) & self.at(0) if allowed > self.spare else Region()
        return Outline(
            stock=stock,
            least=least,
            aim=self.at(1),
            most=self.at(2) | (self.relief & box(-FAR, -FAR, FAR, 0)),
            rooms=self.rooms(),
            faces=self.faces(),
            waivers=(Waiver("acute corner", left),) if left else (),
            obstacles=walls(request),
        )


KIND = FeatureKind(
    name="dovetail",
    words="a dovetail slot",
    angles=(AngleSpec("angle", "between flank and floor: 60, 55, 45"),),
    sizes=(
        SizeSpec("depth", "from the surface to the floor"),
        SizeSpec("width", "across the sharp corners at the floor", needed=False),
        SizeSpec("opening", "width at the surface, instead of --width", needed=False),
        SizeSpec("between_pins", "size between two pins in its corners, instead of --width", needed=False),
        SizeSpec("pin", "diameter of those pins", "exact", needed=False),
        SizeSpec("gib", "thickness of a parallel gib that it makes room for", "exact", needed=False),
    ),
    draw=draw,
    ends=("open", "one"),
    example={"angle": "55", "depth": "3/8", "width": "2"},
    one_of=("width", "opening", "between_pins"),
    speech=Speech(
        names=("dovetail slot", "female dovetail", "dovetail groove", "dovetail way", "dovetail socket", "female"),
        words={
            "width": ("across the corners", "across the sharp corners", "wide at the floor", "at the floor",
                      "wide at the bottom", "at the bottom", "at bottom", "at floor", "wide at bottom",
                      "wide at floor", "wide across the corners",
                      "floor", "floor wide", "bottom wide",
                      "floor width", "width at the floor", "bottom width", "across the bottom",
                      "across the floor", "wide across the bottom"),
            "opening": ("top", "top wide", "top width", "wide at the top", "at the top", "at top",
                        "wide at top", "at the surface", "wide at the surface",
                        "mouth", "wide at the mouth", "wide opening", "across the top", "across the mouth",
                        "across the opening", "wide across the top"),
            "between_pins": ("between the pins", "over pins inside"),
            "pin": ("pins",),
            "gib": ("thick gib", "gib thickness", "gib thick"),
        },
        order=("width", "depth"),
        common=("female",),
    ),
)

"""A dovetail slide: a tongue that is narrower at its root than at its top, with a shoulder on both sides.

Its width counts across the sharp corners at the root, at the shoulders that are aimed at. Stock wider than the slide
is taken down on both sides first, from above.
"""

from __future__ import annotations

from crib.features.base import AngleSpec, CallsFor, Dimension, Feature, FeatureKind, SizeSpec, refuse
from crib.features.request import Request
from crib.features.shapes import walls
from crib.features.slants import band_of, flank, halves, leaning_face, one_of, pin_of, pins, relieved, three
from crib.features.speech import Speech
from crib.findings.message import InWords, Text, said
from crib.geometry.outline import Box, Face, Lean, Opening, Outline, Room, Waiver
from crib.geometry.region import FAR, Region, box, trapezoid
from crib.handbook.dovetails import SLOT_UNDER_MM, flank_run, over_pins, pin_constant, pin_contact
from crib.light.records import replace
from crib.units import Size, nm

SHOULDER_MM = 12.7
"""How wide each shoulder is taken to be where it wasn't given [mm]."""


def draw(request: Request) -> Feature:
    """The slide about its centre line."""
    angle, height = request.angle().deg, request.size("height")
    run = flank_run(height.mid, angle)
    pin, named = pin_of(request, height.mid)
    width = one_of(request, {
        "width": lambda size: 0.0,
        "top": lambda size: -2 * run,
        "over_pins": lambda size: -(pin or 0.0) * pin_constant(angle),
    }, "the width across its sharp corners at the root")
    _check(request, width)
    shoulder = request.sizes.get("shoulder")
    lean = flank(angle, band_of(request))
    shape = _Shape(width, height, lean, shoulder.mid if shoulder else SHOULDER_MM, request)
    calls = CallsFor(("dovetail-cutter",), face=(height.mid, FAR / 1e6),
                     angle=(angle - band_of(request), angle + band_of(request)))
    return Feature(
        kind="dovetail-slide",
        words="dovetail slide",
        request=request,
        outline=shape.outline(),
        dimensions=(
            Dimension("root width", "width", width, ("back flank", "front flank"), ("back flank", "front flank")),
            Dimension("height", "depth", height, ("back floor", "front floor"), ("back shoulder", "front shoulder")),
        ),
        calls_for={
            "back shoulder": CallsFor(("end-mill",)), "front shoulder": CallsFor(("end-mill",)),
            "back flank": calls, "front flank": calls,
        },
        kindest={kind: {"angle_deg": angle} for kind in ("dovetail-cutter", "angle-cutter")},
        measures=tuple(_measures(request, width.mid, pin, named, angle, height.mid)),
        assumed=() if shoulder else (
            said("shoulders {wide} wide beside the top of the slide: none were given", wide=InWords(SHOULDER_MM)),),
        reckoned={"width_mm": width.nominal, "top_mm": width.nominal + 2 * run},
    )


def _measures(request: Request, width: float, pin: float | None, named: bool, angle: float,
              height: float) -> list[tuple[Text, float]]:
    """What to measure it by."""
    found: list[tuple[Text, float]] = [("width at the top", width + 2 * flank_run(height, angle)),
                                       ("width across the sharp corners", width)]
    if pin:
        found += [(said("size over {pins}", pins=pins(pin, named, height)), over_pins(width, pin, angle)),
                  ("the pin touches the flank at a height of", pin_contact(pin, angle))]
    return found


def _check(request: Request, width: Size) -> None:
    if width.lo <= 0:
        raise refuse("the slide would have no root: its flanks meet above the shoulders", request.size("height").text,
                     "a smaller height, or a greater width")


class _Shape:
    """The outline in whole nanometres, from its sizes."""

    def __init__(self, width: Size, height: Size, lean: Lean, shoulder: float, request: Request) -> None:
        self.lean, self.request = lean, request
        self.roots = halves(width)[::-1]
        self.heights = (nm(height.lo), nm(height.mid), nm(height.hi))
        self.floor, self.top = -self.heights[1], lean.over(self.heights[1])
        self.edge = self.roots[1] + self.top + nm(shoulder)
        self.spare = nm(request.corner_relief)
        self.corners = ((self.roots[1], self.floor), (-self.roots[1], self.floor))

    def at(self, which: int) -> Region:
        """What goes on both sides: the least beside the widest root."""
        root, low = self.roots[which], -self.heights[which]
        back = trapezoid(low, 0, root + self.lean.over(low - self.floor), self.edge, root + self.top, self.edge)
        return back | back.mirrored

    def rooms(self) -> tuple[Room, ...]:
        """Both shoulders from above, then both flanks from the side."""
        beside = self.roots[0] + self.top
        under = nm(SLOT_UNDER_MM)
        off = (3 * under // 2, under, under // 2)
        upright = three(lambda i: Box(beside + off[i], -self.heights[i], self.edge, 0))
        undercut = three(lambda i: Box(self.roots[i], -self.heights[i], beside + off[0], 0))
        shoulder = Room("back shoulder", *upright, open=frozenset({Opening.TOP, Opening.RIGHT}))
        back = Room("back flank", *undercut, open=frozenset({Opening.RIGHT}), lean=self.lean)
        return (shoulder, _front(shoulder, "front shoulder"), back, _front(back, "front flank"))

    def faces(self) -> tuple[Face, ...]:
        """Both flanks above what the corners are relieved by, and both shoulders."""
        back = leaning_face("back flank", -1, self.roots, self.lean, self.floor, self.floor + self.spare, 0)
        level = Face("back floor", False, -1, self.floor, -self.heights[0], -self.heights[2],
                     self.roots[0] + self.spare, self.edge)
        return (back, _named(back.mirrored, "front flank"), level, _named(level.mirrored, "front floor"))

    def outline(self) -> Outline:
        """What must go and what may."""
        below = -FAR if self.request.below is None else -self.heights[2] - nm(self.request.below)
        relief = relieved(self.corners, self.spare) if self.spare else Region()
        allowed = min(self.heights[1] // 4, self.roots[1] // 8)
        left = relieved(self.corners, allowed) & self.at(0) if allowed > self.spare else Region()
        return Outline(
            stock=box(-self.edge, below, self.edge, 0),
            least=self.at(0) - relief,
            aim=self.at(1),
            most=self.at(2) | (relief & box(-FAR, -FAR, FAR, 0)),
            rooms=self.rooms(),
            faces=self.faces(),
            waivers=(Waiver("acute corner", left),) if left else (),
            obstacles=walls(self.request),
        )


def _front(room: Room, name: str) -> Room:
    other = room.mirrored
    return replace(other, name=name)


def _named(face: Face, name: str) -> Face:
    return replace(face, name=name)


KIND = FeatureKind(
    name="dovetail-slide",
    words="a dovetail slide",
    angles=(AngleSpec("angle", "between flank and shoulder: 60, 55, 45"),),
    sizes=(
        SizeSpec("height", "from the top of the slide to the shoulders"),
        SizeSpec("width", "across the sharp corners at the root", needed=False),
        SizeSpec("top", "width at the top, instead of --width", needed=False),
        SizeSpec("over_pins", "size over two pins in its corners, instead of --width", needed=False),
        SizeSpec("pin", "diameter of those pins", "exact", needed=False),
        SizeSpec("shoulder", "stock on each side of the top of the slide", "exact", needed=False),
    ),
    draw=draw,
    example={"angle": "60", "height": "5/16", "width": "1"},
    one_of=("width", "top", "over_pins"),
    speech=Speech(
        names=("male dovetail", "dovetail tongue", "dovetail tenon", "dovetail male", "male", "male dovetail slide"),
        words={
            "height": ("high", "tall", "deep"),
            "width": ("root width", "wide at the root", "at the root", "root", "across the corners",
                      "across the sharp corners", "across the root"),
            "top": ("wide at the top", "at the top", "top width", "across the top", "wide across the top"),
            "over_pins": ("over the pins", "over two pins"),
            "pin": ("pins",),
            "shoulder": ("shoulders", "wide shoulders", "wide shoulder"),
        },
        order=("width", "height"),
        common=("male",),
    ),
)

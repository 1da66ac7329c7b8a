"""A groove round the wall of a bore: for a retaining ring, an O-ring, oil. Down counts from the face that the bore
opens in."""

from __future__ import annotations

from collections.abc import Iterator

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, OptionSpec, SizeSpec, refuse
from crib.features.down import InsideGroove
from crib.features.request import Request
from crib.features.rounds import ring, rod
from crib.features.speech import Speech
from crib.findings.errors import CribError
from crib.findings.message import InWords, Text, said
from crib.geometry.outline import Box, Opening, Outline, Room
from crib.geometry.region import FAR, Region, box
from crib.units import Size, nm

PLACED_MM = (0.0005 * 25.4, 0.001 * 25.4)
"""How closely the knee sets its place along the bore, at the best and as a rule; so much of the tolerance of that is
used [mm]. Common practice."""

ENTERS_MM = 0.020 * 25.4
"""How much narrower than the bore a cutter is that goes down in it [mm]. Common practice."""


def draw(request: Request) -> Feature:
    """A ring let into the wall, square at its corners but for the radius that may be there."""
    asked = InsideGroove(request.size("bore"), _diameter(request), request.size("width"), request.size("from_face"))
    blind = request.sizes.get("bore_depth")
    _check(asked, blind, request.floor_radius)
    room = _room(asked)
    lower = Size(asked.from_face.mid + asked.width.mid, asked.from_face.mid + asked.width.lo,
                 asked.from_face.mid + asked.width.hi, "", asked.width.given)
    outline = Outline(
        stock=_metal(request, lower.hi, blind) - rod(asked.bore.lo, blind.nominal if blind else FAR / 1e6),
        least=_must_go(room, request.floor_radius, asked),
        aim=_between(room.aim, asked.bore.lo),
        most=_between(room.most, 0.0) | rod(asked.bore.lo, blind.nominal if blind else FAR / 1e6),
        rooms=(room,),
    )
    return Feature(
        kind="internal-groove",
        words="internal groove",
        request=request,
        outline=outline,
        dimensions=(Dimension("groove diameter", "width", asked.diameter, ()),
                    Dimension("groove width", "height", asked.width, ()),
                    Dimension("from the face to its lower side", "depth", lower, ())),
        down=asked,
        number=request.count,
        stands="upright",
        kindest={kind: {"face_mm": asked.width.mid} for kind in ("keyseat-cutter", "t-slot-cutter", "grooving-bar")},
        measures=(("let into the wall", (asked.diameter.mid - asked.bore.mid) / 2),),
        exact=frozenset({"bore_depth"}),
        assumed=tuple(_assumed(asked, blind)),
        calls_for={room.name: CallsFor(("keyseat-cutter", "t-slot-cutter", "grooving-bar"),
                                       (4 * asked.deep_mm, asked.bore.lo - ENTERS_MM), (0.0, asked.width.hi))},
    )


def _diameter(request: Request) -> Size:
    """Across the groove, as given or by how deep it is let into the wall. Raises `CribError` where it is given in no
    way, or in both."""
    given = [key for key in ("diameter", "depth") if key in request.sizes]
    if len(given) != 1:
        raise CribError("size", "an internal groove has its diameter and its depth given" if given else
                        "an internal groove needs its diameter, across its floor, or its depth",
                        " and ".join(request.sizes[key].text for key in given), "give --diameter, or --depth")
    if given == ["diameter"]:
        return request.size("diameter")
    bore, depth = request.size("bore"), request.size("depth")
    nominal, lo, hi = (bore.mid + 2 * deep for deep in (depth.nominal, depth.lo, depth.hi))
    return Size(nominal, lo, hi, f"{bore.text} and {depth.text} deep", depth.given,
                None if depth.aim is None else bore.mid + 2 * depth.aim)


def _check(asked: InsideGroove, blind: Size | None, radius_mm: float) -> None:
    """Raises `CribError` for sizes that can't be together."""
    bore, across, width, under = asked.bore, asked.diameter, asked.width, asked.from_face
    if across.lo <= bore.hi:
        raise refuse(said("a groove {across} across is no wider than its bore, {bore}: nothing is let into the wall",
                          across=across.text, bore=bore.text), across.text,
                     said("a diameter above {bore}, tolerances included", bore=bore.text))
    if blind and under.hi + width.hi > blind.lo:
        raise refuse(said("the groove, {width} wide from {under} down, goes under the floor of the bore, {deep} deep",
                          width=width.text, under=under.text, deep=blind.text), width.text,
                     said("its lower side at {deep} or less, tolerances included", deep=blind.text))
    if 2 * radius_mm > width.lo:
        raise refuse("the floor radius is more than half of the groove's width", width.text,
                     f"at most half of {width.text}")


def _room(asked: InsideGroove) -> Room:
    """The groove to the right of the axis: from the bore out, open to it. Its upper side is placed as closely as the
    knee sets it, no closer than it must be."""
    best, usual = PLACED_MM
    slack, top = max(best, min(asked.from_face.band / 2, usual)), -asked.from_face.mid
    edges = ((asked.bore.hi, asked.diameter.lo, -slack, asked.width.lo), (asked.bore.mid, asked.diameter.mid, 0.0,
             asked.width.mid), (asked.bore.lo, asked.diameter.hi, slack, asked.width.hi))
    least, aim, most = (Box(nm(inner / 2), nm(top - wide - by), nm(outer / 2), nm(top + by))
                        for inner, outer, by, wide in edges)
    return Room("groove", least, aim, most, frozenset({Opening.LEFT}), (nm(asked.width.lo), nm(asked.width.hi)))


def _between(one: Box, inside_mm: float) -> Region:
    """All round the axis, from a diameter out to a box's far side."""
    return ring(one.low / 1e6, one.high / 1e6, inside_mm, one.right / 5e5)


def _must_go(room: Room, radius_mm: float, asked: InsideGroove) -> Region:
    """What must go of it: all but what a radius in its corners may leave."""
    low, high, bore = room.least.low / 1e6, room.least.high / 1e6, asked.bore.lo
    whole = max(bore, asked.diameter.lo - 2 * radius_mm)
    return ring(low, high, bore, whole) | ring(low + radius_mm, high - radius_mm, bore, asked.diameter.lo)


def _metal(request: Request, lower_mm: float, blind: Size | None) -> Region:
    """The work with its bore not yet in it."""
    if request.below is None:
        return box(-FAR, -FAR, FAR, 0)
    return box(-FAR, -nm(max(lower_mm, blind.nominal if blind else 0.0) + request.below), FAR, 0)


def _assumed(asked: InsideGroove, blind: Size | None) -> Iterator[Text]:
    yield said("the bore is there, {least} to {most}", least=InWords(asked.bore.lo), most=InWords(asked.bore.hi))
    if blind is None:
        yield "the bore goes through, or far enough under the groove: --bore-depth says how deep it is"


KIND = FeatureKind(
    name="internal-groove",
    words="a groove round the wall of a bore",
    sizes=(SizeSpec("bore", "diameter of the bore that is there"),
           SizeSpec("diameter", "across the groove, at its floor", needed=False),
           SizeSpec("depth", "instead of its diameter: from the wall of the bore to its floor", needed=False),
           SizeSpec("width", "of the groove, along the bore"),
           SizeSpec("from_face", "from the face that the bore opens in to the groove's upper side"),
           SizeSpec("bore_depth", "of a blind bore; without it, it goes on", "exact", False)),
    draw=draw,
    options=(OptionSpec("seal", "yes where a seal lies in it"),),
    one_of=("diameter", "depth"),
    is_a_notch=True,
    cautions=("nothing comes up out of a groove before it stands in the middle of the bore again: back there, then "
              "up",),
    example={"bore": "1+.001-0", "diameter": "1.066+.006-0", "width": ".056+.004-0", "from_face": "1/4"},
    speech=Speech(
        above={"diameter": ("bore", None)},
        names=("inside groove", "groove in a bore", "groove in the bore", "bore groove", "retaining ring groove",
               "snap ring groove", "circlip groove", "internal circlip groove", "internal retaining ring groove",
               "internal snap ring groove", "groove round a bore", "o ring groove in a bore"),
        words={"bore": ("hole", "bored hole"),
               "diameter": ("groove diameter", "groove dia", "groove", "at the bottom", "bottom"),
               "width": ("groove width",),
               "from_face": ("from the face", "below the face", "under the face", "down from the face",
                             "from the top", "down", "down the bore", "down in the bore"),
               "depth": ("into the wall", "deep into the wall", "let in"),
               "bore_depth": ("blind bore", "deep bore", "bore deep")},
        order=("bore", "diameter", "width", "from_face"),
        tells=dict.fromkeys(("o ring", "o-ring", "seal", "for an o ring"), ("seal", "yes")),
    ),
)

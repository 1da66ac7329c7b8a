"""A keyseat in a bore: broached, or slotted with one point and the spindle locked. It is drawn about the bore's axis,
in the plane through the middle of the keyseat; its depth counts at its side, as the standards give it."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, OptionSpec, SizeSpec, Standard, refuse
from crib.features.down import BoreKeyseat
from crib.features.request import Request, Spoken
from crib.features.speech import Speech
from crib.findings.errors import CribError
from crib.geometry.axis_view import disc
from crib.geometry.outline import Box, Opening, Outline, Room
from crib.geometry.region import FAR, Region, box
from crib.handbook.keys import ISO_SOURCE, SOURCE, crown, key_height, parallel_hub, square_key
from crib.units import Size, in_words, nm, read

WIDE_MM, OVER_MM, DEEP_MM = 0.002 * 25.4, 0.005 * 25.4, 0.010 * 25.4
"""A seat may be so much wider than its key (common practice); over the key in the hub is so much air, and the seat may
be so much deeper still (ANSI B17.1, from memory)."""

_ROOM, _FORM, _FORMS = "keyseat", "form", ("square", "rectangular")


def draw(request: Request) -> Feature:
    """What goes beyond the bore, as far as the hub is long."""
    bore, width, depth, hub = (request.size(key) for key in ("bore", "width", "depth", "hub"))
    _check(bore, width, depth)
    under = bore.mid / 2 - crown(bore.mid, width.mid)
    ends = [under + mm for mm in (depth.lo, depth.mid, depth.hi)]
    low, wall = -nm(hub.nominal), nm(bore.mid / 2)
    least, aim, most = (_beyond(wall, nm(end), low) for end in ends)
    boxes = [Box(-nm(end), low, nm(end), 0) for end in ends]
    stock = box(-FAR, low, FAR, 0) - disc(low, 0, wall)
    return Feature(
        kind="bore-keyseat",
        words="keyseat in a bore",
        request=request,
        outline=Outline(stock=stock, least=least, aim=aim, most=most,
                        rooms=(Room(_ROOM, boxes[0], boxes[1], boxes[2], frozenset({Opening.TOP})),)),
        dimensions=(Dimension("keyseat width", "width", width, ()), Dimension("keyseat depth", "depth", depth, ())),
        calls_for={_ROOM: CallsFor(("broach", "slotting-tool"), face=(width.lo, width.hi))},
        down=BoreKeyseat(bore, width, depth, hub.nominal, under),
        one_side=True,
        number=request.count,
        stands="the bore upright under the spindle, its keyseat away from you",
        exact=frozenset({"bore", "hub"}),
        measures=(("floor to the far wall of the bore", bore.mid / 2 + ends[1]),
                  ("crown of the bore over the edges", crown(bore.mid, width.mid))),
    )


def _beyond(wall: int, end: int, low: int) -> Region:
    return disc(low, 0, end) - disc(low, 0, wall)


def _check(bore: Size, width: Size, depth: Size) -> None:
    if width.hi >= bore.lo / 2:
        raise refuse(f"a keyseat {width.text} wide is half of the bore or more", width.text,
                     "a narrower key, about a quarter of the bore")
    if depth.lo <= crown(bore.mid, width.mid):
        raise refuse(f"a keyseat {depth.text} deep at its side doesn't come out of the bore's round", depth.text,
                     "a depth at its side, about half of the key")
    if depth.hi >= bore.lo / 2:
        raise refuse(f"a keyseat {depth.text} deep is half of the bore or more", depth.text,
                     "a depth at its side, about half of the key")


def for_shaft(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """The bore for a shaft, and the seat in it of the key that the standard gives. Raises `CribError` for a shaft
    without one."""
    text, shaft = spoken.text, read(spoken.text, spoken.units).mm
    given = {"bore": Size(shaft, shaft, shaft, text)}
    if {"width", "depth"} <= spoken.texts.keys():
        return given, ""
    if "mm" in text.lower() or spoken.units == "mm":
        key, (least, most), deep = parallel_hub(shaft)
        low, high = (mm + crown(shaft, key) for mm in deep)
        return given | {"width": Size(key, least, most, f"{key} mm"),
                        "depth": Size(low, low, high, in_words(low, "mm"))}, f"{ISO_SOURCE}, for a shaft of {text}"
    form = spoken.texts.get(_FORM, _FORMS[0]).strip().lower()
    if form not in _FORMS:
        raise CribError(_FORM, f"form {form!r} of a key is not known", form, "one of " + ", ".join(_FORMS))
    side, deep_mm = square_key(shaft), key_height(shaft, form == _FORMS[1]) / 2 + OVER_MM
    return given | {
        "width": Size(side, side, side + WIDE_MM, in_words(side, "in")),
        "depth": Size(deep_mm, deep_mm, deep_mm + DEEP_MM, in_words(deep_mm, "in")),
    }, f"{SOURCE}, {form} key for a shaft of {text}"


KIND = FeatureKind(
    name="bore-keyseat",
    words="a keyseat in a bore",
    sizes=(
        SizeSpec("bore", "the bore that it is in", "exact"),
        SizeSpec("width", "width of the key"),
        SizeSpec("depth", "at the side of the seat, about half of the key"),
        SizeSpec("hub", "how long the bore is", "exact"),
    ),
    draw=draw,
    standards=(Standard("shaft", "the shaft that goes in, and the key that ANSI B17.1 gives for it; 25mm: DIN 6885",
                        for_shaft),),
    options=(OptionSpec(_FORM, "of an inch key: square, or rectangular, which is lower", "|".join(_FORMS)),),
    brought=("bring the spindle over the bore: an indicator in the spindle round its wall, table and cross moved until "
             "it stands still; set table 0 and cross 0",
             "the tool in its collet with its point away from you: a square or an indicator along the flat of the "
             "point, moved with the table, tells that it doesn't stand askew; lock the spindle, its power off"),
    example={"bore": "1/2", "width": "1/8+.002-0", "depth": ".0675+.010-0", "hub": "1/2"},
    mates="width",
    speech=Speech(
        names=("keyway in a bore", "keyway in bore", "keyseat in bore", "keyseat in the bore", "keyway in the bore",
               "internal keyway", "internal keyseat",
               "hub keyway", "hub keyseat", "bore keyway", "keyway in a hub", "keyway in the hub"),
        words={"hub": ("hub length", "hub long", "hub thick", "long", "through"),
               "bore": ("bore diameter", "bore dia")},
        order=("bore", "width", "depth", "hub"),
        above={"bore": ("width", None)},
    ),
)

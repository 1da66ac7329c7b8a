"""Flats round a bar: a square or a hexagon at its end, cut one at a time and turned by index. x counts from the bar's
middle, z from its end."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, OptionSpec, SizeSpec, refuse
from crib.features.counts import number_in
from crib.features.down import Flats
from crib.features.request import Request
from crib.features.shapes import floor, floor_corners, walls
from crib.features.speech import Speech
from crib.findings.message import InWords, said
from crib.geometry.outline import Box, Face, Opening, Outline, Room
from crib.geometry.region import FAR, box
from crib.handbook import indexing
from crib.units import Size, nm

MOST = 12
"""So many flats at the most: more is a round for a lathe. Common practice."""

_OVER = 1.25
"""What a bar with two flats is taken to be, of the size across them, where it isn't given [-]. From memory."""

_NAMES = {4: "square", 6: "hexagon"}


def number_of(request: Request) -> int:
    """How many flats. Raises `CribError` for no such number."""
    text = request.said.get("number", "").strip().lower()
    text = {name: str(number) for number, name in _NAMES.items()}.get(text, {"hex": "6"}.get(text, text))
    return number_in(text, "flats", 2, MOST, f"2 to {MOST}: --number 4 for a square, 6 for a hexagon")


def bar_of(request: Request, across: Size, number: int) -> tuple[float, float]:
    """The bar, as given or as sharp corners want it, and what they want [mm]. Raises `CribError` for a bar that is no
    larger than the flats."""
    needs = indexing.stock_for(across.mid, number)
    stock = request.sizes.get("stock")
    bar = stock.nominal if stock else needs if number > 2 else across.mid * _OVER
    if bar <= across.hi:
        raise refuse(said("a bar of {bar} is no larger than {across} across its flats", bar=InWords(bar),
                          across=across.text), said("{bar}", bar=InWords(bar)),
                     said("a bar of {needs} or more; sharp corners want that much", needs=InWords(round(needs, 4))))
    return bar, needs


def _outline(request: Request, across: Size, length: Size, bar: float) -> Outline:
    edge, half = nm(bar / 2), {which: nm(getattr(across, which) / 2) for which in ("lo", "mid", "hi")}
    least, aim, most = (Box(half[inner], -nm(getattr(length, deep)), edge, 0)
                        for inner, deep in (("hi", "lo"), ("mid", "mid"), ("lo", "hi")))
    fillets, waivers = floor_corners(least, request.floor_radius, (-1,))
    return Outline(
        stock=box(-edge, -FAR, edge, 0),
        least=least.region - fillets,
        aim=aim.region,
        most=most.region,
        rooms=(Room("flat", least, aim, most, frozenset({Opening.TOP, Opening.RIGHT})),),
        faces=(Face("flat wall", True, -1, aim.left, least.left, most.left, least.low, 0),
               floor("shoulder floor", length, least.left, edge)),
        waivers=waivers,
        obstacles=walls(request),
    )


def draw(request: Request) -> Feature:
    """One of the flats, in the section through the bar's middle: from the bar's side in to half the size across, from
    its end down to the shoulder."""
    across, length, number = request.size("across"), request.size("length"), number_of(request)
    bar, needs = bar_of(request, across, number)
    half = Size(across.mid / 2, across.lo / 2, across.hi / 2, across.text, across.given)
    taken = "the bar, {bar}: the one that leaves sharp corners" if number > 2 else "the bar, {bar}: none was given"
    return Feature(
        kind="flats",
        words=_NAMES.get(number, f"{number} flats"),
        request=request,
        outline=_outline(request, across, length, bar),
        dimensions=(Dimension("flat from the bar's middle", "width", half, ("flat wall",), ("flat",), True,
                              across="" if number % 2 else "across the flats"),
                    Dimension("length of the flats", "depth", length, ("shoulder floor",), ("flat",))),
        calls_for={"flat": CallsFor(("end-mill",))},
        zeros=("the middle of the bar", "the end of the bar"),
        measures=(("bar that leaves sharp corners", needs), ("let in from the bar's side", (bar - across.mid) / 2),
                  ("width of each flat", indexing.flat_width(bar, across.mid, number)),
                  ("across the corners", min(bar, needs) if number > 2 else bar)),
        assumed=() if "stock" in request.sizes else (said(taken, bar=InWords(round(bar, 4))),),
        reckoned={"stock_needed_mm": needs, "infeed_mm": indexing.infeed(bar, across.mid)},
        number=number * request.count,
        flats=Flats(number, across, bar, needs, indexing.order_of(number)),
        feed_mm=indexing.flat_width(bar, across.mid, 2),
    )


KIND = FeatureKind(
    name="flats",
    words="flats round a bar",
    sizes=(SizeSpec("across", "across two opposite flats; of an odd number, twice from the middle"),
           SizeSpec("length", "along the bar, from its end to the shoulder", "loose"),
           SizeSpec("stock", "the round bar's diameter; without it, what leaves sharp corners", "exact", needed=False)),
    draw=draw,
    options=(OptionSpec("number", "how many: 4 or square, 6 or hex", "N", needed=True),),
    set_ups=("upright", "on its side"),
    lies={"upright": "the bar on end, its axis upright, the flat at its back; the mill cuts with its side",
          "on its side": "the bar level, its end at the back, away from you, the flat on top; the mill cuts with its "
                         "end"},
    middle_of={"upright": "bar"},
    cautions=("a bar that turns in its hold takes the cutter with it: tight, and against a stop",),
    example={"across": "1/2+0-.005", "number": "6", "length": "3/8", "stock": "5/8"},
    speech=Speech(
        names=("flats", "hex flats", "square flats", "hexagon flats", "hex", "hexagon", "square"),
        words={"across": ("across flats", "af", "across the flats", "apart"),
               "stock": ("bar", "round bar", "bar stock", "diameter bar", "round", "rd", "rod", "shaft", "spindle",
                         "pin")},
        order=("across", "length"),
        tells={"hex": ("number", "6"), "hexagon": ("number", "6"), "square": ("number", "4")},
        counts="number",
        common=("hex", "hexagon", "square"),
    ),
)

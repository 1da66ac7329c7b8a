"""A seat for a Woodruff key: a disc goes straight into the side of a shaft that lies along the feed. x counts from the
crown, z from the middle of the shaft; the depth counts at the side of the seat, as the standards give it."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, SizeSpec, Standard, refuse
from crib.features.request import Request, Spoken
from crib.features.shapes import bar, walls
from crib.features.speech import Speech
from crib.findings.errors import CribError
from crib.geometry.layers import Ends, Layer, Layers, air_beside
from crib.geometry.outline import Box, Face, Opening, Outline, Room
from crib.geometry.region import FAR, Region
from crib.geometry.rounded_box import RoundedBox
from crib.handbook.keys import crown
from crib.handbook.sizes import read_size
from crib.handbook.woodruff import FOR_SHAFTS, key_for_shaft, metric_names, numbers, seat
from crib.light.records import replace
from crib.units import Size, in_words, nm

SMALLER_MM = 0.002 * 25.4
"""How much under the key's diameter its seat may be [mm]: the key is filed at its ends. Common practice."""


def draw(request: Request) -> Feature:
    """The room that the disc's face clears, as deep as its infeed; seen from above a round that comes in from the
    side."""
    if "shaft" not in request.sizes:
        raise CribError("size", "a seat for a Woodruff key needs its shaft (the shaft's diameter)", "", "give --shaft")
    width, diameter, depth, shaft = (request.size(key) for key in ("width", "diameter", "depth", "shaft"))
    _check(width, diameter, depth, shaft)
    over = crown(shaft.mid, width.nominal)
    infeed = Size(depth.nominal + over, depth.lo + over, depth.hi + over, depth.text, depth.given)
    radius = nm(shaft.mid / 2)
    least, aim, most = (Box(-nm(deep), -nm(wide / 2), 0, nm(wide / 2)) for wide, deep in (
        (width.lo, infeed.lo), (width.mid, infeed.mid), (width.hi, infeed.hi)))
    stock = bar(radius, -radius, 0)
    room = Room("seat", least, aim, most, frozenset({Opening.RIGHT}), (nm(width.lo), nm(width.hi)),
                across=(nm(diameter.lo), nm(diameter.hi)))
    return Feature(
        kind="woodruff",
        words="Woodruff keyseat",
        request=request,
        outline=Outline(
            stock=stock, least=least.region & stock, aim=aim.region, most=most.region, rooms=(room,),
            faces=(Face("seat floor", True, -1, aim.left, least.left, most.left, least.low, least.high),
                   Face("seat top", False, 1, aim.high, least.high, most.high, least.left, 0),
                   Face("seat bottom", False, -1, aim.low, least.low, most.low, least.left, 0)),
            obstacles=walls(request)),
        dimensions=(Dimension("seat width", "height", width, ("seat top", "seat bottom")),
                    Dimension("seat infeed from the crown", "width", infeed, ("seat floor",), by=_OVER_THE_KEY,
                              instead=("over shaft and key, less the key", shaft.mid - infeed.mid))),
        calls_for={"seat": CallsFor(("keyseat-cutter",), (diameter.lo, diameter.hi), (width.lo, width.hi))},
        layers=_layers(stock, diameter, infeed, (least, most)),
        zeros=("the back of the shaft", "the middle of the shaft's height"),
        level=(shaft.mid / 2, "below the top of the shaft"),
        measures=tuple(_measures(request, over, infeed)),
    )


def _layers(stock: Region, diameter: Size, infeed: Size, boxes: tuple[Box, Box]) -> Layers:
    """From above: a round as wide as the key at the least, and one that comes in from the side at the most."""
    least, most = boxes
    small, large = nm(diameter.lo / 2), nm(diameter.hi / 2)
    inner = RoundedBox(0, -nm(infeed.lo) + small, 0, -nm(infeed.lo) + small, small)
    outer = RoundedBox(0, -nm(infeed.hi) + large, 0, FAR, large)
    _, low, _, top = stock.bounds()
    before = air_beside(stock, low, top)
    return Layers(
        least=(Layer(least.low, least.high, inner),),
        most=(Layer(most.low, most.high, outer), *before),
        before=before,
        ends={"seat": Ends(0, 0, 2 * small, 2 * large)},
        top=top,
    )


def _measures(request: Request, over: float, infeed: Size) -> list[tuple[str, float]]:
    """What the bench reads: the crown, the infeed, the size over shaft and key."""
    found = [("crown over the edges", over), ("infeed from the crown", infeed.lo)]
    if high := request.sizes.get("key_height"):
        shaft = request.size("shaft").mid
        found += [("over shaft and key, the least", shaft + high.lo - infeed.lo),
                  ("over shaft and key, the most", shaft + high.hi - infeed.lo)]
    return found


def _check(width: Size, diameter: Size, depth: Size, shaft: Size) -> None:
    if width.hi >= shaft.lo:
        raise refuse(f"a seat {width.text} wide is as wide as the shaft", width.text, "a narrower key")
    if depth.hi + crown(shaft.mid, width.mid) >= shaft.lo / 2:
        raise refuse(f"a seat {depth.text} deep goes to the middle of the shaft", depth.text,
                     "a smaller key, or a thicker shaft")
    if depth.hi >= diameter.lo / 2:
        raise refuse(f"a seat {depth.text} deep is deeper than half of its key, {diameter.text} across", depth.text,
                     "a depth at the side of the seat, less than half the key's diameter")


def for_key(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """The seat of a key by its number. Raises `CribError`."""
    if "shaft" not in spoken.texts:
        raise CribError("size", "a seat for a Woodruff key needs its shaft (the shaft's diameter)", "", "give --shaft")
    return _seat_of(spoken.text)


def for_shaft(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """The shaft; where no seat was said, that of the key that goes with it. Raises `CribError`."""
    shaft = replace(read_size(spoken.text, spoken.units, "shaft", (0.0, 0.0)), given=True)
    given = {"shaft": shaft}
    if "key" in spoken.texts or {"width", "diameter", "depth"} & spoken.texts.keys():
        return given, ""
    found, source = _seat_of(key_for_shaft(shaft.mid))
    return given | found, f"{source}; the key for a shaft of {spoken.text}, {FOR_SHAFTS}"


def _seat_of(text: str) -> tuple[dict[str, Size], str]:
    found = seat(text)
    units = "mm" if "x" in found.name else "in"

    def size(limits: tuple[float, float], nominal: float, under: float = 0.0) -> Size:
        return Size(nominal, limits[0] - under, limits[1], in_words(nominal, units))

    return {
        "width": size(found.width, found.key),
        "diameter": size(found.diameter, found.diameter[0], SMALLER_MM),
        "depth": size(found.depth, found.depth[0]),
        "key_height": size(found.height, found.height[1]),
    }, f"key {found.name}: {found.source}"


_OVER_THE_KEY = "micrometer and a key"
_HELD = "in two vee blocks, a clamp over each, both out of the cutter's way, its top and its side indicated {true}"

_METRIC = "|".join(name.replace(".", "[.,]").replace("x", " ?x ?") for name in metric_names())
_NUMBERS = "|".join(sorted((number.replace("-", "[- ]") for number in numbers()), key=len, reverse=True))
_KEYS = (rf"{_NUMBERS}|(?!1[0-2]\d\d|4[13]\d\d|86\d\d)\d{{3,4}}(?:-1/2)?|"
         rf"(?:din )?(?:{_METRIC})(?![.,]\d)(?: ?mm)?|(?:din )?\d+(?:[.,]\d+)?x\d+(?:[.,]\d+)?")
"""How a key is named; a steel's number is none, unless there is such a key."""


KIND = FeatureKind(
    name="woodruff",
    words="a seat for a Woodruff key",
    sizes=(
        SizeSpec("width", "width of the key"),
        SizeSpec("diameter", "diameter of the key"),
        SizeSpec("depth", "at the side of the seat"),
    ),
    draw=draw,
    standards=(Standard("shaft", "the shaft's diameter, and without --key the key that goes with it", for_shaft),
               Standard("key", "the key's number: 606, 204; 5x6.5 for ISO 3912, DIN 5x6.5 for DIN 6888", for_key)),
    lies={"upright": "shaft in vee blocks along the feed, the seat at its back, spindle upright"},
    held={"upright": _HELD},
    cautions=("a round shaft rolls and slides: vee blocks, a clamp over each, a stop at its end",),
    example={"width": "3/16+.0005-.0012", "diameter": "3/4+.018-.002", "depth": ".2143+.005-0", "shaft": "1"},
    speech=Speech(
        names=("woodruff key", "woodruff keyseat", "woodruff keyway", "woodruff seat", "woodruff slot",
               "woodruff key seat", "woodruff key slot", "woodruff keyslot", "half moon key", "half moon keyway",
               "half moon keyseat"),
        words={"key": ("number", "key number", "no"),
               "shaft": ("shafts", "diameter shaft", "dia shaft", "bar", "round bar", "shaft diameter", "spindle",
                         "axle")},
        order=("width", "diameter"),
        after={"key": ("shaft",)},
        forms={"key": _KEYS},
    ),
)

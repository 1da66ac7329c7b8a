"""A spotface: a round seat for a screw's head or a nut, square to the hole, just deep enough to clean up."""

from __future__ import annotations

from collections.abc import Iterator

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, SizeSpec, Standard, refuse
from crib.features.down import OVER_THE_HOLE, Counterbore
from crib.features.for_screws import FIT, FITTED, SCREW, SEAT_MM, spotface_for
from crib.features.request import Request
from crib.features.rounds import check_depth, hole_there, metal, rod, room
from crib.features.speech import Speech
from crib.findings.message import InWords, Text, said
from crib.geometry.outline import Outline
from crib.geometry.region import FAR, Region
from crib.light.records import replace
from crib.units import Size

DEPTH_MM = 0.0625 * 25.4
"""How deep a rough face is taken where nothing is said: from its high spot until it is clean all round [mm]. Common
practice."""

def seat_of(request: Request) -> Size:
    """How wide the seat is: by its limits, or where none were typed at the least as wide as asked."""
    diameter = request.size("diameter")
    if diameter.given:
        return diameter
    least = diameter.nominal
    return replace(diameter, lo=least, hi=least + SEAT_MM, aim=least)


def draw(request: Request) -> Feature:
    """A shallow round, about the hole where it is there; without one, from solid."""
    diameter, hole = seat_of(request), hole_there(request)
    deep = request.sizes.get("depth") or Size(DEPTH_MM, DEPTH_MM / 2, 1.5 * DEPTH_MM, "clean up", False)
    if hole and hole.hi >= diameter.lo:
        raise refuse(f"the spotface, {diameter.text}, is no wider than its hole, {hole.text}", diameter.text,
                     f"a diameter above {hole.text}, tolerances included")
    check_depth(request, deep, diameter.mid)
    through = rod(hole.mid, FAR / 1e6) if hole else Region()
    outline = Outline(
        stock=metal(request, deep.mid) - through,
        least=rod(diameter.lo, deep.lo) - through,
        aim=rod(diameter.mid, deep.mid),
        most=rod(diameter.hi, deep.hi) | through,
        rooms=(room("spotface", diameter, deep),),
    )
    return Feature(
        kind="spotface",
        words="spotface",
        request=replace(request, sizes={**request.sizes, "diameter": diameter}),
        outline=outline,
        dimensions=(Dimension("spotface diameter", "width", diameter, ()), Dimension("depth", "depth", deep, ())),
        down=Counterbore(diameter, deep.mid, hole, "spotface"),
        number=request.count,
        stands="upright",
        exact=frozenset({"hole", "diameter"}),
        assumed=tuple(_assumed(request)),
        calls_for={"spotface": CallsFor(("counterbore", "end-mill"), (diameter.lo, diameter.hi))},
    )


def _assumed(request: Request) -> Iterator[Text]:
    if "depth" not in request.sizes:
        yield "taken down from its high spot only till it is clean all round"
    if not (wide := request.size("diameter")).given:
        yield said("a seat {most} across does as well: nothing stands so near", most=InWords(wide.nominal + SEAT_MM))


KIND = FeatureKind(
    name="spotface",
    words="a spotface",
    sizes=(SizeSpec("diameter", "diameter of the seat", "loose"),
           SizeSpec("depth", "from the surface to the seat; without it till it is clean", "general", False),
           SizeSpec("hole", "diameter of the hole that is there", "general", False)),
    draw=draw,
    standards=(Standard("screw", "for a hexagon head: 1/4, M6", spotface_for),),
    options=(FIT,),
    brought=(f"{OVER_THE_HOLE}; where none is there, to its place as drawn", "lock table and cross"),
    example={"diameter": "5/8", "hole": "17/64"},
    speech=Speech(
        above={"diameter": ("hole", None)},
        names=("spot face", "spot facing", "spotfacing"),
        words={
            "hole": ("pilot hole", "through hole", "clearance hole", "drilled hole", "pilot"),
            "screw": ("screws", "bolt", "hex bolt", "hexagon screw", "hex screw", "hex head screw", "hex head bolt",
                      "hex head", "hexagon head"),
        },
        order=("diameter", "hole"),
        forms={"screw": SCREW},
        tells=FITTED,
    ),
)

"""A seat for a parallel key in a shaft, its axis along the feed; depths count from the crown."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, Request, SizeSpec, Spoken, Standard, refuse
from crib.features.shapes import centred_room, floor, floor_corners, metal, upright_pair, walls
from crib.geometry.outline import Outline
from crib.handbook.keys import SOURCE, crown, seat_depth, square_key
from crib.units import Size, in_words, nm, read

WIDE_MM, DEEP_MM = 0.002 * 25.4, 0.015 * 25.4
"""A seat may be so much wider than its key (common practice), and so much deeper than half of it (ANSI B17.1, from
memory)."""


def draw(request: Request) -> Feature:
    """A slot about the shaft's centre line, reckoned from the crown as if the shaft were flat there."""
    width, depth, shaft = request.size("width"), request.size("depth"), request.sizes.get("diameter")
    if shaft:
        _check(width, depth, shaft)
    room = centred_room("keyseat", width, (-nm(depth.lo), -nm(depth.mid), -nm(depth.hi)), (0, 0, 0), frozenset({"top"}))
    fillets, waivers = floor_corners(room.least, request.floor_radius, (1, -1))
    return Feature(
        kind="keyseat",
        words="keyseat",
        request=request,
        outline=Outline(
            stock=metal(request, depth.hi),
            least=room.least.region - fillets,
            aim=room.aim.region,
            most=room.most.region,
            rooms=(room,),
            faces=(*upright_pair("keyseat", width, room.least.low, 0),
                   floor("floor", depth, room.least.left, room.least.right)),
            waivers=waivers,
            obstacles=walls(request),
        ),
        dimensions=(
            Dimension("keyseat width", "width", width, ("keyseat back wall", "keyseat front wall")),
            Dimension("keyseat depth", "depth", depth, ("floor",)),
        ),
        calls_for={"keyseat": CallsFor(("end-mill",), (width.lo, width.hi))},
        zeros=("the shaft's centre line", "the crown of the shaft"),
        measures=(("floor to the far side of the shaft", shaft.mid - depth.mid),) if shaft else (),
    )


def _check(width: Size, depth: Size, shaft: Size) -> None:
    if width.hi >= shaft.lo:
        raise refuse(f"a keyseat {width.text} wide is as wide as the shaft", width.text, "a narrower key")
    if depth.hi >= shaft.lo / 2:
        raise refuse(f"a keyseat {depth.text} deep goes to the middle of the shaft", depth.text,
                     "a depth from the crown to the floor, less than half the shaft")
    if depth.lo <= crown(shaft.mid, width.mid):
        raise refuse(f"a keyseat {depth.text} deep from the crown has no walls", depth.text, "a deeper one")


def for_shaft(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """The seat of the square key that the standard gives for a shaft. Raises `CribError` for a shaft without one."""
    text = spoken.text
    shaft = read(text, spoken.units).mm
    key = square_key(shaft)
    deep = seat_depth(shaft, key)
    return {
        "width": Size(key, key, key + WIDE_MM, in_words(key, "in")),
        "depth": Size(deep, deep, deep + DEEP_MM, in_words(deep, "in")),
        "diameter": Size(shaft, shaft, shaft, text),
    }, f"{SOURCE}, square key for a shaft of {text}"


_HELD = "in two vee blocks, a clamp over each, its top and its side indicated {true}"

KIND = FeatureKind(
    name="keyseat",
    words="a keyseat in a shaft",
    sizes=(
        SizeSpec("width", "width of the key"),
        SizeSpec("depth", "from the crown of the shaft to the floor"),
        SizeSpec("diameter", "the shaft's, where width and depth are typed", "exact", False),
    ),
    draw=draw,
    ends=("open", "one", "closed"),
    standards=(Standard("shaft", "the square key that ANSI B17.1 gives for a shaft: 3/4", for_shaft),),
    set_ups=("upright", "on its side"),
    lies={"upright": "shaft in vee blocks along the feed, spindle square to it",
          "on its side": "shaft in vee blocks along the feed, the keyseat's side of it at the back, away from you"},
    held={"upright": _HELD, "on its side": _HELD},
    middle_of={"upright": "bar"},
    cautions=("a round shaft rolls and slides: vee blocks, a clamp over each, a stop at its end",),
    example={"width": "1/4+.002-0", "depth": ".141+.015-0", "diameter": "1"},
)

"""A seat for a parallel key in a shaft, its axis along the feed; z counts from the crown, the depth at its side."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, OptionSpec, SizeSpec, Standard, refuse
from crib.features.request import Request, Spoken
from crib.features.shapes import bar, centred_room, floor, floor_corners, metal, upright_pair, walls
from crib.features.speech import Speech
from crib.findings.errors import CribError
from crib.geometry.outline import Opening, Outline
from crib.handbook.keys import ISO_SOURCE, SOURCE, crown, key_height, parallel_key, square_key
from crib.light.records import replace
from crib.units import Size, in_words, nm, read

WIDE_MM, DEEP_MM = 0.002 * 25.4, 0.015 * 25.4
"""A seat may be so much wider than its key (common practice), and so much deeper than half of it (ANSI B17.1, from
memory)."""

_TO_THE_FAR_SIDE = "floor to the far side of the shaft"
_OVER_A_KEY = "micrometer and a key"
"""How the depth of a seat in a shaft is told: nothing rests square on its crown, and an anvil is wider than most seats.
ANSI B17.1 gives that size too; laying a key in is common practice, no source."""

_FORM, _FORMS = "form", ("square", "rectangular")
_RUN_OUT = "run_out"


def draw(request: Request) -> Feature:
    """A slot about the shaft's centre line, from the crown down; its depth counts at its side, as the standards give
    it. Where the shaft isn't known it is taken to be flat there."""
    width, depth, shaft = request.size("width"), request.size("depth"), request.sizes.get("shaft")
    if shaft:
        _check(width, depth, shaft)
    over = crown(shaft.mid, width.mid) if shaft else 0.0
    deep = replace(depth, nominal=depth.nominal + over, lo=depth.lo + over, hi=depth.hi + over)
    room = centred_room("keyseat", width, (-nm(deep.lo), -nm(deep.mid), -nm(deep.hi)), (0, 0, 0),
                        frozenset({Opening.TOP}))
    fillets, waivers = floor_corners(room.least, request.floor_radius, (1, -1))
    stock = bar(nm(shaft.mid / 2), 0, -nm(shaft.mid / 2)) if shaft else metal(request, deep.hi)
    return Feature(
        kind="keyseat",
        words="keyseat",
        request=request,
        outline=Outline(
            stock=stock,
            least=(room.least.region - fillets) & stock,
            aim=room.aim.region,
            most=room.most.region,
            rooms=(room,),
            faces=(*upright_pair("keyseat", width, room.least.low, 0),
                   floor("floor", deep, room.least.left, room.least.right)),
            waivers=waivers,
            obstacles=walls(request),
        ),
        dimensions=(
            Dimension("keyseat width", "width", width, ("keyseat back wall", "keyseat front wall")),
            _how_deep(deep, shaft),
        ),
        calls_for={"keyseat": CallsFor(("end-mill",), (width.lo, width.hi))},
        kindest={"end-mill": {"diameter_mm": width.mid}},
        zeros=("the shaft's centre line", "the crown of the shaft"),
        level=(shaft.mid / 2, "below the top of the shaft") if shaft else None,
        measures=(("crown over the edges", over), (_TO_THE_FAR_SIDE, shaft.mid - deep.mid))
        if shaft else (),
        assumed=() if shaft else ("--shaft wasn't given: the depth counts from where it is set, as on a flat",),
    )


def _how_deep(deep: Size, shaft: Size | None) -> Dimension:
    """The depth from the crown; of a known shaft it is told by what is left under the floor."""
    name, sort, faces = "keyseat depth from the crown", "depth", ("floor",)
    if shaft is None:
        return Dimension(name, sort, deep, faces)
    return Dimension(name, sort, deep, faces, by=_OVER_A_KEY,
                     instead=(f"{_TO_THE_FAR_SIDE}, over a key less the key", shaft.mid - deep.mid))


def _check(width: Size, depth: Size, shaft: Size) -> None:
    if width.hi >= shaft.lo:
        raise refuse(f"a keyseat {width.text} wide is as wide as the shaft", width.text, "a narrower key")
    if depth.hi + crown(shaft.mid, width.mid) >= shaft.lo / 2:
        raise refuse(f"a keyseat {depth.text} deep goes to the middle of the shaft", depth.text,
                     "a depth at its side, about half of the key")


def for_shaft(spoken: Spoken) -> tuple[dict[str, Size], str]:
    """The seat of the key that the standard gives for a shaft; the shaft alone where the seat is typed. Raises
    `CribError` for a shaft without one."""
    text, shaft = spoken.text, read(spoken.text, spoken.units).mm
    given = {"shaft": Size(shaft, shaft, shaft, text)}
    if {"width", "depth"} <= spoken.texts.keys():
        return given, ""
    if "mm" in text.lower() or spoken.units == "mm":
        key, (least, most), deep = parallel_key(shaft)
        low, high = (mm - crown(shaft, key) for mm in deep)
        return given | {"width": Size(key, least, most, f"{key} mm"),
                        "depth": Size(low, low, high, in_words(low, "mm"))}, f"{ISO_SOURCE}, for a shaft of {text}"
    form = spoken.texts.get(_FORM, _FORMS[0]).strip().lower()
    if form not in _FORMS:
        raise CribError(_FORM, f"form {form!r} of a key is not known", form, "one of " + ", ".join(_FORMS))
    side, deep_mm = square_key(shaft), key_height(shaft, form == _FORMS[1]) / 2
    return given | {
        "width": Size(side, side, side + WIDE_MM, in_words(side, "in")),
        "depth": Size(deep_mm, deep_mm, deep_mm + DEEP_MM, in_words(deep_mm, "in")),
    }, f"{SOURCE}, {form} key for a shaft of {text}"


_HELD = "in two vee blocks, a clamp over each, both out of the cutter's way, its top and its side indicated {true}"

KIND = FeatureKind(
    name="keyseat",
    words="a keyseat in a shaft",
    sizes=(
        SizeSpec("width", "width of the key"),
        SizeSpec("depth", "at the side of the seat, about half of the key"),
    ),
    draw=draw,
    ends=("open", "one", "closed"),
    standards=(Standard("shaft", "the shaft, and the key that ANSI B17.1 gives for it; 25mm: DIN 6885", for_shaft),),
    options=(OptionSpec(_FORM, "of an inch key: square, or rectangular, which is lower", "|".join(_FORMS)),
             OptionSpec(_RUN_OUT, "its closed end may run out with the radius of a side cutter"),),
    set_ups=("upright", "on its side"),
    runs_out=_RUN_OUT,
    lies={"upright": "shaft in vee blocks along the feed, spindle square to it",
          "on its side": "shaft in vee blocks along the feed, the keyseat's side of it at the back, away from you"},
    held={"upright": _HELD, "on its side": _HELD},
    middle_of={"upright": "bar"},
    cautions=("a round shaft rolls and slides: vee blocks, a clamp over each, a stop at its end",),
    example={"width": "1/4+.002-0", "depth": "1/8+.015-0", "shaft": "1"},
    mates="width",
    speech=Speech(
        names=("keyway", "key seat", "key way", "key slot", "keyslot", "square key", "parallel key"),
        common=("square key", "parallel key"),
        words={"shaft": ("shafts", "diameter shaft", "dia shaft", "bar", "round bar", "shaft diameter", "spindle",
                         "axle")},
        order=("width", "depth", "length"),
        together={"key": ("width", "", "length"), "square key": ("width",), "sq key": ("width",)},
        doubted={"depth": ("width", 0.7, "the height of its key")},
    ),
)

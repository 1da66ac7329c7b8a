"""A groove in a face, all round an axis: for an O-ring, a lip, a spring. Depth counts from the face."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, OptionSpec, SizeSpec, refuse
from crib.features.down import RingGroove
from crib.features.internal_groove import PLACED_MM
from crib.features.request import Request
from crib.features.rounds import check_depth, metal, ring
from crib.features.speech import Speech
from crib.findings.errors import CribError
from crib.findings.message import InWords, said
from crib.geometry.outline import Box, Opening, Outline, Room
from crib.light.records import replace
from crib.units import Size, nm


def draw(request: Request) -> Feature:
    """A ring let into the face, its walls upright, square at its floor but for the radius that may be there."""
    width = _width(request)
    asked = RingGroove(_outside(request, width), width, request.size("depth"))
    inside = asked.outside.lo - 2 * asked.width.hi
    if inside <= 0:
        raise refuse(said("a groove {width} wide in an outside of {outside} leaves nothing in the middle",
                          width=asked.width.text, outside=InWords(asked.outside.mid)), asked.width.text,
                     said("a width under {most}, tolerances included; else it is a counterbore or a flat-bottomed hole",
                          most=InWords(asked.outside.lo / 2)))
    if 2 * request.floor_radius > asked.width.lo:
        raise refuse("the floor radius is more than half of the groove's width", asked.width.text,
                     f"at most half of {asked.width.text}")
    check_depth(request, asked.depth, asked.outside.mid)
    room, radius = _room(asked), request.floor_radius
    least = [one / 5e5 for one in (room.least.left, room.least.right)]
    outline = Outline(
        stock=metal(request, asked.depth.hi),
        least=(ring(-asked.depth.lo + radius, 0.0, *least)
               | ring(-asked.depth.lo, 0.0, least[0] + 2 * radius, least[1] - 2 * radius)),
        aim=ring(-asked.depth.mid, 0.0, room.aim.left / 5e5, room.aim.right / 5e5),
        most=ring(-asked.depth.hi, 0.0, room.most.left / 5e5, room.most.right / 5e5),
        rooms=(room,),
    )
    return Feature(
        kind="ring-groove",
        words="ring groove",
        request=request,
        outline=outline,
        dimensions=(Dimension("across the outside", "width", asked.outside, ()),
                    Dimension("groove width", "width", asked.width, ()),
                    Dimension("depth", "depth", asked.depth, ())),
        down=asked,
        number=request.count,
        stands="upright",
        measures=(("across the inside", asked.outside.mid - 2 * asked.width.mid),),
        calls_for={room.name: CallsFor(("end-mill", "trepanning-tool"), (asked.width.lo, asked.width.hi))},
    )


def _width(request: Request) -> Size:
    """From wall to wall: as given, or half of what the outside is more than the inside; its limits are what theirs
    leave. Raises `CribError` where it is given in no way, or in both."""
    sizes = request.sizes
    both = "outside" in sizes and "inside" in sizes
    if "width" in sizes and not both:
        return request.size("width")
    if not both:
        raise CribError("size", "a ring groove needs its width, from wall to wall", "",
                        "give --width, or --outside and --inside")
    outside, inside = request.size("outside"), request.size("inside")
    both_said = " and ".join(size.text for size in (outside, inside))
    if "width" in sizes:
        raise CribError("size", "a ring groove has its outside and its inside given, and its width", both_said,
                        "two of the three")
    if inside.hi >= outside.lo:
        raise CribError("size", "the inside of a ring groove is not smaller than its outside", both_said,
                        f"an inside under {outside.text}, tolerances included")
    return Size((outside.nominal - inside.nominal) / 2, (outside.lo - inside.hi) / 2, (outside.hi - inside.lo) / 2,
                both_said, outside.given or inside.given)


def _outside(request: Request, width: Size) -> Size:
    """Across the outside, as given or from the inside and the width. Raises `CribError` where neither is given."""
    if "outside" in request.sizes:
        return request.size("outside")
    if "inside" not in request.sizes:
        raise CribError("size", "a ring groove needs the size that goes across it", "",
                        "--outside or --inside, and the width")
    inside, more = request.size("inside"), 2 * width.mid
    return replace(inside, nominal=inside.nominal + more, lo=inside.lo + more, hi=inside.hi + more,
                   aim=None if inside.aim is None else inside.aim + more)


def _room(asked: RingGroove) -> Room:
    """The groove to the right of the axis, open at the top. Its outside is placed as closely as a slide sets it, no
    closer than it must be."""
    best, usual = PLACED_MM
    slack, outer = max(best, min(asked.outside.band / 4, usual)), asked.outside.mid / 2
    least, aim, most = (Box(nm(outer - wide - by), -nm(deep), nm(outer + by), 0)
                        for by, wide, deep in ((-slack, asked.width.lo, asked.depth.lo), (0.0, asked.width.mid,
                                               asked.depth.mid), (slack, asked.width.hi, asked.depth.hi)))
    return Room("groove", least, aim, most, frozenset({Opening.TOP}))


KIND = FeatureKind(
    name="ring-groove",
    words="a groove in a face round an axis",
    sizes=(SizeSpec("outside", "diameter across its outer wall", needed=False),
           SizeSpec("inside", "diameter across its inner wall, instead of the outer one or of the width", needed=False),
           SizeSpec("width", "from wall to wall", needed=False),
           SizeSpec("depth", "from the face to its floor")),
    draw=draw,
    options=(OptionSpec("seal", "yes where a seal lies in it"),),
    one_of=("outside", "inside"),
    example={"outside": "2+.005-.005", "width": "1/4+.004-0", "depth": "3/32"},
    speech=Speech(
        names=("face groove", "groove in a face", "groove in the face", "annular groove", "circular groove",
               "ring shaped groove", "o ring groove in a face", "o ring groove", "oring groove", "face seal groove",
               "round groove in a face", "o ring gland", "oring gland", "face seal gland"),
        words={"outside": ("outside diameter", "outer diameter", "outside dia", "od"),
               "inside": ("inside diameter", "inner diameter", "inside dia", "id")},
        order=("outside", "width", "depth"),
        tells=dict.fromkeys(("o ring", "o-ring", "seal", "for an o ring", "face seal"), ("seal", "yes")),
    ),
)

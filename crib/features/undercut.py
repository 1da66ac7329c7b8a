"""An undercut: a groove into a wall, above a floor. x counts from the wall, z from the groove's lower side; with the
wall turned up it is a plain slot, and counts as one does: x from its middle, z from the wall."""

from __future__ import annotations

from collections.abc import Iterator

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, SizeSpec
from crib.features.request import Request
from crib.features.shapes import centred_room, floor, floor_corners, upright_pair
from crib.features.speech import Speech
from crib.findings.message import InWords, Text, said
from crib.geometry.outline import Box, Face, Opening, Outline, Room
from crib.geometry.region import FAR, NOTHING, Region, box
from crib.units import nm

HEIGHT_ASSUMED_MM = 6.35
"""The wall over the groove, where its height wasn't given [mm]: what holds the cutter must clear it."""


def draw(request: Request) -> Feature:
    """A rectangle from the wall in. Its lower side stands on the floor, or as far above it as was given."""
    width, depth = request.size("width"), request.size("depth")
    height, under = request.sizes.get("height"), request.sizes.get("floor")
    over = height.hi if height else HEIGHT_ASSUMED_MM
    least, aim, most = (
        Box(-nm(getattr(depth, which)), 0, 0, nm(getattr(width, which))) for which in ("lo", "mid", "hi")
    )
    room = Room("undercut", least, aim, most, frozenset({Opening.RIGHT}), (nm(width.lo), nm(width.hi)))
    floor = -nm(under.lo) if under else 0
    outline = Outline(
        stock=box(-FAR, -FAR, 0, nm(width.mid + over)) | box(-FAR, -FAR, FAR, floor),
        least=least.region,
        aim=aim.region,
        most=most.region,
        rooms=(room,),
        faces=(
            Face("undercut wall", True, -1, aim.left, least.left, most.left, 0, least.high),
            Face("undercut top", False, 1, aim.high, least.high, most.high, least.left, 0),
        ),
    )
    return Feature(
        kind="undercut",
        words="undercut",
        request=request,
        outline=outline,
        dimensions=(
            Dimension("undercut width", "height", width, ("undercut top",)),
            Dimension("undercut depth", "width", depth, ("undercut wall",)),
        ),
        calls_for={"undercut": CallsFor(("keyseat-cutter", "slitting-saw", "side-cutter"), None,
                                        (width.lo, width.hi))},
        zeros=("the wall", "the groove's lower side" if under else "the floor, level with the groove's lower side"),
        level=(width.mid + height.mid, "below the top of the wall") if height else None,
        assumed=tuple(_assumed(request)),
        lying=_lying(request),
    )


def _lying(request: Request) -> Feature:
    """The groove as a slot from above, with the wall turned up: the top of the wall on the right, and the floor, where
    there is one, standing up on the left without an end."""
    width, depth = request.size("width"), request.size("depth")
    height = request.sizes.get("height")
    over = height.mid if height else HEIGHT_ASSUMED_MM  # the edge it is found from, as its middle is told from there
    lows = (-nm(depth.lo), -nm(depth.mid), -nm(depth.hi))
    room = centred_room("undercut", width, lows, (0, 0, 0), frozenset({Opening.TOP}))
    fillets, waivers = floor_corners(room.least, request.floor_radius, (1, -1))
    outline = Outline(
        stock=box(-FAR, -FAR, nm(width.mid / 2 + over), 0),
        least=room.least.region - fillets,
        aim=room.aim.region,
        most=room.most.region,
        rooms=(room,),
        faces=(*upright_pair("undercut", width, room.least.low, 0),
               floor("floor", depth, room.least.left, room.least.right)),
        waivers=waivers,
        obstacles=_floor_beside(request),
    )
    return Feature(
        kind="undercut",
        words="undercut",
        request=request,
        outline=outline,
        dimensions=(
            Dimension("undercut width", "width", width, ("undercut back wall", "undercut front wall")),
            Dimension("undercut depth", "depth", depth, ("floor",)),
        ),
        calls_for={"undercut": CallsFor(("end-mill",), (width.lo, width.hi))},
        zeros=(_middle(request), "the wall, which lies up"),
        assumed=tuple(_assumed_lying(request)),
    )


def _floor_beside(request: Request) -> Region:
    """The floor as it stands up beside the groove once the wall lies up: as high as it comes out from the wall."""
    under, out = request.sizes.get("floor"), request.sizes.get("floor_out")
    if not under and not out:
        return NOTHING
    beside = -nm(request.size("width").mid / 2 + (under.lo if under else 0.0))
    return box(-FAR, 0, beside, nm(out.hi) if out else FAR)


def _assumed_lying(request: Request) -> Iterator[Text]:
    if "height" not in request.sizes:
        yield _assumed(request)[0]
    if "floor_out" not in request.sizes:
        yield ("the floor stands up beside it without an end, the wall turned up: --floor-out says how far it comes out"
               if "floor" in request.sizes else
               "no floor stands up beside it, the wall turned up: --floor says how far one is under the groove")


def _middle(request: Request) -> Text:
    """Where the middle of the groove is."""
    height = request.sizes.get("height")
    if not height:
        return "the middle of the groove"
    down = height.mid + request.size("width").mid / 2
    return said("the middle of the groove, {down} from the top of the wall", down=InWords(down))


def _assumed(request: Request) -> list[Text]:
    taken: list[Text] = []
    if "height" not in request.sizes:
        over = InWords(HEIGHT_ASSUMED_MM)
        taken.append(said("the wall {over} high over the groove: --height says how high it is", over=over))
    if "floor" not in request.sizes:
        taken.append("the floor level with the groove's lower side: --floor says how far under it")
    return taken


KIND = FeatureKind(
    name="undercut",
    words="an undercut, a groove into a wall",
    sizes=(
        SizeSpec("width", "width of the groove, up the wall"),
        SizeSpec("depth", "from the wall in"),
        SizeSpec("height", "height of the wall over the groove", "exact", False),
        SizeSpec("floor", "from the groove down to the floor", "exact", False),
        SizeSpec("floor_out", "how far the floor comes out from the wall", "exact", False),
    ),
    draw=draw,
    set_ups=("upright", "on its side"),
    is_a_notch=True,
    example={"width": "1/8", "depth": "1/16"},
    speech=Speech(
        names=("relief groove", "side groove", "groove in a wall", "groove into a wall", "groove in the wall"),
        words={
            "height": ("wall height", "height of the wall", "wall", "high wall", "wall over it", "high over it"),
            "floor": ("above the floor", "over the floor", "off the floor", "up from the floor"),
            "floor_out": ("floor comes out", "wide floor"),
        },
    ),
)

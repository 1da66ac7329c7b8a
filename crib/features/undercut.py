"""An undercut: a groove into a wall, above a floor. x counts from the wall, z from the groove's lower side."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, Request, SizeSpec
from crib.lengths import in_words, nm
from crib.section.outline import Box, Face, Outline, Room
from crib.section.region import FAR, box

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
    room = Room("undercut", least, aim, most, frozenset({"right"}), (nm(width.lo), nm(width.hi)))
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
    )


def _assumed(request: Request) -> list[str]:
    said = []
    if "height" not in request.sizes:
        over = in_words(HEIGHT_ASSUMED_MM, request.units)
        said.append(f"the wall {over} high over the groove: --height says how high it is")
    if "floor" not in request.sizes:
        said.append("the floor level with the groove's lower side: --floor says how far under it")
    return said


KIND = FeatureKind(
    name="undercut",
    words="an undercut, a groove into a wall",
    sizes=(
        SizeSpec("width", "width of the groove, up the wall"),
        SizeSpec("depth", "from the wall in"),
        SizeSpec("height", "height of the wall over the groove", "exact", False),
        SizeSpec("floor", "from the groove down to the floor", "exact", False),
    ),
    draw=draw,
)

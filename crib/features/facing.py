"""A face brought down to a height all over: no walls, the cutter runs off every side."""

from __future__ import annotations

from crib.features.base import CallsFor, Comes, Dimension, Feature, FeatureKind, SizeSpec
from crib.features.request import Request
from crib.features.shapes import centred, floor, walls
from crib.features.speech import Speech
from crib.geometry.outline import Opening, Outline, Room
from crib.geometry.region import FAR, box
from crib.units import nm

_REACHES = 1.1
"""How wide a cutter whose swing isn't known would best be, of the face [-]."""


def draw(request: Request) -> Feature:
    """A slab off the top of what is as wide as the face."""
    width, depth = request.size("width"), request.size("depth")
    sides, low = nm(width.hi / 2), -FAR if request.below is None else -nm(depth.hi + request.below)
    least, aim, most = (centred(2 * sides / 1e6, -nm(deep), 0) for deep in (depth.lo, depth.mid, depth.hi))
    outline = Outline(
        stock=box(-sides, low, sides, 0),
        least=least.region,
        aim=aim.region,
        most=most.region,
        rooms=(Room("face", least, aim, most, frozenset({Opening.TOP, Opening.LEFT, Opening.RIGHT})),),
        faces=(floor("face", depth, -sides, sides),),
        obstacles=walls(request),
    )
    return Feature(
        kind="facing",
        words="face",
        request=request,
        outline=outline,
        dimensions=(Dimension("taken off", "depth", depth, ("face",), ("face",), by="micrometer",
                              called=_BEFORE_AND_AFTER),),
        calls_for={"face": CallsFor(("face-mill", "fly-cutter", "end-mill"), (width.mid, 1e6))},
        kindest={"fly-cutter": {"diameter_mm": _REACHES * width.mid}},
        zeros=("the middle of the face", "the rough surface"),
    )


_BEFORE_AND_AFTER = "taken off: the thickness before it, less the one after it,"
"""The rough surface is gone where a rod would stand."""

KIND = FeatureKind(
    name="facing",
    words="a face",
    sizes=(SizeSpec("width", "across the face", "exact"),
           SizeSpec("depth", "the metal to take off, from the high spot")),
    draw=draw,
    held={"upright": "in the vise on parallels, nothing clamped over its top, its front face indicated {true}"},
    comes=Comes.FIRST,
    example={"width": "1-1/2", "depth": ".040"},
    speech=Speech(
        names=("face", "surface", "surfacing", "skim", "skim cut", "flycut", "flycutting"),
        words={"depth": ("off", "to take off", "to come off", "metal to take off", "take off", "taken off", "cut",
                         "stock removal", "stk removal",
                         "removal")},
        order=("width", "length", "depth"),
        longer=("length", "width"),
        common=("face", "surface", "skim", "flycut", "flycutting"),
    ),
)

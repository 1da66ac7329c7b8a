"""A round hole: drilled, reamed or bored."""

from __future__ import annotations

from crib.features.base import CallsFor, Dimension, Feature, FeatureKind, OptionSpec, SizeSpec, Standard
from crib.features.down import HOLE, Finish, PlainHole
from crib.features.for_screws import FITTED, fitted, hole_for
from crib.features.request import Request
from crib.features.rounds import check_depth, choice, is_through, lowest_mm, metal, rod, room
from crib.features.speech import Speech
from crib.geometry.outline import Outline

_BY = {Finish.DRILLED: "drill", Finish.REAMED: "reamer", Finish.BORED: "boring-bar"}
_POINT_SHARE, _LEAD_MM = 0.5, 2.0
"""The room below a blind hole: for a point, of its diameter, that of a 90 degree one; and for a reamer's lead [mm]."""


def draw(request: Request) -> Feature:
    """A round from the surface down; the depth counts at full diameter."""
    diameter, depth = request.size("diameter"), request.size("depth")
    finish = Finish(choice(request, "finish", tuple(Finish)))
    check_depth(request, depth, diameter.mid)
    lowest = lowest_mm(request, depth.hi, diameter.mid, _POINT_SHARE * diameter.mid + _LEAD_MM)
    depth_mid = depth.mid if not is_through(request) else depth.nominal
    one = room(HOLE, diameter, depth)
    outline = Outline(
        stock=metal(request, depth_mid),
        least=rod(diameter.lo, depth.lo),
        aim=rod(diameter.mid, depth_mid),
        most=rod(diameter.hi, max(lowest, depth.hi)),
        rooms=(one,),
    )
    return Feature(
        kind="hole",
        words=f"{finish} hole",
        request=request,
        outline=outline,
        dimensions=(Dimension("hole diameter", "width", diameter, ()), Dimension("depth", "depth", depth, ())),
        down=PlainHole(diameter, depth_mid, is_through(request), finish),
        number=request.count,
        stands="upright",
        exact=frozenset({"depth"}) if is_through(request) else frozenset(),
        calls_for={HOLE: CallsFor((_BY[finish],))},
    )


KIND = FeatureKind(
    name="hole",
    words="a hole",
    sizes=(SizeSpec("diameter", "diameter of the hole"),
           SizeSpec("depth", "from the surface at full diameter; the thickness with --through", "loose")),
    draw=draw,
    standards=(Standard("screw", "the clearance hole of a screw: #8, 1/4, M6; how it fits by --fit", hole_for),
               Standard("fit", "normal, close or loose for a screw's; else a class: H7", fitted, limits="diameter")),
    options=(OptionSpec("through", "it goes through"),
             OptionSpec("finish", "drilled, reamed or bored", "|".join(Finish))),
    example={"diameter": ".316+.005-0", "depth": "3/4"},
    mates="diameter",
    speech=Speech(
        names=("drilled hole", "reamed hole", "bored hole", "ream", "drill and ream", "clearance hole", "round hole",
               "drill hole", "bore", "plain hole"),
        common=("bore", "ream"),
        after={"screw": ("depth",)},
        by_thread="tapped-hole",
        words={
            "diameter": ("bore", "drill"),
            "depth": ("thick", "thickness", "plate", "thick plate"),
            "screw": ("screws", "bolt", "cap screw", "machine screw", "shcs", "bhcs"),
        },
        tells={**dict.fromkeys(("rmd", "ream", "reamed", "reaming"), ("finish", "reamed")),
               **dict.fromkeys(("bored", "boring", "bore a", "bore an", "bore the", "bore out"), ("finish", "bored")),
               "drilled": ("finish", "drilled"), **FITTED},
    ),
)

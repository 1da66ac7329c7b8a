"""Pieces that holes are drawn with, millimetres in, whole nanometres out."""

from __future__ import annotations

from crib.features.base import refuse
from crib.features.request import Request, is_said
from crib.findings.errors import CribError
from crib.geometry.axis_view import disc
from crib.geometry.outline import Box, Opening, Room
from crib.geometry.region import FAR, Region, box
from crib.handbook.bands import drill_least, drill_mean
from crib.handbook.points import keep_below
from crib.light.hints import TYPE_CHECKING
from crib.light.records import replace
from crib.units import Size, nm

if TYPE_CHECKING:
    pass


def hole_there(request: Request) -> Size | None:
    """The hole that is there: by its limits, or where none were typed as a drill of its size leaves it; None where none
    is."""
    hole = request.sizes.get("hole")
    if hole is None or hole.given:
        return hole
    least, mean = drill_least(hole.nominal), drill_mean(hole.nominal)
    return replace(hole, lo=hole.nominal + least, hi=hole.nominal + 2 * mean - least)


def is_through(request: Request) -> bool:
    """Whether the hole goes through: depth is then the thickness."""
    return is_said(request, "through")


def metal(request: Request, depth_mm: float) -> Region:
    """The work before: to its underside where that is known."""
    if is_through(request):
        return box(-FAR, -nm(depth_mm), FAR, 0)
    low = -FAR if request.below is None else -nm(depth_mm + request.below)
    return box(-FAR, low, FAR, 0)


def lowest_mm(request: Request, depth_mm: float, diameter_mm: float, room_mm: float) -> float:
    """How deep a point may go under a blind hole [mm]: `room_mm` beyond it, or as far as what is below allows."""
    if is_through(request):
        return FAR / 1e6
    if request.below is None:
        return depth_mm + room_mm
    return depth_mm + max(0.0, min(room_mm, request.below - keep_below(diameter_mm)))


def rod(diameter_mm: float, depth_mm: float) -> Region:
    """A round from the surface down."""
    return disc(-min(FAR, nm(depth_mm)), 0, nm(diameter_mm / 2))


def room(name: str, diameter: Size, depth: Size) -> Room:
    """The room of a hole that is open at the top."""
    least, aim, most = (
        Box(-nm(across / 2), -nm(down), nm(across / 2), 0)
        for across, down in ((diameter.lo, depth.lo), (diameter.mid, depth.mid), (diameter.hi, depth.hi))
    )
    return Room(name, least, aim, most, frozenset({Opening.TOP}))


def ring(low_mm: float, high_mm: float, inside_mm: float, outside_mm: float) -> Region:
    """What lies between two diameters from a height to another [mm]."""
    low, high = nm(low_mm), nm(high_mm)
    return disc(low, high, nm(outside_mm / 2)) - disc(low, high, nm(inside_mm / 2))


def choice(request: Request, key: str, known: tuple[str, ...]) -> str:
    """What was chosen, the first by default. Raises `CribError` for anything else."""
    said = request.said.get(key, known[0]).lower()
    if said not in known:
        raise CribError(key, f"{key} {said!r} is not known", said, "one of " + ", ".join(known))
    return said


def check_depth(request: Request, depth: Size, diameter_mm: float) -> None:
    """Raises `CribError` where a tolerance takes a hole through what is below it."""
    if request.below is not None and not is_through(request) and depth.hi - depth.mid >= request.below:
        raise refuse(f"the tolerance of the depth {depth.text} reaches through the metal below", depth.text,
                     "a smaller depth, or a smaller tolerance on it")

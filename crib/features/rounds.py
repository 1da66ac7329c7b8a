"""Pieces that holes are drawn with, millimetres in, whole nanometres out; and what is made down an axis."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from crib.features.base import Request, is_said, refuse
from crib.findings.errors import CribError
from crib.geometry.axis_view import disc
from crib.geometry.outline import Box, Opening, Room
from crib.geometry.region import FAR, Region, box
from crib.handbook.bands import drill_least, drill_mean
from crib.handbook.points import keep_below
from crib.records import dataclass, replace
from crib.units import Size, nm

if TYPE_CHECKING:
    from crib.handbook.threads import Reading

HOLE = "hole"
"""What a drill makes, as a room."""


OVER_THE_HOLE = ("bring the spindle over the hole: by its drill put back in it, by a pilot, or by an indicator round "
                 "its wall")
"""How what goes on a hole that is there finds it. Common practice."""


class Finish(StrEnum):
    """By what a hole is finished."""

    DRILLED = "drilled"
    REAMED = "reamed"
    BORED = "bored"


@dataclass(frozen=True)
class PlainHole:
    """A hole: how wide it must come out, how deep at full diameter [mm], whether it goes through, and by what it is
    finished."""

    diameter: Size
    deep_mm: float
    through: bool = False
    finish: Finish = Finish.DRILLED


@dataclass(frozen=True)
class FlatHole:
    """A blind hole with a flat floor: its limits across, and down to the floor."""

    diameter: Size
    depth: Size


@dataclass(frozen=True)
class Counterbore:
    """A flat floor round a hole: how wide, how deep [mm], the hole's limits where it is there; what making it is
    called."""

    diameter: Size
    deep_mm: float
    hole: Size | None
    called: str = "counterbore"


@dataclass(frozen=True)
class Countersink:
    """A cone at the mouth of a hole that is there: how wide its rim, the angle between its sides [deg], the hole.
    `between`: for a mere chamfer, the angles between which any point does [deg]."""

    diameter: Size
    angle_deg: float
    hole: Size
    between: tuple[float, float] | None = None


@dataclass(frozen=True)
class InsideGroove:
    """A groove round the wall of a bore: the bore that is there, the groove's limits across and along the bore, how far
    its upper side is from the face."""

    bore: Size
    diameter: Size
    width: Size
    from_face: Size

    @property
    def deep_mm(self) -> float:
        """How deep it is let into the wall, from the narrowest bore to its floor as aimed at [mm]."""
        return (self.diameter.mid - self.bore.lo) / 2


@dataclass(frozen=True)
class RingGroove:
    """A groove in a face round an axis: across its outside, how wide and how deep it is."""

    outside: Size
    width: Size
    depth: Size


@dataclass(frozen=True)
class BoreKeyseat:
    """A keyseat in a bore: the bore, the keyseat's width and its depth at its side, how long the hub is, and how far
    its sides begin from the bore's axis [mm]."""

    bore: Size
    width: Size
    depth: Size
    hub_mm: float
    edge_mm: float


@dataclass(frozen=True)
class GibScrews:
    """What the holes for a gib's screws ask beyond their threads [mm, deg]: where along the gib each stands, how high
    the flank is, the wall that they go through and how thick the gib behind it is; the nut across its flats and how
    wide and deep its land; how far the side that they start on and the flank that they come out of lean from square to
    them, and how much deeper than on its axis a hole is at that slope's far side. `assumed`: what wasn't said of them:
    `thickness`, `number`, `direction`, `length`."""

    along_mm: tuple[float, ...]
    height_mm: float
    wall_mm: float
    gib: Size | None
    nut_mm: float | None
    land_mm: float
    land_deep_mm: float
    starts_deg: float
    exits_deg: float
    exits_mm: float
    assumed: frozenset[str]

    @property
    def is_sloped(self) -> bool:
        """Whether they meet the side of the slide too far from square for a drill to start."""
        return self.starts_deg > STEEP_DEG


@dataclass(frozen=True)
class Thread:
    """A thread: what is asked for, its class where one is called, how deep it is full [mm], whether it goes through;
    the screws of a gib, where it is for them."""

    reading: Reading
    class_name: str | None
    deep_mm: float
    through: bool = False
    gib: GibScrews | None = None


@dataclass(frozen=True)
class Circle:
    """Holes round a circle: its diameter, how many, where each stands by table and cross [mm], the middle where that
    isn't zero itself; how far it is from a hole to the next, and how wide a hole may be [mm]."""

    diameter: Size
    number: int
    places: tuple[tuple[float, float], ...]
    middle: tuple[float, float] | None
    chord_mm: float
    widest_mm: float

    @property
    def web_mm(self) -> float:
        """What is left between two holes at the least [mm]."""
        return self.chord_mm - self.widest_mm


@dataclass(frozen=True)
class Flats:
    """Flats round a bar: how many, how far two that lie across are apart, how thick the bar is and would have to be for
    sharp corners [mm]; in what order they are cut."""

    number: int
    across: Size
    bar_mm: float
    sharp_mm: float
    order: tuple[int, ...]

    @property
    def short_mm(self) -> float:
        """How much each corner lacks of a sharp one, on the diagonal [mm]."""
        return max(0.0, (self.sharp_mm - self.bar_mm) / 2) if self.number > 2 else 0.0


STEEP_DEG = 10.0
"""A drill doesn't start on a slope beyond this, and is pushed aside where it comes out of one [deg]: it wants a flat
first. Common practice."""


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

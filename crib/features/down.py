"""What is made down an axis: the sizes that each sort of round work is asked with."""

from __future__ import annotations

from crib.light.choices import StrEnum
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass
from crib.units import Size

if TYPE_CHECKING:
    from crib.handbook.threads import Reading

HOLE = "hole"
"""What a drill makes, as a room."""

STEEP_DEG = 10.0
"""A drill doesn't start on a slope beyond this, and is pushed aside where it comes out of one [deg]: it wants a flat
first. Common practice."""

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

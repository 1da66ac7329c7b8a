"""What could be bought: a need, told without a kind of feature, and what a kind of cutter proposes for it."""

from __future__ import annotations

from collections.abc import Callable

from crib.cutters.cutter import Cutter
from crib.findings.message import InWords, Text, said
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass

if TYPE_CHECKING:
    from crib.geometry.outline import Room

TO_ORDER, MEMORY = "made to size", "from memory of usual"
THOU = 0.0254
LONGER_MM = 1.0
"""What a cutter that is made to size is longer than it must be [mm]."""


@dataclass(frozen=True)
class Wanted:
    """A cutter that could be bought. `source`: where its size is from, or `made to size`; `ask`: what to look for when
    it is bought. `long_mm`: a length of cut that is part of its name, for the usual one wouldn't do."""

    cutter: Cutter
    source: str
    ask: Text = ""
    long_mm: float | None = None


@dataclass(frozen=True)
class Need:
    """What a room calls for [mm, deg], and what the shop has to hold and to make it with.

    `room` is None for what isn't cleared as one, a tapping hole say; `opening`: the narrowest way in from above
    where it lies under a lip; `deep`: from the surface to the lowest floor; `diameter`, `face`, `angle`, `corner`:
    limits of what is called for; `hole`: the hole that it goes on; `thread`. `neck`, `end`: clearances. `is_held`:
    whether a collet takes a shank; `arbors`: their bores, None where they aren't on record; `drilled`: the hole
    that a drill of a size makes. `metric`: whether the shop's sizes are. `bars`: the shanks that its boring heads take;
    `chuck`: the largest that its drill chuck does.
    """

    room: Room | None
    deep: float
    neck: float
    end: float
    is_held: Callable[[float], bool]
    drilled: Callable[[float], float]
    opening: float | None = None
    diameter: tuple[float, float] | None = None
    face: tuple[float, float] | None = None
    angle: tuple[float, float] | None = None
    corner: tuple[float, float] | None = None
    hole: float | None = None
    thread: str | None = None
    arbors: tuple[float, ...] | None = None
    metric: bool = False
    bars: tuple[float, ...] = ()
    chuck: float = 12.7

    @property
    def limits(self) -> tuple[float, float] | None:
        """The limits of a hole: what is called for, else the room's own."""
        if self.diameter is not None or self.room is None:
            return self.diameter
        return self.room.least.width / 1e6, self.room.most.width / 1e6

    @property
    def aim(self) -> float | None:
        """The size that is aimed at: the room's where it lies in the limits, else their middle [mm]."""
        if self.limits is None:
            return None
        low, high = self.limits
        aim = self.room.aim.width / 1e6 if self.room else low
        return aim if low < aim < high else (low + high) / 2

    @property
    def tallest(self) -> float:
        """The tallest that the room may be."""
        room = self.room
        return (room.height[1] if room.height else room.most.height) / 1e6 if room else 0.0

    def shank_for(self, diameter: float) -> float:
        """A shank that is made for a diameter, one that a collet takes if there is one."""
        usual = [size for size in (9.525, 12.7, 19.05, 25.4) if size >= min(diameter, 25.4)]
        return ([size for size in usual if self.is_held(size)] or usual)[0]

    def usual_angle(self, usual: tuple[float, ...]) -> tuple[float, str] | None:
        """The angle that is called for and where it is from: a usual one where one does; None where none is called."""
        if self.angle is None:
            return None
        low, high = self.angle
        made = [angle for angle in usual if low - 1e-6 <= angle <= high + 1e-6]
        return (made[0], f"{MEMORY} sizes") if made else (round((low + high) / 2, 6), TO_ORDER)


def new(kind: str, **sizes: object) -> Cutter:
    """A sharp cutter of high-speed steel that isn't numbered yet."""
    return Cutter(0, kind, condition="sharp", material="hss").but(**sizes)


def thin_necked(cutter: Cutter, source: str) -> Wanted:
    """A cutter with a neck, and what to look for in it."""
    return Wanted(cutter, source, said("a neck of {neck} or less, a reach of {reach} or more",
                                       neck=InWords(cutter.neck_mm or 0.0), reach=InWords(cutter.reach_mm or 0.0)))

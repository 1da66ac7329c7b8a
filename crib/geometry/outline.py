"""What is asked for, in a section: metal before, what must go, what is aimed at, what may go, and what stands by."""

from __future__ import annotations

from functools import cached_property, reduce

from crib.geometry.region import NOTHING, Region, box
from crib.light.choices import StrEnum
from crib.light.records import dataclass, replace
from crib.light.tuples import NamedTuple


class Box(NamedTuple):
    """A rectangle by its edges."""

    left: int
    low: int
    right: int
    high: int

    @property
    def region(self) -> Region:
        return box(*self)

    @property
    def mirrored(self) -> Box:
        return Box(-self.right, self.low, -self.left, self.high)

    @property
    def width(self) -> int:
        return self.right - self.left

    @property
    def height(self) -> int:
        return self.high - self.low

    @property
    def middle(self) -> int:
        return (self.left + self.right) // 2


class Opening(StrEnum):
    """A side of a room at which air was before."""

    TOP = "top"
    BOTTOM = "bottom"
    LEFT = "left"
    RIGHT = "right"


BOTH_SIDES = frozenset({Opening.LEFT, Opening.RIGHT})


class Lean(NamedTuple):
    """How a side edge leans: `run` further into the room for each `rise` upwards, negative where the room opens.

    An edge whose run over that rise is from `least` to `most` counts as lying along it.
    """

    run: int
    rise: int
    least: int
    most: int

    def over(self, height: int) -> int:
        """How far into the room the edge comes over a height."""
        return (2 * self.run * height + self.rise) // (2 * self.rise)

    def holds(self, run: float) -> bool:
        """Whether an edge with a run over the same rise lies along it."""
        return self.least <= run <= self.most


@dataclass(frozen=True)
class Face:
    """A named edge. Upright: at x = `aim`, from z `low` to `high`; level: at z = `aim`, x from `low` to `high`.

    `metal` is +1 where metal stays on the right or above, -1 where it stays on the left or below; `least` and `most`
    are where the edge must at least and may at most be. With a `lean` an upright edge stands so at its low end, and
    must be made by edges that lie along it. `turned`: it leaned as the section is drawn, and was turned upright or
    level with it.
    """

    name: str
    upright: bool
    metal: int
    aim: int
    least: int
    most: int
    low: int
    high: int
    lean: Lean | None = None
    turned: bool = False

    @property
    def band(self) -> int:
        return abs(self.most - self.least)

    def aim_at(self, z: int) -> int:
        """Where an upright edge is aimed at at a height."""
        return self.aim - self.metal * self.lean.over(z - self.low) if self.lean else self.aim

    @property
    def mirrored(self) -> Face:
        if not self.upright:
            return replace(self, low=-self.high, high=-self.low)
        return replace(self, metal=-self.metal, aim=-self.aim, least=-self.least, most=-self.most)


@dataclass(frozen=True)
class Room:
    """A rectangular part of what must go. `open`: the sides that were air before.

    `least` is what counts as done; `aim` is what is planned for and may reach into a neighbouring room. `height` are
    the limits of its own height, floor to ceiling, where both are cut. `across`: a body comes straight into it from its
    open side and goes nowhere along, from so wide to so wide. With a `lean` its side walls lean, and its boxes are the
    rectangles round it. `rounded`: the radius of the edge that is left, at the least, as aimed at and at the most,
    where the room is what stands outside of that; `hollow`: the same of a round corner that is left inside of it.
    """

    name: str
    least: Box
    aim: Box
    most: Box
    open: frozenset[Opening] = frozenset()
    height: tuple[int, int] | None = None
    lean: Lean | None = None
    across: tuple[int, int] | None = None
    rounded: tuple[int, int, int] | None = None
    hollow: tuple[int, int, int] | None = None

    @property
    def leans_over(self) -> bool:
        """Whether its walls lean over a body in it."""
        return self.lean is not None and self.lean.run > 0

    def opens(self, *sides: Opening) -> bool:
        """Whether it is open on each of these sides."""
        return self.open.issuperset(sides)

    @property
    def mirrored(self) -> Room:
        changed = {Opening.LEFT: Opening.RIGHT, Opening.RIGHT: Opening.LEFT}
        sides = frozenset(changed.get(side, side) for side in self.open)
        return replace(self, least=self.least.mirrored, aim=self.aim.mirrored, most=self.most.mirrored, open=sides)


@dataclass(frozen=True)
class Waiver:
    """A piece of what must go that an owner may let stand, e.g. the fillet of a corner up to some radius. `is_proud`:
    it counts by how far it stands out over what is drawn."""

    name: str
    region: Region
    is_proud: bool = False


@dataclass(frozen=True)
class Outline:
    """A feature in its section; `least` within `aim` within `most`."""

    stock: Region
    least: Region
    aim: Region
    most: Region
    rooms: tuple[Room, ...]
    faces: tuple[Face, ...] = ()
    waivers: tuple[Waiver, ...] = ()
    obstacles: Region = NOTHING

    @cached_property
    def keep(self) -> Region:
        """What must stay: metal outside `most`, and the obstacles."""
        return (self.stock - self.most) | self.obstacles

    @cached_property
    def mirrored(self) -> Outline:
        """The same section with left and right changed over."""
        return Outline(
            stock=self.stock.mirrored,
            least=self.least.mirrored,
            aim=self.aim.mirrored,
            most=self.most.mirrored,
            rooms=tuple(room.mirrored for room in self.rooms),
            faces=tuple(face.mirrored for face in self.faces),
            waivers=tuple(replace(waiver, region=waiver.region.mirrored) for waiver in self.waivers),
            obstacles=self.obstacles.mirrored,
        )

    def share_of(self, room: Room) -> Region:
        """What a room is, as far as it is aimed at."""
        return room.aim.region & self.aim if room.lean else room.aim.region

    @cached_property
    def shares(self) -> tuple[Region, ...]:
        """What must go of each room."""
        return tuple(room.least.region & self.least for room in self.rooms)

    @cached_property
    def shares_alone(self) -> tuple[Region, ...]:
        """What must go of each room that no other room may take."""
        return tuple(
            reduce(Region.__sub__, (other.most.region for other in self.rooms if other is not room), share)
            for room, share in zip(self.rooms, self.shares, strict=True)
        )

    def rest(self, room: Room, removed: Region) -> Region:
        """What of a room that must go is still there."""
        place = (room.name, removed)
        if place not in self._rests:
            self._rests[place] = self.shares[self.rooms.index(room)] - removed
        return self._rests[place]

    @cached_property
    def alone(self) -> tuple[Region, ...]:
        """What of each room is stock that no other room may take before a body was in it: what leans over one waits for
        what opens it."""
        return tuple(
            reduce(Region.__sub__, (other.most.region for other in self.rooms if other is not room and not (
                other.leans_over and not room.leans_over)), self.stock & room.aim.region)
            for room in self.rooms
        )

    @cached_property
    def leaning_over(self) -> tuple[Room, ...]:
        """The rooms whose walls lean over a body in them."""
        return tuple(room for room in self.rooms if room.leans_over)

    def standing(self, removed: Region) -> Region:
        """What stands when so much is gone: metal and obstacles."""
        if removed not in self._stands:
            self._stands[removed] = self.uncut(removed) | self.obstacles
        return self._stands[removed]

    def uncut(self, removed: Region) -> Region:
        """What of the stock stands when so much is gone."""
        if removed not in self._uncut:
            self._uncut[removed] = self.stock - removed
        return self._uncut[removed]

    def standing_but(self, removed: Region, clear: Box) -> Region:
        """What stands when so much is gone and all in a rectangle; obstacles stand there too."""
        if (removed, clear) not in self._but:
            self._but[removed, clear] = (self.uncut(removed) - clear.region) | self.obstacles
        return self._but[removed, clear]

    @cached_property
    def _but(self) -> dict[tuple[Region, Box], Region]:
        """What was asked of `standing_but` before."""
        return {}

    @cached_property
    def _uncut(self) -> dict[Region, Region]:
        """What was asked of `uncut` before."""
        return {}

    @cached_property
    def _stands(self) -> dict[Region, Region]:
        """What was asked of `standing` before."""
        return {}

    def left(self, removed: Region) -> Region:
        """What of all that must go is still there."""
        if removed not in self._lefts:
            self._lefts[removed] = self.least - removed
        return self._lefts[removed]

    @cached_property
    def _lefts(self) -> dict[Region, Region]:
        """What was asked of `left` before."""
        return {}

    @cached_property
    def _rests(self) -> dict[tuple[str, Region], Region]:
        """What was asked of `rest` before: the same few sections come up again and again."""
        return {}

    def is_waived(self, rest: Region) -> bool:
        """Whether an owner may let stand what is left; nothing left is always well."""
        if not rest:
            return True
        if not self.waivers or rest.area > sum(waiver.region.area for waiver in self.waivers):
            return False
        if rest not in self._waived:
            self._waived[rest] = not reduce(Region.__sub__, (waiver.region for waiver in self.waivers), rest)
        return self._waived[rest]

    @cached_property
    def _waived(self) -> dict[Region, bool]:
        """What was asked of `is_waived` before."""
        return {}

"""What is asked for, in a section: metal before, what must go, what is aimed at, what may go, and what stands by."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, reduce
from typing import NamedTuple

from crib.section.region import NOTHING, Region, box


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
    def width(self) -> int:
        return self.right - self.left

    @property
    def height(self) -> int:
        return self.high - self.low


@dataclass(frozen=True)
class Face:
    """A named edge. Upright: at x = `aim`, from z `low` to `high`; level: at z = `aim`, x from `low` to `high`.

    `metal` is +1 where metal stays on the right or above, -1 where it stays on the left or below; `least` and `most`
    are where the edge must at least and may at most be.
    """

    name: str
    upright: bool
    metal: int
    aim: int
    least: int
    most: int
    low: int
    high: int

    @property
    def band(self) -> int:
        return abs(self.most - self.least)


@dataclass(frozen=True)
class Room:
    """A rectangular part of what must go. `open` names the sides that were air before: `top`, `left`, `right`.

    `least` is what counts as done; `aim` is what is planned for and may reach into a neighbouring room. `height` are
    the limits of its own height, floor to ceiling, where both are cut.
    """

    name: str
    least: Box
    aim: Box
    most: Box
    open: frozenset[str] = frozenset()
    height: tuple[int, int] | None = None


@dataclass(frozen=True)
class Waiver:
    """A piece of what must go that an owner may let stand, e.g. the fillet of a corner up to some radius."""

    name: str
    region: Region


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
    def shares(self) -> tuple[Region, ...]:
        """What must go of each room."""
        return tuple(room.least.region & self.least for room in self.rooms)

    def rest(self, room: Room, removed: Region) -> Region:
        """What of a room that must go is still there."""
        place = (room.name, removed)
        if place not in self._rests:
            self._rests[place] = self.shares[self.rooms.index(room)] - removed
        return self._rests[place]

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
        return not reduce(Region.__sub__, (waiver.region for waiver in self.waivers), rest)

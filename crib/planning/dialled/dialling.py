"""What is set on the dials: each wall is rounded so that the size between two comes nearest to its aim, and stays
inside its limits where any setting does."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from math import ceil, floor

from crib.findings.finding import Figure
from crib.geometry.outline import BOTH_SIDES, Opening, Room
from crib.light.records import replace
from crib.machining.draft import Draft
from crib.machining.methods.cuts import Cut, Job
from crib.machining.words import Role, Seen
from crib.planning.told.passes import Pass

Limits = tuple[int, int]


def nearest(value: float, step: float, limits: Limits | None = None) -> int:
    """The whole number of steps that is nearest to a value, inside its limits where one is; half a step goes up [nm].

    >>> nearest(1_612_900, 25_400), nearest(-1_612_900, 25_400), nearest(12_000, 25_400, (11_000, 30_000))
    (1625600, -1600200, 25400)
    """
    count = floor(value / step + 0.5 + 1e-9)
    if limits and limits[0] <= value <= limits[1]:
        least, most = ceil(limits[0] / step - 1e-9), floor(limits[1] / step + 1e-9)
        count = min(max(count, least), most) if least <= most else count
    return round(count * step)


class Dials:
    """The settings for one job: across and down, as whole steps of the readout [mm]."""

    def __init__(self, job: Job, room: Room, step_mm: float) -> None:
        self.job, self.room, self.step = job, room, step_mm * 1e6
        self._pairs: dict[int, tuple[int, int, int, int]] = {}

    @property
    def is_between(self) -> bool:
        """Whether the room lies between two walls."""
        return not self.room.open & BOTH_SIDES

    def across(self, x: int, z: int) -> float:
        """What is dialled for a place across, in a pass at a height [mm]."""
        if not self.is_between:
            radius, least, most = self.job.tool.form.radius, self.room.least, self.room.most
            limits = ((most.left + radius, least.left + radius) if self.room.opens(Opening.RIGHT) else
                      (least.right - radius, most.right - radius))
            return nearest(x, self.step, None if self.room.lean else limits) / 1e6
        front, back, dialled_front, dialled_back = self._walls(z)
        if x in (front, back):
            return (dialled_back if x == back else dialled_front) / 1e6
        dialled = nearest(x, self.step)
        return (min(max(dialled, dialled_front), dialled_back) if front < x < back else dialled) / 1e6

    def _walls(self, z: int) -> tuple[int, int, int, int]:
        """The outermost places at a height, and what is dialled for each: the back one the nearest, the front one so
        that what lies between them comes nearest, where it isn't gone over once more."""
        if z not in self._pairs:
            here = [cut for cut in self.job.cuts if cut.z == z]
            front, back = min((cut.x for cut in here), default=0), max((cut.x for cut in here), default=0)
            wide, own = self.room, 2 * self.job.tool.form.radius
            limits = None if wide.lean else (wide.least.width - own, wide.most.width - own)
            dialled = nearest(back, self.step)
            between = dialled - nearest(back - front, self.step, limits)
            stays = not self._is_finished or any(cut.role == Role.FINISH for cut in here)
            self._pairs[z] = (front, back, between if stays else nearest(front, self.step), dialled)
        return self._pairs[z]

    @cached_property
    def _is_finished(self) -> bool:
        """Whether a finishing pass goes over what was roughed."""
        return any(cut.role == Role.FINISH for cut in self.job.cuts)

    def down(self, z: int) -> float:
        """What is dialled for a height: levels count from the lowest, so that what is between them keeps its size
        [mm]."""
        least, most, face = self.room.least, self.room.most, self.job.tool.form.height
        low = min(cut.z for cut in self.job.cuts)
        if self.room.opens(Opening.TOP) or low == self._highest:
            floors = (most.low, least.low)
            if not self.room.opens(Opening.TOP) and not self.room.lean:
                floors = (max(most.low, least.high - face), min(least.low, most.high - face))
            return nearest(z, self.step, floors if z == low else None) / 1e6
        floor_ = nearest(low, self.step, (most.low, least.low))
        short, tall = self.room.height or (least.height, most.height)
        limits = (short - face, tall - face) if z == self._highest and not self.room.lean else None
        return (floor_ + nearest(z - low, self.step, limits)) / 1e6

    @cached_property
    def _highest(self) -> int:
        return max(cut.z for cut in self.job.cuts)

    @cached_property
    def off_middle(self) -> int:
        """How far the middle between the walls is dialled off where it was reckoned, at the lowest height [nm]."""
        if not self.is_between:
            return 0
        front, back, dialled_front, dialled_back = self._walls(min(cut.z for cut in self.job.cuts))
        return (dialled_front + dialled_back - front - back) // 2

    @cached_property
    def width(self) -> float | None:
        """How wide the room comes out by the dials; None where no two walls are dialled [mm]."""
        if not self.is_between or self.room.lean:
            return None
        pairs = [self._walls(cut.z) for cut in self.job.cuts]
        front, back, dialled_front, dialled_back = max(pairs, key=lambda pair: pair[1] - pair[0])
        return (dialled_back - dialled_front + 2 * self.job.tool.form.radius) / 1e6 if back > front else None


def dials_of(draft: Draft) -> Iterator[tuple[Cut, Dials]]:
    """Each pass of a draft with the dials of its job."""
    rooms = {room.name: room for room in draft.question.outline.rooms}
    for job in draft.jobs:
        dials = Dials(job, rooms[job.room], draft.question.shop.readout_mm)
        yield from ((cut, dials) for cut in job.cuts)


def moved_to_the_middle(draft: Draft, passes: Sequence[Pass]) -> Iterator[tuple[Pass, ...]]:
    """The passes as they are dialled, with the middle between the walls of each room taken for zero: no drawing says to
    half a step where it is."""
    offs = {dials.off_middle for _, dials in dials_of(draft)} - {0}
    for off in sorted(offs):
        yield tuple(_moved(one, off / 1e6) for one in passes)


def _moved(one: Pass, by: float) -> Pass:
    path = tuple((along, across - by) for along, across in one.dial_path_mm)
    return replace(one, dial_x_mm=one.dial_x_mm - (by if one.view == Seen.CROSS else 0.0), dial_path_mm=path)


def figures(draft: Draft) -> Iterator[Figure]:
    """How wide each room comes out as it is dialled, by whoever made its walls last."""
    found = {dials.room.name: dials.width for _, dials in dials_of(draft) if dials.width}
    for room, width in found.items():
        yield Figure(f"{room}: width that the dials give", width)

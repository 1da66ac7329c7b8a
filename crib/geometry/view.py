"""What is seen in one frame of operations that follow each other: what each takes, how near it comes to metal, what is
left and gouged at the end."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import cached_property

from crib.geometry.faces import FINE, Made
from crib.geometry.operation import Frame
from crib.geometry.region import NOTHING, Region
from crib.geometry.silhouette import Part
from crib.light.records import dataclass
from crib.light.tuples import NamedTuple


class Spot(NamedTuple):
    """How near a part that must not touch comes to metal in an operation: the gap, what it is over the clearance asked
    (negative: short of it), and where: x across and z up; in plan the axis, y along."""

    operation: int
    frame: Frame
    part: Part
    gap: int
    slack: int
    x: int
    z: int
    y: int = 0


class Engagement(NamedTuple):
    """The metal that an operation meets: the greatest width at any height, all of it together (about an axis: on both
    sides), from the lowest to the highest, and the area in the section."""

    width: int
    height: int
    area: int


@dataclass(frozen=True)
class Stage:
    """What an operation comes to in a frame; in a section and about an axis also what the body passed over, what stood
    before and what stands after. Told once someone asks: how near each part that must not touch comes to metal, and
    sooner whether it surely has the room that it asks for."""

    operation: int
    how_near: Callable[[], Iterable[Spot]]
    passed: Region = NOTHING
    before: Region = NOTHING
    standing: Region = NOTHING
    is_surely_clear: Callable[[], bool] = lambda: False

    @cached_property
    def spots(self) -> tuple[Spot, ...]:
        """The spots at which each part that must not touch comes nearest."""
        return tuple(self.how_near())

    @property
    def is_clear(self) -> bool:
        """Whether every clearance is kept."""
        return self.is_surely_clear() or all(spot.slack >= 0 for spot in self.spots)

    @cached_property
    def taken(self) -> Region:
        """The metal that it removed."""
        return self.before - self.standing

    @property
    def met(self) -> Engagement:
        """How much metal it met."""
        if not self.taken:
            return Engagement(0, 0, 0)
        _, low, _, high = self.taken.bounds()
        wide = [sum(right - left for left, right in ends) for slab in self.taken.slabs
                for ends in ([s[:2] for s in slab.spans], [s[2:] for s in slab.spans])]
        return Engagement(max(wide), high - low, self.taken.area // 2)


class Remains(NamedTuple):
    """What is left of what must go, each measured once someone asks: how far it stands in all, how far it reaches from
    what is gone outside of what may be let stand, and whether there it is no farther than `FINE`."""

    reaches: Callable[[], int]
    reaches_kept: Callable[[], int]
    is_fine: Callable[[], bool]


@dataclass(frozen=True)
class View:
    """Some operations followed in one frame: what remains of what must go, how deep they cut beyond what may go;
    `stuck`: those that can't come down where they begin. Told once someone asks: whether every face that leans was made
    by edges that lie along it, what is gone, and how each face of that came out."""

    frame: Frame
    stages: tuple[Stage, ...]
    remains: Remains
    gouge: int
    stuck: tuple[int, ...] = ()
    is_along: Callable[[], bool] = lambda: True
    how_gone: Callable[[], Region] = lambda: NOTHING
    how_made: Callable[[Region], tuple[Made, ...]] = lambda gone: ()

    @property
    def holds(self) -> bool:
        """Whether nothing was left outside the waivers, nothing gouged, nothing rubbed, nothing forced down, and every
        face that leans was made by edges that lie along it."""
        return (self.gouge <= FINE and all(stage.is_clear for stage in self.stages) and not self.stuck
                and self.is_along() and self.remains.is_fine())

    @cached_property
    def faces(self) -> tuple[Made, ...]:
        """How each face came out."""
        return self.how_made(self.removed)

    @cached_property
    def removed(self) -> Region:
        """What is gone."""
        return self.how_gone()

    @cached_property
    def left(self) -> int:
        """How far anything stands that must go (see `crib.geometry.proud`)."""
        return self.remains.reaches()

    @cached_property
    def left_kept(self) -> int:
        """How far from what is gone it stands outside of what may be let stand."""
        return self.remains.reaches_kept()

    @cached_property
    def tight(self) -> Spot | None:
        """The nearest that anything which must not touch comes to metal."""
        return tightest(spot for stage in self.stages for spot in stage.spots)

    @cached_property
    def rubs(self) -> tuple[Spot, ...]:
        """Where a clearance isn't kept."""
        return tuple(spot for stage in self.stages for spot in stage.spots if spot.slack < 0)

    @property
    def is_tight_inside(self) -> bool:
        """Whether the tightest spot is under the surface, and not somewhere above it."""
        return self.tight is not None and self.tight.z < 0

    @property
    def deciding(self) -> int:
        """The operation to look at: where something stands tightest under the surface, else the last."""
        return self.tight.operation if self.tight and self.is_tight_inside else self.stages[-1].operation


def tightest(spots: Iterable[Spot]) -> Spot | None:
    """The one of them at which the gap is least."""
    return min(spots, key=lambda spot: spot.gap, default=None)

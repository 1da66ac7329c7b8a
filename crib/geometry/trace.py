"""What comes of operations, kept in order: what each takes and leaves, how near it comes to metal, what is wrong at the
end."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from functools import cached_property
from typing import TYPE_CHECKING, NamedTuple

from crib.geometry.faces import FINE, Made
from crib.geometry.operation import Frame, Operation, Point, Work
from crib.geometry.outline import Outline
from crib.geometry.region import NOTHING, Region
from crib.geometry.silhouette import Part
from crib.records import dataclass

if TYPE_CHECKING:
    from crib.geometry.cleared import Cleared


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
    """What an operation comes to in a frame: the spots at which each part that must not touch comes nearest; in a
    section and about an axis also what the body passed over, what stood before and what stands after."""

    operation: int
    spots: tuple[Spot, ...]
    passed: Region = NOTHING
    before: Region = NOTHING
    standing: Region = NOTHING

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
    """Some operations followed in one frame: what remains of what must go, how deep they cut beyond what may go, what
    is gone and how each face came out; `stuck`: those that can't come down where they begin."""

    frame: Frame
    stages: tuple[Stage, ...]
    remains: Remains
    gouge: int
    removed: Region = NOTHING
    faces: tuple[Made, ...] = ()
    stuck: tuple[int, ...] = ()

    @property
    def holds(self) -> bool:
        """Whether nothing was left outside the waivers, nothing gouged, nothing rubbed, nothing forced down, and every
        face that leans was made by edges that lie along it."""
        return (self.gouge <= FINE and not self.rubs and not self.stuck
                and all(made.is_along for made in self.faces) and self.remains.is_fine())

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
        return _tightest(spot for stage in self.stages for spot in stage.spots)

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


@dataclass(frozen=True)
class Trace:
    """Operations followed in every frame that the work concerns, each frame once it is asked of."""

    work: Work
    operations: tuple[Operation, ...]

    @cached_property
    def elevation(self) -> View:
        """The section, or what is about the first axis where there is none."""
        return self._follow(*self._upright[0])

    @cached_property
    def plan(self) -> View | None:
        """The plan; None where no layers are asked for."""
        if self.work.layers is None:
            return None
        from crib.geometry.plan_view import follow

        return follow(self.work.layers, self._seen(Frame.PLAN))

    @property
    def views(self) -> Iterator[View]:
        """Every frame that is concerned, the elevation first."""
        if self._upright:
            yield self.elevation
            yield from self._other_axes
        if self.plan:
            yield self.plan

    @cached_property
    def _other_axes(self) -> tuple[View, ...]:
        return tuple(self._follow(*one) for one in self._upright[1:])

    @cached_property
    def _upright(self) -> list[tuple[Frame, int, Outline]]:
        section = [(Frame.SECTION, 0, self.work.section)] if self.work.section else []
        return [*section, *((Frame.AXIS, number, outline) for number, outline in enumerate(self.work.axes))]

    def _follow(self, frame: Frame, axis: int, outline: Outline) -> View:
        from crib.geometry.elevation import follow

        return follow(outline, self._seen(frame, axis), frame)

    def _seen(self, frame: Frame, axis: int = 0) -> list[tuple[int, Operation]]:
        """The operations that a frame shows, with their numbers."""
        return [(number, one) for number, one in enumerate(self.operations)
                if (one.path if frame is Frame.PLAN else (one.frame, one.axis) == (frame, axis))]

    @property
    def holds(self) -> bool:
        """Whether every view holds; no further is looked than the first that doesn't."""
        return all(view.holds for view in self.views)

    @property
    def left(self) -> int:
        """How far anything stands that must go."""
        return max(view.left for view in self.views)

    @property
    def left_kept(self) -> int:
        """How far from what is gone it stands outside of what may be let stand."""
        return max(view.left_kept for view in self.views)

    @property
    def gouge(self) -> int:
        """How deep anything is cut beyond what may go."""
        return max(view.gouge for view in self.views)

    @property
    def tight(self) -> Spot | None:
        """The nearest that anything which must not touch comes to metal."""
        return _tightest(spot for view in self.views if (spot := view.tight))

    @property
    def rubs(self) -> tuple[Spot, ...]:
        """Where a clearance isn't kept."""
        return tuple(spot for view in self.views for spot in view.rubs)

    @property
    def stuck(self) -> tuple[int, ...]:
        """The operations that can't come down where they begin."""
        return tuple(number for view in self.views for number in view.stuck)

    @property
    def faces(self) -> tuple[Made, ...]:
        """How each face came out."""
        return tuple(face for view in self.views for face in view.faces)

    def cleared(self, number: int | None = None) -> Cleared:
        """What is clear in plan after an operation, or after all of them."""
        from crib.geometry.cleared import Cleared

        assert self.work.layers is not None
        until = len(self.operations) if number is None else number + 1
        return Cleared.of(self.work.layers, self.operations[:until])

    def tight_at(self, number: int, corner: Point) -> Spot | None:
        """The tightest spot in plan of an operation while its axis stands at a corner of its path."""
        from crib.geometry.plan_view import nearest

        return _tightest(nearest(self.cleared(number), self.operations[number]._replace(path=(corner,)), number))

    def metal_at(self, spot: Spot, corner: Point) -> Point | None:
        """Where in plan the metal stands that is nearest to an axis at a corner, at the height of a spot; None where
        there is none."""
        return self.cleared(spot.operation).edge_at(corner, spot.z)


def _tightest(spots: Iterable[Spot]) -> Spot | None:
    return min(spots, key=lambda spot: spot.gap, default=None)

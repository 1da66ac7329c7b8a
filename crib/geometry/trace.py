"""What comes of operations in every frame that their work concerns."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property

from crib.geometry import elevation
from crib.geometry.faces import Made
from crib.geometry.operation import Frame, Operation, Point, Work
from crib.geometry.outline import Outline
from crib.geometry.view import Spot, View, tightest
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass

if TYPE_CHECKING:
    from crib.geometry.cleared import Cleared


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
        from crib.geometry.plan_view import follow  # only what has layers pays for it

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
        return elevation.follow(outline, self._seen(frame, axis), frame)

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
        return tightest(spot for view in self.views if (spot := view.tight))

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

        return tightest(nearest(self.cleared(number), self.operations[number]._replace(path=(corner,)), number))

    def metal_at(self, spot: Spot, corner: Point) -> Point | None:
        """Where in plan the metal stands that is nearest to an axis at a corner, at the height of a spot; None where
        there is none."""
        return self.cleared(spot.operation).edge_at(corner, spot.z)

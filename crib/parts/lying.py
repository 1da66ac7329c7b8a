"""The features of a part as they lie in it: what each takes, and what that has to do with another."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cached_property
from math import sqrt

from crib.features import KINDS
from crib.features.base import Comes, Feature
from crib.geometry.convex import Convex, apart, boxes_apart, overlap, points
from crib.light.records import dataclass
from crib.parts.frame import Frame, frame_of
from crib.parts.part import Part, Placed
from crib.parts.solids import Axis, Solid, axes, footprint, solids

SLACK_MM = 0.01
"""What is nearer than this touches, and what reaches in no farther doesn't [mm]: less than can be measured there."""


@dataclass(frozen=True)
class Lying:
    """A feature where it lies."""

    part: Part
    placed: Placed
    feature: Feature

    @property
    def name(self) -> str:
        """What it is called in the part."""
        return self.placed.name

    @property
    def comes(self) -> Comes:
        """When its kind is made."""
        return KINDS[self.placed.kind].comes

    @property
    def frame(self) -> Frame:
        """The face that it is cut from."""
        return frame_of(self.part.stock, self.placed.place.face)

    @cached_property
    def solids(self) -> tuple[Solid, ...]:
        """What it takes."""
        return solids(self.part, self.placed, self.feature)

    @cached_property
    def axes(self) -> tuple[Axis, ...]:
        """The axes of what is made down one."""
        return axes(self.part, self.placed, self.feature)

    @cached_property
    def columns(self) -> tuple[Convex, ...]:
        """What stands over it up to the face, where its own surface lies lower."""
        frame, level = self.frame, self.placed.place.level
        found = []
        for shape in footprint(self.part, self.placed, self.feature) if level > SLACK_MM else ():
            half = (shape.diameter or 0.0) / 2
            edges = [(shape.along - half, shape.along + shape.length + half),
                     (shape.across - half, shape.across + shape.width + half)]
            found.append(points(frame.at(along, across, -deep) for along in edges[0] for across in edges[1]
                                for deep in (0.0, level)))
        return tuple(found)

    def touches(self, other: Lying) -> bool:
        """Whether anything that it takes touches what the other takes."""
        return any(apart(one.body, its.body, SLACK_MM) <= SLACK_MM for one in self.solids for its in other.solids)

    def meets(self, other: Lying) -> bool:
        """Whether both take some of the same metal."""
        return any(boxes_apart(one.body, its.body) == 0 and overlap(one.body, its.body) > SLACK_MM
                   for one in self.solids for its in other.solids)

    def is_over(self, other: Lying) -> bool:
        """Whether it takes some of what stands over the other's own surface."""
        return any(boxes_apart(column, one.body) == 0 and overlap(column, one.body) > SLACK_MM
                   for column in other.columns for one in self.solids)

    def is_coaxial(self, other: Lying) -> bool:
        """Whether one of its axes is one of the other's."""
        return any(is_one_line(one, its) for one in self.axes for its in other.axes)


def lying_in(part: Part, drawn: Mapping[str, Feature]) -> tuple[Lying, ...]:
    """The features of a part that could be drawn, in the order in which they are listed."""
    return tuple(Lying(part, one, drawn[one.name]) for one in part.features if one.name in drawn)


def is_one_line(one: Axis, other: Axis) -> bool:
    """Whether two axes lie on one line."""
    way = one.inward
    if abs(abs(sum(a * b for a, b in zip(way, other.inward, strict=True))) - 1) > 1e-9:
        return False
    apart_by = [b - a for a, b in zip(one.point, other.point, strict=True)]
    along = sum(a * b for a, b in zip(apart_by, way, strict=True))
    return sqrt(sum((a - along * b) ** 2 for a, b in zip(apart_by, way, strict=True))) <= SLACK_MM

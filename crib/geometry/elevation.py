"""Operations followed in a section, where a body passes along, and about an axis, where it comes down from above."""

from __future__ import annotations

from collections.abc import Sequence
from functools import cache, reduce

from crib.geometry.axis_view import came_through, swept
from crib.geometry.faces import FINE, Standing, made
from crib.geometry.farthest import farthest
from crib.geometry.free_positions import cut, gaps
from crib.geometry.operation import Frame, Operation
from crib.geometry.outline import Outline
from crib.geometry.proud import stands
from crib.geometry.region import NOTHING, Region
from crib.geometry.silhouette import Part
from crib.geometry.view import Remains, Spot, Stage, View


def follow(outline: Outline, operations: Sequence[tuple[int, Operation]], frame: Frame) -> View:
    """Cut the operations in order from stock and measure what comes of it."""
    standing = outline.stock | outline.obstacles
    sure, may = NOTHING, NOTHING
    stages = []
    for number, one in operations:
        form, before = one.form, standing
        mine = _passed(form.sure, one)
        touched = mine if form.may == form.sure else _passed(form.may, one)
        standing = before - (mine & outline.stock) if outline.obstacles else before - mine
        clear = [came_through(part) for part in form.clear] if frame is Frame.AXIS else form.clear
        spots = tuple(Spot(number, frame, gap.part, gap.gap, gap.slack, gap.x, gap.z)
                      for gap in gaps(clear, standing, one.x, one.z))
        stages.append(Stage(number, spots, mine, before, standing))
        sure, may = sure | mine, may | touched
    removed = sure & outline.stock
    gone = sure if frame is Frame.AXIS else removed
    left = outline.least - gone

    @cache
    def left_kept() -> int:
        return 0 if outline.is_waived(left) else farthest(_not_waived(outline, left), gone)

    standings = [Standing(one.tag, one.x, one.z, stage.passed)
                 for (_, one), stage in zip(operations, stages, strict=True)]
    return View(
        frame, tuple(stages),
        Remains(lambda: stands(outline, left, gone), left_kept, lambda: left_kept() <= FINE),
        gouge=farthest((may & (outline.stock | outline.obstacles)) - outline.most, outline.most),
        removed=removed,
        faces=tuple(made(face, standings, removed, left) for face in outline.faces),
    )


def _passed(parts: Sequence[Part], one: Operation) -> Region:
    """What some parts of a body pass over."""
    return swept(parts, one.z) if one.frame is Frame.AXIS else cut(parts, one.x, one.z)


def _not_waived(outline: Outline, left: Region) -> Region:
    return reduce(Region.__sub__, (waiver.region for waiver in outline.waivers), left)

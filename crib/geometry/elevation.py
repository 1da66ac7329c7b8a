"""Operations followed in a section, where a body passes along, and about an axis, where it comes down from above or
goes round."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache, reduce

from crib.geometry.axis_view import came_through, disc, swept
from crib.geometry.faces import FINE, Standing, made
from crib.geometry.farthest import farthest
from crib.geometry.free_positions import Gap, cut, gaps
from crib.geometry.operation import Frame, Operation
from crib.geometry.outline import Outline
from crib.geometry.proud import stands
from crib.geometry.region import FAR, NOTHING, Region, union
from crib.geometry.round_view import near, taken, touched
from crib.geometry.silhouette import Part
from crib.geometry.view import Remains, Spot, Stage, View


def follow(outline: Outline, operations: Sequence[tuple[int, Operation]], frame: Frame) -> View:
    """Cut the operations in order from stock and measure what comes of it."""
    whole = standing = outline.stock | outline.obstacles
    beyond: list[Region] = []
    stages, stuck, last = [], [], None
    for number, one in operations:
        form, before = one.form, standing
        if frame is Frame.AXIS and one.free and disc(one.z, FAR, one.free) & before & outline.least:
            stuck.append(number)
        mine = _passed(form.sure, one)
        over = mine if form.may == form.sure and not one.goes_round else _touched(form.may, one)
        standing = before - (mine & outline.stock) if outline.obstacles else before - mine
        spots = tuple(Spot(number, frame, gap.part, gap.gap, gap.slack, gap.x, gap.z)
                      for gap in _nearest(one, before, standing))
        stages.append(Stage(number, spots, mine, before, standing))
        stuck += [number] if one.goes_on and not one.follows(last) else []
        last = one
        if over is not mine or outline.obstacles:
            beyond.append((over & whole) - outline.most)
    removed = whole - standing
    gone = union(stage.passed for stage in stages) if frame is Frame.AXIS else removed
    left = outline.least - gone

    @cache
    def left_kept() -> int:
        return 0 if outline.is_waived(left) else farthest(_not_waived(outline, left), gone)

    standings = [Standing(one.tag, one.x, one.z, stage.passed)
                 for (_, one), stage in zip(operations, stages, strict=True)]
    return View(
        frame, tuple(stages),
        Remains(lambda: stands(outline, left, gone), left_kept, lambda: left_kept() <= FINE),
        gouge=farthest(union([removed - outline.most, *beyond]), outline.most),
        stuck=tuple(stuck),
        is_along=lambda: all(made(face, standings, removed, left).is_along for face in outline.faces if face.lean),
        how_gone=lambda: reduce(Region.__or__, (stage.passed for stage in stages), NOTHING) & outline.stock,
        how_made=lambda gone: tuple(made(face, standings, gone, left) for face in outline.faces),
    )


def _passed(parts: Sequence[Part], one: Operation) -> Region:
    """What some parts of a body take."""
    if one.goes_round:
        return taken(parts, one)
    return swept(parts, one.z) if one.frame is Frame.AXIS else cut(parts, one.x, one.z)


def _touched(parts: Sequence[Part], one: Operation) -> Region:
    """What some parts of a body pass over, on the way there too."""
    return touched(parts, one) if one.goes_round else _passed(parts, one)


def _nearest(one: Operation, before: Region, standing: Region) -> Iterable[Gap]:
    """How near the parts that don't cut come to metal."""
    form = one.form
    if one.goes_round:
        return near(form.clear, one, before, standing, form.sure)
    clear = [came_through(part) for part in form.clear] if one.frame is Frame.AXIS else form.clear
    return gaps(clear, standing, one.x, one.z)


def _not_waived(outline: Outline, left: Region) -> Region:
    return reduce(Region.__sub__, (waiver.region for waiver in outline.waivers), left)

"""Operations followed in a section, where a body passes along, and about an axis, where it comes down from above or
goes round."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cache, lru_cache, reduce

from crib.geometry.faces import FINE, Standing, is_along, made
from crib.geometry.farthest import farthest
from crib.geometry.free_positions import cut
from crib.geometry.gaps import Gap, are_surely_clear, gaps
from crib.geometry.operation import Frame, Operation
from crib.geometry.outline import Outline
from crib.geometry.proud import stands
from crib.geometry.region import FAR, NOTHING, Region, union
from crib.geometry.silhouette import Part
from crib.geometry.view import Remains, Spot, Stage, View
from crib.light.records import dataclass


@dataclass(frozen=True, eq=False)
class _Done:
    """What comes of the operations so far: what stands, what may have gone beyond what may, what each came to, and
    which can't come down. None is like another: what comes of one more is known by the one it came after."""

    outline: Outline
    frame: Frame
    whole: Region
    standing: Region
    beyond: tuple[Region, ...] = ()
    stages: tuple[Stage, ...] = ()
    stuck: tuple[int, ...] = ()
    last: Operation | None = None


@lru_cache(maxsize=64)
def _stock(outline: Outline, frame: Frame) -> _Done:
    """Before anything is done."""
    whole = outline.stock | outline.obstacles
    return _Done(outline, frame, whole, whole)


@lru_cache(maxsize=512)
def _after(done: _Done, number: int, one: Operation) -> _Done:
    """After one more operation: plans that begin alike come to the same until they part."""
    outline, frame, form, before = done.outline, done.frame, one.form, done.standing
    is_stuck = frame is Frame.AXIS and _is_over_metal(one, before & outline.least)
    mine = _passed(form.sure, one)
    over = mine if form.may == form.sure and not one.goes_round else _touched(form.may, one)
    standing = before - (mine & outline.stock) if outline.obstacles else before - mine
    beyond = [(over & done.whole) - outline.most] if over is not mine or outline.obstacles else []
    stuck = [number] * (is_stuck + (one.goes_on and not one.follows(done.last)))
    return _Done(outline, frame, done.whole, standing, (*done.beyond, *beyond),
                 (*done.stages, _stage(number, frame, one, mine, before, standing)), (*done.stuck, *stuck), one)


def _stage(number: int, frame: Frame, one: Operation, passed: Region, before: Region, standing: Region) -> Stage:
    """What an operation comes to."""
    def near() -> Iterator[Spot]:
        return (Spot(number, frame, gap.part, gap.gap, gap.slack, gap.x, gap.z)
                for gap in _nearest(one, before, standing))

    def is_clear() -> bool:
        return frame is Frame.SECTION and are_surely_clear(one.form.clear, standing, one.x, one.z)

    return Stage(number, near, passed, before, standing, is_clear)


def follow(outline: Outline, operations: Sequence[tuple[int, Operation]], frame: Frame) -> View:
    """Cut the operations in order from stock and measure what comes of it."""
    done = _stock(outline, frame)
    for number, one in operations:
        done = _after(done, number, one)
    stages = done.stages
    removed = done.whole - done.standing
    gone = union(stage.passed for stage in stages) if frame is Frame.AXIS else removed
    left = outline.least - gone

    @cache
    def left_kept() -> int:
        return 0 if outline.is_waived(left) else farthest(_not_waived(outline, left), gone)

    standings = [Standing(one.tag, one.x, one.z, stage.passed)
                 for (_, one), stage in zip(operations, stages, strict=True)]
    return View(
        frame, stages,
        Remains(lambda: stands(outline, left, gone), left_kept, lambda: left_kept() <= FINE),
        gouge=farthest(union([removed - outline.most, *done.beyond]), outline.most),
        stuck=done.stuck,
        is_along=lambda: all(is_along(face, standings, removed, left) for face in outline.faces),
        how_gone=lambda: reduce(Region.__or__, (stage.passed for stage in stages), NOTHING) & outline.stock,
        how_made=lambda gone: tuple(made(face, standings, gone, left) for face in outline.faces),
    )


def _is_over_metal(one: Operation, metal: Region) -> bool:
    """Whether metal stands in the middle, of which a body takes nothing."""
    if not one.free:
        return False
    from crib.geometry.axis_view import disc

    return bool(disc(one.z, FAR, one.free) & metal)


def _passed(parts: Sequence[Part], one: Operation) -> Region:
    """What some parts of a body take."""
    if one.goes_round:
        from crib.geometry.round_view import taken

        return taken(parts, one)
    if one.frame is not Frame.AXIS:
        return cut(parts, one.x, one.z)
    from crib.geometry.axis_view import swept

    return swept(parts, one.z)


def _touched(parts: Sequence[Part], one: Operation) -> Region:
    """What some parts of a body pass over, on the way there too."""
    if not one.goes_round:
        return _passed(parts, one)
    from crib.geometry.round_view import touched

    return touched(parts, one)


def _nearest(one: Operation, before: Region, standing: Region) -> Iterable[Gap]:
    """How near the parts that don't cut come to metal."""
    form = one.form
    if one.goes_round:
        from crib.geometry.round_view import near

        return near(form.clear, one, before, standing, form.sure)
    if one.frame is not Frame.AXIS:
        return gaps(form.clear, standing, one.x, one.z)
    from crib.geometry.axis_view import came_through

    return gaps([came_through(part) for part in form.clear], standing, one.x, one.z)


def _not_waived(outline: Outline, left: Region) -> Region:
    return reduce(Region.__sub__, (waiver.region for waiver in outline.waivers), left)

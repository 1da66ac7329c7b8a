"""How a group of passes looks: the section with the cutter in its place and what it takes, and the same from above."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from crib.geometry.box_outline import Arc, Line, outline
from crib.geometry.faces import FINE
from crib.geometry.operation import Frame, Operation
from crib.geometry.outline import Opening, Outline
from crib.geometry.region import FAR, Region, union
from crib.geometry.trace import Trace
from crib.geometry.view import Stage
from crib.machining.ends import zero_along
from crib.machining.question import ZEROS
from crib.machining.words import Direction, Fed
from crib.pages.above import of_the_cut
from crib.pages.one_sided import one_sided
from crib.pages.scene import FromAbove, Scene, Strip
from crib.planning.dialled.finish import Proved
from crib.planning.told.advice import TightSpot
from crib.planning.told.passes import Pass

Wall = tuple[int, int, int, int]
"""From one place to another, along and across."""


def scene_of(proved: Proved, run: Sequence[Pass]) -> Scene | None:
    """The section with the cutter as the last pass of a group has it, and what all of them take; None where they are
    seen from above alone."""
    numbers = [one.no - 1 for one in run]
    found = [(section, stage) for section, stage in _stages(proved.trace) if stage.operation in numbers]
    if not found:
        return None
    section, last = found[-1]
    mine = [stage for which, stage in found if which is section]
    stock, one = section.stock | section.obstacles, proved.trace.operations[last.operation]
    spot = min((spot for spot in last.spots if spot.z < 0), key=lambda spot: spot.gap, default=None)
    told = Scene(stock, stock - last.standing, one.form, one.x, one.z, TightSpot.of(spot) if spot else None,
                 on_top=proved.plan.zeros[1] == ZEROS[1], taken=union(stage.taken for stage in mine),
                 pass_no=last.operation + 1, faces_you=not proved.draft.is_round)
    return one_sided(told, proved.draft, proved.draft.jobs[-1].tool)


def _stages(trace: Trace) -> Iterator[tuple[Outline, Stage]]:
    """Every stage with the section, or what is about the axis, that it is seen in."""
    work = trace.work
    outlines = ([work.section] if work.section else []) + list(work.axes)
    views = [view for view in trace.views if view.frame is not Frame.PLAN]
    for section, view in zip(outlines, views, strict=True):
        yield from ((section, stage) for stage in view.stages)


def above_of(proved: Proved, run: Sequence[Pass]) -> FromAbove | Strip | None:
    """The same from above: between its ends where one is closed, else a piece out of the middle; None where a cutter
    only comes down an axis."""
    if proved.draft.is_round or any(room.across for room in proved.draft.question.outline.rooms):
        return None
    one_wall = any(room.opens(Opening.RIGHT) for room in proved.draft.question.outline.rooms)
    last = proved.trace.operations[run[-1].no - 1]
    if proved.trace.plan is not None and last.path and not one_wall:
        return _between_ends(proved, run[-1], last)
    return _strip(proved, run)


def _between_ends(proved: Proved, one: Pass, operation: Operation) -> FromAbove:
    """What is clear after a pass, and the way that it went."""
    question, cleared = proved.draft.question, proved.trace.cleared(one.no - 1)
    zero, is_open = zero_along(proved.draft), question.feature.request.ends == "one"
    before = zero if is_open else -FAR
    opening, under = (of_the_cut(cleared, z, before) for z in (-1, operation.z))
    x, y = operation.path[-1]
    walls = _walls_of_a_way(one, operation, frozenset((*outline(opening), *outline(under))))
    return FromAbove(opening, under, operation.form.radius, None, x, y, zero, one.no, (x - zero) / 1e6, y / 1e6,
                     is_open=is_open, path=operation.path, cut=tuple(walls))


def _walls_of_a_way(one: Pass, operation: Operation, edges: Iterable[Line | Arc]) -> Iterator[Wall]:
    """What of the outline lies beside the legs of a way, on the side that it cuts."""
    straight, r = [edge for edge in edges if isinstance(edge, Line)], operation.form.radius
    sides = {Direction.CONVENTIONAL: (1,), Direction.CLIMB: (-1,), Direction.BOTH: (1, -1), Direction.AXIAL: ()}
    for (a, b), (c, d) in pairwise(operation.path):
        dx, dy = (c > a) - (c < a), (d > b) - (d < b)
        for side in sides[one.direction]:
            x, y = -dy * r * side, dx * r * side
            wall = (min(a, c) + x, min(b, d) + y, max(a, c) + x, max(b, d) + y)
            if any(_lies_on(wall, edge) for edge in straight):
                yield wall


def _lies_on(wall: Wall, edge: Line) -> bool:
    """Whether a piece of a wall lies on a straight edge, or a part of it does."""
    left, low, right, high = wall
    if low == high:
        return abs(edge.low - low) <= FINE and abs(edge.high - low) <= FINE and edge.left < right and edge.right > left
    return abs(edge.left - left) <= FINE and abs(edge.right - left) <= FINE and edge.low < high and edge.high > low


def _strip(proved: Proved, run: Sequence[Pass]) -> Strip | None:
    numbers = [one.no - 1 for one in run]
    found = [stage for _, stage in _stages(proved.trace) if stage.operation in numbers]
    if not found:
        return None
    operations = [proved.trace.operations[one.no - 1] for one in run]
    seen, hidden = edges_from_above(found[-1].standing)
    walls = [wall for wall in set(_walls(run, operations))
             if any(abs(wall - edge) <= FINE for edge in (*seen, *hidden))]
    return Strip(seen, hidden, tuple(sorted(walls)), operations[-1].x,
                 operations[-1].form.radius, tuple(dict.fromkeys(one.feed for one in run)))


def _walls(run: Sequence[Pass], operations: Sequence[Operation]) -> Iterator[int]:
    """Where the walls stand that a group leaves: on the left of the cutter's way where it cuts conventionally, on the
    right where it climbs, else on both sides."""
    back = [one for each, one in zip(run, operations, strict=True) if _cuts(each, Fed.RIGHT)]
    front = [one for each, one in zip(run, operations, strict=True) if _cuts(each, Fed.LEFT)]
    if back:
        yield max(one.x + one.form.radius for one in back)
    if front:
        yield min(one.x - one.form.radius for one in front)


def _cuts(one: Pass, way: Fed) -> bool:
    """Whether a pass cuts the wall on the left of whoever goes that way."""
    return one.direction == Direction.BOTH or (one.feed == way) == (one.direction != Direction.CLIMB)


def edges_from_above(standing: Region) -> tuple[tuple[int, ...], tuple[int, ...]]:
    """Where edges of what stands run, as they are seen from above, and those that metal hides.

    >>> from crib.geometry.region import box
    >>> edges_from_above(box(-9, -9, 9, 0) - box(-2, -5, 2, 0) - box(-4, -5, 4, -3))
    ((-9, -2, 2, 9), (-4, 4))
    """
    corners = {(x, z) for slab in standing.slabs for s in slab.spans for x, z in (
        (s.left_low, slab.low), (s.right_low, slab.low), (s.left_high, slab.high), (s.right_high, slab.high))
        if abs(x) < FAR // 2 and z > standing.slabs[0].low}
    seen = {x for x, z in corners if not _covered(standing, x, z)}
    return tuple(sorted(seen)), tuple(sorted({x for x, _ in corners} - seen))


def _covered(standing: Region, x: int, z: int) -> bool:
    """Whether metal stands over a place, on both sides of it."""
    return any(max(s.left_low, s.left_high) < x < min(s.right_low, s.right_high)
               for slab in standing.slabs if slab.low >= z for s in slab.spans)

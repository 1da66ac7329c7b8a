"""What to draw of a proved plan from above: the cutter at the end stop of the pass that is tightest."""

from __future__ import annotations

from collections.abc import Iterator

from crib.geometry.cleared import Cleared
from crib.geometry.faces import FINE
from crib.geometry.operation import Operation
from crib.geometry.outline import Opening
from crib.geometry.region import FAR
from crib.geometry.rounded_box import RoundedBox
from crib.geometry.silhouette import Part
from crib.geometry.trace import Trace
from crib.geometry.view import Spot, View
from crib.machining.chain import Chain
from crib.machining.ends import zero_along
from crib.machining.words import Seen
from crib.pages.scene import DimensionLine, FromAbove, HolesFromAbove
from crib.planning.dialled.finish import Proved
from crib.planning.told.advice import TightSpot
from crib.units import nm


def seen_from_above(proved: Proved) -> FromAbove | None:
    """The scene from above; None where no end is closed, or where there is only one wall."""
    trace, question = proved.trace, proved.draft.question
    if trace.plan is None or any(room.opens(Opening.RIGHT) for room in question.outline.rooms):
        return None
    number = _deciding(proved, trace.plan)
    operation, one = trace.operations[number], proved.plan.passes[number]
    zero, is_open = zero_along(proved.draft), question.feature.request.ends == "one"
    place, near = _end_stop(trace, number, zero, is_open)
    corner = operation.path[place]
    finished, before = trace.cleared(), zero if is_open else -FAR
    opening, under = (of_the_cut(finished, z, before) for z in (-1, operation.z))
    spot = trace.metal_at(near, corner) if near else None
    hole = max((one.radius for one in question.layers.holes), default=0) if question.layers else 0
    names = [room.name for room in question.outline.rooms]
    along, across = one.dial_path_mm[place] if one.dial_path_mm else (one.stop_mm or 0.0, one.dial_x_mm)
    return FromAbove(
        opening=opening, under=under, teeth=operation.form.radius, body=_body(operation, near), x_nm=corner[0],
        y_nm=corner[1], zero=zero, pass_no=one.no, along_mm=along, across_mm=across, spot=spot,
        tight=TightSpot.of(near) if near and spot else None, hole=hole, is_open=is_open,
        dimensions=tuple(_sizes(before, opening, under, names, hole)),
    )


def holes_from_above(proved: Proved) -> HolesFromAbove | None:
    """Holes round a circle from above, each where it is dialled; None where there is no circle."""
    circle, plan = proved.draft.question.feature.circle, proved.plan
    if circle is None:
        return None
    at, around = circle.middle or (0.0, 0.0), nm(circle.diameter.mid / 2)
    middle = nm(at[0]), nm(at[1])
    wide = nm((proved.draft.hole.expected_mm if isinstance(proved.draft, Chain) and proved.draft.hole
               else circle.widest_mm) / 2)
    return HolesFromAbove(tuple((nm(one.dial_x_mm), nm(one.dial_y_mm)) for one in plan.places), wide, middle, around, (
        DimensionLine("circle", True, middle[0] - around, middle[0] + around),))


def of_the_cut(cleared: Cleared, z: int, before: int) -> frozenset[RoundedBox]:
    """What is clear just over a height, to the right of the end that is open; without the air beside a round bar, which
    has no end."""
    return frozenset(shape for shape in cleared.just_over(z)
                     if before < shape.right + shape.radius and shape.right < FAR // 2)


def ends(shapes: frozenset[RoundedBox]) -> tuple[int, int]:
    """From where to where some shapes run.

    >>> ends(frozenset({RoundedBox(0, 0, 9, 0, 3)}))
    (-3, 12)
    """
    return min(one.left - one.radius for one in shapes), max(one.right + one.radius for one in shapes)


def _deciding(proved: Proved, plan: View) -> int:
    """The pass to look at: the one that the plan tells as the tightest, else the tightest from above, else the last."""
    tight = proved.plan.proof.tight
    if tight and (tight.view == Seen.PLAN or proved.trace.elevation.is_tight_inside):
        return tight.pass_no - 1
    return plan.tight.operation if plan.tight else plan.stages[-1].operation


def _end_stop(trace: Trace, number: int, zero: int, is_open: bool) -> tuple[int, Spot | None]:
    """Which of the corners at the stops of a pass is the tightest, the farthest of those alike, and what is near. Of
    two at the one closed end it is the one where the pass cuts on its way out."""
    path, later = trace.operations[number].path, -1 if is_open else 1
    stops = {max(x for x, _ in path)} | ({min(x for x, _ in path)} - {x for x, _ in path if x < zero})
    found = [(place, trace.tight_at(number, corner)) for place, corner in enumerate(path) if corner[0] in stops]
    return min(found, key=lambda one: (one[1].gap // FINE if one[1] else 0, -path[one[0]][0], later * one[0]))


def _body(one: Operation, near: Spot | None) -> Part | None:
    """What stands over the teeth: what is tightest, else the lowest that is down in the work."""
    if near:
        return near.part
    return min((part for part in one.form.clear if one.z + part.low < 0), key=lambda part: part.low, default=None)


def _sizes(
    before: int, opening: frozenset[RoundedBox], under: frozenset[RoundedBox], names: list[str], hole: int
) -> Iterator[DimensionLine]:
    """How long the feature is, how far the room under its lip runs, and how wide its entry hole is."""
    if hole:
        yield DimensionLine("entry hole", True, -hole, hole)
    for name, shapes in (("length", opening), (names[-1], under)):
        if name == "length" or (len(names) > 1 and shapes != opening):
            left, right = ends(shapes)
            yield DimensionLine(name, True, max(before, left), right)

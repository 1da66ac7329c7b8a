"""The room that an operation of a part wants beyond its own feature: over the surface that the feature lies in, and
beyond the ends at which it is open. What it meets within its own feature was proved there, in metal all around.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from crib.features.base import Feature
from crib.geometry.operation import Frame, Operation
from crib.geometry.region import FAR
from crib.geometry.rounded_box import RoundedBox
from crib.light.tuples import NamedTuple
from crib.parts.part import Part, Place, Placed
from crib.parts.solids import Run, axes, run_of
from crib.planning.parts.above import Above, Box
from crib.planning.parts.abstract import Way
from crib.planning.parts.lies import drawn_of, is_over, moved_over
from crib.planning.told.passes import Pass
from crib.units import nm

_SKIN = 100_000
"""What lies no higher over a feature's surface goes with it: less than the clearance over the work is [nm]."""

_TOUCH = 2_000
"""What reaches no farther into metal touches it [nm]."""

_UPRIGHT = "upright"


class Room(NamedTuple):
    """What must be free between two heights: its shape from above, what of the cutter or its holder fills it, and
    whether it lies beyond an end of its feature."""

    low: int
    high: int
    shape: RoundedBox
    what: str
    is_beyond: bool = False


class Body(NamedTuple):
    """A part of what turns, with the room round it that it asks for: heights over the lower face, and radius."""

    what: str
    low: int
    high: int
    radius: int




def rooms_of(part: Part, placed: Placed, way: Way, number: int) -> frozenset[Room] | None:
    """All the room that a go wants beyond its feature; None where that can't be told as the work lies."""
    question, plan = way.choice.draft.question, way.choice.proof.plan
    feature, over = drawn_of(question), is_over(question)
    above = Above.of(part.stock, way.lie.face)
    mine = way.choice.passes(number)
    some = way.choice.proof.trace.operations[mine]
    found: set[Room] = set()
    if feature.down is not None and feature.tilts:
        return frozenset() if all(place.level * 1e6 <= _SKIN for place in placed.places) else None
    if feature.down is not None:
        for one in some:
            if one.frame is Frame.AXIS and one.axis == 0:
                found |= set(_down(part, placed, feature, above, one))
        return frozenset(found)
    seen = _seen_over if over else _seen_upright
    if not over and question.setup.name != _UPRIGHT:
        return frozenset() if all(_is_plain(part, place, feature) for place in placed.places) else None
    told = plan.passes[mine]
    for place in placed.places:
        run = run_of(part.stock, place, feature)
        for one, pass_ in zip(some, told, strict=True):
            found |= set(seen(way, above, Laid(run, feature, place), one, pass_))
    return frozenset(found)


def _is_plain(part: Part, place: Place, feature: Feature) -> bool:
    """Whether nothing can stand over a feature's surface, nor beyond its ends."""
    run = run_of(part.stock, place, feature)
    whole = run.frame.length if run.place.runs.value == "along" else run.frame.width
    return place.level * 1e6 <= _SKIN and run.begin * 1e6 <= _TOUCH and (run.end - whole) * 1e6 >= -_TOUCH


def bodies(one: Operation) -> Iterator[Body]:
    """What turns, with its clearances; what comes down an axis has come through all that is over it."""
    through = one.frame is Frame.AXIS
    for part in one.form.may:
        yield Body(part.name, part.low, FAR if through else part.high, part.widest)
    for part in one.form.clear:
        yield Body(part.name, part.low - part.end, FAR if through else part.high + part.end, part.widest + part.side)


def _down(part: Part, placed: Placed, feature: Feature, above: Above, one: Operation) -> Iterator[Room]:
    for axis in axes(part, placed, feature):
        x, y = (nm(axis.point[number]) for number in above.plan)
        surface = above.heights(nm(axis.point[above.up]), nm(axis.point[above.up]))[0]
        beside = max(abs(one.x), abs(one.start or 0))
        for body in bodies(one):
            low = surface + max(_SKIN, one.z + body.low)
            yield Room(low, surface + min(one.z + body.high, FAR),
                       RoundedBox(x, y, x, y, beside + body.radius - _TOUCH), body.what)


class Laid(NamedTuple):
    """A feature that runs, at one of its places."""

    run: Run
    feature: Feature
    place: Place

    @property
    def begin(self) -> int:
        """Where it begins along its run [nm]."""
        return nm(self.run.begin)

    @property
    def end(self) -> int:
        """Where it ends."""
        return nm(self.run.end)

    @property
    def is_from_the_end(self) -> bool:
        """Whether its open end is the far one: then it counts from there."""
        if self.feature.request.ends != "one":
            return False
        whole = self.run.frame.length if self.run.place.runs.value == "along" else self.run.frame.width
        return self.run.begin > whole - self.run.end

    def along(self, value: float) -> int:
        """A place along its run of one along the feature."""
        return self.end - round(value) if self.is_from_the_end else self.begin + round(value)

    def box(self, run: tuple[int, int], right: tuple[int, int], out: tuple[int, int]) -> Box:
        """From where to where a box of the feature's own directions lies in the part."""
        ends = [self.run.at(a / 1e6, b / 1e6, c / 1e6) for a, b, c in zip(run, right, out, strict=True)]
        first, last = ends
        spans = [tuple(sorted((nm(a), nm(b)))) for a, b in zip(first, last, strict=True)]
        return spans[0], spans[1], spans[2]  # type: ignore[return-value]


def path_of(laid: Laid, way: Way, one: Operation, told: Pass) -> list[tuple[int, int]]:
    """The corners of a pass: along the run, and across to the right."""
    if one.path:
        layers = way.choice.draft.question.layers
        zero = min(ends.left for ends in layers.ends.values()) if layers and layers.ends else 0
        return [(laid.along(along - zero), across) for along, across in one.path]
    ends = (told.enters_mm, told.leaves_mm)
    length = laid.feature.length
    enters, leaves = (value if value is not None else at for value, at in zip(ends, (0.0, length), strict=True))
    return [(laid.along(enters * 1e6), one.x), (laid.along(leaves * 1e6), one.x)]


def _seen_upright(way: Way, above: Above, laid: Laid, one: Operation, told: Pass) -> Iterator[Room]:
    """With the axis square to the surface: all over it, and beyond its open ends and the edge at which it opens all
    that is under it too."""
    corners = path_of(laid, way, one, told)
    for body in bodies(one):
        low, high, radius = one.z + body.low, min(one.z + body.high, FAR), body.radius - _TOUCH
        for (a, x), (b, y) in [*pairwise(corners)] or [(corners[0], corners[0])]:
            run, right = tuple(sorted((a, b))), tuple(sorted((x, y)))
            if high > _SKIN:
                yield _room(above, laid.box(run, right, (max(low, _SKIN), high)), radius, body.what)  # type: ignore[arg-type]
            edge, over = laid.feature.outline.stock.bounds()[2] + _TOUCH, right[1] + radius
            if low < 0 and edge < over:
                yield _room(above, laid.box(run, (edge, over), (low, min(high, 0))), 0, body.what)  # type: ignore[arg-type]
            if low < 0 and told.dial_from_mm is None:
                wide = right[0] - radius, right[1] + radius
                for beyond in _beyond(laid, run[0] - radius, run[1] + radius):
                    yield _room(above, laid.box(beyond, wide, (low, min(high, 0))), 0, body.what, True)


def _seen_over(way: Way, above: Above, laid: Laid, one: Operation, told: Pass) -> Iterator[Room]:
    """With the axis along the surface: its section is turned, right is up and what was up lies to the right."""
    dx, dz = (nm(by) for by in moved_over(way.choice.draft.question))
    corners, out = path_of(laid, way, one, told), one.x - dx
    run = tuple(sorted((corners[0][0], corners[-1][0])))
    for body in bodies(one):
        right = one.z + body.low - dz, min(one.z + body.high - dz, FAR)
        radius = body.radius - _TOUCH
        if out + radius > _SKIN:
            yield _room(above, laid.box(run, right, (max(out - radius, _SKIN), out + radius)), 0, body.what)  # type: ignore[arg-type]
        for beyond in _beyond(laid, run[0] - radius, run[1] + radius):
            yield _room(above, laid.box(beyond, right, (out - radius, min(out + radius, 0))), 0, body.what, True)


def _beyond(laid: Laid, begin: int, end: int) -> Iterator[tuple[int, int]]:
    """What lies beyond the open ends of a feature."""
    closed = laid.feature.request.ends == "one"
    if begin < laid.begin - _TOUCH and not (closed and laid.is_from_the_end):
        yield begin, laid.begin - _TOUCH
    if end > laid.end + _TOUCH and not (closed and not laid.is_from_the_end):
        yield laid.end + _TOUCH, end


def _room(above: Above, box: Box, radius: int, what: str, is_beyond: bool = False) -> Room:
    layer = above.layer(box, radius)
    shape = layer.shape
    if not radius:
        shape = RoundedBox(shape.left, shape.low, max(shape.left, shape.right), max(shape.low, shape.high), 0)
    return Room(layer.low + _TOUCH, layer.high - _TOUCH, shape, what, is_beyond)

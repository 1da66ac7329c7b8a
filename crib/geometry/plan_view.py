"""Operations followed from above. A part that clears in the cross-section and in the lengthwise section can still stand
in the metal at a round end: here it is seen."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial
from itertools import pairwise

from crib.geometry.arcs import quarter
from crib.geometry.box_outline import clearance, holds
from crib.geometry.cleared import Cleared, Slab, segments
from crib.geometry.faces import FINE
from crib.geometry.layers import Layer, Layers
from crib.geometry.left_over import NOWHERE, farthest_left, left_over
from crib.geometry.operation import Frame, Operation
from crib.geometry.rounded_box import RoundedBox
from crib.geometry.silhouette import Part
from crib.geometry.view import Remains, Spot, Stage, View


def follow(layers: Layers, operations: Sequence[tuple[int, Operation]]) -> View:
    """Follow the operations in order, and measure what comes of them in every layer."""
    cleared = Cleared.of(layers)
    stages, stuck, gouge = [], [], 0
    waived = max(layers.fillet, layers.waived)
    last: Operation | None = None
    for number, one in operations:
        if not _comes_down(cleared, one, last):
            stuck.append(number)
        cleared.take(one)
        near = tuple(nearest(cleared, one, number))  # more is cleared later
        stages.append(Stage(number, partial(tuple, near)))
        gouge = max(gouge, _gouge(layers, one))
        last = one
    return View(
        Frame.PLAN, tuple(stages),
        Remains(
            lambda: _left(layers.least, cleared, layers.fillet),
            lambda: _left(layers.must, cleared, waived),
            lambda: next(_standing(layers.must, cleared, waived), None) is None,
        ),
        gouge=gouge,
        stuck=tuple(stuck),
    )


def _comes_down(cleared: Cleared, one: Operation, last: Operation | None) -> bool:
    if one.free is None:
        return last is not None and (last.form, last.z, last.path[-1]) == (one.form, one.z, one.path[0])
    return one.free <= 0 or cleared.is_free(one.path[0], one.z, one.free)


def nearest(cleared: Cleared, one: Operation, number: int = 0) -> Iterator[Spot]:
    """How near each part that must not touch comes to what stands, over the whole way."""
    for part in one.form.clear:
        low, high = one.z + part.low, min(cleared.top, one.z + part.high)
        if low - part.end >= cleared.top:
            continue
        seen: set[tuple[frozenset[RoundedBox], bool]] = set()
        for slab in cleared.slabs(low - part.end, high + part.end, (low, high)):
            beside = slab.low >= low and slab.high <= high
            for shapes in slab.clear:
                if (shapes, beside) not in seen:
                    seen.add((shapes, beside))
                    yield from _along(part, shapes, one, number, slab.high if beside else None)


def _along(part: Part, shapes: frozenset[RoundedBox], one: Operation, number: int, z: int | None) -> Iterator[Spot]:
    """The nearest of a part at one height; under or over it only whether it has the room that it asks for."""
    radius = part.widest
    room, core = min((clearance(core, shapes), core) for core in segments(one.path))
    room = max(room, -float(NOWHERE))
    slack = round(room) - radius - part.side
    if z is None and slack >= 0:
        return
    ends = [(core.left, core.low), (core.right, core.high)]
    x, y = min(ends, key=lambda end: clearance(RoundedBox(end[0], end[1], end[0], end[1], 0), shapes))
    gap = round(room) - radius if z is not None else 0
    yield Spot(number, Frame.PLAN, part, gap, slack, y, one.z + part.low if z is None else z, x)


def _gouge(layers: Layers, one: Operation) -> int:
    """How far a step touches beyond `most`, in every layer."""
    floor, deepest = min(layer.low for layer in layers.most), 0.0
    edges = sorted({layers.top, *(z for layer in layers.most for z in (layer.low, layer.high))})
    for part in one.form.may:
        low, high = one.z + part.low, min(layers.top, one.z + part.high)
        deepest = max(deepest, floor - low if low < floor else 0)
        for bottom, top in pairwise(sorted({low, high, *(z for z in edges if low < z < high)})):
            rooms = [layer.shape for layer in layers.most if layer.low < top and layer.high > bottom]
            radius = max(part.radius_at(z - one.z) for z in (bottom, top))
            for piece in segments(one.path):
                out = min((room.reaches(piece) + radius for room in rooms), default=0.0)
                deepest = max(deepest, out)
    return round(deepest)


def _left(must: Sequence[Layer], cleared: Cleared, fillet: int) -> int:
    """The greatest distance from what should be gone and isn't to what is."""
    return farthest_left(_standing(must, cleared, fillet))


def left_in_the_floor(layers: Layers, cleared: Cleared) -> int:
    """How far what must go stands in the floor's edge, as high as an owner may let it stand there: at the ends too,
    where a length with little band shows more of a body's round than the section of a wide width does. Nought where
    it stands no farther than just over the edge. A room with corners is made from above by bodies that widen upwards:
    there it stands farthest at the floor."""
    must = layers.least if layers.corners else layers.must
    if not must or layers.waived <= layers.fillet:
        return 0
    floor = min(layer.low for layer in must)
    edge = floor + layers.waived
    at_floor, over = cleared.just_over(floor), cleared.just_over(edge)
    lowest = [layer for layer in must if layer.low == floor and layer.high > edge]
    if at_floor == over:
        return 0
    if layers.corners:
        left = farthest_left((layer.shape.inset(layers.fillet), at_floor) for layer in lowest)
    else:
        left = _left([layer._replace(high=edge) for layer in lowest], cleared, layers.fillet)
    less = left - FINE
    return 0 if left <= FINE or any(left_over(layer.shape, over, less) > less for layer in lowest) else left


def _standing(must: Sequence[Layer], cleared: Cleared, fillet: int
              ) -> Iterator[tuple[RoundedBox, frozenset[RoundedBox]]]:
    """What should be gone at a height and isn't, with what is. What a fillet leaves to be gone at its foot lies inside
    of what it leaves higher up: where that is gone, all of it is."""
    for layer in must:
        for straight, wanted in _wanted(layer, min(one.low for one in must), cleared, fillet).items():
            most = layer.shape.inset(min(inset for *_, inset in wanted))
            if not holds(most, straight):
                pairs = dict.fromkeys((layer.shape.inset(inset), slab.clear_at(end)) for slab, end, inset in wanted)
                yield from (one for one in pairs if not holds(*one))


def _wanted(layer: Layer, floor: int, cleared: Cleared, fillet: int
            ) -> dict[frozenset[RoundedBox], list[tuple[Slab, int, int]]]:
    """By what goes straight up: slabs with one of their ends, and how far what should be gone of a layer there is
    inside of it."""
    found: dict[frozenset[RoundedBox], list[tuple[Slab, int, int]]] = {}
    for slab in cleared.slabs(layer.low, layer.high, [floor + up for _, up in quarter(fillet)]):
        ends = enumerate((slab.low, slab.high))
        found.setdefault(slab.straight, []).extend((slab, end, inset_of(fillet, z - floor)) for end, z in ends)
    return found


def inset_of(fillet: int, up: int) -> int:
    """How far a fillet in a floor's edge stands inwards at a height over the floor [nm]."""
    if up >= fillet:
        return 0
    points = quarter(fillet)
    (out, low), (outer, high) = next(pair for pair in pairwise(points) if pair[1][1] > up or pair[1] == points[-1])
    return fillet - (out + (outer - out) * (up - low) // max(1, high - low))

"""What is clear between closed ends grows from draft to draft: it is the same as built anew from all operations, and
what it grew from stays what it was."""

from __future__ import annotations

from math import hypot

from hypothesis import given, settings
from hypothesis import strategies as st

from crib.geometry.cleared import Cleared, segments
from crib.geometry.layers import Layer, Layers
from crib.geometry.operation import Operation
from crib.geometry.rounded_box import HALF, RoundedBox
from crib.geometry.silhouette import Part, Silhouette
from crib.machining.ends.entry import Opened
from crib.machining.ends.opened import elbowed

SMALL = st.integers(-12, 12)
LAYERS = Layers((), (), (Layer(-9, 0, RoundedBox(2, 1, 7, 4, 2)),))
"""Something that was free before."""


@st.composite
def bodies(draw: st.DrawFn) -> Silhouette:
    """A few parts one upon the other, of which some lean."""
    low, parts = 0, []
    for number in range(draw(st.integers(1, 3))):
        radii = st.integers(0 if number == 0 else 1, 6)
        below, high = draw(radii), low + draw(st.integers(1, 5))
        parts.append(Part("teeth", low, high, below, draw(st.one_of(st.just(below), st.integers(1, 6)))))
        low = high
    return Silhouette(tuple(parts), tuple(parts))


@st.composite
def operations(draw: st.DrawFn) -> Operation:
    """A body on a way along and across, of up to three legs."""
    path = elbowed(draw(st.lists(st.tuples(SMALL, SMALL), min_size=1, max_size=3)))
    return Operation.above(draw(bodies()), path, draw(st.integers(-11, 3)))


ROUNDS = st.lists(st.tuples(SMALL, SMALL, st.integers(-12, 0), st.integers(0, 6)), min_size=1, max_size=8)


@settings(max_examples=300)
@given(st.lists(operations(), min_size=1, max_size=5), st.integers(0, 5), ROUNDS)
def test_grown_is_the_same_as_built_anew(every: list[Operation], at: int, rounds: list[tuple[int, int, int, int]]
                                         ) -> None:
    """Slab for slab what all operations together have cleared; the first of them are as if nothing had come after."""
    before, grown = Cleared.of(LAYERS, every[:at]), Cleared.of(LAYERS)
    way_down, ways_grown = Opened.of(LAYERS, every[:at]), Opened.of(LAYERS)
    for one in every:
        grown, ways_grown = grown.grown((one,)), ways_grown.grown((one,))
    anew = before.grown(every[at:])
    assert anew.slabs(-12, 0) == grown.slabs(-12, 0)
    assert before.slabs(-12, 0) == Cleared.of(LAYERS, every[:at]).slabs(-12, 0)
    assert way_down.grown(every[at:]) == ways_grown
    assert way_down == Opened.of(LAYERS, every[:at])
    for x, y, z, radius in rounds:
        assert ways_grown.top((x, y), z, radius) == stands((x, y), z, radius, every)


def stands(at: tuple[int, int], z: int, radius: int, every: list[Operation]) -> int:
    """How far up metal stands over a round, told height by height: at each half one piece alone must hold it."""
    free = [(layer.low, layer.high, layer.shape) for layer in LAYERS.before]
    free += [(one.z + part.low, one.z + part.high, leg.grown(min(part.radius_low, part.radius_high)))
             for one in every for leg in segments(one.path) for part in one.form.sure]
    height = 0
    while height > z and any(low < height <= high and shape.off(*at) + radius <= HALF for low, high, shape in free):
        height -= 1
    return max(z, height)


@settings(max_examples=300)
@given(st.lists(operations(), min_size=1, max_size=5), ROUNDS)
def test_what_leans_is_left_out_only_where_something_upright_holds_it(
        every: list[Operation], rounds: list[tuple[int, int, int, int]]) -> None:
    """Whether a point is clear at a height is told by the bodies themselves, one by one."""
    grown = Cleared.of(LAYERS)
    for one in every:
        grown = grown.grown((one,))
    for x, y, z, _ in rounds:
        slab = grown.slabs(z, z + 1)[0] if z < 0 else None
        if slab is not None:
            held = any(shape.off(x, y) < -HALF for shape in slab.clear[0])
            assert held == is_cut(x, y, z, every)


def is_cut(x: int, y: int, z: int, every: list[Operation]) -> bool:
    """Whether a point just over a height is well inside of what was free or some body passed over."""
    if any(layer.low <= z < layer.high and layer.shape.off(x, y) < -HALF for layer in LAYERS.before):
        return True
    for one in every:
        for part in one.form.sure:
            if one.z + part.low <= z < one.z + part.high:
                radius = part.radius_low + (part.radius_high - part.radius_low) * (z - one.z - part.low) // (
                    part.high - part.low)
                if any(leg.grown(radius).off(x, y) < -HALF for leg in segments(one.path)):
                    return True
    return False


@given(*[st.tuples(SMALL, SMALL, st.integers(0, 9), st.integers(0, 9), st.integers(0, 9))] * 2)
def test_how_far_a_shape_reaches_out_of_another(a: tuple[int, ...], b: tuple[int, ...]) -> None:
    """The farthest corner of its core decides, each taken by itself."""
    one, other = (RoundedBox(x, y, x + wide, y + high, radius) for x, y, wide, high, radius in (a, b))
    corners = [(x, y) for x in (other.left, other.right) for y in (other.low, other.high)]

    def off(x: int, y: int) -> float:
        dx, dy = max(one.left - x, x - one.right), max(one.low - y, y - one.high)
        return (hypot(dx, dy) if dx > 0 and dy > 0 else max(dx, dy)) - one.radius

    assert abs(one.reaches(other) - max(off(x, y) + other.radius for x, y in corners)) < 1e-9

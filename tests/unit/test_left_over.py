"""How far a shape stands out of what others hold, against sums by hand and against points of a fine grid."""

from __future__ import annotations

from itertools import product
from math import hypot

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.geometry.box_outline import holds
from crib.geometry.faces import FINE
from crib.geometry.left_over import NOWHERE, left_over
from crib.geometry.plainly_held import is_held
from crib.geometry.rounded_box import RoundedBox

STEPS = 40


def test_a_thin_strip_along_a_wall_is_found() -> None:
    """A pocket dialled a quarter of a thou short of its left wall told that nothing was left: halving squares never
    came down to so thin a strip."""
    left, low, right, high, radius = -25784175, -10718800, 25803225, 10718800, 4762500
    ring = {RoundedBox(left, low, left, high, radius), RoundedBox(right, low, right, high, radius),
            RoundedBox(left, low, right, low, radius), RoundedBox(left, high, right, high, radius)}
    inside = {RoundedBox(-25530175, y, 25549225, y + 10464800, radius) for y in (-10464800, 0)}
    wanted = RoundedBox(-25516205, -10441305, 25516205, 10441305, 5036820)
    assert left_over(wanted, frozenset(ring | inside)) == pytest.approx(25516205 + 5036820 + left - radius, abs=FINE)


def test_sums_by_hand() -> None:
    """A ring stands over by the difference of its radii; a square corner over a round one by r (sqrt 2 - 1); between
    two rounds the farthest is half-way along the edge of what must go."""
    point = RoundedBox(0, 0, 0, 0, 0)
    assert left_over(point.grown(9_000_000), frozenset({point.grown(7_000_000)})) == pytest.approx(2e6, abs=FINE)
    square = RoundedBox(-10_000_000, -10_000_000, 10_000_000, 10_000_000, 0)
    rounded = RoundedBox(-6_000_000, -6_000_000, 6_000_000, 6_000_000, 4_000_000)
    assert left_over(square, frozenset({rounded})) == pytest.approx(4e6 * (2**0.5 - 1), abs=FINE)
    slot = RoundedBox(-5_000_000, 0, 5_000_000, 0, 3_000_000)
    two = frozenset({RoundedBox(x, 0, x, 0, 3_000_000) for x in (-5_000_000, 5_000_000)})
    assert left_over(slot, two) == pytest.approx(hypot(5e6, 3e6) - 3e6, abs=FINE)


def test_nothing_is_known_of_where_nothing_is_gone() -> None:
    """Without anything gone there is no distance; what others left more of isn't gone into."""
    shape = RoundedBox(0, 0, 9_000_000, 0, 3_000_000)
    assert left_over(shape, frozenset()) == NOWHERE
    assert left_over(shape, frozenset({shape.grown(-1_000_000)}), 2_000_000) == 2_000_000


_mm = st.integers(-12, 12).map(lambda tenths: tenths * 400_000)
_shapes = st.builds(lambda a, b, c, d, radius: RoundedBox(min(a, b), min(c, d), max(a, b), max(c, d), radius),
                    _mm, _mm, _mm, _mm, st.integers(1, 8).map(lambda tenths: tenths * 500_000))


@given(_shapes, st.frozensets(_shapes, min_size=1, max_size=5))
def test_as_points_of_a_grid_say(shape: RoundedBox, shapes: frozenset[RoundedBox]) -> None:
    """No point of the shape is farther than what is told, and one of the grid is as far but for its step."""
    left, low, right, high, radius = shape
    wide, tall = (right - left + 2 * radius) / STEPS, (high - low + 2 * radius) / STEPS
    points = ((left - radius + i * wide, low - radius + k * tall) for i, k in product(range(STEPS + 1), repeat=2))
    farthest = max((min(one.off(*at) for one in shapes) for at in points if shape.off(*at) <= 0), default=0.0)
    told = left_over(shape, shapes)
    assert farthest <= told + FINE
    assert told <= max(farthest, 0) + 2 * hypot(wide, tall) + 2 * FINE


@given(_shapes, st.frozensets(_shapes, min_size=1, max_size=5))
def test_what_is_plainly_held_is_so_at_points_of_a_grid(shape: RoundedBox, shapes: frozenset[RoundedBox]) -> None:
    """Where it is plain that a shape is held no point of it is outside of all, and where it plainly isn't something
    stands out of them."""
    plain = is_held(shape, shapes)
    if plain is None:
        return
    left, low, right, high, radius = shape
    wide, tall = (right - left + 2 * radius) / STEPS, (high - low + 2 * radius) / STEPS
    points = ((left - radius + i * wide, low - radius + k * tall) for i, k in product(range(STEPS + 1), repeat=2))
    outside = [point for point in points if shape.off(*point) <= 0 and all(one.off(*point) > 1 for one in shapes)]
    assert not (plain and outside)
    assert plain or left_over(shape, shapes, 0) > 0
    assert holds(shape, shapes) is plain


def test_a_round_across_a_strip_is_seen() -> None:
    """The right end of a strip stood beyond two rounds that cross it, with neither an end of their edges nor a corner
    of the strip near: it was told to be gone. At x = 1.71 mm the nearer round, about (.335, .19), ends at .97."""
    strip = RoundedBox(0, 0, 1_710_000, 185_000, 0)
    rounds = frozenset({RoundedBox(335_000, 190_000, 335_000, 1_685_000, 635_000),
                        RoundedBox(665_000, 1_440_000, 850_000, 1_820_000, 500_000)})
    assert not holds(strip, rounds)

"""A body's way in one piece: what its parts sweep one by one."""

from __future__ import annotations

from random import Random

from crib.geometry.drawn_body import _Bulge, swept
from crib.geometry.region import Region, union
from crib.geometry.silhouette import Part


def _stack(random: Random, radii: list[int]) -> tuple[Part, ...]:
    """Parts on top of one another, their radii in turn; upright ones a little into their neighbours now and then."""
    parts, z = [], 0
    for low, high in zip(radii, [*radii[1:], radii[-1]], strict=True):
        tall, spare = random.randint(50, 400), random.choice((0, 5)) if low == high else 0
        parts.append(Part("removes", z - spare, z + tall + spare, low, high))
        z += tall
    return tuple(parts)


def _differ(one: Region, other: Region) -> int:
    return (one - other).area + (other - one).area


def test_what_gets_wider_and_then_narrower_sweeps_one_piece() -> None:
    """The piece is the union of what its parts pass over; a body that is no bulge isn't taken for one."""
    random = Random(3)
    for _ in range(300):
        up, down = random.randint(0, 3), random.randint(0, 3)
        most = random.randint(400, 600)
        radii = [*sorted(random.randint(50, most) for _ in range(up)), most, most,
                 *sorted((random.randint(50, most) for _ in range(down)), reverse=True)]
        parts = _stack(random, radii)
        bulge, span, low = _Bulge.of(parts), (-random.randint(0, 999), random.randint(0, 999)), random.randint(-999, 0)
        high = low + random.choice((0, random.randint(1, 900)))
        assert bulge is not None
        whole = union(swept(parts, span, low, high))
        assert _differ(bulge.swept(span, low, high), whole) <= whole.area // 200  # edges end on whole nanometres
    waisted = (Part("removes", 0, 9, 5, 5), Part("removes", 9, 20, 3, 3), Part("removes", 20, 30, 5, 5))
    assert _Bulge.of(waisted) is None
    assert _Bulge.of((waisted[0], waisted[2])) is None

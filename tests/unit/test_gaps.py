"""How near a part comes to metal: the nearest of all its pieces, whichever is asked first."""

from __future__ import annotations

from random import Random

from crib.geometry.gaps import are_surely_clear, gaps
from crib.geometry.region import Region
from crib.geometry.silhouette import Part
from crib.geometry.slabs import Slab, Span


def _metal(random: Random) -> Region:
    slabs, z = [], 0
    for _ in range(random.randint(1, 5)):
        z += random.choice((0, random.randint(1, 50)))
        tall, left, spans = random.randint(1, 60), -200, []
        for _ in range(random.randint(1, 2)):
            begin, lean = left + random.randint(40, 90), random.choice((0, random.randint(-20, 20)))
            end = begin + random.randint(25, 90)
            spans.append(Span(begin, end, begin + lean, end + random.choice((lean, 0))))
            left = max(end, end + lean)
        slabs.append(Slab(z, z + tall, tuple(spans)))
        z += tall
    return Region(tuple(slabs))


def _part(random: Random) -> Part:
    low, radius = random.randint(-5, 60), random.randint(1, 40)
    return Part("neck", low, low + random.randint(1, 60), radius, radius + random.choice((0, 5)), random.randint(0, 6),
                random.randint(0, 6))


def test_what_is_surely_clear_has_the_room_that_it_asks_for() -> None:
    """And where neither metal nor part leans, what has it is."""
    random, told = Random(11), [0, 0, 0]
    for _ in range(2000):
        metal, part, x, z = _metal(random), _part(random), random.randint(-250, 250), random.randint(-90, 150)
        if random.random() < 0.5:
            part = part._replace(radius_high=part.radius_low)
            metal = Region(tuple(Slab(slab.low, slab.high, tuple(Span(s[0], s[1], s[0], s[1]) for s in slab.spans))
                                 for slab in metal.slabs))
        is_clear = all(gap.slack >= 0 for gap in gaps((part,), metal, x, z))
        is_told = are_surely_clear((part,), metal, x, z)
        leans = part.radius_low != part.radius_high or any(
            s[0] != s[2] or s[1] != s[3] for slab in metal.slabs for s in slab.spans)
        assert is_clear >= is_told and (leans or is_clear == is_told)
        told[is_clear + is_told] += 1
    assert all(told)


def test_the_nearest_piece_of_metal_is_found_in_any_order() -> None:
    """What a part has to spare of a region is the least that it has of the pieces by themselves, and so is how near it
    comes."""
    random = Random(7)
    for _ in range(400):
        metal, low, radius = _metal(random), random.randint(-5, 60), random.randint(1, 40)
        part = Part("neck", low, low + random.randint(1, 60), radius, radius + random.choice((0, 5)),
                    random.randint(0, 6), random.randint(0, 6))
        x, z = random.randint(-250, 250), random.randint(-90, 150)
        alone = [gap for slab in metal.slabs for span in slab.spans
                 for gap in gaps((part,), Region((Slab(slab.low, slab.high, (span,)),)), x, z)]
        found = gaps((part,), metal, x, z)
        assert min(gap.slack for gap in found) == min(gap.slack for gap in alone)
        assert min(gap.gap for gap in found) == min(gap.gap for gap in alone)

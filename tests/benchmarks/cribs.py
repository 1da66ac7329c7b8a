"""Made-up cribs of any size for timing: the drawers of a shop that bought and was given cutters for years. The same
number gives the same crib."""

from __future__ import annotations

from random import Random

from crib.cutters import KINDS
from crib.cutters.base import Cutter

INCH = 25.4


def crib(count: int) -> list[Cutter]:
    """So many cutters: two fifths end mills, two fifths discs, the rest of all kinds; no two alike but by chance."""
    chance = Random(count)
    make = [_end_mill, _end_mill, _disc, _disc, _other]
    return [make[number % len(make)](chance, number + 1) for number in range(count)]


def _end_mill(chance: Random, number: int) -> Cutter:
    size = chance.randrange(8, 65) / 64 * INCH
    worn = chance.choice([0.0, 0.0, chance.randrange(1, 20) / 1000 * INCH])
    return Cutter(
        number, "end-mill", nominal_mm=round(size, 6), diameter_mm=round(size - worn, 6), reground=worn > 0,
        flutes=chance.choice([2, 2, 3, 4, 4]), length_of_cut_mm=round(chance.uniform(1, 3) * size, 6),
        shank_mm=round(max(3 / 8, round(size / INCH * 8) / 8) * INCH, 6), condition=chance.choice(["sharp", "used"]),
        measured=("diameter_mm",) if worn else (),
    )


def _disc(chance: Random, number: int) -> Cutter:
    size = chance.randrange(24, 97) / 64 * INCH
    face = chance.randrange(4, 25) / 64 * INCH
    neck = None if chance.random() < 0.1 else round(size * chance.uniform(0.3, 0.6), 3)
    return Cutter(
        number, chance.choice(["keyseat-cutter", "keyseat-cutter", "t-slot-cutter"]), diameter_mm=round(size, 6),
        face_mm=round(face, 6), neck_mm=neck, reach_mm=round(face + chance.uniform(0.2, 0.9) * INCH, 3),
        shank_mm=0.5 * INCH, flutes=8, condition=chance.choice(["sharp", "used", "unknown"]),
    )


def _other(chance: Random, number: int) -> Cutter:
    example = KINDS[chance.choice(sorted(KINDS))].example
    assert example is not None
    return example.but(id=number)

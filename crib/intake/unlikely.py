"""Sizes of a cutter that can hardly be meant: a 50-inch end mill, a drill of .0004."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.findings.message import a
from crib.units import in_words

_SAME = 0.06
"""So nearly the name's figure in the other unit is it [-]: worn or ground by a sixteenth of it at the most."""

_BOTH = {"diameter_mm", "shank_mm"}

_LONGEST_MM, _THICKEST_SHANK_MM, _LEAST_MM = 610.0, 63.5, 0.1
"""Beyond these a length, a shank or a diameter is hardly meant (common practice, no source)."""


def unlikely(cutter: Cutter) -> Iterator[tuple[str, str]]:
    """Sizes that can hardly be meant, by field, each with the question about it.

    >>> [question for _, question in unlikely(Cutter(0, "end-mill", diameter_mm=1270.0))]
    ['diameter 50 of an end mill: is that meant? it is looked for from .004 to 3']
    >>> [question for _, question in unlikely(Cutter(0, "end-mill", nominal_mm=12.7, diameter_mm=25.4 * 12.68))]
    ['measures 12.680, and 1/2 is what it is called: is that in mm?']
    """
    if cutter.nominal_mm and cutter.diameter_mm:
        times = cutter.diameter_mm / cutter.nominal_mm
        for factor, unit, meant in ((25.4, "in", "mm"), (1 / 25.4, "mm", "inches")):
            if abs(times / factor - 1) < _SAME:
                yield "diameter_mm", (f"measures {in_words(cutter.diameter_mm, unit)}, and "
                                      f"{in_words(cutter.nominal_mm, unit)} is what it is called: is that in {meant}?")
    kind = kind_of(cutter)
    across = "nominal_mm" if cutter.nominal_mm is not None else "diameter_mm"
    largest = kind.speech.largest
    for key, least, most in ((across, _LEAST_MM, largest), ("shank_mm", 1.0, _THICKEST_SHANK_MM),
                             ("face_mm", _LEAST_MM, largest), ("length_of_cut_mm", 0.2, _LONGEST_MM),
                             ("overall_length_mm", 0.2, _LONGEST_MM), ("reach_mm", 0.2, _LONGEST_MM)):
        size = getattr(cutter, key)
        if size is not None and not least <= size <= most:
            name = key.removesuffix("_mm").replace("_", "-").replace("nominal", "diameter")
            yield key, (f"{name} {in_words(size, 'in')} of {a(kind.words)}: is that meant? it is looked for "
                        f"from {in_words(least, 'in')} to {in_words(most, 'in')}")
    yield from _on_its_shank(cutter)


def _on_its_shank(cutter: Cutter) -> Iterator[tuple[str, str]]:
    """A cutter much wider than the shank that turns it: one of both is hardly meant."""
    kind, across, shank = kind_of(cutter), cutter.diameter_mm or cutter.nominal_mm, cutter.shank_mm
    if _BOTH.issubset(cutter.measured):
        return
    if across and shank and not cutter.bore_mm and across > kind.speech.times_shank * shank:
        yield "shank_mm", (f"{a(kind.words)} {in_words(across, 'in')} across on a shank of {in_words(shank, 'in')}: is "
                           "that meant? so thin a shank turns nothing so wide")

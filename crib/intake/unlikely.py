"""Sizes of a cutter that can hardly be meant: a 50-inch end mill, a drill of .0004."""

from __future__ import annotations

from collections.abc import Iterator

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.units import in_words

_LONGEST_MM, _THICKEST_SHANK_MM, _LEAST_MM = 610.0, 63.5, 0.1
"""Beyond these a length, a shank or a diameter is hardly meant (common practice, no source)."""


def unlikely(cutter: Cutter) -> Iterator[tuple[str, str]]:
    """Sizes that can hardly be meant, by field, each with the question about it.

    >>> [question for _, question in unlikely(Cutter(0, "end-mill", diameter_mm=1270.0))]
    ['diameter 50 of an end mill: is that meant? it is looked for from .004 to 3']
    """
    kind = kind_of(cutter)
    across = "nominal_mm" if cutter.nominal_mm is not None else "diameter_mm"
    lengths = ("length_of_cut_mm", "overall_length_mm", "reach_mm")
    bounds = {across: (_LEAST_MM, kind.speech.largest), "shank_mm": (1.0, _THICKEST_SHANK_MM),
              "face_mm": (_LEAST_MM, kind.speech.largest), **dict.fromkeys(lengths, (0.2, _LONGEST_MM))}
    for key, (least, most) in bounds.items():
        size = getattr(cutter, key)
        if size is not None and not least <= size <= most:
            name = key.removesuffix("_mm").replace("_", "-").replace("nominal", "diameter")
            article = "an" if kind.words[0] in "aeiou" else "a"
            yield key, (f"{name} {in_words(size, 'in')} of {article} {kind.words}: is that meant? it is looked for "
                        f"from {in_words(least, 'in')} to {in_words(most, 'in')}")

"""The drills that are made: number, letter, fractional and metric sizes, and the names that they go by."""

from __future__ import annotations

from bisect import bisect_left
from functools import cache

from crib.units import as_fraction, in_words, nm
from crib.units.drills import LETTER_DRILLS, NUMBER_DRILLS

_TENTH = 0.00254
_FRACTIONS_TO = 128
_METRIC: tuple[tuple[float, float, float], ...] = (
    (0.5, 3.0, 0.05), (3.0, 14.0, 0.1), (3.25, 13.75, 0.5), (14.0, 25.0, 0.25), (25.0, 40.0, 0.5),
)
"""From, to, step [mm]. ISO 235 and ISO 10899 sizes, membership from memory; quarters from 3.25 up beside the tenths."""


@cache
def drill_sizes() -> tuple[tuple[float, str], ...]:
    """Every size that is made [mm] with its name, smallest first. Raises nothing.

    References: ASME B94.11M number and letter sizes, cross-checked with an open parts library; fractions are exact;
    metric membership from memory.

    >>> [name for mm, name in drill_sizes() if 4.0 <= mm < 4.1]
    ['4 mm', '#21', '#20']
    """
    found = {nm(n * 25.4 / 64): as_fraction(n * 25.4 / 64) or "" for n in range(1, _FRACTIONS_TO + 1)}
    for low, high, step in _METRIC:
        for place in range(round((high - low) / step) + 1):
            mm = round(low + place * step, 2)
            found.setdefault(nm(mm), f"{mm:g} mm")
    for number, tenths in NUMBER_DRILLS.items():
        found.setdefault(nm(tenths * _TENTH), f"#{number}")
    for letter, tenths in LETTER_DRILLS.items():
        found.setdefault(nm(tenths * _TENTH), letter)
    return tuple((size / 1e6, name) for size, name in sorted(found.items()))


@cache
def drill_names() -> tuple[tuple[float, str], ...]:
    """Every name of every size [mm], smallest first: one size may go by a fraction, a letter and millimetres.

    >>> [name for mm, name in drill_names() if mm in (6.35, 12.7)]
    ['1/4', 'E', '1/2', '12.7 mm']
    """
    named = [(n * 25.4 / 64, as_fraction(n * 25.4 / 64) or "") for n in range(1, _FRACTIONS_TO + 1)]
    named += [(tenths * _TENTH, f"#{number}") for number, tenths in NUMBER_DRILLS.items()]
    named += [(tenths * _TENTH, letter) for letter, tenths in LETTER_DRILLS.items()]
    steps = [round(low + place * step, 2) for low, high, step in _METRIC
             for place in range(round((high - low) / step) + 1)]
    named += [(mm, f"{mm:g} mm") for mm in dict.fromkeys(steps)]
    return tuple(sorted(((nm(mm) / 1e6, name) for mm, name in named), key=lambda one: one[0]))


def made_between(low_mm: float, high_mm: float) -> tuple[tuple[float, str], ...]:
    """The sizes that are made from one size to another [mm].

    >>> made_between(5.39, 5.42)
    ((5.4, '5.4 mm'), (5.4102, '#3'))
    """
    return tuple((mm, name) for mm, name in drill_sizes() if low_mm - 1e-6 <= mm <= high_mm + 1e-6)


def drill_name(mm: float) -> str:
    """What a drill of a size is called; its decimals where no size is within .0002 in.

    >>> drill_name(5.1054), drill_name(6.35), drill_name(4.0)
    ('#7', '1/4', '4 mm')
    """
    sizes = drill_sizes()
    above = bisect_left(sizes, (mm,))
    near = min(sizes[max(0, above - 1):above + 1] or sizes[-1:], key=lambda size: abs(size[0] - mm))
    return near[1] if abs(near[0] - mm) < 0.0002 * 25.4 else in_words(mm, "in")

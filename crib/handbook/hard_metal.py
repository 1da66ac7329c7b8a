"""What hardness does to the speed, the bite and the feed of a metal."""

from __future__ import annotations

from itertools import pairwise

from crib.handbook.materials import Material
from crib.light.records import replace

SPEED_SHARES: tuple[tuple[float, float, float], ...] = (
    (20.0, 1.0, 1.0), (28.0, 5 / 7, 0.85), (32.0, 5 / 7, 0.75), (37.0, 0.5, 0.65), (42.0, 0.36, 0.55),
    (45.0, 0.30, 0.50), (50.0, 0.20, 0.40), (60.0, 0.10, 0.25),
)
"""Hardness [HRC], and the shares of the annealed speed for HSS and for carbide [-]. HSS: 70 ft/min annealed against 50
at 28 to 32 HRC, and 30 to 40 at 37 HRC, are common practice; the rest is from memory."""

BITE_SHARES: tuple[tuple[float, float], ...] = ((20.0, 1.0), (30.0, 0.8), (37.0, 0.6), (45.0, 0.4), (60.0, 0.2))
"""Hardness [HRC], share of the annealed bite and side step [-]. From memory."""

FEED_SHARES: tuple[tuple[float, float], ...] = ((20.0, 1.0), (30.0, 0.75), (37.0, 0.6), (45.0, 0.5), (60.0, 0.3))
"""Hardness [HRC], share of the annealed feed per tooth [-]. From memory."""

_SOURCE = "annealed figure by common practice, its share at this hardness partly from memory"


def at_hardness(material: Material, hrc: float | None) -> Material:
    """The material at a hardness: slower, lighter and finer where that is above the one that its figures are for.

    share = S(HRC) / S(usual), straight between the rows of each table, never above 1

    Parameters: material; hardness [HRC], None for soft. Returns: the same material with its figures for that hardness.
    References: common practice and memory, see the tables.

    >>> from crib.handbook.materials import find_material
    >>> [at_hardness(find_material(m), h).speed_ft_min for m, h in (("4140", 30), ("4140", 37), ("4140 PH", 30))]
    [50.0, 35.0, 50]
    """
    if hrc is None or hrc <= material.usual_hrc:
        return material if hrc is None else replace(material, hrc=hrc)
    hss = _share(tuple((at, share) for at, share, _ in SPEED_SHARES), material, hrc)
    carbide = _share(tuple((at, share) for at, _, share in SPEED_SHARES), material, hrc)
    bite, feed = _share(BITE_SHARES, material, hrc), _share(FEED_SHARES, material, hrc)
    scale = material.scale_ft_min
    return replace(
        material, hrc=hrc, bite_share=bite, carbide_gain=carbide / hss,
        speed_ft_min=round(material.speed_ft_min * hss, 6), feed_factor=material.feed_factor * feed,
        bite_fraction=material.bite_fraction * bite, side_step_mm=material.side_step_mm * bite,
        centre_bite_fraction=material.centre_bite_fraction * bite,
        scale_ft_min=None if scale is None else min(scale, round(material.speed_ft_min * hss)),
        speed_source=_SOURCE, feed_source="from memory", bite_source="from memory", side_step_source="from memory",
    )


Rows = tuple[tuple[float, float], ...]


def _share(rows: Rows, material: Material, hrc: float) -> float:
    return min(1.0, _at(rows, hrc) / _at(rows, material.usual_hrc))


def _at(rows: Rows, hrc: float) -> float:
    """The value at a hardness, straight between the rows, level beyond them."""
    if hrc <= rows[0][0]:
        return rows[0][1]
    for (low, at_low), (high, at_high) in pairwise(rows):
        if hrc <= high:
            return at_low + (at_high - at_low) * (hrc - low) / (high - low)
    return rows[-1][1]

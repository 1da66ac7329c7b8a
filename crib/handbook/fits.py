"""ISO 286 classes of holes and of keyways: how far the limits lie from the size."""

from __future__ import annotations

from crib.findings.errors import CribError

_TO = (3, 6, 10, 18, 30, 50, 80, 120)
_UM = 0.001
_H = {
    "H6": (6, 8, 9, 11, 13, 16, 19, 22), "H7": (10, 12, 15, 18, 21, 25, 30, 35), "H8": (14, 18, 22, 27, 33, 39, 46, 54),
    "H9": (25, 30, 36, 43, 52, 62, 74, 87), "H10": (40, 48, 58, 70, 84, 100, 120, 140),
    "H11": (60, 75, 90, 110, 130, 160, 190, 220), "H12": (100, 120, 150, 180, 210, 250, 300, 350),
}
"""Sizes up to and including [mm]; how much above the size the hole may be [micron]."""

MOST_MM = _TO[-1]
"""The largest size of the table [mm]."""

_SEEN = ("H7", "H11", "H12")


def fit_limits(size_mm: float, name: str) -> tuple[float, float, str]:
    """The limits of a hole of a class [mm], and where they are from. Raises `CribError` for a class or a size that the
    table doesn't have.

    References: ISO 286-1:2010, ISO 286-2; H7 from 3 to 80 mm, H11 and H12 seen on public tables, others from memory.

    >>> [round(mm, 3) for mm in fit_limits(12.0, "H7")[:2]]
    [12.0, 12.018]
    """
    said = name.strip().upper()
    if said not in _H:
        raise CribError("fit", f"fit {name!r} is not one of the table's", name, "one of " + ", ".join(_H))
    return class_limits(size_mm, said)


def class_limits(size_mm: float, name: str) -> tuple[float, float, str]:
    """The limits of a size with a class behind it, whose capital is a hole's and whose small letter a shaft's: as far
    under the size as the hole's are over it [mm]; and where they are from. Raises `CribError`.

    References: as `fit_limits`; a shaft h: ISO 286-1:2010, its upper deviation is nought.

    >>> [round(mm, 3) for mm in class_limits(12.0, "h6")[:2]]
    [11.989, 12.0]
    """
    said = name.strip()
    if said.upper() not in _H:
        raise CribError("fit", f"fit {name!r} is not one of the table's", name,
                        f"one of {', '.join(_H)}, a shaft's the same with a small h; or limits of its own: 5+.002-0")
    if not 0 < size_mm <= _TO[-1]:
        raise CribError("fit", f"the table of {said} ends at {_TO[-1]} mm", f"{size_mm:g}",
                        "limits of its own: 5+.002-0")
    place = next(place for place, most in enumerate(_TO) if size_mm <= most)
    seen = "public tables" if said in _SEEN else "from memory"
    wide = _H[said.upper()][place] * _UM
    low, high = (0.0, wide) if said.startswith("H") else (-wide, 0.0)
    return size_mm + low, size_mm + high, f"ISO 286-2 {said}, {seen}"

"""ISO 286 classes behind a size: how far its limits lie from it."""

from __future__ import annotations

from crib.findings.errors import CribError
from crib.handbook.iso286 import MOST_MM, deviations, source
from crib.light.patterns import pattern

__all__ = ["MOST_MM", "class_limits", "fit_limits"]

_NAME = pattern(r"([A-Za-z]{1,2})(\d{1,2})")


def fit_limits(size_mm: float, name: str) -> tuple[float, float, str]:
    """The limits of a hole of a class [mm], and where they are from. Raises `CribError` for a class or a size that the
    table doesn't have.

    References: ISO 286-1:2010, ISO 286-2.

    >>> [round(mm, 3) for mm in fit_limits(12.0, "H7")[:2]]
    [12.0, 12.018]
    """
    return class_limits(size_mm, name.strip().upper())


def class_limits(size_mm: float, name: str) -> tuple[float, float, str]:
    """The limits of a size with a class behind it, whose capital is a hole's and whose small letter a shaft's [mm]; and
    where they are from. Raises `CribError`.

    References: as `fit_limits`.

    >>> [round(mm, 3) for name in ("h6", "F8") for mm in class_limits(12.0, name)[:2]]
    [11.989, 12.0, 12.016, 12.043]
    """
    found = _NAME.fullmatch(name.strip())
    if found is None:
        raise CribError("fit", f"fit {name!r} is not one of the table's", name,
                        "a class such as H7, F8 or h6; or limits of its own: 5+.002-0")
    letter = found[1].upper() if found[1][0].isupper() else found[1]
    low, high = deviations(size_mm, letter, int(found[2]))
    return size_mm + low, size_mm + high, source(f"{letter}{found[2]}")

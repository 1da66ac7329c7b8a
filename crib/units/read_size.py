"""From what is typed to a size of a feature, with its limits or without."""

from __future__ import annotations

from crib.units.length import Size


def read_size(text: str, units: str, what: str, default_mm: tuple[float, float],
              about_mm: tuple[float, float] | None = None) -> Size:
    """Read a size of a feature, with or without its limits: `5/8+.002-0`, `16mm±.02`, `.500/.502`, `.625`.

    `default_mm` is the (lower, upper) deviation in mm where none was typed, `about_mm` where it was said to be about
    so much. A tolerance without a unit has its size's. Raises `CribError` for nonsense, and where the least size would
    not be above zero.

    >>> size = read_size("5/8+.002-0", "in", "throat", (0.0, 0.0))
    >>> round(size.lo, 4), round(size.hi, 4), size.given
    (15.875, 15.9258, True)
    """
    from crib.units.limits import size_of

    return size_of(text, units, what, default_mm, about_mm or default_mm)

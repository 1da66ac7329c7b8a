"""Positions and lengths in a part's text: read with their sign and nought, and written so that they read back to the
nanometre."""

from __future__ import annotations

from crib.units import as_fraction, nm, read


def read_position(text: str, units: str, what: str) -> float:
    """A position [mm]: a length, nought, or one below it. Raises `CribError`.

    >>> read_position("-1/4", "in", "along"), read_position("0", "in", "along"), read_position("+10", "mm", "along")
    (-6.35, 0.0, 10.0)
    >>> read_position("0mm", "in", "along"), read_position("0 in", "mm", "along"), read_position('0"', "mm", "along")
    (0.0, 0.0, 0.0)
    """
    bare = text.strip()
    sign = -1.0 if bare[:1] in "-−" and bare else 1.0
    bare = bare.lstrip("+-−").strip()
    number = bare.removesuffix("mm").removesuffix("in").removesuffix('"').strip()
    if number and not number.strip("0."):
        return 0.0
    return sign * read(bare, units, what).mm


def exact(mm: float, units: str) -> str:
    """A length or a position as a part's text has it: a fraction of an inch, else exact decimals of a millimetre.

    >>> exact(31.75, "in"), exact(12.3456, "in"), exact(12.5, "mm"), exact(-6.35, "in"), exact(0, "in")
    ('1-1/4', '12.3456mm', '12.5', '-1/4', '0')
    """
    if not nm(mm):
        return "0"
    sign = "-" if mm < 0 else ""
    fraction = as_fraction(abs(mm)) if units == "in" else None
    if fraction and nm(read(fraction, "in").mm) == nm(abs(mm)):
        return sign + fraction
    decimals = f"{abs(mm):.6f}".rstrip("0").rstrip(".")
    return f"{sign}{decimals}{'mm' if units == 'in' else ''}"

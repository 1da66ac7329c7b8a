"""From a length to what a machinist reads: three-decimal inches or millimetres, fractions where a shop says them."""

from __future__ import annotations

from functools import lru_cache
from math import gcd

_SLACK_NM = 300


def show(mm: float, units: str, sign: bool = False, places: int = 3) -> str:
    """A length in the user's units, without the unit. Inches lose the nought before the point.

    >>> show(-13.208, "in"), show(4.445, "in", sign=True), show(4.445, "mm")
    ('-.520', '+.175', '4.445')
    >>> show(0.79375, "in", places=4)
    '.0313'
    """
    value = mm / 25.4 if units == "in" else mm
    value = round(value + (1e-9 if value >= 0 else -1e-9), places) + 0.0
    text = f"{abs(value):.{places}f}"
    if units == "in" and text.startswith("0."):
        text = text[1:]
    lead = "-" if value < 0 else "+" if sign and value > 0 else ""
    return lead + text


def show_apart(first_mm: float, second_mm: float, units: str, places: int = 3) -> tuple[str, str]:
    """Two lengths that are set against each other, with as many places as tell them apart, six at the most.

    >>> show_apart(19.8437, 19.8374, "in"), show_apart(6.35, 5.08, "in")
    (('.7812', '.7810'), ('.250', '.200'))
    """
    for more in range(places, 7):
        found = show(first_mm, units, places=more), show(second_mm, units, places=more)
        if found[0] != found[1]:
            return found
    return show(first_mm, units, places=places), show(second_mm, units, places=places)


def as_fraction(mm: float, largest: int = 64) -> str | None:
    """The fraction of an inch that a shop would say, or None where the length isn't one.

    >>> as_fraction(31.75), as_fraction(5.9531), as_fraction(10.0)
    ('1-1/4', '15/64', None)
    """
    parts = round(mm / 25.4 * largest)
    if parts <= 0 or abs(parts * 25.4 / largest - mm) * 1e6 > _SLACK_NM:
        return None
    whole, rest = divmod(parts, largest)
    if not rest:
        return str(whole)
    by = gcd(rest, largest)
    return f"{whole}-{rest // by}/{largest // by}" if whole else f"{rest // by}/{largest // by}"


@lru_cache(maxsize=4096)
def in_words(mm: float, units: str) -> str:
    """A size as it is said: the fraction in an inch shop where there is one, else decimals with mm named.

    >>> in_words(19.05, "in"), in_words(12.38, "in"), in_words(19.05, "mm"), in_words(10.0, "in")
    ('3/4', '.487', '19.05 mm', '10 mm')
    """
    if units == "mm":
        return f"{mm:.3f}".rstrip("0").rstrip(".") + " mm"
    fraction = as_fraction(mm)
    if fraction:
        return fraction
    if abs(mm * 2 - round(mm * 2)) < 1e-6:
        return f"{mm:.1f}".rstrip("0").rstrip(".") + " mm"
    return show(mm, "in")

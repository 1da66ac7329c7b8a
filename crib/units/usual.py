"""Lengths as they are nearly always written, bare decimals and fractions of an inch, in whole picometres. All others
are read by `crib.units.exact`, which is long in loading."""

from __future__ import annotations

from crib.patterns import pattern

PM = 1_000_000_000
"""Picometres in a millimetre."""

_INCH = 25_400_000_000
_WRITTEN = pattern(r"([0-9]{1,4})(?:[.,]([0-9]{0,8}))?|[.,]([0-9]{1,8})|"
                   r"(?:([0-9]{1,4})(?:-|\s+))?([0-9]{1,4})/([0-9]{1,4})")


def _rounded() -> dict[int, int]:
    """The sixty-fourths of an inch by their four places as the trade prints them: a five is rounded up, or to even."""
    told: dict[int, int] = {}
    for many in range(1, 64):
        whole, rest = divmod(many * 1_000_000 // 64, 100)
        told |= {shown: many for shown in ((whole + 1, whole + whole % 2) if rest == 50 else (whole + (rest > 50),))}
    return told


_ROUNDED = _rounded()


def usual(text: str, units: str) -> tuple[int, str] | None:
    """A length [pm] and the unit that it is in; None for what is written otherwise, or comes on no whole picometre.

    >>> usual(".9688", "in") == usual("31/32", "mm"), usual("1-1/4", "in"), usual("2.5", "mm"), usual("1/3", "in")
    (True, (31750000000, 'in'), (2500000000, 'mm'), None)
    """
    found = _WRITTEN.fullmatch(text)
    if found is None:
        return None
    whole, part, alone, more, top, bottom = found.groups()
    if bottom:
        over = (int(more or 0) * int(bottom) + int(top)) * _INCH
        return None if not int(bottom) or over % int(bottom) else (over // int(bottom), "in")
    figures = part or alone or ""
    if units == "in" and len(figures) == 4 and (many := _ROUNDED.get(int(figures))):
        return int(whole or 0) * _INCH + many * _INCH // 64, "in"
    number = int(f"{whole or ''}{figures}") * (_INCH if units == "in" else PM)
    return number // 10 ** len(figures), units

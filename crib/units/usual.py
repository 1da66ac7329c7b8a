"""Lengths as they are nearly always written, bare decimals and fractions of an inch, in whole picometres, and the
limits behind them. All others are read by `crib.units.exact` and `crib.units.limits`, which are long in loading."""

from __future__ import annotations

from crib.light.patterns import pattern

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


def usual(text: str, units: str, sixty_fourths: bool = True) -> tuple[int, str] | None:
    """A length [pm] and the unit that it is in; None for what is written otherwise, or comes on no whole picometre.
    `sixty_fourths`: whether four places of an inch may stand for one.

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
    if sixty_fourths and units == "in" and len(figures) == 4 and (many := _ROUNDED.get(int(figures))):
        return int(whole or 0) * _INCH + many * _INCH // 64, "in"
    number = int(f"{whole or ''}{figures}") * (_INCH if units == "in" else PM)
    return number // 10 ** len(figures), units


def usual_limits(text: str, units: str) -> tuple[int, int, int] | None:
    """A size with its lower and upper deviation [pm]; None for what is written otherwise.

    >>> usual_limits("5/8 +.002 -0", "in"), usual_limits("16±0.02", "mm")
    ((15875000000, 0, 50800000), (16000000000, -20000000, 20000000))
    """
    size, evenly, both = text.partition("±")
    up, down = both, both
    if not evenly:
        size, _, rest = text.partition("+")
        up, minus, down = rest.partition("-")
        up = up.rstrip().removesuffix("/")
        if not minus or not _is_deviation(up) or not _is_deviation(down):
            return None
    if (told := usual(size.strip(), units)) is None:
        return None
    upper, lower = (usual(one.strip(), told[1], sixty_fourths=False) for one in (up, down))
    return None if upper is None or lower is None else (told[0], -lower[0], upper[0])


def _is_deviation(text: str) -> bool:
    """Whether it is taken for one beside another: no whole inches with a fraction, and no point at its end."""
    return "-" not in text and len(text.split()) == 1 and text.rstrip()[-1].isdigit()

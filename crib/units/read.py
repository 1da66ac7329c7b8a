"""From what is typed to a length: `.410`, `3/4`, `1-1/4`, `#7`, `F`, `10mm`. Its limits: `crib.units.read_size`."""

from __future__ import annotations

from functools import lru_cache

from crib.findings.errors import CribError
from crib.units.length import HELP, Length
from crib.units.usual import PM, usual

LONGEST_MM = 10_000


@lru_cache(maxsize=2048)
def read(text: str, units: str = "in", what: str = "length") -> Length:
    """Read one length.

    A fraction is in inches unless it says otherwise; a bare decimal is in `units`. A decimal of an inch with four
    places that is a sixty-fourth rounded is that sixty-fourth, as the trade prints them (.9688 is 31/32).
    Raises `CribError` for anything that isn't a length above zero.

    >>> read("1-1/4").mm, read("10mm").mm, read("#7").mm, read(".9688").mm == 25.4 * 31 / 32
    (31.75, 10.0, 5.1054, True)
    """
    if (told := usual(text.strip(), units)) is not None and 0 < told[0] <= LONGEST_MM * PM:
        return Length(told[0] / PM, text.strip(), told[1])
    from crib.units.exact import nearest, value_of

    value, unit = value_of(text, units, what)
    if value <= 0:
        raise CribError("length", f"{what} {text.strip()!r} is not above zero", text, f"a size above 0: {HELP}")
    if value > LONGEST_MM:
        raise CribError("length", f"{what} {text.strip()!r} is longer than any mill", text,
                        "at most 393 inches or 10000 mm; look at its point and its unit")
    return Length(nearest(value), text.strip(), unit)

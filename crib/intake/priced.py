"""What a price is for, or what a friend would lend, from shop words."""

from __future__ import annotations

import re

from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.attributes import read_length
from crib.light.patterns import pattern
from crib.shop import Shop

_COLLET = pattern(r"\bcoll?ett?s?\b", re.IGNORECASE)


def read_collet(words: str, units: str) -> float | None:
    """The size of a collet that the words name [mm]; None where they name none. Raises `CribError` without a size.

    >>> read_collet("7/16 collet", "in"), read_collet("3/8 end mill", "in")
    (11.1125, None)
    """
    if not _COLLET.search(words):
        return None
    size = _COLLET.sub("", words).strip()
    return read_length(size, units, "collet")


def read_one(words: str, shop: Shop) -> Cutter:
    """One cutter in shop words. Raises `CribError` where they can't be read, or name several."""
    from crib.intake.shorthand import Shop as By
    from crib.intake.shorthand import read_line

    line = read_line(words, By(shop.units, shop.currency))
    if not line.taken:
        raise CribError("words", f"{words.strip()!r} can't be read: {line.why}", words,
                        line.help or "say its size and kind")
    if len(line.taken) > 1:
        raise CribError("words", f"{words.strip()!r} is {len(line.taken)} cutters", words, "one at a time")
    return line.taken[0].cutter

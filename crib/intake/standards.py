"""Standards that are named in a line: their numbers are no sizes of anything."""

from __future__ import annotations

import re

from crib.light.patterns import pattern

_NAMES = ("din", "jis", "iso", "bs", "ansi", "asme", "usas")
"""One of these stands in each name of a standard."""

_STANDARD = pattern(
    r"[(,]? ?(?:\b(?:to|per|by|as in|acc(?:ording|\.)? to) )?\b("
    r"(?:din|jis)(?:[ /]iso)?(?:[ /]en)? ?b? ?\d{2,5}(?:-\d{1,2})?|(?:iso|bs|en iso|bs en) ?\d{3,5}(?:-\d{1,2})?|"
    r"(?:ansi[ /]asme|asme|ansi|usas) ?b ?\d{1,3}(?:\.\d{1,3})*m?)"
    r"(?![\w/]|[.-]\d| ?(?:x|mm|deep|wide|long|high)\b)\)?", re.IGNORECASE)
"""A standard that is named, with what leads to it."""


def standards_apart(line: str) -> tuple[str, tuple[str, ...]]:
    """A line without the standards that are named in it, whose numbers are no sizes, and these.

    >>> standards_apart("t-slot for M8 DIN 650, 100 mm long"), standards_apart("keyseat DIN 6x6")
    (('t-slot for M8, 100 mm long', ('DIN 650',)), ('keyseat DIN 6x6', ()))
    """
    if not any(name in line.lower() for name in _NAMES):
        return line, ()
    found = tuple(one[1] for one in _STANDARD.finditer(line))
    bare = _STANDARD.sub(" ", re.sub(rf"{_STANDARD.pattern}(?= in )", ",", line, flags=re.IGNORECASE))
    return (" ".join(bare.replace(" ,", ",").split()), found) if found else (line, ())

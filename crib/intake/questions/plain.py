"""Ways to say a thing that are put the usual way before a line is read: a tolerance behind the name of its size, a
length along which something runs, a standard's number behind a key."""

from __future__ import annotations

import re

from crib.intake.questions.tokens import FIGURE

_SIZE = rf"(?:{FIGURE})(?: ?(?:mm|inch(?:es)?|in\b|\"|thou\b))?"
_NAMES = (r"across (?:the )?flats|af|wide|width|deep|depth|dp|long|length|high|height|tall|thick|dia|diam|diameter|"
          r"across|radius|rad")
_DIA = "diameter|diam|dia"
SIDE = rf"(?:[+-] ?|\b(?:plus|minus) ){_SIZE}"
LIMITS = rf"(?:(?:\+ ?/ ?-|\+ ?-|±|plus or minus) ?{_SIZE}|{SIDE} ?/? ?{SIDE})"

"""A tolerance to both sides, or with its two sides."""

_SAYINGS: tuple[tuple[tuple[str, ...], str, str], ...] = (
    (("plus ", "minus "), r"\b(plus|minus) (?:nothing|nought|naught|zero|nil)\b", r"\1 0"),
    (("+", "±", "plus "), rf"(?<![\w/.-])({_SIZE}) ((?:{_NAMES})(?: across| over)?) ?({LIMITS})(?![\w/]|\.\d)"
     rf"(?! (?:on|for) (?:the |its )?(?:\w+ )?(?:{_NAMES}|width)\b)", r"\1 \3 \2"),
    ((" h", " g", " f", " n", " p", " k", " d"),
     rf"(?<![\w/.-])({_SIZE}) ({_NAMES}) ([hgfnpkd](?:[5-9]|1[01]))(?![\w/.-])", r"\1 \3 \2"),
    (("&",), r"(?<=[a-z]) & (?=[a-z])", " and "),
    (("edge",), rf"\b(?:along|on|of|round) (?:an?|the|one|each) (?!\d{{3,5}} edge)({_SIZE}) (?:long )?edge\b",
     r"length \1"),
    (("along",), rf"\balong (?:an? |the )?(?!\d{{3,5}} )({_SIZE})(?![\w/]|\.\d| (?:{_NAMES})\b)", r"length \1"),
    (("floor",), rf"\b(?:corner )?(?:radius|rad)(?: of)? ({_SIZE}) (?:in|at|on|round) the floor\b", r"floor radius \1"),
    (("floor",), rf"({_SIZE}) (?:corner )?(?:radius|rad) (?:in|at|on|round) the floor\b", r"\1 floor radius"),
    (("din",), rf"(?<![\w/.-])({FIGURE}) ?x ?({FIGURE}),? din(?: ?6888)?\b", r"DIN \1x\2"),
    (("circle",), rf"\b(holes?) on (?:an? )?({_SIZE})(?: (?:bolt |pitch |hole )?circle)?, ?({_SIZE}) (?:{_DIA})\b",
     r"\1, circle \2, \3 hole diameter"),
    (("circle",), rf"\b(holes?) ({_SIZE}) (?:{_DIA}) on (?:an? )?({_SIZE})(?: (?:bolt |pitch |hole )?circle)?",
     r"\1, circle \3, \2 hole diameter"),
    (("edge",), r"\b(?:along|down) (?:one|1|an|the) (?:long |short |top |outside |sharp )?edge\b", ""),
    (("square", " sq"), rf"^(?=.*\b(?:pocket|recess|cavity)\b)(.*?(?<![\w/.-]))({_SIZE}) sq(?:uare)?\b",
     r"\1\2 x \2"),
    (("screw", "bolt"), r"(?<!or )\b(close|loose)\b(?! fit)", r"\1 fit"),
    ((":",), r"^(\d{3,5}[a-z]?\d{0,2}|[a-z]{1,2}\d{1,3}): ", r"\1, "),
)
"""Words of which one must stand in a line, what is said, how it is put."""

_STANDARD = re.compile(
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
    found = tuple(one[1] for one in _STANDARD.finditer(line))
    bare = _STANDARD.sub(" ", re.sub(rf"{_STANDARD.pattern}(?= in )", ",", line, flags=re.IGNORECASE))
    return (" ".join(bare.replace(" ,", ",").split()), found) if found else (line, ())


def put_plainly(line: str) -> str:
    """A line with such sayings put the usual way.

    >>> put_plainly("slot 1/2 wide +.002 -0, 1/4 deep"), put_plainly("1 mm chamfer along 80 mm of brass")
    ('slot 1/2 +.002 -0 wide, 1/4 deep', '1 mm chamfer length 80 mm of brass')
    """
    low = line.lower()
    if "key" in low or "6888" in low or "3912" in low:
        from crib.intake.questions.named_keys import by_their_names

        line = by_their_names(line)
        low = line.lower()
    for words, said, plain in _SAYINGS:
        if any(word in low for word in words):
            line = re.sub(said, plain, line, flags=re.IGNORECASE)
    return line

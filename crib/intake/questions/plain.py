"""Ways to say a thing that are put the usual way before a line is read: a tolerance behind the name of its size, a
length along which something runs, a standard's number behind a key."""

from __future__ import annotations

import re

from crib.intake.questions.tokens import FIGURE

_SIZE = rf"(?:{FIGURE})(?: ?(?:mm|inch(?:es)?|in\b|\"|thou\b))?"
_NAMES = (r"across (?:the )?flats|af|wide|width|deep|depth|dp|long|length|high|height|tall|thick|dia|diam|diameter|"
          r"across|radius|rad")
_DIA, _ROUND = "diameter|diam|dia", r"(?:(?:bolt |pitch |hole )?circle|b\.?c\b\.?|pcd)"
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
    (("both",), r"\bboth ((?:long |short |outside |sharp )?edges)\b", r"2 \1"),
    (("rad",), rf"\brad(?:ius)? ({_SIZE}) on (?:the|all|both|2) edges?\b", r"\1 radius on the edge"),
    (("full length",), r"\bfull length\b", "length"),
    (("edge",), rf"\b(?:along|on|of|round) (?:(?:an?|the|one|each) )?(?!\d{{3,5}} edge)({_SIZE}) (?:long )?edge\b",
     r"length \1"),
    (("along",), rf"\balong (?:an? |the )?(?!\d{{3,5}} )({_SIZE})(?![\w/]|\.\d| (?:{_NAMES})\b)", r"length \1"),
    (("floor",), rf"\b(?:corner )?(?:radius|rad)(?: of)? ({_SIZE}) (?:in|at|on|round) the floor\b", r"floor radius \1"),
    (("floor",), rf"({_SIZE}) (?:corner )?(?:radius|rad) (?:in|at|on|round) the floor\b", r"\1 floor radius"),
    (("din",), rf"(?<![\w/.-])({FIGURE}) ?x ?({FIGURE}),? din(?: ?6888)?\b", r"DIN \1x\2"),
    (("circle", " bc", " b.c", " pcd"), rf"\b(holes?) on (?:an? )?({_SIZE})(?: {_ROUND})?, ?({_SIZE}) (?:{_DIA})\b",
     r"\1, bolt circle \2, \3 hole diameter"),
    (("circle", " bc", " b.c", " pcd"), rf"\b(holes?) ({_SIZE}) (?:{_DIA}) on (?:an? )?({_SIZE})(?: {_ROUND})?",
     r"\1, bolt circle \3, \2 hole diameter"),
    (("edge",), r"\b(?:along|down) (?:one|1|an|the) (?:long |short |top |outside |sharp )?edge\b", ""),
    (("square", " sq"), rf"^(?=.*\b(?:pocket|recess|cavity)\b)(.*?(?<![\w/.-]))({_SIZE}) sq(?:uare)?\b",
     r"\1\2 x \2"),
    (("screw", "bolt"), r"(?<!or )\b(close|loose)\b(?! fit)", r"\1 fit"),
    ((":",), r"^(\d{3,5}[a-z]?\d{0,2}|[a-z]{1,2}\d{1,3}): ", r"\1, "),
)
"""Words of which one must stand in a line, what is said, how it is put."""

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

"""Keys that are named by their standard or by their number alone: whose it is tells which sort of seat is meant."""

from __future__ import annotations

import re

from crib.features.key_standards import FIGURES, PARALLEL, STANDARDS, WOODRUFF, KeyStandard
from crib.intake.questions.tokens import FIGURE

_PAIR = rf"(?<![\w/.-])(?:din )?({FIGURE}) ?x ?({FIGURE})(?![\w/]|\.\d)"
_KEY = r"key(?: ?-?(?:seat|way|slot))?"
_NUMBER = r"(?:no\.? ?|number |#)?(\d{3,4}(?:-1/2)?)"
_ALONE = (rf"(?<![\w/.-]){_NUMBER} {_KEY}(?= in|,|$)|(?<![\w/.-]){_KEY} {_NUMBER}(?![\w/.-])"
          r"(?! ?(?:mm|x|thou|wide|deep|long)\b)")


def by_their_names(line: str) -> str:
    """A line whose key is named by its standard or by a Woodruff key's number, put as such a seat is asked for. A
    standard that decides nothing stays.

    >>> by_their_names("key 3 x 5, DIN 6888, in 12mm"), by_their_names("key 606 in a 1 inch shaft")
    ('woodruff key DIN 3x5, in 12mm', 'woodruff key 606 in a 1 inch shaft')
    >>> by_their_names("key DIN 6885 in 25 mm shaft"), by_their_names("keyway 8x7 to DIN 6885-1 in a 25 mm shaft")
    ('keyseat in 25 mm shaft', 'keyway key 8 x 7 in a 25 mm shaft')
    """
    if any(figure in line for figure in FIGURES):
        standard = next((one for one in STANDARDS if _has(one.said, line)), None)
        if standard is not None:
            return _by_standard(line, standard)
    if _has(WOODRUFF, line):
        return line
    if "din" in line.lower() and (pair := re.search(_PAIR, line, re.IGNORECASE)) and "din" in pair[0].lower():
        return line.replace(pair[0], f"key {pair[1]} x {pair[2]}")
    return f"woodruff {line}" if _is_numbered(line) else line


def _is_numbered(line: str) -> bool:
    """Whether a key is called by the number of a Woodruff key, and no sizes stand beside it."""
    found = re.search(_ALONE, line, re.IGNORECASE)
    if found is None or _has(_PAIR, line):
        return False
    from crib.handbook.woodruff import numbers

    return (found[1] or found[2]) in numbers()


def _has(pattern: str, line: str) -> bool:
    return re.search(pattern, line, re.IGNORECASE) is not None


def _by_standard(line: str, standard: KeyStandard) -> str:
    """A line that names a standard: its key is one of it, and so is the seat where no other is named."""
    bare = re.sub(standard.said, "", line, flags=re.IGNORECASE).strip()
    decides = _has(_PAIR, bare)
    put = re.sub(_PAIR, standard.pair, bare, count=1, flags=re.IGNORECASE)
    if _has(standard.names, line) or (not decides and _has(f"{WOODRUFF}|{PARALLEL}", line)):
        return put if decides else line
    return re.sub(standard.where, standard.kind, put, count=1, flags=re.IGNORECASE)

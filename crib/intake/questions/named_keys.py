"""Keys that are named by their standard or by their number alone: whose it is tells which sort of seat is meant."""

from __future__ import annotations

import re

from crib.intake.questions.tokens import FIGURE
from crib.light.tuples import NamedTuple

_TO = r"[(,]? ?(?:\b(?:to|per|by|as in|acc(?:ording|\.)? to) )?\b"
_ASME = r"(?:(?:ansi|usas|asme)[ /]*)*b ?17\."
_WOODRUFF, _PARALLEL = r"woodruff|half.?moon", r"key ?-?(?:seat|way|slot)"
_PAIR = rf"(?<![\w/.-])(?:din )?({FIGURE}) ?x ?({FIGURE})(?![\w/]|\.\d)"


class _Standard(NamedTuple):
    """How a standard of keys is named, the kind of seat that it is of, what names that kind, and how width by height
    is put: DIN's Woodruff seats are others than ISO's, and no height of a parallel key is the depth of its seat."""

    said: str
    kind: str
    names: str
    pair: str


_STANDARDS = (
    _Standard(rf"{_TO}din ?6888(?:-1)?\b\)?", "woodruff", _WOODRUFF, r"DIN \1x\2"),
    _Standard(rf"{_TO}(?:(?:bs|en) )?iso ?3912\b\)?", "woodruff", _WOODRUFF, r"\1x\2"),
    _Standard(rf"{_TO}{_ASME}2m?\b\)?", "woodruff", _WOODRUFF, r"\1 x \2"),
    _Standard(rf"{_TO}din ?6885(?:-[123])?\b\)?", "keyseat", _PARALLEL, r"key \1 x \2"),
    _Standard(rf"{_TO}{_ASME}1m?\b\)?", "keyseat", _PARALLEL, r"key \1 x \2"),
)
_FIGURES = ("6888", "3912", "6885", "17.")
"""One of these stands in each name of a standard."""

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
    if any(figure in line for figure in _FIGURES):
        standard = next((one for one in _STANDARDS if _has(one.said, line)), None)
        if standard is not None:
            return _by_standard(line, standard)
    if _has(_WOODRUFF, line):
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


def _by_standard(line: str, standard: _Standard) -> str:
    """A line that names a standard: its key is one of it, and so is the seat where no other is named."""
    bare = re.sub(standard.said, "", line, flags=re.IGNORECASE).strip()
    decides = _has(_PAIR, bare)
    put = re.sub(_PAIR, standard.pair, bare, count=1, flags=re.IGNORECASE)
    if _has(standard.names, line) or (not decides and _has(f"{_WOODRUFF}|{_PARALLEL}", line)):
        return put if decides else line
    if standard.kind == "keyseat":
        return re.sub(r"(?:\bparallel )?\bkeys?\b", "keyseat", put, count=1, flags=re.IGNORECASE)
    return f"{standard.kind} {put}"

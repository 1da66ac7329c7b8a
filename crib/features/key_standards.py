"""Standards of keys as they are named in words: whose it is tells which sort of seat is meant."""

from __future__ import annotations

from crib.light.tuples import NamedTuple

_TO = r"[(,]? ?(?:\b(?:to|per|by|as in|acc(?:ording|\.)? to) )?\b"
_ASME = r"(?:(?:ansi|usas|asme)[ /]*)*b ?17\."
WOODRUFF, PARALLEL = r"woodruff|half.?moon", r"key ?-?(?:seat|way|slot)"
"""What names a seat of either sort."""

FIGURES = ("6888", "3912", "6885", "17.")
"""One of these stands in each name of a standard."""


class KeyStandard(NamedTuple):
    """How a standard of keys is named, what names its sort of seat, and how width by height is put: DIN's Woodruff
    seats are others than ISO's, and no height of a parallel key is the depth of its seat. `where`: where the kind's
    name, `kind`, is put in a line without one."""

    said: str
    names: str
    pair: str
    where: str
    kind: str


_IN_FRONT, _AS_KEY = "^", r"(?:\bparallel )?\bkeys?\b"

STANDARDS = (
    KeyStandard(rf"{_TO}din ?6888(?:-1)?\b\)?", WOODRUFF, r"DIN \1x\2", _IN_FRONT, "woodruff "),
    KeyStandard(rf"{_TO}(?:(?:bs|en) )?iso ?3912\b\)?", WOODRUFF, r"\1x\2", _IN_FRONT, "woodruff "),
    KeyStandard(rf"{_TO}{_ASME}2m?\b\)?", WOODRUFF, r"\1 x \2", _IN_FRONT, "woodruff "),
    KeyStandard(rf"{_TO}din ?6885(?:-[123])?\b\)?", PARALLEL, r"key \1 x \2", _AS_KEY, "keyseat"),
    KeyStandard(rf"{_TO}{_ASME}1m?\b\)?", PARALLEL, r"key \1 x \2", _AS_KEY, "keyseat"),
)

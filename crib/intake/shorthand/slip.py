"""The slip that a line is read on: what is left of its text, and what was made of the rest."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Any

from crib.findings.errors import CribError
from crib.intake.shorthand.needed import NOTHING, may_fit, needed, pieces
from crib.light.patterns import pattern
from crib.light.records import dataclass, field
from crib.units import NM, nm, read
from crib.units.words import told

GAP, NAMED = "¦", "‖"
"""What stands in the place of a piece that was read, so that its neighbours stay apart; in that of the kind's name."""

SIZE = pattern(
    r"(?<![\w.,/])(?:#\s?\d{1,2}|(?:\d+-|\d{1,2} (?=\d+/\d))\d+/\d+|\d+/\d+|\d+,\d+(?![/\d])|\d*\.\d+|\d+\.?)"
    r"(?:\s?(?:mm\b|inch(?:es)?\b|in\b\.?|\"|thou\b))?(?![\w/]|\.\d)")
"""A size as it stands in a line; `in` behind it is its unit."""

_SLENDER = ("shank_mm", "neck_mm", "face_mm", "tip_mm", "corner_radius_mm", "radius_mm", "pilot_mm", "min_hole_mm")
_LARGEST_BARE = 3.0
"""From so many inches on a bare number of what is slender is doubtful."""

_MAY_BE_NOUGHT = ("tip_mm", "corner_radius_mm")
"""Sizes that are nought where a cutter comes to a point or has sharp corners."""

_NOUGHT = pattern(r"[0.]*0[0.]*(?: ?(?:mm|in))?")
_UNIT = pattern(r"(mm|in|inch|inches|thou|\"|in\.)$")


class _Words(dict[str, tuple[re.Pattern[str], frozenset[str], tuple[frozenset[str], ...]]]):
    """Patterns as words of their own, the pieces of which each needs one, and more such. There are more patterns than
    the library keeps."""

    def __missing__(self, pattern: str) -> tuple[re.Pattern[str], frozenset[str], tuple[frozenset[str], ...]]:
        if len(self) >= _MOST_KEPT:
            self.clear()
        first, *more = needed(pattern) or (frozenset({NOTHING}),)
        self[pattern] = found = (re.compile(rf"(?<![\w/.-])(?:{pattern})(?![\w/]|-\w)"), first, tuple(more))
        return found


_MOST_KEPT = 4096
_as_words = _Words()


class _MayFit(dict[str, "re.Pattern[str] | None"]):
    """Patterns as words of their own; None for one that surely fits nothing with these pieces."""

    def __init__(self, pieces: frozenset[str]) -> None:
        self._pieces = pieces

    def __missing__(self, pattern: str) -> re.Pattern[str] | None:
        if len(self) >= _MOST_KEPT:
            self.clear()
        words, first, more = _as_words[pattern]
        never = self._pieces.isdisjoint(first) or not may_fit(self._pieces, more)
        self[pattern] = found = None if never else words
        return found


_may_fit = lru_cache(maxsize=256)(_MayFit)


def found_in(text: str, pattern: str) -> re.Match[str] | None:
    """The first place in a text where a pattern stands as words of its own."""
    return _as_words[pattern][0].search(text)


_OVER, _BARE, _IN_MM = pattern(r"(\d+)/(\d+)"), pattern(r"\d+(?:\.\d+)?"), pattern(r"\d ?mm\b")
_BESIDE = pattern(r"[\w./-]")
_AFTER = pattern(r"[\w/]|\.\d")


class Held(Exception):
    """The line can't be a cutter yet: why, and what would be right."""

    def __init__(self, why: str, help: str, joint: int | None = None) -> None:
        super().__init__(why)
        self.why, self.help, self.joint = why, help, joint


@dataclass
class Slip:
    """What is read of one line, piece by piece. `said` is the whole line in plain words and never changes. `doubts` are
    questions about the reading by field, `looks` what must be looked at on the cutter itself. `unused` are the words
    that nothing was made of; `at` is where in the line a field was read;
    `pieces`: the letters of the line, by fours at the most, and those that are put behind a fit's size."""

    said: str
    units: str
    text: str = ""
    values: dict[str, Any] = field(default_factory=dict)
    typed: dict[str, str] = field(default_factory=dict)
    doubts: dict[str, str] = field(default_factory=dict)
    looks: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)
    assumed: list[str] = field(default_factory=list)
    measured: list[str] = field(default_factory=list)
    stamped: list[str] = field(default_factory=list)
    source: str | None = None
    sizes: list[str] = field(default_factory=list)
    unused: list[str] = field(default_factory=list)
    at: dict[str, tuple[int, int]] = field(default_factory=dict)
    pieces: frozenset[str] = frozenset()
    may_fit: dict[str, re.Pattern[str] | None] = field(default_factory=dict, compare=False, repr=False)

    def __post_init__(self) -> None:
        self.lay(self.said)

    def lay(self, said: str) -> None:
        """Lay a line on the slip, of which nothing is read yet."""
        self.said = self.text = said
        self.pieces = pieces(f"{said} mm")
        self.may_fit = _may_fit(self.pieces)

    def take(self, pattern: str, key: str = "", sign: str = GAP) -> re.Match[str] | None:
        """The first place where a pattern stands as words of its own; it is gone from the text afterwards. `key`: the
        field that it says something of."""
        words = self.may_fit[pattern]  # as `find` does, without it
        if words is None:
            return None
        if found := words.search(self.text):
            self.blank(*found.span(), sign)
            if key:
                self.at.setdefault(key, found.span())
        return found

    def blank(self, start: int, end: int, sign: str = GAP) -> None:
        """Take a piece off the text; what stands behind it stays where it was."""
        self.text = self.text[:start] + sign.center(end - start) + self.text[end:]

    def find(self, pattern: str) -> re.Match[str] | None:
        """The first place where a pattern stands as words of its own in what is left."""
        words = self.may_fit[pattern]
        return None if words is None else words.search(self.text)

    def has(self, pattern: str) -> bool:
        """Whether a pattern stands anywhere in the line as words of its own."""
        words = self.may_fit[pattern]
        return words is not None and words.search(self.said) is not None

    def ask(self, key: str, question: str) -> None:
        """Keep a question about a field; the first one about it counts."""
        self.doubts.setdefault(key, question)

    def said_now(self, key: str) -> None:
        """A field that had what is usual is about to be said."""
        if key in self.assumed:
            self.assumed = [one for one in self.assumed if one != key]
            self.values.pop(key, None)

    def size(self, key: str, text: str, ask_if_odd: bool = True, at: int | None = None) -> bool:
        """Put a size into a field, unless the field has one. Where its unit isn't sure it is asked for instead. `at`:
        where in the line it stands."""
        if key in self.values:
            return False
        text = text.strip()
        if ask_if_odd and (question := self.odd(text) or self.too_large(key, text)):
            self.ask(key, f"{_name(key)}: {question}")
            return False
        try:
            is_none = key in _MAY_BE_NOUGHT and _NOUGHT.fullmatch(text)
            self.values[key] = 0.0 if is_none else nm(read(text, self.units, _name(key)).mm) / NM
        except CribError as error:
            self.ask(key, told(error.finding, self.units)[0])
            return False
        self.typed[key] = text
        if at is None:
            self._stands(key, text)
        else:
            self.at[key] = (at, at + len(text))
        return True

    def _stands(self, key: str, text: str) -> None:
        """Note where the size of a field stands: at the first place where it does and no other field has."""
        taken = set(self.at.values())
        begin = self.said.find(text)
        while begin >= 0:
            place = begin, begin + len(text)
            before = self.said[begin - 1 : begin]
            stands = not _BESIDE.match(before) and not _AFTER.match(self.said, place[1])
            if stands and place not in taken:
                self.at[key] = place
                return
            begin = self.said.find(text, place[1] if stands else begin + 1)

    def odd(self, text: str) -> str | None:
        """What must be asked of a size before it can be believed; None where nothing."""
        if _UNIT.search(text) or "#" in text:
            return None
        if self.units == "mm" and text.startswith("."):
            return f"is {text} in inches or mm? say {text} in or {text.replace('.', '0.', 1)} mm"
        over = _OVER.fullmatch(text)
        if over and int(over[1]) > int(over[2]) > 0:
            whole, rest = divmod(int(over[1]), int(over[2]))
            return f"is {text} the size {whole}-{rest}/{over[2]}, or {text[0]}-{text[1:]} written badly?"
        if top_heavy(text):
            return f"is {text} a fraction, or the thread {text.replace('/', '-')}? say which"
        return None

    def too_large(self, key: str, text: str) -> str | None:
        """What must be asked of a bare number of inches that is more likely millimetres."""
        if self.units != "in" or not _BARE.fullmatch(text):
            return None
        mixed = "mm" in self.said and _IN_MM.search(self.said) and not re.search(r"^0?\.|\.\d{3}", text)
        large = key in _SLENDER and float(text) >= _LARGEST_BARE
        return f"is {text} in mm? say {text} mm, or {text} in" if mixed or large else None

    def mm(self, text: str) -> float | None:
        """A size in mm, or None for what is none."""
        try:
            return read(text, self.units).mm
        except CribError:
            return None


def top_heavy(text: str) -> bool:
    """Whether a fraction is written as nobody writes it, like 10/32 for a thread.

    >>> top_heavy("10/32"), top_heavy("5/16"), top_heavy("4/16")
    (True, False, False)
    """
    found = _OVER.fullmatch(text)
    return found is not None and (int(found[2]) not in (2, 4, 8, 16, 32, 64) or found[0] in ("6/32", "8/32", "10/32",
                                                                                          "10/24", "12/24"))


def _name(key: str) -> str:
    return key.removesuffix("_mm").replace("_", " ")

"""What letters a pattern can't do without: hundreds are looked for in each line, and nearly all of them can't be there.
Signs and figures don't count: they change while a line is read, and its letters only go."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import cached_property, lru_cache
from importlib import import_module
from typing import Any, Generic, TypeVar

One = TypeVar("One")

_LONGEST = 4
"""Of so many letters in a row is a piece at the most."""


_MOST_KEPT = 512
"""Of so many lines in other words it is kept which patterns may fit."""

NOTHING = ""
"""The piece that every text has."""


@lru_cache(maxsize=8192)
def needed(pattern: str) -> tuple[frozenset[str], ...]:
    r"""Pieces of which each text that a pattern fits has one of each at the least; what tells most comes first.

    >>> [sorted(each) for each in needed(r"end ?mills?|em")], needed(r"\d+"), [*map(sorted, needed(r"an? ?drill"))]
    ([['em', 'mill'], ['e']], (), [['rill'], ['a']])
    """
    try:
        tree = import_module("re._parser").parse(pattern)
    except ImportError:
        return ()
    return () if tree.state.flags & re.IGNORECASE else tuple(sorted(_each(tree), key=_tells, reverse=True))


@lru_cache(maxsize=1024)
def signs(pattern: str) -> str:
    r"""Signs without which a text isn't fitted by a pattern as it stands now; no letters, no figures, no blanks.

    >>> signs(r"\bl\.h\."), signs(r"(?:shank|neck)'s\b"), signs(r"c / c|c/c"), signs(r"[./]|end ?mill")
    ('.', "'", '/', '')
    """
    try:
        tree = import_module("re._parser").parse(pattern)
    except ImportError:
        return ""
    return "".join(sorted(_signs(tree)))


def _signs(tree: Iterable[tuple[Any, Any]]) -> frozenset[str]:
    found: frozenset[str] = frozenset()
    for what, of in tree:
        name = str(what)
        if name == "LITERAL":
            found |= {chr(of)} if not (chr(of).isalnum() or chr(of).isspace()) else frozenset()
        elif name == "BRANCH":
            found |= frozenset.intersection(*map(_signs, of[1]))
        elif name == "SUBPATTERN":
            found |= _signs(of[-1])
        elif name == "ATOMIC_GROUP":
            found |= _signs(of)
        elif name in ("MAX_REPEAT", "MIN_REPEAT", "POSSESSIVE_REPEAT") and of[0] > 0:
            found |= _signs(of[2])
    return found


def may_fit(pieces: frozenset[str], needs: tuple[frozenset[str], ...]) -> bool:
    """Whether a text that has these pieces may be fitted by a pattern that needs those."""
    for each in needs:  # noqa: SIM110 (this way it is twice as quick)
        if pieces.isdisjoint(each):
            return False
    return True


@lru_cache(maxsize=8)
def pieces(text: str) -> frozenset[str]:
    """The letters of a text in pieces, within its words; those that stand in it when some were blanked are among them.

    >>> sorted(pieces("abc 1/2")), sorted(pieces("ab c"))
    (['', 'a', 'ab', 'abc', 'b', 'bc', 'c'], ['', 'a', 'ab', 'b', 'c'])
    """
    return _of_words(tuple(text.translate(_BLANKED).split() if text.isascii() else _LETTERS.findall(text)))


@lru_cache(maxsize=512)
def _of_words(words: tuple[str, ...]) -> frozenset[str]:
    """The same of words, kept: lists say other sizes in the same words, and what hangs on the words is found by it."""
    return frozenset((NOTHING,)).union(*map(_pieces, words))


_LETTERS = re.compile(r"[^\W\d_]+")
_BLANKED = {place: " " for place in range(128) if not chr(place).isalpha()}
"""Blanks for what is no letter: the quicker way, in a plain text."""


@lru_cache(maxsize=4096)
def _pieces(word: str) -> frozenset[str]:
    return frozenset(word[start : start + many] for many in range(1, _LONGEST + 1)
                     for start in range(len(word) - many + 1))


class Likely(Generic[One]):
    """What is told by patterns, found by the pieces that each can't do without: of hundreds those that a text may fit,
    without looking at each. What was found for the pieces of some words is kept."""

    def __init__(self, told: Iterable[tuple[str, One]]) -> None:
        self._told = told
        self._known: dict[frozenset[str], list[One]] = {}

    @cached_property
    def _of(self) -> dict[str, list[tuple[int, One, tuple[frozenset[str], ...]]]]:
        """By each piece of which a pattern has one at the least: its place, what it tells, and what else it needs."""
        found: dict[str, list[tuple[int, One, tuple[frozenset[str], ...]]]] = {}
        for place, (pattern, one) in enumerate(self._told):
            first, *more = needed(pattern) or (frozenset({NOTHING}),)
            for piece in first:
                found.setdefault(piece, []).append((place, one, tuple(more)))
        return found

    def among(self, pieces: frozenset[str]) -> list[One]:
        """Those whose pattern may fit a text that has these pieces, in their order; nobody changes them."""
        found = self._known.get(pieces)
        if found is None:
            if len(self._known) >= _MOST_KEPT:
                self._known.clear()
            found = self._known[pieces] = self._found(pieces)
        return found

    def _found(self, pieces: frozenset[str]) -> list[One]:
        found = {place: one for piece in self._of.keys() & pieces for place, one, more in self._of[piece]
                 if may_fit(pieces, more)}
        return [found[place] for place in sorted(found)]


def likely(patterns: Iterable[str]) -> Likely[str]:
    """Patterns that are told by themselves."""
    return Likely((one, one) for one in patterns)


def likely_of(told: Iterable[tuple[str, One]]) -> Likely[tuple[str, One]]:
    """Patterns that are told with what each stands for."""
    return Likely((pattern, (pattern, one)) for pattern, one in told)


def _of(tree: Iterable[tuple[Any, Any]]) -> frozenset[str] | None:
    """The best of what the items in a row can't do without."""
    return max(_each(tree), key=_tells, default=None)


def _tells(pieces: frozenset[str]) -> tuple[int, int]:
    """How much it tells that a text has none of these: the longer, else the fewer, the more."""
    return min(map(len, pieces)), -len(pieces)


def _each(tree: Iterable[tuple[Any, Any]]) -> list[frozenset[str]]:
    """What each item in a row can't do without."""
    found: list[frozenset[str]] = []
    row: list[tuple[Any, Any]] = []
    for what, of in [*tree, ("END", None)]:
        if str(what) == "LITERAL" and chr(of).isalpha():
            row.append((what, of))
            continue
        if str(what) == "BRANCH":  # what begins alike was put before it
            inner = _either([_of([*row, *one]) for one in of[1]])
        else:
            inner = _inside(str(what), of)
        found += [one for one in (_letters(row), inner) if one is not None]
        row = []
    return found


def _letters(row: list[tuple[Any, Any]]) -> frozenset[str] | None:
    """The last of a row: where one of several is meant that is how it ends, and most lines name one."""
    return frozenset({"".join(chr(of) for _, of in row)[-_LONGEST:]}) if row else None


def _either(each: list[frozenset[str] | None]) -> frozenset[str] | None:
    known = [one for one in each if one is not None]
    return frozenset().union(*known) if len(known) == len(each) else None


def _inside(what: str, of: Any) -> frozenset[str] | None:
    """What something in a row can't do without: a group, what is said once or more, what must stand beside it."""
    if what == "ATOMIC_GROUP":
        return _of(of)
    if what == "ASSERT":
        return _of(of[1])
    if what == "SUBPATTERN":
        return None if of[1] & re.IGNORECASE else _of(of[-1])
    if what in ("MAX_REPEAT", "MIN_REPEAT", "POSSESSIVE_REPEAT") and of[0] > 0:
        return _of(of[2])
    return None

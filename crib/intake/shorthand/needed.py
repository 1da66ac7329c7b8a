"""What letters a pattern can't do without: hundreds are looked for in each line, and nearly all of them can't be there.
Signs and figures don't count: they change while a line is read, and its letters only go."""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from importlib import import_module
from typing import Any, Generic, TypeVar

One = TypeVar("One")

_LONGEST = 3
"""Of so many letters in a row is a piece at the most."""


NOTHING = ""
"""The piece that every text has."""


@lru_cache(maxsize=8192)
def needed(pattern: str) -> frozenset[str]:
    r"""Pieces of which each text that a pattern fits has one at the least.

    >>> sorted(needed(r"end ?mills?|em")), needed(r"\d+"), sorted(needed(r"(?:a|an)? ?drill"))
    (['em', 'end'], frozenset({''}), ['dri'])
    """
    try:
        tree = import_module("re._parser").parse(pattern)
    except ImportError:
        return frozenset({NOTHING})
    ignores_case = tree.state.flags & re.IGNORECASE
    return frozenset({NOTHING}) if ignores_case else _of(tree) or frozenset({NOTHING})


@lru_cache(maxsize=8)
def pieces(text: str) -> frozenset[str]:
    """The letters of a text in pieces, within its words; those that stand in it when some were blanked are among them.

    >>> sorted(pieces("abc 1/2")), sorted(pieces("ab c"))
    (['', 'a', 'ab', 'abc', 'b', 'bc', 'c'], ['', 'a', 'ab', 'b', 'c'])
    """
    return frozenset((NOTHING,)).union(*map(_pieces, _LETTERS.findall(text)))


_LETTERS = re.compile(r"[^\W\d_]+")


@lru_cache(maxsize=4096)
def _pieces(word: str) -> frozenset[str]:
    return frozenset(word[start : start + many] for many in range(1, _LONGEST + 1)
                     for start in range(len(word) - many + 1))


class Likely(Generic[One]):
    """What is told by patterns, found by the pieces that each can't do without: of hundreds those that a text may fit,
    without looking at each."""

    def __init__(self, told: Iterable[tuple[str, One]]) -> None:
        self._of: dict[str, list[tuple[int, One]]] = {}
        for place, (pattern, one) in enumerate(told):
            for piece in needed(pattern):
                self._of.setdefault(piece, []).append((place, one))

    def among(self, pieces: frozenset[str]) -> list[One]:
        """Those whose pattern may fit a text that has these pieces, in their order."""
        found = {place: one for piece in self._of.keys() & pieces for place, one in self._of[piece]}
        return [found[place] for place in sorted(found)]


def _of(tree: Iterable[tuple[Any, Any]]) -> frozenset[str] | None:
    """The best of what each item in a row can't do without: the longer pieces, else the fewer."""
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
    return max(found, key=lambda one: (min(map(len, one)), -len(one)), default=None)


def _letters(row: list[tuple[Any, Any]]) -> frozenset[str] | None:
    return frozenset({"".join(chr(of) for _, of in row)[:_LONGEST]}) if row else None


def _either(each: list[frozenset[str] | None]) -> frozenset[str] | None:
    known = [one for one in each if one is not None]
    return frozenset().union(*known) if len(known) == len(each) else None


def _inside(what: str, of: Any) -> frozenset[str] | None:
    """What something in a row can't do without: a group, or what is said once or more."""
    if what == "ATOMIC_GROUP":
        return _of(of)
    if what == "SUBPATTERN":
        return None if of[1] & re.IGNORECASE else _of(of[-1])
    if what in ("MAX_REPEAT", "MIN_REPEAT", "POSSESSIVE_REPEAT") and of[0] > 0:
        return _of(of[2])
    return None

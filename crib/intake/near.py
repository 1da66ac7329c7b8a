"""What a misspelt name may have meant. Names only: a size is never guessed."""

from __future__ import annotations

from collections.abc import Iterable

_ALIKE = 70
"""How alike, of 100, a name must be to be worth saying."""


def near(word: str, names: Iterable[str]) -> list[str]:
    """The names most like a word, nearest first, at most three."""
    from rapidfuzz import fuzz, process

    found = process.extract(word.lower(), list(names), scorer=fuzz.WRatio, limit=3, score_cutoff=_ALIKE)
    return [name for name, _, _ in found]


def one_of(word: str, names: Iterable[str]) -> str:
    """A line of help: the near names first, else all of them."""
    listed = list(names)
    likely = near(word, listed) if word else []
    return f"did you mean {' or '.join(likely)}?" if likely else "one of " + ", ".join(listed)

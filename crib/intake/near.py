"""What a misspelt name may have meant. Names only: a size is never guessed."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

_ALIKE = 70
"""How alike, of 100, a name must be to be worth saying."""


def near(word: str, names: Iterable[str]) -> list[str]:
    """The names most like a word, nearest first, at most three."""
    return list(_near(word.lower(), tuple(names)))


@lru_cache(maxsize=256)
def _near(word: str, names: tuple[str, ...]) -> tuple[str, ...]:
    """The same, kept: what is misspelt in a list is so again and again."""
    from rapidfuzz import fuzz, process

    return tuple(name for name, _, _ in process.extract(word, names, scorer=fuzz.WRatio, limit=3, score_cutoff=_ALIKE))


def one_of(word: str, names: Iterable[str]) -> str:
    """A line of help: the near names first, else all of them."""
    listed = list(names)
    likely = near(word, listed) if word else []
    return f"did you mean {' or '.join(likely)}?" if likely else "one of " + ", ".join(listed)

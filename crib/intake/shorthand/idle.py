"""Remarks that say nothing of a cutter's state, told without reading them: numbers, and words that no phrase of the
state is made of."""

from __future__ import annotations

import re
from functools import cache, lru_cache

from crib.cutters import KINDS
from crib.intake.shorthand.spelling import respelt
from crib.intake.shorthand.vocabulary import ALIASES, CONDITIONS, KIND_PHRASES, MATERIALS
from crib.light.patterns import pattern

_NUMBER = pattern(r"\d+(?:\.\d+)?")
_PLAIN = pattern(r"[a-z]+")
_BEGIN = """chip nick ding crack bro miss gone damag knock lost lack short sharp resharp need want should must could
ready due touch hon ston gr regr not never hard aint wasn isn un was origin start left right hand cent cut cc ctr lh rh
hi high speed spi pt no double snap scrap"""
"""How the words begin that the phrases of the state are made of, beside those of a material and of a condition."""


@lru_cache(maxsize=16_384)
def is_idle(said: str) -> bool:
    """Whether a remark surely says nothing of the state: what it is made of, how sharp it is, which way it cuts.

    >>> is_idle("lot 123"), is_idle("from the estate, 1987"), is_idle("resharpened 1987"), is_idle("M42")
    (True, True, False, False)
    """
    return all(_NUMBER.fullmatch(word) or _says_nothing(word) for word in re.split(r"[\s,;]+", said.lower()) if word)


@lru_cache(maxsize=16_384)
def _says_nothing(word: str) -> bool:
    """Whether a word is plain letters, is read as itself, and begins like none that a phrase of the state has."""
    if not _PLAIN.fullmatch(word) or word in ALIASES or respelt(word) != word:
        return False
    return not any(word.startswith(begin) or begin.startswith(word) for begin in _beginnings())


@cache
def _beginnings() -> frozenset[str]:
    patterns = [*(text for pair in (*MATERIALS, *CONDITIONS, *KIND_PHRASES) for text in pair),
                *(words for kind in KINDS.values() for words in kind.speech.tells)]
    words = {word for text in patterns for word in re.findall("[a-z]+", re.sub(r"\\[a-z]", " ", text))}
    return frozenset((*_BEGIN.split(), *(word for word in words if len(word) > 1)))

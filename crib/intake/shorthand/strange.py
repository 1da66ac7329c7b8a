"""Words that nothing is made of: they are set aside before the rest is read, so that they change nothing of it, and are
asked about where they could have said what a size is."""

from __future__ import annotations

import re
from collections.abc import Sequence
from functools import cache

from crib.intake.shorthand.kinds import names
from crib.intake.shorthand.labelled import LABELS
from crib.intake.shorthand.slip import GAP, SIZE, Slip
from crib.intake.shorthand.vocabulary import (
    ALIASES,
    CONDITIONS,
    HOLDERS,
    IDLE,
    MATERIALS,
    NO_CUTTERS,
    NOTES,
    PHRASES,
    WORDS,
)
from crib.light.patterns import pattern
from crib.light.records import dataclass

_ASKED_ABOUT = ("shank", "flute", "flutes", "neck", "reach", "face", "bore", "pilot", "cobalt", "carbide", "dull",
                "chipped", "sharp", "reground", "measured", "radius", "tip", "bottoming", "plug", "taper", "roughing",
                "diameter")
_WORDS = """mm in inch inches thou mil mils whatsit idea set sets index assortment piece pieces pc pcs series step
    steps increments to thru through from missing less without minus plus except gone lost qty quantity ea each apiece
    not never isn't hardly longer needs need wants want should be must due ready or no only just left sure certain if
    whether sharpening sharpen regrind grinding honing stoning honed stoned drawer tray shelf bin rack cabinet box
    morse mt sti wire flat flats swg awg gauge ga stubs turned down"""
_UNITS = frozenset(_WORDS.split())
"""Words of which the grammar makes something beside others."""

_WORD = pattern(r"[^\W\d_][\w'’/.-]*[^\W_]|[^\W\d_]")


@dataclass(frozen=True)
class Stranger:
    """A word that nothing is made of, and the size that stands next to it, if one does."""

    word: str
    beside: str = ""


def without(said: str, words: Sequence[str]) -> str:
    """A line without some of its words; two figures that one of them kept apart stay apart."""
    for word in words:
        said = _blanked(said, word.lower())
    if GAP in said:
        said = re.sub(rf"(?<=\d)(?: ?{GAP} ?)+(?=[\d#.])", f" {GAP}{GAP} ", said)
        said = re.sub(rf"(?<!{GAP}){GAP}(?!{GAP})", " ", said).replace(GAP * 2, GAP)
    return " ".join(said.split())


_LETTERS_AND_BETWEEN = pattern(r"[\w/.'’-]+")
"""Whatever is written together: a word that nothing is made of stands at its beginning, and a stop may be behind it."""


def _blanked(said: str, word: str) -> str:
    """A line with a gap where a word stands, small or in capitals. A pattern for each word would drive those that are
    kept from the library."""
    long = len(word)

    def gap(found: re.Match[str]) -> str:
        whole = found[0]
        is_it = whole[:long].lower() == word and whole[long : long + 1] in ("", ".")
        return GAP + whole[long:] if is_it else whole

    return _LETTERS_AND_BETWEEN.sub(gap, said)


def strangers(said: str, words: Sequence[str]) -> tuple[Stranger, ...]:
    """The words with the sizes that they stand next to."""
    found = []
    for word in words:
        beside = _beside(said, word)
        found.append(Stranger(word, next((part for part in beside.groups() if part), "").strip() if beside else ""))
    return tuple(found)


_MARK = "ƾ"
"""A letter that stands for each of a word's, so that one pattern does for all words."""


def _beside(said: str, word: str) -> re.Match[str] | None:
    """Where a size stands before a word or behind it. What is no word of letters alone, or may be a size's own unit,
    has a pattern of its own; of what has a figure in it nothing more is asked."""
    if word not in said or any(sign.isdigit() for sign in word):
        return None
    if not word.isalpha() or _MARK in said or word in _OWN_UNITS:
        return re.search(_next_to(re.escape(word)), said)
    marked = _RUN.sub(lambda one: _MARK * len(word) if one[0] == word else one[0], said)
    return _NEXT_TO_MARK.search(marked) if _MARK in marked else None


def _next_to(word: str) -> str:
    return rf"({SIZE.pattern})\W*{word}(?![\w'’-])|(?<![\w'’-]){word} ({SIZE.pattern})"


_RUN, _NEXT_TO_MARK = pattern(r"\w+"), pattern(_next_to(f"{_MARK}+"))
_OWN_UNITS = ("mm", "in", "inch", "inches", "thou")


def ask_about(slip: Slip, found: Sequence[Stranger]) -> None:
    """Ask about a word that is nearly one that says something, or that could be the name of a size which has none."""
    for one in found:
        known = is_known(one.word)
        if any(sign.isdigit() for sign in one.word):
            slip.ask("note", f"what does {one.word!r} say?")
        elif not known and (near := _near(one.word)):
            slip.ask("note", f"what does {one.word!r} say? {near}?")
        elif (not known or one.word in LABELS) and one.beside and len(slip.sizes) > 1 and one.beside in slip.sizes:
            slip.ask("note", f"what does {one.word!r} say of the {one.beside}?")


def unread(slip: Slip) -> list[str]:
    """The words of a line that couldn't be read which the grammar doesn't know."""
    return [word for word in dict.fromkeys(_WORD.findall(slip.text)) if not is_known(word) and len(word) > 1]


@cache
def _near(word: str) -> str | None:
    if len(word) < 3 or not word.isalpha():
        return None
    from rapidfuzz.distance import OSA

    slips = 1 if len(word) < 6 else 2
    return next((known for known in _ASKED_ABOUT if OSA.distance(word, known, score_cutoff=slips) <= slips), None)


@cache
def is_known(word: str) -> bool:
    """Whether a word alone, or as a part of a phrase, says something."""
    if any(sign.isdigit() for sign in word) or word.rstrip("s") in HOLDERS:
        return True
    if any(word in words for words in (NO_CUTTERS, HOLDERS, WORDS, ALIASES, IDLE, LABELS, _UNITS)):
        return True
    said, parts = _patterns()
    return word in parts or said.fullmatch(word) is not None


@cache
def _patterns() -> tuple[re.Pattern[str], frozenset[str]]:
    """All patterns of phrases and kinds in one, and the words in them. The library keeps fewer than there are."""
    phrases = (text for text, _ in (*MATERIALS, *CONDITIONS, *NOTES, *PHRASES))
    texts = (*phrases, *(said.name.pattern for said in names()))
    every = re.compile("|".join(f"(?:{text})" for text in texts))
    return every, frozenset(word for text in texts for word in re.findall("[a-z]+", text))

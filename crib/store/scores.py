"""How well a cutter fits the words that are looked for. Of a large crib many say the same: each text is looked at once,
and a label made only where it could still count."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from operator import attrgetter

from crib.cutters.base import LENGTH_KEYS, Cutter
from crib.findings.errors import CribError
from crib.light.hints import Any
from crib.light.patterns import pattern
from crib.units import read

WITHIN_MM = 0.0254
"""A size fits within a thou."""

_LABEL = 4
TEXTS = {"label": _LABEL, "kind": 4, "thread": 4, "marking": 3, "drawer": 3, "material": 2, "condition": 2,
         "tap_chamfer": 2, "tap_form": 2, "tap_point": 2, "note": 1}
"""What a whole word in each of these is worth: never more than in the label."""

SIZES = {"diameter_mm": 6, "nominal_mm": 6, "face_mm": 4, "radius_mm": 4}
"""What these sizes are worth; another is worth 1."""

_LONGEST_SIZE = 60
_MOST_KEPT = 4096
_TOKEN = pattern(r"[^\s,;()]+")
_OTHERS = tuple(weight for key, weight in TEXTS.items() if key != "label")
_WORTH = tuple(SIZES.get(key, 1) for key in LENGTH_KEYS)
_others_of = attrgetter(*(key for key in TEXTS if key != "label"))
_lengths_of = attrgetter(*LENGTH_KEYS)


def tokens(text: str) -> list[str]:
    """The words of a text in small letters; of those with hyphens their parts too.

    >>> tokens("5/8 t-slot cutter, plug")
    ['5/8', 't-slot', 'cutter', 'plug', 't', 'slot']
    """
    found = _TOKEN.findall(text)
    return found + [part for token in found if "-" in token for part in token.split("-") if part.isalpha()]


def size_of(word: str, units: str) -> float | None:
    """The size that a word says [mm]; None where it says none."""
    if len(word) > _LONGEST_SIZE:
        return None
    try:
        return read(word, units).mm
    except CribError:
        return None


class Scores:
    """How well cutters fit words, each of which stands for a size where it says one."""

    def __init__(self, words: Sequence[str], units: str) -> None:
        self._words = [(word, size_of(word, units)) for word in words]
        self._sizes = [(place, size) for place, (_, size) in enumerate(self._words) if size is not None]
        self._known: dict[tuple[int, str], list[float]] = {}
        self._of_texts: dict[tuple[Any, ...], list[float]] = {}

    def of(self, cutter: Cutter) -> list[float]:
        """How well each word fits a cutter; 0 where it doesn't. Nobody changes it: it is that of others too that say
        the same, where neither sizes nor a label count."""
        texts = _others_of(cutter)
        if texts in self._of_texts:
            return self._of_texts[texts]
        best: list[float] = [0.0] * len(self._words)
        for place, size in self._sizes:
            best[place] = _of_size(cutter, size)
        for weight, text in zip(_OTHERS, texts, strict=True):
            if text:
                self._gain(best, weight, text)
        if best and min(best) < _LABEL:
            self._gain(best, _LABEL, cutter.label)
        elif not self._sizes and len(self._of_texts) < _MOST_KEPT:
            self._of_texts[texts] = best
        return best

    def _gain(self, best: list[float], weight: int, text: str) -> None:
        """Count what the words are worth in a text."""
        place = weight, text
        if (gained := self._known.get(place)) is None:
            if len(self._known) >= _MOST_KEPT:
                self._known.clear()
            self._known[place] = gained = self._in(weight, str(text).lower())
        if gained:
            best[:] = map(max, best, gained)

    def _in(self, weight: int, text: str) -> list[float]:
        """What each word is worth in a text; nothing where none is in it."""
        parts = tokens(text)
        gained = [_of_word(word, size is None, parts, text) * weight for word, size in self._words]
        return gained if any(gained) else []


def _of_size(cutter: Cutter, size: float) -> float:
    """What a cutter's sizes are worth where one is looked for."""
    best = 0
    for mm, worth in zip(_lengths_of(cutter), _WORTH, strict=True):
        if mm is not None and worth > best and _fits(mm, size):
            best = worth
    if cutter.ends and any(_fits(mm, size) for end in cutter.ends for mm in (end.diameter_mm, end.nominal_mm)):
        best = max(best, SIZES["diameter_mm"])
    return best


def _of_word(word: str, may_be_part: bool, parts: Sequence[str], text: str) -> float:
    """What share of its worth a word has in a text, by how it stands there."""
    if word in parts:
        return 1.0
    if not may_be_part:
        return 0.0
    if _begins_one(word, parts):
        return 0.8
    if len(word) > 2 and word in text:
        return 0.5
    return 0.9 if word.endswith("s") and word[:-1] in parts else 0.0


def _begins_one(word: str, parts: Iterable[str]) -> bool:
    return any(part.startswith(word) for part in parts)


def _fits(mm: float | None, size: float) -> bool:
    return mm is not None and abs(mm - size) <= WITHIN_MM + 1e-9

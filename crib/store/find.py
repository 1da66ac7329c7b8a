"""Finding cutters by words and sizes. A word that is misspelt finds what is near; a size never does."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from crib.cutters.base import LENGTH_KEYS, Cutter
from crib.diagnostics import CribError
from crib.lengths import read

_WITHIN_MM = 0.0254
"""A size fits within a thou."""

_NEAR = 75
"""How alike, of 100, a misspelt word must be."""

_LONGEST_SIZE = 60
_NOISE = {"x", "by", "a", "an", "the", "with"}
_TEXTS = (("label", 4), ("kind", 4), ("thread", 4), ("marking", 3), ("drawer", 3), ("material", 2), ("condition", 2),
          ("tap_chamfer", 2), ("tap_form", 2), ("tap_point", 2), ("note", 1))
_SIZES = {"diameter_mm": 6, "nominal_mm": 6, "face_mm": 4, "radius_mm": 4}
_TOKEN = re.compile(r"[^\s,;()]+")


@dataclass(frozen=True)
class Found:
    """What was found, best first, and which words were taken for another."""

    cutters: tuple[Cutter, ...]
    read_as: dict[str, str]


def find(cutters: Sequence[Cutter], words: Sequence[str], units: str) -> Found:
    """The cutters that fit every word, best first, ties by id.

    Words fit in the label, kind, drawer, note, marking and material, sizes within a thou. Where nothing fits, misspelt
    words are taken for the nearest that occurs.
    """
    wanted = [word.lower() for text in words for word in text.split() if word.lower() not in _NOISE]
    found = _all_that_fit(cutters, wanted, units)
    if found or not wanted:
        return Found(found, {})
    read_as = _corrected(cutters, wanted, units)
    if not read_as:
        return Found((), {})
    return Found(_all_that_fit(cutters, [read_as.get(word, word) for word in wanted], units), read_as)


def _all_that_fit(cutters: Iterable[Cutter], words: Sequence[str], units: str) -> tuple[Cutter, ...]:
    sizes = [_size(word, units) for word in words]
    scored = []
    for cutter in cutters:
        texts = _texts(cutter)
        scores = [_score(cutter, texts, word, size) for word, size in zip(words, sizes, strict=True)]
        if all(scores):
            scored.append((-sum(scores), cutter.id, cutter))
    return tuple(cutter for _, _, cutter in sorted(scored, key=lambda entry: entry[:2]))


def _texts(cutter: Cutter) -> list[tuple[str, list[str], int]]:
    lowered = [(str(getattr(cutter, key) or "").lower(), weight) for key, weight in _TEXTS]
    return [(text, _tokens(text), weight) for text, weight in lowered if text]


def _tokens(text: str) -> list[str]:
    tokens = _TOKEN.findall(text)
    return tokens + [part for token in tokens if "-" in token for part in token.split("-") if part.isalpha()]


def _size(word: str, units: str) -> float | None:
    if len(word) > _LONGEST_SIZE:
        return None
    try:
        return read(word, units).mm
    except CribError:
        return None


def _score(cutter: Cutter, texts: list[tuple[str, list[str], int]], word: str, size: float | None) -> float:
    """How well one word fits one cutter; 0 where it doesn't."""
    best = 0.0
    if size is not None:
        best = max((_SIZES.get(key, 1) for key in LENGTH_KEYS if _fits(getattr(cutter, key), size)), default=0)
        if cutter.ends and any(_fits(end.diameter_mm, size) or _fits(end.nominal_mm, size) for end in cutter.ends):
            best = max(best, _SIZES["diameter_mm"])
    for text, tokens, weight in texts:
        if word in tokens:
            best = max(best, weight)
        elif size is None and any(token.startswith(word) for token in tokens):
            best = max(best, weight * 0.8)
        elif size is None and len(word) > 2 and word in text:
            best = max(best, weight * 0.5)
        elif size is None and word.endswith("s") and word[:-1] in tokens:
            best = max(best, weight * 0.9)
    return best


def _fits(mm: float | None, size: float) -> bool:
    return mm is not None and abs(mm - size) <= _WITHIN_MM + 1e-9


def _corrected(cutters: Sequence[Cutter], words: Sequence[str], units: str) -> dict[str, str]:
    """For each word that fits nowhere the nearest that occurs; sizes and short words are left alone."""
    from rapidfuzz import fuzz, process

    known = sorted({token for cutter in cutters for _, tokens, _ in _texts(cutter) for token in tokens
                    if token.isalpha() or "-" in token})
    read_as = {}
    for word in words:
        if _size(word, units) is not None or len(word) < 3 or _all_that_fit(cutters, [word], units):
            continue
        near = process.extractOne(word, known, scorer=fuzz.ratio, score_cutoff=_NEAR)
        if near:
            read_as[word] = near[0]
    return read_as

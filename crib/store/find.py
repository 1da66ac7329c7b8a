"""Finding cutters by words and sizes. A word that is misspelt finds what is near; a size never does.

The database sieves first: a row that the sieve leaves out fits for certain none of what was asked. What is left is
read, scored and put in order here.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence

from crib.cutters import KINDS
from crib.cutters.base import LENGTH_KEYS, Cutter
from crib.findings.errors import CribError
from crib.patterns import pattern
from crib.records import dataclass, field, replace
from crib.store.columns import CUTTER_READ, LENGTH_COLUMNS
from crib.store.database import Database
from crib.store.places import is_in
from crib.store.rows import from_rows
from crib.units import nm, read

_WITHIN_MM = 0.0254
"""A size fits within a thou."""

_NEAR = 75
"""How alike, of 100, a misspelt word must be."""

_FEW = 50
"""Rows that mostly show whether a word occurs."""

_LONGEST_SIZE = 60
_NOISE = {"x", "by", "a", "an", "the", "with"}
_TEXTS = (("label", 4), ("kind", 4), ("thread", 4), ("marking", 3), ("drawer", 3), ("material", 2), ("condition", 2),
          ("tap_chamfer", 2), ("tap_form", 2), ("tap_point", 2), ("note", 1))
_SIZES = {"diameter_mm": 6, "nominal_mm": 6, "face_mm": 4, "radius_mm": 4}
_TOKEN = pattern(r"[^\s,;()]+")
_COLUMNS = ("drawer", "thread", "marking", "note", "material", "condition", "rest")
_LABEL_WORDS = """flute flutes degrees radius bore pilot holes from long corner hand reground measures to not measured
ball double-ended double ended and mm"""
_OF_LABELS = tuple(_LABEL_WORDS.split())
"""Words that a label has besides the kind's name and the columns: the sieve can't tell where they occur."""


@dataclass(frozen=True)
class Found:
    """What was found, best first, and which words were taken for another."""

    cutters: tuple[Cutter, ...]
    read_as: dict[str, str]


@dataclass(frozen=True)
class Wanted:
    """What is looked for. All of it must fit: every word, and of the others those that aren't empty.

    `kinds`: one of these kinds. `near`: sizes with how far a cutter's may be off [mm]. `place`: where its place begins.
    `shank`: between which diameters its shank lies [mm]. `material`: its material.
    `threads`: one of these threads.
    """

    words: tuple[str, ...] = ()
    kinds: tuple[str, ...] = ()
    near: tuple[tuple[float, float], ...] = ()
    place: str | None = None
    shank: tuple[float, float] | None = None
    material: str | None = None
    read_as: dict[str, str] = field(default_factory=dict)
    threads: tuple[str, ...] = ()


def plainly(words: Sequence[str], units: str) -> Wanted:
    """Words as they are, each of which must fit."""
    return Wanted(tuple(word.lower() for text in words for word in text.split() if word.lower() not in _NOISE))


def find(cutters: Sequence[Cutter], words: Sequence[str], units: str) -> Found:
    """The cutters that fit every word, best first, ties by id.

    Words fit in the label, kind, drawer, note, marking and material, sizes within a thou. Where nothing fits, misspelt
    words are taken for the nearest that occurs.
    """
    wanted = plainly(words, units).words
    found = _all_that_fit(cutters, wanted, units)
    if found or not wanted:
        return Found(found, {})
    known = {token for cutter in cutters for _, tokens, _ in _texts(cutter) for token in tokens}
    read_as = _corrected(known, wanted, units, lambda word: bool(_all_that_fit(cutters, [word], units)))
    if not read_as:
        return Found((), {})
    return Found(_all_that_fit(cutters, [read_as.get(word, word) for word in wanted], units), read_as)


def search(database: Database, wanted: Wanted, units: str) -> Found:
    """The same over the rows of a database, without reading those that can't fit."""
    found = _sieved(database, wanted, units)
    if found or not wanted.words:
        return Found(found, dict(wanted.read_as))
    read_as = _corrected(_vocabulary(database), wanted.words, units,
                         lambda word: any(_sieved(database, Wanted((word,)), units, most) for most in (_FEW, None)))
    if not read_as:
        return Found((), dict(wanted.read_as))
    words = tuple(read_as.get(word, word) for word in wanted.words)
    return Found(_sieved(database, replace(wanted, words=words), units), wanted.read_as | read_as)


def escaped(text: str) -> str:
    """A text as LIKE takes it, with `!` before what means something there."""
    return re.sub(r"([!%_])", r"!\1", text)


def _sieved(database: Database, wanted: Wanted, units: str, most: int | None = None) -> tuple[Cutter, ...]:
    """What fits, of all rows or of the first so many that come through the sieve."""
    clauses: list[str] = []
    values: dict[str, str | int] = {}
    for word in wanted.words:
        _sieve_word(word, units, clauses, values)
    for mm, off in wanted.near:
        _sieve_size(mm, off, clauses, values)
    _sieve_rest(wanted, clauses, values)
    columns = ", ".join(f'"{column}"' for column in CUTTER_READ)
    where = f"WHERE {' AND '.join(clauses)}" if clauses else ""
    limit = "" if most is None else f"LIMIT {most}"
    rows = database.run(f"SELECT {columns} FROM cutter {where} ORDER BY id {limit}", values)
    cutters = from_rows(rows, units)
    if wanted.place is not None:
        cutters = [cutter for cutter in cutters if is_in(cutter.drawer, wanted.place)]
    near = [cutter for cutter in cutters if all(_is_near(cutter, mm, off) for mm, off in wanted.near)]
    return _all_that_fit(near, wanted.words, units, wanted.near)


def _slot(values: dict[str, str | int], value: str | int) -> str:
    name = f"v{len(values)}"
    values[name] = value
    return f":{name}"


def _sieve_word(word: str, units: str, clauses: list[str], values: dict[str, str | int]) -> None:
    """A clause that holds for every row that a word could fit; none where that can't be said."""
    size = _size(word, units)
    if size is None and (not any(sign.isalpha() for sign in word) or any(word in name for name in _OF_LABELS)):
        return
    like = _slot(values, f"%{escaped(word)}%")
    parts = [f"lower({column}) LIKE {like} ESCAPE '!'" for column in _COLUMNS]
    stem = word[:-1] if word.endswith("s") else word
    if word.endswith("s"):
        shorter = _slot(values, f"%{escaped(stem)}%")
        parts += [f"lower({column}) LIKE {shorter} ESCAPE '!'" for column in _COLUMNS]
    kinds = [kind.name for kind in KINDS.values()
             if any(part in f"{kind.words.lower()} {kind.name}" for part in (word, stem))]
    if kinds:
        parts.append(f"kind IN ({', '.join(_slot(values, kind) for kind in kinds)})")
    if size is not None:  # a label may say 6 mm where 6 is looked for
        for mm in {size, _size(word, "mm") or size}:
            parts += _size_parts(mm, _WITHIN_MM, tuple(LENGTH_COLUMNS.values()), values)
        parts.append("rest LIKE '%\"ends\"%'")
    clauses.append(f"({' OR '.join(parts)})")


def _size_parts(mm: float, off: float, columns: Iterable[str], values: dict[str, str | int]) -> list[str]:
    low, high = _slot(values, nm(max(0.0, mm - off)) - 1), _slot(values, nm(mm + off) + 1)
    return [f"{column} BETWEEN {low} AND {high}" for column in columns]


def _sieve_size(mm: float, off: float, clauses: list[str], values: dict[str, str | int]) -> None:
    parts = _size_parts(mm, off, (LENGTH_COLUMNS[key] for key in _SIZES), values)
    clauses.append(f"({' OR '.join(parts)} OR rest LIKE '%\"ends\"%')")


def _sieve_rest(wanted: Wanted, clauses: list[str], values: dict[str, str | int]) -> None:
    if wanted.kinds:
        clauses.append(f"kind IN ({', '.join(_slot(values, kind) for kind in wanted.kinds)})")
    if wanted.place is not None:
        clauses.append(f"lower(drawer) LIKE {_slot(values, escaped(wanted.place.lower()) + '%')} ESCAPE '!'")
    if wanted.threads:
        parts = [f"lower(thread) = {_slot(values, name.lower())} OR lower(thread) LIKE "
                 f"{_slot(values, escaped(name.lower()) + ' %')} ESCAPE '!'" for name in wanted.threads]
        clauses.append(f"({' OR '.join(parts)})")
    if wanted.shank is not None:
        low, high = wanted.shank
        clauses.append(f"shank_nm BETWEEN {_slot(values, nm(low))} AND {_slot(values, nm(high))}")
    if wanted.material is not None:
        clauses.append(f"material = {_slot(values, wanted.material)}")


def _is_near(cutter: Cutter, mm: float, off: float) -> bool:
    sizes = [getattr(one, key) for one in (cutter, *cutter.ends) for key in _SIZES]
    return any(size is not None and abs(size - mm) <= off + 1e-9 for size in sizes)


def _vocabulary(database: Database) -> set[str]:
    """The words that occur in the crib: names of kinds, and what stands in the columns."""
    known = {token for kind in KINDS.values() for token in _tokens(f"{kind.words.lower()} {kind.plural} {kind.name}")}
    for column in ("drawer", "marking", "note", "material", "condition", "thread"):
        for (text,) in database.run(f"SELECT DISTINCT {column} FROM cutter WHERE {column} IS NOT NULL"):
            known.update(_tokens(str(text).lower()))
    return known | set(_OF_LABELS)


def _all_that_fit(
    cutters: Iterable[Cutter], words: Sequence[str], units: str, near: Sequence[tuple[float, float]] = ()
) -> tuple[Cutter, ...]:
    sizes = [_size(word, units) for word in words]
    scored = []
    for cutter in cutters:
        texts = _texts(cutter)
        scores = [_score(cutter, texts, word, size) for word, size in zip(words, sizes, strict=True)]
        if all(scores):
            off = sum(_off(cutter, mm) for mm, _ in near)
            scored.append((-sum(scores), off, cutter.id, cutter))
    return tuple(entry[-1] for entry in sorted(scored, key=lambda entry: entry[:3]))


def _off(cutter: Cutter, mm: float) -> float:
    """How far the nearest of a cutter's sizes is from one that is looked for."""
    sizes = [getattr(one, key) for one in (cutter, *cutter.ends) for key in _SIZES]
    return min((abs(size - mm) for size in sizes if size is not None), default=0.0)


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


def _corrected(known: Iterable[str], words: Sequence[str], units: str, occurs: Callable[[str], bool]) -> dict[str, str]:
    """For each word that fits nowhere the nearest that occurs; sizes and short words are left alone."""
    from rapidfuzz import fuzz, process

    names = sorted({token for token in known if token.isalpha() or "-" in token})
    read_as = {}
    for word in words:
        if _size(word, units) is not None or len(word) < 3 or occurs(word):
            continue
        near = process.extractOne(word, names, scorer=fuzz.ratio, score_cutoff=_NEAR)
        if near:
            read_as[word] = near[0]
    return read_as

"""Finding cutters by words and sizes. A word that is misspelt finds what is near; a size never does.

The database sieves first (`crib/store/sieve.py`). What is left is read, scored and put in order here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from operator import attrgetter

from crib.cutters import KINDS
from crib.cutters.base import Cutter
from crib.light.records import dataclass, replace
from crib.store.columns import CUTTER_READ
from crib.store.database import Database
from crib.store.places import is_in
from crib.store.rows import from_rows
from crib.store.scores import SIZES, TEXTS, Scores, size_of, tokens
from crib.store.sieve import OF_LABELS, condition
from crib.store.sieve import Wanted as Wanted
from crib.store.statements import listed

_NEAR = 75
"""How alike, of 100, a misspelt word must be."""

_FEW = 50
"""Rows that mostly show whether a word occurs."""

_NOISE = {"x", "by", "a", "an", "the", "with"}


@dataclass(frozen=True)
class Found:
    """What was found, best first, and which words were taken for another. `more`: how many more fit that weren't
    read."""

    cutters: tuple[Cutter, ...]
    read_as: dict[str, str]
    more: int = 0


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
    known = {token for cutter in cutters for key in TEXTS for token in tokens(str(getattr(cutter, key) or "").lower())}
    read_as = _corrected(known, wanted, units, lambda word: bool(_all_that_fit(cutters, [word], units)))
    if not read_as:
        return Found((), {})
    return Found(_all_that_fit(cutters, [read_as.get(word, word) for word in wanted], units), read_as)


def search(database: Database, wanted: Wanted, units: str, most: int | None = None) -> Found:
    """The same over the rows of a database, without reading those that can't fit. Where all that fit are as good as one
    another, no more than the first `most` are read."""
    if most is not None and not (wanted.words or wanted.near or wanted.place):
        where, values = condition(database, wanted, units)
        [(count,)] = database.run(f"SELECT count(*) FROM cutter {where}", values)
        found = _sieved(database, wanted, units, most)
        return Found(found, dict(wanted.read_as), int(count) - len(found))
    found = _sieved(database, wanted, units)
    if found or not wanted.words:
        return Found(found, dict(wanted.read_as))
    read_as = _corrected(_vocabulary(database), wanted.words, units,
                         lambda word: any(_sieved(database, Wanted((word,)), units, most) for most in (_FEW, None)))
    if not read_as:
        return Found((), dict(wanted.read_as))
    words = tuple(read_as.get(word, word) for word in wanted.words)
    return Found(_sieved(database, replace(wanted, words=words), units), wanted.read_as | read_as)


def _sieved(database: Database, wanted: Wanted, units: str, most: int | None = None) -> tuple[Cutter, ...]:
    """What fits, of all rows or of the first so many that come through the sieve."""
    where, values = condition(database, wanted, units)
    limit = "" if most is None else f"LIMIT {most}"
    rows = database.run(f"SELECT {listed(CUTTER_READ)} FROM cutter {where} ORDER BY id {limit}", values)
    cutters = from_rows(rows, units)
    if wanted.place is not None:
        cutters = [cutter for cutter in cutters if is_in(cutter.drawer, wanted.place)]
    near = [cutter for cutter in cutters if all(_is_near(cutter, mm, off) for mm, off in wanted.near)]
    return _all_that_fit(near, wanted.words, units, wanted.near)


def _is_near(cutter: Cutter, mm: float, off: float) -> bool:
    sizes = [getattr(one, key) for one in (cutter, *cutter.ends) for key in SIZES]
    return any(size is not None and abs(size - mm) <= off + 1e-9 for size in sizes)


def _vocabulary(database: Database) -> set[str]:
    """The words that occur in the crib: names of kinds, and what stands in the columns."""
    known = {token for kind in KINDS.values() for token in tokens(f"{kind.words.lower()} {kind.plural} {kind.name}")}
    for column in ("drawer", "marking", "note", "material", "condition", "thread"):
        for (text,) in database.run(f"SELECT DISTINCT {column} FROM cutter WHERE {column} IS NOT NULL"):
            known.update(tokens(str(text).lower()))
    return known | set(OF_LABELS)


def _all_that_fit(
    cutters: Iterable[Cutter], words: Sequence[str], units: str, near: Sequence[tuple[float, float]] = ()
) -> tuple[Cutter, ...]:
    if not words and not near:
        return tuple(sorted(cutters, key=attrgetter("id")))
    scores = Scores(words, units)
    scored = []
    for cutter in cutters:
        score = scores.of(cutter)
        if all(score):
            off = sum(_off(cutter, mm) for mm, _ in near)
            scored.append((-sum(score), off, cutter.id, cutter))
    return tuple(entry[-1] for entry in sorted(scored, key=lambda entry: entry[:3]))


def _off(cutter: Cutter, mm: float) -> float:
    """How far the nearest of a cutter's sizes is from one that is looked for."""
    sizes = [getattr(one, key) for one in (cutter, *cutter.ends) for key in SIZES]
    return min((abs(size - mm) for size in sizes if size is not None), default=0.0)


def _corrected(known: Iterable[str], words: Sequence[str], units: str, occurs: Callable[[str], bool]) -> dict[str, str]:
    """For each word that fits nowhere the nearest that occurs; sizes and short words are left alone."""
    from rapidfuzz import fuzz, process

    names = sorted({token for token in known if token.isalpha() or "-" in token})
    read_as = {}
    for word in words:
        if size_of(word, units) is not None or len(word) < 3 or occurs(word):
            continue
        near = process.extractOne(word, names, scorer=fuzz.ratio, score_cutoff=_NEAR)
        if near:
            read_as[word] = near[0]
    return read_as

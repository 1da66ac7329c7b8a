"""Finding cutters by words and sizes. A word that is misspelt finds what is near; a size never does.

The database sieves first: a row that the sieve leaves out fits for certain none of what was asked. What is left is
read, scored and put in order here.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Sequence
from operator import attrgetter

from crib.cutters import KINDS
from crib.cutters.base import CONDITIONS, MATERIALS, Cutter
from crib.light.patterns import pattern
from crib.light.records import dataclass, field, replace
from crib.store.columns import CUTTER_READ, LENGTH_COLUMNS
from crib.store.database import Database
from crib.store.places import is_in
from crib.store.rows import from_rows
from crib.store.scores import SIZES, TEXTS, WITHIN_MM, Scores, size_of, tokens
from crib.store.statements import listed
from crib.units import nm

_NEAR = 75
"""How alike, of 100, a misspelt word must be."""

_FEW = 50
"""Rows that mostly show whether a word occurs."""

_NOISE = {"x", "by", "a", "an", "the", "with"}
_COLUMNS = ("drawer", "thread", "marking", "note", "rest")
_CHOICES = {"material": MATERIALS, "condition": CONDITIONS}
_LABEL_WORDS = """flute flutes degrees radius bore pilot holes from long corner hand reground measures to not measured
ball double-ended double ended and mm"""
_OF_LABELS = tuple(_LABEL_WORDS.split())
"""Words that a label has besides the kind's name and the columns: the sieve can't tell where they occur."""

_FIGURES = pattern(r"[0-9][0-9/-]*")
_OF_A_FRACTION = pattern(r"[0-9]+(?:-(?P<over>[0-9]*)(?:/[0-9]*)?|/[0-9]*)?")
_ODD = tuple(str(over) for over in range(1, 64, 2))
"""What can stand over the line of a fraction of an inch, which go down to 64ths."""


@dataclass(frozen=True)
class Found:
    """What was found, best first, and which words were taken for another. `more`: how many more fit that weren't
    read."""

    cutters: tuple[Cutter, ...]
    read_as: dict[str, str]
    more: int = 0


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
    known = {token for cutter in cutters for key in TEXTS for token in tokens(str(getattr(cutter, key) or "").lower())}
    read_as = _corrected(known, wanted, units, lambda word: bool(_all_that_fit(cutters, [word], units)))
    if not read_as:
        return Found((), {})
    return Found(_all_that_fit(cutters, [read_as.get(word, word) for word in wanted], units), read_as)


def search(database: Database, wanted: Wanted, units: str, most: int | None = None) -> Found:
    """The same over the rows of a database, without reading those that can't fit. Where all that fit are as good as one
    another, no more than the first `most` are read."""
    if most is not None and not (wanted.words or wanted.near or wanted.place):
        where, values = _where(wanted, units)
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


def escaped(text: str) -> str:
    """A text as LIKE takes it, with `!` before what means something there."""
    return re.sub(r"([!%_])", r"!\1", text)


def _sieved(database: Database, wanted: Wanted, units: str, most: int | None = None) -> tuple[Cutter, ...]:
    """What fits, of all rows or of the first so many that come through the sieve."""
    where, values = _where(wanted, units)
    limit = "" if most is None else f"LIMIT {most}"
    rows = database.run(f"SELECT {listed(CUTTER_READ)} FROM cutter {where} ORDER BY id {limit}", values)
    cutters = from_rows(rows, units)
    if wanted.place is not None:
        cutters = [cutter for cutter in cutters if is_in(cutter.drawer, wanted.place)]
    near = [cutter for cutter in cutters if all(_is_near(cutter, mm, off) for mm, off in wanted.near)]
    return _all_that_fit(near, wanted.words, units, wanted.near)


def _where(wanted: Wanted, units: str) -> tuple[str, dict[str, str | int]]:
    """What the rows are sieved by, and its values."""
    clauses: list[str] = []
    values: dict[str, str | int] = {}
    for word in wanted.words:
        _sieve_word(word, units, clauses, values)
    for mm, off in wanted.near:
        _sieve_size(mm, off, clauses, values)
    _sieve_rest(wanted, clauses, values)
    return f"WHERE {' AND '.join(clauses)}" if clauses else "", values


def _slot(values: dict[str, str | int], value: str | int) -> str:
    name = f"v{len(values)}"
    values[name] = value
    return f":{name}"


def _sieve_word(word: str, units: str, clauses: list[str], values: dict[str, str | int]) -> None:
    """A clause that holds for every row that a word could fit; none where that can't be said. What most rows are told
    by stands first."""
    size = size_of(word, units)
    if size is None and _may_be_of_any_label(word):
        return
    said = (word, word[:-1]) if word.endswith("s") else (word,)
    kinds = [kind.name for kind in KINDS.values()
             if any(one in f"{kind.words.lower()} {kind.name}" for one in said)]
    parts = [_one_of("kind", kinds, values)] if kinds else []
    if size is not None:  # a label may say 6 mm where 6 is looked for
        for mm in {size, size_of(word, "mm") or size}:
            parts += _size_parts(mm, WITHIN_MM, tuple(LENGTH_COLUMNS.values()), values)
    for column, choices in _CHOICES.items():
        if some := [choice for choice in choices if any(one in choice for one in said)]:
            parts.append(_one_of(column, some, values))
    for one in said:
        like = _slot(values, f"%{escaped(one)}%")
        parts += [f"{_in_small_letters(column, one)} LIKE {like} ESCAPE '!'" for column in _COLUMNS]
    if size is not None:
        parts.append("rest LIKE '%\"ends\"%'")
    clauses.append(f"({' OR '.join(parts)})")


def _in_small_letters(column: str, word: str) -> str:
    """A column in small letters; as it is where a word has none, which halves what looking through all rows takes. No
    index would: the word may be a part of any word in them."""
    return f"lower({column})" if not word.isascii() or any(sign.isalpha() for sign in word) else column


def _may_be_of_any_label(word: str) -> bool:
    """Whether a word that says no size may stand in a label whatever its row says: with letters only where it is of the
    few words that labels have of themselves, without where it may be of a number or a fraction. A thread is neither.

    >>> [_may_be_of_any_label(word) for word in ("flute", "gizmo", "1-1/", "3-3", "1/4-20", "10-32", "#", "-1/4")]
    [True, False, True, True, False, False, True, True]
    """
    if any(sign.isalpha() for sign in word):
        return any(word in name for name in _OF_LABELS)
    if not _FIGURES.fullmatch(word):
        return True
    part = _OF_A_FRACTION.fullmatch(word)
    return part is not None and (not part["over"] or any(odd.startswith(part["over"]) for odd in _ODD))


def _one_of(column: str, choices: Iterable[str], values: dict[str, str | int]) -> str:
    return f"{column} IN ({', '.join(_slot(values, choice) for choice in choices)})"


def _size_parts(mm: float, off: float, columns: Iterable[str], values: dict[str, str | int]) -> list[str]:
    low, high = _slot(values, nm(max(0.0, mm - off)) - 1), _slot(values, nm(mm + off) + 1)
    return [f"{column} BETWEEN {low} AND {high}" for column in columns]


def _sieve_size(mm: float, off: float, clauses: list[str], values: dict[str, str | int]) -> None:
    parts = _size_parts(mm, off, (LENGTH_COLUMNS[key] for key in SIZES), values)
    clauses.append(f"({' OR '.join(parts)} OR rest LIKE '%\"ends\"%')")


def _sieve_rest(wanted: Wanted, clauses: list[str], values: dict[str, str | int]) -> None:
    if wanted.kinds:
        clauses.append(_one_of("kind", wanted.kinds, values))
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
    sizes = [getattr(one, key) for one in (cutter, *cutter.ends) for key in SIZES]
    return any(size is not None and abs(size - mm) <= off + 1e-9 for size in sizes)


def _vocabulary(database: Database) -> set[str]:
    """The words that occur in the crib: names of kinds, and what stands in the columns."""
    known = {token for kind in KINDS.values() for token in tokens(f"{kind.words.lower()} {kind.plural} {kind.name}")}
    for column in ("drawer", "marking", "note", "material", "condition", "thread"):
        for (text,) in database.run(f"SELECT DISTINCT {column} FROM cutter WHERE {column} IS NOT NULL"):
            known.update(tokens(str(text).lower()))
    return known | set(_OF_LABELS)


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

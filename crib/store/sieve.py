"""What the database sieves cutters by before any is read: a row that it leaves out fits for certain none of what was
asked."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from crib.cutters import KINDS
from crib.cutters.base import CONDITIONS, MATERIALS
from crib.light.patterns import pattern
from crib.light.records import dataclass, field
from crib.store.columns import LENGTH_COLUMNS
from crib.store.database import Database
from crib.store.scores import SIZES, WITHIN_MM, size_of
from crib.units import nm

_FEW = 50
"""So many texts are looked up one by one."""

_MANY = 2000
"""So many different texts of a column are looked through for a word before its rows are."""

_COLUMNS = ("drawer", "thread", "marking", "note", "rest")
_CHOICES = {"material": MATERIALS, "condition": CONDITIONS}
_LABEL_WORDS = """flute flutes degrees radius bore pilot holes from long corner hand reground measures stated to not
measured ball double-ended double ended and mm"""
OF_LABELS = tuple(_LABEL_WORDS.split())
"""Words that a label has besides the kind's name and the columns: the sieve can't tell where they occur."""

_FIGURES = pattern(r"[0-9][0-9/-]*")
_OTHER_SIGNS = pattern(r"[^\x00-\x7f]+")
"""What a database needn't know the small letters of."""

_OF_A_FRACTION = pattern(r"[0-9]+(?:-(?P<over>[0-9]*)(?:/[0-9]*)?|/[0-9]*)?")
_ODD = tuple(str(over) for over in range(1, 64, 2))
"""What can stand over the line of a fraction of an inch, which go down to 64ths."""


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


def condition(database: Database, wanted: Wanted, units: str) -> tuple[str, dict[str, str | int]]:
    """The condition that every row holds which could fit, and its values."""
    sieve = _Sieve(database)
    for word in wanted.words:
        sieve.word(word, units)
    for mm, off in wanted.near:
        sieve.size(mm, off)
    sieve.rest(wanted)
    return f"WHERE {' AND '.join(sieve.clauses)}" if sieve.clauses else "", sieve.values


def escaped(text: str) -> str:
    """A text as LIKE takes it, with `!` before what means something there."""
    return re.sub(r"([!%_])", r"!\1", text)


class _Sieve:
    """Clauses that all hold for every row that could fit, and their values."""

    def __init__(self, database: Database) -> None:
        self._database = database
        self.clauses: list[str] = []
        self.values: dict[str, str | int] = {}
        self._texts: dict[str, list[str] | None] = {}

    def word(self, word: str, units: str) -> None:
        """A clause that holds for every row that a word could fit; none where that can't be said. What most rows are
        told by stands first."""
        size = size_of(word, units)
        if size is None:
            word = word.rstrip(",")  # a label says "3/8 blank, 3 long" of what columns hold without
            if not word or _may_be_of_any_label(word):
                return
        said = (word, word[:-1]) if word.endswith("s") else (word,)
        named = () if any(sign.isdigit() for sign in word) else KINDS.values()  # no kind has a figure in its name
        kinds = [kind.name for kind in named if any(one in f"{kind.words.lower()} {kind.name}" for one in said)]
        parts = [self._one_of("kind", kinds)] if kinds else []
        if size is not None:  # a label may say 6 mm where 6 is looked for
            for mm in {size, size_of(word, "mm") or size}:
                parts += self._between(mm, WITHIN_MM, LENGTH_COLUMNS.values())
        for column, choices in _CHOICES.items():
            if some := [choice for choice in choices if any(one in choice for one in said)]:
                parts.append(self._one_of(column, some))
        for column in _COLUMNS:
            parts += self._with_text(column, (*said, '"ends"') if size is not None and column == "rest" else said)
        self.clauses.append(f"({' OR '.join(parts) or 'FALSE'})")

    def _with_text(self, column: str, said: Sequence[str]) -> list[str]:
        """What holds for every row whose text in a column has one of these in it. Where the different texts that there
        are can be looked up, only the rows with some of them are looked at."""
        if column not in self._texts:
            self._texts[column] = self._database.texts(column, _MANY)
        texts = self._texts[column]
        fit = None if texts is None else [text for text in texts if any(one in text.lower() for one in said)]
        if fit is not None and len(fit) <= _FEW:
            return [self._one_of(column, fit)] if fit else []
        likes = [self._slot("%" + _OTHER_SIGNS.sub("%", escaped(one)) + "%") for one in said]
        return [f"{_in_small_letters(column, one)} LIKE {like} ESCAPE '!'"
                for one, like in zip(said, likes, strict=True)]

    def size(self, mm: float, off: float) -> None:
        """A clause that holds for every row with a size near one."""
        parts = self._between(mm, off, (LENGTH_COLUMNS[key] for key in SIZES))
        self.clauses.append(f"({' OR '.join(parts)} OR rest LIKE '%\"ends\"%')")

    def rest(self, wanted: Wanted) -> None:
        """Clauses for what is looked for beside words and sizes."""
        if wanted.kinds:
            self.clauses.append(self._one_of("kind", wanted.kinds))
        if wanted.place is not None:
            begin = self._slot(escaped(wanted.place.lower()) + "%")
            self.clauses.append(f"lower(drawer) LIKE {begin} ESCAPE '!'")
        if wanted.threads:
            parts = [f"lower(thread) = {self._slot(name.lower())} OR lower(thread) LIKE "
                     f"{self._slot(escaped(name.lower()) + ' %')} ESCAPE '!'" for name in wanted.threads]
            self.clauses.append(f"({' OR '.join(parts)})")
        if wanted.shank is not None:
            low, high = wanted.shank
            self.clauses.append(f"shank_nm BETWEEN {self._slot(nm(low))} AND {self._slot(nm(high))}")
        if wanted.material is not None:
            self.clauses.append(f"material = {self._slot(wanted.material)}")

    def _slot(self, value: str | int) -> str:
        name = f"v{len(self.values)}"
        self.values[name] = value
        return f":{name}"

    def _one_of(self, column: str, choices: Iterable[str]) -> str:
        return f"{column} IN ({', '.join(map(self._slot, choices))})"

    def _between(self, mm: float, off: float, columns: Iterable[str]) -> list[str]:
        low, high = self._slot(nm(max(0.0, mm - off)) - 1), self._slot(nm(mm + off) + 1)
        return [f"{column} BETWEEN {low} AND {high}" for column in columns]


def _in_small_letters(column: str, word: str) -> str:
    """A column in small letters; as it is where a word has none, which halves what looking through all rows takes."""
    return f"lower({column})" if not word.isascii() or any(sign.isalpha() for sign in word) else column


def _may_be_of_any_label(word: str) -> bool:
    """Whether a word that says no size may stand in a label whatever its row says: with letters only where it is of the
    few words that labels have of themselves, without where it may be of a number or a fraction. A thread is neither.

    >>> [_may_be_of_any_label(word) for word in ("flute", "gizmo", "1-1/", "3-3", "1/4-20", "10-32", "#", "-1/4")]
    [True, False, True, True, False, False, True, True]
    """
    if any(sign.isalpha() for sign in word):
        return any(word in name for name in OF_LABELS)
    if not _FIGURES.fullmatch(word):
        return True
    part = _OF_A_FRACTION.fullmatch(word)
    return part is not None and (not part["over"] or any(odd.startswith(part["over"]) for odd in _ODD))

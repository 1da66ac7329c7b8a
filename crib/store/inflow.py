"""Many cutters taken in at once. Of a drawer's list most say what others say, and differ in where they lie, how many
there are, what they are made of and what is noted: what they have in common is put into rows and text once."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from operator import itemgetter

from crib.cutters.base import Cutter
from crib.light.tuples import NamedTuple
from crib.store.columns import CUTTER
from crib.store.database import Database, Row
from crib.store.rows import as_read, as_said, as_text, to_row
from crib.store.statements import now, who

_OWN = ("count", "drawer", "material", "note")
"""What each cutter has of its own, in the order of letters."""

_SHARED = tuple(column for column in CUTTER if column not in (*_OWN, "id", "version"))
_COLUMNS = (*_SHARED, *_OWN)
_CHANGE = ("at", "who", "what", "undoes", "before", "subject", "after")
_shared_of = itemgetter(*_SHARED)

_ANY = "\0"
_ANY_TEXT = as_text(_ANY)


class _Like(NamedTuple):
    """What cutters that are alike have in common: the values of `_SHARED`, and what is written down of them, in which
    `%s` stands for what each has of its own."""

    row: Row
    said: str


Alike = dict[tuple[str | None, str, bool, bool], _Like]
"""Shared by cutters that differ in nothing but what each has of its own: what is known of them, by where they came
from, the units, and whether they have a drawer and a note. Whoever reads them makes an empty one."""


class Inflow:
    """Cutters on their way into an open crib, in a transaction that gathers them. `source`: where all came from."""

    def __init__(self, database: Database, source: str | None, units: str) -> None:
        self._database, self._source, self._units = database, source, units
        self._at, self._by = now(), who()

    def add(self, cutter: Cutter, typed: Mapping[str, str], alike: Alike | None = None) -> int:
        """Take one in; its number. `typed`: what was typed for it, by field."""
        count, drawer, steel, note = cutter.count, cutter.drawer, cutter.material, cutter.note
        place = self._source, self._units, drawer is None, note is None
        like = alike.get(place) if alike is not None else None
        if like is None:
            like = self._learnt(cutter, typed)
            if alike is not None:
                alike[place] = like
        number = self._database.add_values("cutter", _COLUMNS, (*like.row, count, drawer, steel, note))
        own = (count, *(() if drawer is None else (_as_text(drawer),)), number, _as_text(steel),
               *(() if note is None else (_as_text(note),)))
        self._database.add_values("change", _CHANGE, (self._at, self._by, "take-in", None, None, f"cutter {number}",
                                                      like.said % own))
        return number

    def stored(self, cutter: Cutter, number: int) -> Cutter:
        """A cutter that was taken in, as it will be read back."""
        return as_read(cutter, to_row(cutter, self._source, {}), number, self._units)

    def _learnt(self, cutter: Cutter, typed: Mapping[str, str]) -> _Like:
        row = to_row(cutter, self._source, typed)
        said = as_said(as_read(cutter, row, 0, self._units)) | ({"from": self._source} if self._source else {})
        text = as_text(said | {one: _ANY for one in (*_OWN, "id") if one in said})
        return _Like(_shared_of(row), text.replace("%", "%%").replace(_ANY_TEXT, "%s"))


@lru_cache(maxsize=4096)
def _as_text(value: str) -> str:
    """A text as the store keeps it, kept: places and remarks are said again and again."""
    return as_text(value)

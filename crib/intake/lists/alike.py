"""Lines of a table that say the same of a cutter, and differ in nothing but where it lies, how many there are, what it
is made of and what is noted: what they say is read once."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from operator import itemgetter
from sys import intern
from typing import Any

from crib.cutters.cutter import Cutter, closed, copied
from crib.findings.errors import CribError
from crib.intake.lists.csv_records import Record
from crib.intake.lists.texts import value_of
from crib.intake.reading import Taken
from crib.intake.shorthand.idle import is_idle

OWN = ("drawer", "note", "count")
"""What each line has of its own, and nothing else of a cutter goes by."""

STEEL = "material"
"""What each line has of its own too where it is said as the program itself says it; in other words it may say more."""

_HOW = ("measured", "stamped", "assumed")
"""What names fields that a line has. Where there are such, all of a line is read together but what is of `OWN`."""

IGNORED = ("id", "label")
"""Columns that the store makes itself."""

_MOST_KEPT = 16_384
"""So many cutters of which lines may say the same are kept, and so many texts of a field."""

_LEFT_OUT, _ALONE = object(), object()


class _Own(dict[str, Any]):
    """What the texts of a field say that each line has of its own, kept: `_LEFT_OUT` where that is nothing, `_ALONE`
    where a line must be read by itself."""

    def __init__(self, key: str, units: str, default: str = "") -> None:
        self.key, self._units, self._default = key, units, default

    def __missing__(self, text: str) -> Any:
        if len(self) >= _MOST_KEPT:
            self.clear()
        self[text] = found = self._read(text if text and not text.isspace() else self._default)
        return found

    def _read(self, text: str) -> Any:
        if not text:
            return _LEFT_OUT
        if "'" in text or (self.key == "note" and not is_idle(text)):
            return _ALONE
        try:
            value = value_of(self.key, text, self._units)
        except CribError:
            return _ALONE
        return _ALONE if value is None and self.key in ("count", STEEL) else value


class AlikeLines:
    """The lines of one table. `keys`: the field of each of its columns; `units`: those of a bare number in what lines
    have of their own; `defaults`: texts by field for what a line leaves out; `learn`: the cutter of a line's cells,
    what it has of its own blank, None where such lines must be read one by one."""

    def __init__(self, keys: Sequence[str | None], units: str, defaults: Mapping[str, str],
                 learn: Callable[[tuple[str, ...]], Taken | None]) -> None:
        self._width, self._learn = len(keys), learn
        self._own = [(keys.index(key) if key in keys else None, _Own(key, units, defaults.get(key, "")))
                     for key in OWN if key in keys or key in defaults]
        self._steel = None if {*keys, *defaults}.intersection(_HOW) or STEEL not in keys else keys.index(STEEL)
        self._steels = _Own(STEEL, units)
        self._blank = {place for place, _ in self._own}
        shared = [place for place in range(len(keys)) if place not in self._blank and keys[place] not in IGNORED]
        self._shared_of: Callable[[tuple[str, ...]], Any] = itemgetter(*shared) if shared else lambda cells: ()
        self._known: dict[Any, Taken | None] = {}

    def read(self, record: Record) -> Taken | None:
        """The cutter of a line; None where it must be read by itself: its remark may say something of the cutter, or
        something is to be said of the line."""
        cells = record.cells
        if len(cells) != self._width:
            if record.why or any(map(str.strip, cells[self._width:])):
                return None
            cells = (*cells, *[""] * self._width)[:self._width]
        own: dict[str, Any] = {}
        for place, known in self._own:
            value = known["" if place is None else cells[place]]
            if value is _ALONE:
                return None
            if value is not _LEFT_OUT:
                own[known.key] = value
        if (at := self._steel) is not None:
            steel = self._steels[cells[at]]
            if steel is not _ALONE and steel is not _LEFT_OUT:
                own[STEEL], cells = steel, (*cells[:at], "", *cells[at + 1:])
        shared = self._shared_of(cells)
        one = self._known[shared] if shared in self._known else self._learnt(cells)
        return None if one is None else Taken(_with(one.cutter, own), one.typed, record.number, one.alike)

    def _learnt(self, cells: tuple[str, ...]) -> Taken | None:
        if len(self._known) >= _MOST_KEPT:
            self._known.clear()
        cells = tuple(["" if place in self._blank else intern(cell) for place, cell in enumerate(cells)])
        self._known[self._shared_of(cells)] = one = self._learn(cells)
        return one


def _with(cutter: Cutter, own: Mapping[str, Any]) -> Cutter:
    """A cutter with what a line has of its own, as `but` does: fields that there are."""
    made = copied(cutter)
    for key, value in own.items():
        setattr(made, key, value)
    return closed(made)

"""What lists took in, in the order in which it came: whether the same list is at the door again."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from crib.store.database import Database, Row
from crib.store.find import escaped
from crib.store.rows import as_text

_PAGE = 500
_MOST_ROWS, _MOST_STARTS = 5000, 50
"""A set is one line and many cutters; only where a run of them begins may a list begin."""

_CUTTER = "CASE WHEN change.what = 'take-in' THEN CAST(substr(change.subject, 8) AS BIGINT) END"
_GONE = ("CASE WHEN change.what = 'take-in' AND cutter.id IS NULL THEN (SELECT gone.before FROM change AS gone WHERE "
         "gone.what = 'take-back' AND gone.subject = change.subject ORDER BY gone.id DESC LIMIT 1) END")
"""What was known of a cutter when it was taken back."""

_FROM = f"FROM change LEFT JOIN cutter ON cutter.id = {_CUTTER} WHERE change.what IN ('take-in', 'hold-back')"


@dataclass(frozen=True)
class Arrival:
    """A cutter that was taken in, or a line that was held back, in the words that were typed. `is_gone`: it was taken
    back since."""

    change: int
    who: str
    words: str
    held: bool
    is_gone: bool
    after: Mapping[str, Any]

    def is_of(self, line: str) -> bool:
        """Whether it came of a line of words, whatever was said of it since."""
        return self.words == line or self.words.startswith((f"{line} / ", f"{line} --"))


def starts(database: Database, pieces: Mapping[str, Any], after: int = 0) -> list[int]:
    """The changes, latest first, that may be an arrival of a line of words (under `words`), or of a cutter with these
    values; later than a change."""
    if "words" in pieces:
        likes = [_like({"words": pieces["words"]})[:-2], _like({"text": pieces["words"]})[:-2]]
        where = "((change.what = 'take-in' AND cutter.typed LIKE :a ESCAPE '!') OR " \
                "(change.what = 'hold-back' AND change.after LIKE :b ESCAPE '!'))"
        values = {"a": f"{likes[0]}%", "b": f"{likes[1]}%"}
    else:
        values = {f"p{place}": _like({key: value}) for place, (key, value) in enumerate(pieces.items())}
        where = " AND ".join(f"change.after LIKE :{name} ESCAPE '!'" for name in values) + \
                " AND (change.what = 'hold-back' OR cutter.id IS NOT NULL)"
    rows = database.run(f"SELECT change.id {_FROM} AND change.id > :after AND {where} "
                        f"ORDER BY change.id DESC LIMIT {_MOST_ROWS}", {**values, "after": after})
    numbers = {int(row[0]) for row in rows}
    return [number for number in sorted(numbers, reverse=True) if number - 1 not in numbers][:_MOST_STARTS]


def arrivals(database: Database, first: int) -> Iterator[Arrival]:
    """What arrived from a change on, by whoever made that one."""
    at, who = first, None
    while True:
        rows = database.run(
            f"SELECT change.id, change.who, change.what, cutter.typed, change.after, {_GONE} {_FROM} "
            f"AND change.id >= :first "
            f"ORDER BY change.id LIMIT {_PAGE}", {"first": at})
        for one in map(_arrival, rows):
            who = one.who if who is None else who
            if one.who == who:
                yield one
        if len(rows) < _PAGE:
            return
        at = int(rows[-1][0]) + 1


def _arrival(row: Row) -> Arrival:
    number, who, what, typed, after, gone = row
    said, held = json.loads(after or "{}"), what == "hold-back"
    known = json.loads(typed) if typed is not None else json.loads(gone or "{}").get("typed", {})
    words = said.get("text", "") if held else known.get("words", "")
    return Arrival(int(number), who, words, held, not held and typed is None, said)


def _like(piece: Mapping[str, Any]) -> str:
    return f"%{escaped(as_text(piece)[1:-1])}%"

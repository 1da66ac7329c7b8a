"""What lists took in, in the order in which it came: whether the same list is at the door again."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping

from crib.light.hints import Any
from crib.light.records import dataclass
from crib.store.database import Database, Row

_CUTTER = "CASE WHEN change.what = 'take-in' THEN CAST(substr(change.subject, 8) AS BIGINT) END"
_GONE = ("CASE WHEN change.what = 'take-in' AND cutter.id IS NULL THEN (SELECT gone.before FROM change AS gone WHERE "
         "gone.what = 'take-back' AND gone.subject = change.subject ORDER BY gone.id DESC LIMIT 1) END")
"""What was known of a cutter when it was taken back."""

_FROM = f"FROM change LEFT JOIN cutter ON cutter.id = {_CUTTER} WHERE change.what IN ('take-in', 'hold-back')"


@dataclass(frozen=True)
class Arrival:
    """A cutter that was taken in, or a line that was held back, in the words that were typed. `is_gone`: it was taken
    back since. `number`: the cutter's, or the held-back line's."""

    change: int
    who: str
    words: str
    held: bool
    is_gone: bool
    after: Mapping[str, Any]
    number: int


def arrivals(database: Database) -> Iterator[Arrival]:
    """Everything that arrived, oldest first."""
    yield from map(_arrival, database.run(
        f"SELECT change.id, change.who, change.what, change.subject, cutter.typed, change.after, {_GONE} {_FROM} "
        "ORDER BY change.id"))


def _arrival(row: Row) -> Arrival:
    number, who, what, subject, typed, after, gone = row
    said, held = json.loads(after or "{}"), what == "hold-back"
    known = json.loads(typed) if typed is not None else json.loads(gone or "{}").get("typed", {})
    words = said.get("text", "") if held else known.get("words", "")
    return Arrival(int(number), who, words, held, not held and typed is None, said, int(subject.split()[-1]))

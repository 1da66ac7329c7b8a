"""What was done to the crib: rows that are only ever added. Undoing a change is another, which names it."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence

from crib.findings.errors import CribError
from crib.light.hints import Any
from crib.light.records import asdict, dataclass
from crib.store.columns import CHANGE
from crib.store.database import Database, Row
from crib.store.rows import as_text
from crib.store.statements import LARGEST_ID, listed, now


@dataclass(frozen=True)
class Change:
    """One thing that was done. `before` and `after` hold what it changed, lengths in mm; `undoes` is another's id."""

    id: int
    at: str
    who: str
    what: str
    subject: str
    before: dict[str, Any] | None
    after: dict[str, Any] | None
    undoes: int | None

    def as_json(self) -> dict[str, Any]:
        """Every field under its own name."""
        return asdict(self)


def note(database: Database, what: str, subject: str, before: Mapping[str, Any] | None, after: Mapping[str, Any],
         undoes: int | None = None, at: str = "", by: str | None = None) -> None:
    """Write down what was done; `at` and `by`, where it is known already what time it is and who does it."""
    database.add("change", {
        "at": at or now(), "who": database.by() if by is None else by, "what": what, "undoes": undoes,
        "subject": subject, "before": None if before is None else as_text(before), "after": as_text(after),
    })


def all_of(database: Database, subject: str | None = None) -> list[Change]:
    """Every change, oldest first; with a subject, such as `cutter 4`, those of it."""
    where, values = ("", {}) if subject is None else ("WHERE subject = :subject ", {"subject": subject})
    return [_change(row) for row in database.run(f"SELECT {listed(CHANGE)} FROM change {where}ORDER BY id", values)]


def newest(database: Database, most: int, before: int | None = None) -> tuple[list[Change], int]:
    """The last changes, so many at the most, oldest first, and how many there are before them; only of those before one
    with a number."""
    values = {"most": most, "before": min(before or LARGEST_ID, LARGEST_ID)}
    rows = database.run(f"SELECT {listed(CHANGE)} FROM change WHERE id < :before ORDER BY id DESC LIMIT :most", values)
    changes = [_change(row) for row in reversed(list(rows))]
    first = {"first": changes[0].id if changes else 0}
    return changes, int(database.run("SELECT count(*) FROM change WHERE id < :first", first)[0][0])


def that_undo(database: Database) -> list[Change]:
    """Every change that undid another, oldest first."""
    return [_change(row) for row in database.run(
        f"SELECT {listed(CHANGE)} FROM change WHERE undoes IS NOT NULL ORDER BY id")]


def one_of(database: Database, number: int) -> Change:
    """The change with a number. Raises `CribError` where there is none."""
    rows = []
    if 0 < number <= LARGEST_ID:
        rows = database.run(f"SELECT {listed(CHANGE)} FROM change WHERE id = :id", {"id": number})
    if not rows:
        raise CribError("no-change", f"there is no change {number}", str(number),
                        "crib history lists them with their numbers")
    return _change(rows[0])


def _change(row: Row) -> Change:
    values = dict(zip(CHANGE, row, strict=True))
    for key in ("before", "after"):
        values[key] = None if values[key] is None else json.loads(values[key])
    return Change(**values)


def undone_by(changes: Sequence[Change]) -> dict[int, int]:
    """Which change is undone, and by which; one whose undoing was undone again is not."""
    found: dict[int, int] = {}
    for change in reversed(changes):
        if change.undoes is not None and change.id not in found:
            found.setdefault(change.undoes, change.id)
    return found

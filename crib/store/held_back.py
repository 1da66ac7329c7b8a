"""The lines that couldn't be taken in, each kept word for word until it is put right or let go."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence

from crib.findings.errors import CribError
from crib.light.hints import Any
from crib.light.records import asdict, dataclass
from crib.store import changes
from crib.store.columns import HELD_BACK
from crib.store.database import Database, Row
from crib.store.rows import as_text
from crib.store.statements import listed, now


@dataclass(frozen=True)
class HeldBack:
    """A line that couldn't be taken in, as it was, with why and what would do. `file` is None for one typed. `beside`:
    what it takes to read it again, such as the heading of its table, and what was said of it since."""

    line: int
    text: str
    why: str
    help: str
    file: str | None = None
    id: int | None = None
    at: str | None = None
    beside: Mapping[str, Any] | None = None

    def as_json(self) -> dict[str, Any]:
        """Every field under its own name."""
        return asdict(self)


def all_of(database: Database) -> list[HeldBack]:
    """Every line that is held back, oldest first."""
    rows = database.run(f"SELECT {listed(HELD_BACK)} FROM held_back ORDER BY id")
    return [from_row(row) for row in rows]


def from_row(row: Row) -> HeldBack:
    """A line from the values of its columns in the order of `HELD_BACK`."""
    found = dict(zip(HELD_BACK, row, strict=True))
    return HeldBack(**found | {"beside": json.loads(found["beside"]) if found["beside"] else None})


def one_of(database: Database, number: int) -> HeldBack:
    """The line with a number. Raises `CribError` where there is none."""
    held = next((line for line in all_of(database) if line.id == number), None)
    if held is None:
        raise CribError("no-line", f"no line {number} is held back", str(number),
                        "crib held-back lists them with their numbers")
    return held


def hold(database: Database, line: HeldBack, undoes: int | None = None, cutters: Sequence[int] = ()) -> int:
    """Keep a line; its number: a new one, or its own where it had one. `cutters`: what it had become and no longer is.
    """
    values = {key: getattr(line, key) for key in ("file", "line", "text", "why", "help")} | {"at": line.at or now()}
    values["beside"] = None if line.beside is None else as_text(dict(line.beside))
    own = {} if line.id is None else {"id": line.id}
    number = database.add("held_back", own | values)
    after = {"text": line.text, "why": line.why, **({"cutters": list(cutters)} if cutters else {})}
    changes.note(database, "hold-back", f"held-back {number}", None, after, undoes)
    return number


def take_off(database: Database, number: int, into: Sequence[int] = (), undoes: int | None = None) -> HeldBack:
    """Take a line off the list, with the cutters that it became; it stays written down word for word."""
    held = one_of(database, number)
    database.run("DELETE FROM held_back WHERE id = :id", {"id": number})
    changes.note(database, "put-right" if into else "let-go", f"held-back {number}", held.as_json(),
                 {"cutters": list(into)}, undoes)
    return held


def reword(database: Database, number: int, after: Mapping[str, Any], undoes: int | None = None) -> None:
    """Put other words in the place of a line's: its text, why and help, and what is beside it; what it was stays
    written down."""
    held = one_of(database, number).as_json()
    before = {key: held[key] for key in after}
    if before == dict(after):
        return
    values = {key: as_text(value) if isinstance(value, Mapping) else value for key, value in after.items()}
    settings = ", ".join(f"{key} = :{key}" for key in values)
    database.run(f"UPDATE held_back SET {settings} WHERE id = :id", values | {"id": number})
    changes.note(database, "reword", f"held-back {number}", before, after, undoes)

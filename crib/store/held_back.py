"""The lines that couldn't be taken in, each kept word for word until it is put right or let go."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from crib.diagnostics import CribError
from crib.store import changes
from crib.store.columns import HELD_BACK
from crib.store.database import Database
from crib.store.statements import insert, listed, now


@dataclass(frozen=True)
class HeldBack:
    """A line that couldn't be taken in, as it was, with why and what would do. `file` is None for one typed."""

    line: int
    text: str
    why: str
    help: str
    file: str | None = None
    id: int | None = None
    at: str | None = None

    def as_json(self) -> dict[str, Any]:
        """Every field under its own name."""
        return asdict(self)


def all_of(database: Database) -> list[HeldBack]:
    """Every line that is held back, oldest first."""
    rows = database.run(f"SELECT {listed(HELD_BACK)} FROM held_back ORDER BY id")
    return [HeldBack(**dict(zip(HELD_BACK, row, strict=True))) for row in rows]


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
    own = {} if line.id is None else {"id": line.id}
    [(number,)] = insert(database, "held_back", own | values, "RETURNING id")
    after = {"text": line.text, "why": line.why, **({"cutters": list(cutters)} if cutters else {})}
    changes.note(database, "hold-back", f"held-back {number}", None, after, undoes)
    return int(number)


def take_off(database: Database, number: int, into: Sequence[int] = (), undoes: int | None = None) -> HeldBack:
    """Take a line off the list, with the cutters that it became; it stays written down word for word."""
    held = one_of(database, number)
    database.run("DELETE FROM held_back WHERE id = :id", {"id": number})
    changes.note(database, "put-right" if into else "let-go", f"held-back {number}", held.as_json(),
                 {"cutters": list(into)}, undoes)
    return held


def reword(database: Database, number: int, text: str, why: str, help: str, undoes: int | None = None) -> None:
    """Put other words in the place of a line's; what it was stays written down."""
    held, after = one_of(database, number), {"text": text, "why": why, "help": help}
    before = {key: getattr(held, key) for key in after}
    if before == after:
        return
    database.run("UPDATE held_back SET text = :text, why = :why, help = :help WHERE id = :id",
                 after | {"id": number})
    changes.note(database, "reword", f"held-back {number}", before, after, undoes)

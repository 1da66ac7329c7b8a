"""The parts that are to be made, each as the text that its owner wrote: what in it couldn't be read is kept too."""

from __future__ import annotations

from crib.findings.errors import CribError
from crib.light.records import dataclass
from crib.store import changes
from crib.store.columns import PART
from crib.store.database import Database, Row, insert
from crib.store.statements import listed, now, who

_FIND = f"SELECT {listed(PART)} FROM part WHERE name = :name"


@dataclass(frozen=True)
class KeptPart:
    """A part by its name, with its text; `version` counts how often it was written, `at` says when it last was."""

    name: str
    text: str
    id: int = 0
    at: str = ""
    who: str = ""
    version: int = 1


def all_of(database: Database) -> list[KeptPart]:
    """Every part, by name."""
    return [_from_row(row) for row in database.run(f"SELECT {listed(PART)} FROM part ORDER BY name")]


def one_of(database: Database, name: str) -> KeptPart:
    """The part of a name, however its letters are written. Raises `CribError` where there is none."""
    found = find(database, name)
    if found is None:
        raise CribError("no-part", f"there is no part {name!r}", name, "crib part lists those that there are")
    return found


def find(database: Database, name: str) -> KeptPart | None:
    """The part of a name; None where there is none."""
    rows = database.run(_FIND, {"name": name})
    if rows:
        return _from_row(rows[0])
    return next((one for one in all_of(database) if one.name.casefold() == name.casefold()), None)


def keep(database: Database, name: str, text: str, version: int | None, undoes: int | None) -> KeptPart:
    """Write a part's text, in the place of what it was. `version`: that which is being changed, 0 of a new part, None
    where that doesn't matter. Raises `CribError` where somebody else changed it meanwhile."""
    old = find(database, name)
    is_at = old.version if old else 0
    if version is not None and version != is_at:
        raise _meanwhile(name, old)
    if old is not None and old.text == text:
        return old
    latest = {"text": text, "at": now(), "who": who()}
    if old is None:
        insert(database, "part", {"name": name, **latest, "version": 1})
    elif not database.run('UPDATE part SET "text" = :text, "at" = :at, who = :who, version = version + 1 '
                          "WHERE id = :id AND version = :version RETURNING id",
                          {**latest, "id": old.id, "version": old.version}):
        raise _meanwhile(name, old)
    changes.note(database, "part", f"part {old.name if old else name}", {"text": old.text} if old else None,
                 {"text": text}, undoes)
    return one_of(database, name)


def drop(database: Database, name: str, undoes: int | None) -> KeptPart:
    """Take a part off; its text stays in the history. Raises `CribError` where there is none."""
    old = one_of(database, name)
    database.run("DELETE FROM part WHERE id = :id", {"id": old.id})
    changes.note(database, "part", f"part {old.name}", {"text": old.text}, {}, undoes)
    return old


def _meanwhile(name: str, now_there: KeptPart | None) -> CribError:
    if now_there is None:
        return CribError("changed", f"the part {name} was taken off a moment ago", name, "crib undo brings it back")
    return CribError("changed", f"the part {name} was changed by {now_there.who or 'somebody'} a moment ago", name,
                     f"look at it (crib part {name}), then say yours again")


def _from_row(row: Row) -> KeptPart:
    return KeptPart(**dict(zip(PART, row, strict=True)))

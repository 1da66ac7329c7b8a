"""The whole crib as one JSON document: every row under its own number, so that it comes back equal and labels still
point to their cutters."""

from __future__ import annotations

import json
from collections.abc import Mapping, Sequence
from typing import Any

from crib.findings.errors import CribError
from crib.light.tuples import NamedTuple
from crib.store.columns import TABLES, VERSION
from crib.store.database import Database, insert
from crib.store.statements import listed

MARK = "crib"


class Whole(NamedTuple):
    """The rows of each table, and the greatest number that each ever gave."""

    rows: Mapping[str, Sequence[Mapping[str, Any]]]
    numbers: Mapping[str, int]


def whole(database: Database) -> dict[str, Any]:
    """Everything that is on record."""
    tables = {}
    for table, columns in TABLES.items():
        rows = database.run(f"SELECT {listed(columns)} FROM {table} ORDER BY {columns[0]}")
        tables[table] = [dict(zip(columns, row, strict=True)) for row in rows]
    return {MARK: {"schema": VERSION, "numbers": database.numbers(), "tables": tables}}


def read_whole(text: str, name: str) -> Whole:
    """The tables of a document. Raises `CribError` for what is none."""
    try:
        document = json.loads(text)[MARK]
        schema, tables = int(document["schema"]), dict(document["tables"])
        numbers = {str(table): int(number) for table, number in document.get("numbers", {}).items() if table in TABLES}
        rows = {table: [dict(row) for row in tables[table]] for table in tables}
    except (ValueError, KeyError, TypeError, AttributeError, RecursionError) as error:
        raise CribError("whole", f"{name} is no whole crib", name, "a file that crib export --all has written; a list "
                        "of cutters is taken in with crib take-in --file") from error
    if schema > VERSION:
        raise CribError("newer", f"{name} was written by a newer version of this program", name,
                        "update the program in the way in which it was installed")
    if unknown := next((table for table in tables if table not in TABLES), None):
        raise CribError("whole", f"{name} holds {unknown!r}, which no crib has", name, "another file")
    return Whole(rows, numbers)


def put_back(database: Database, document: Whole) -> None:
    """Write every row of a document into an empty crib, under its own number. Raises `CribError`."""
    with database.transaction():
        database.run("DELETE FROM setting")
        for table, columns in TABLES.items():
            for row in document.rows.get(table, ()):
                insert(database, table, {key: value for key, value in row.items() if key in columns})
        database.renumber(document.numbers)

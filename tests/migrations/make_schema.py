"""Writes what all migrations together come to: `python -m tests.migrations.make_schema`, after each that is added. New
cribs are laid out by it, without the half second that it takes to load what migrates."""

from __future__ import annotations

import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

from crib.store.layout import SCHEMA
from crib.store.migrate import upgrade


def schema() -> str:
    """The statements that make a file what migrating an empty one makes it."""
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "crib.db"
        upgrade(path)
        with closing(sqlite3.connect(path)) as database:
            return ";\n".join(_statements(database)) + ";\n"


def _statements(database: sqlite3.Connection) -> Iterator[str]:
    yield "BEGIN IMMEDIATE"
    for pragma in ("application_id", "user_version"):
        yield f"PRAGMA {pragma} = {database.execute(f'PRAGMA {pragma}').fetchone()[0]}"
    made = database.execute("SELECT sql FROM sqlite_master WHERE sql IS NOT NULL AND name NOT LIKE 'sqlite!_%' "
                            "ESCAPE '!' ORDER BY rowid")
    yield from (sql for (sql,) in made)
    [(number,)] = database.execute("SELECT version_num FROM schema_version")
    yield f"INSERT INTO schema_version VALUES ('{number}')"
    yield "COMMIT"


if __name__ == "__main__":
    SCHEMA.write_text(schema(), encoding="utf-8")

"""A new crib's tables, as all migrations together leave them: a crib is begun in no time, and without what migrates."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

SCHEMA = Path(__file__).with_name("schema.sql")
"""Written by `python -m tests.migrations.make_schema`; a test holds it to the migrations."""


def lay_out(path: Path) -> None:
    """Make an empty file a crib, whole or not at all. Raises `sqlite3.Error`."""
    with closing(sqlite3.connect(path, isolation_level=None)) as database:
        database.executescript(SCHEMA.read_text(encoding="utf-8"))

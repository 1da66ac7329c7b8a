"""A crib in a SQLite file, through the standard library alone: quick to open, and every way it can fail in words."""

from __future__ import annotations

import os
from collections.abc import Iterator, Mapping, Sequence
from contextlib import AbstractContextManager, contextmanager, nullcontext
from functools import lru_cache
from itertools import chain

from crib.findings import notices
from crib.findings.errors import CribError
from crib.light.hints import TYPE_CHECKING, Any
from crib.store.database import Row, Transactions
from crib.store.noted import is_as_noted, note, was_noted_today
from crib.store.statements import listed
from crib.store.where import uri_path
from crib.units.words import told

if TYPE_CHECKING:
    import sqlite3
else:
    import _sqlite3 as sqlite3  # all of it but its ways with dates: none are written, and they are long in loading

LOCK_SECONDS = 2.0
"""How long another program may keep the file to itself before we give up."""

_MAGIC = b"SQLite format 3\0"
_PART: AbstractContextManager[None] = nullcontext()

_TEXTS = """WITH RECURSIVE said(text) AS (
    SELECT min({column}) FROM cutter
    UNION ALL SELECT (SELECT min({column}) FROM cutter WHERE {column} > said.text) FROM said WHERE said.text IS NOT NULL
    LIMIT :most
) SELECT text FROM said WHERE text IS NOT NULL"""
"""The different texts in a column, so many at the most."""


class SqliteDatabase(Transactions):
    """One open file. Raises `CribError` for whatever SQLite has to say. `fault`: what is wrong with it, where something
    is: then what can be read is read, and nothing is written. `named`: the file that is spoken of, where this is a copy
    of it."""

    begin = "BEGIN IMMEDIATE"

    def __init__(self, path: str, patience: float = LOCK_SECONDS, named: str | None = None) -> None:
        super().__init__()
        self.path, self.named = path, named or path
        self.fault, self._is_bare = "", False
        try:
            self._connection = sqlite3.connect(
                f"file:{uri_path(path)}?mode=rw", uri=True, isolation_level=None, timeout=patience
            )
            self._connection.execute("PRAGMA foreign_keys = ON")
        except sqlite3.Error as error:
            raise in_words(error, self.named) from error

    def _execute(self, sql: str, values: Mapping[str, Any]) -> list[Row]:
        try:
            return self._connection.execute(sql, dict(values)).fetchall()
        except (sqlite3.Error, OverflowError, UnicodeDecodeError) as error:
            raise in_words(error, self.named) from error

    def each(self, sql: str) -> Iterator[Row]:
        """Run one statement without values; its rows one by one, as they are asked for: none of them is kept."""
        self._settle()
        return self._one_by_one(sql)

    def _one_by_one(self, sql: str) -> Iterator[Row]:
        try:
            yield from self._connection.execute(sql)
        except (sqlite3.Error, OverflowError, UnicodeDecodeError) as error:
            raise in_words(error, self.named) from error

    def _add_rows(self, table: str, columns: tuple[str, ...], rows: Sequence[Row]) -> int:
        """As many rows in one statement as SQLite takes values: what it looks up for each it looks up once."""
        together = self._connection.getlimit(sqlite3.SQLITE_LIMIT_VARIABLE_NUMBER) // len(columns)
        try:
            for place in range(0, len(rows), together):
                some = rows[place:place + together]
                self._connection.execute(_inserting(table, columns, len(some)), tuple(chain.from_iterable(some)))
        except (sqlite3.Error, OverflowError) as error:
            raise in_words(error, self.named) from error
        return int(self._execute("SELECT last_insert_rowid()", {})[0][0])

    @contextmanager
    def unindexed(self, *tables: str) -> Iterator[None]:
        """Inside a transaction, do without the indexes of tables until many rows are in: an index that is made of all
        of them at once is quicker than one that grows row by row."""
        made = [(str(name), str(sql)) for table in tables for name, sql in self.run(
            "SELECT name, sql FROM sqlite_master WHERE type = 'index' AND tbl_name = :table AND sql IS NOT NULL",
            {"table": table})]
        for name, _ in made:
            self.run(f"DROP INDEX {name}")
        self._is_bare = True
        try:
            yield
        finally:
            self._is_bare = False
        for _, sql in made:
            self.run(sql)

    def texts(self, column: str, most: int) -> list[str] | None:
        """The different texts in a column of the cutters that has an index, where there are no more than `most`; else
        None. Each is the least behind the one before: of an index nothing else is read."""
        if self._is_bare:
            return None
        texts = [str(text) for (text,) in self.run(_TEXTS.format(column=column), {"most": most + 1})]
        return texts if len(texts) <= most else None

    def _greatest(self, table: str) -> int:
        found = self._execute("SELECT seq FROM sqlite_sequence WHERE name = :table", {"table": table})
        return int(found[0][0]) if found else 0

    def look(self) -> None:
        """Look whether the file is sound: once a day, and whenever it isn't as it was left. What is wrong is said."""
        if self.path != self.named or is_as_noted(self.path):
            return
        from crib.store.family import fault_of

        self.fault = fault_of(self._connection)
        if not self.fault:
            note(self.path)
        else:
            what, _ = told(damaged(self.path, self.fault).finding, "in")
            notices.say(f"{what}; what can be read is read, nothing is written")

    def transaction(self) -> AbstractContextManager[None]:
        """Everything inside happens whole or not at all. Raises `CribError` where nothing may be written."""
        if self.fault:
            raise damaged(self.path, self.fault)
        if self.path != self.named:
            raise in_words(sqlite3.OperationalError("readonly"), self.named)
        return _PART if self._depth else self._noted()  # one inside another is part of it

    @contextmanager
    def _noted(self) -> Iterator[None]:
        """A transaction after which the file is noted as it was left."""
        with super().transaction():
            yield
        if was_noted_today(self.path):
            note(self.path)

    def numbers(self) -> dict[str, int]:
        """The greatest number that each table ever gave."""
        return {str(name): int(number) for name, number in self.run("SELECT name, seq FROM sqlite_sequence")}

    def renumber(self, numbers: Mapping[str, int]) -> None:
        """Go on numbering behind these numbers."""
        for table, number in numbers.items():
            self.run("DELETE FROM sqlite_sequence WHERE name = :table", {"table": table})
            self.run("INSERT INTO sqlite_sequence (name, seq) VALUES (:table, :number)",
                     {"table": table, "number": number})

    def _roll_back(self) -> None:
        self._waiting, self._given = {}, {}
        if self._connection.in_transaction:
            self._connection.rollback()

    def hurry(self, seconds: float) -> None:
        """From here on wait no longer than this for another program that keeps it locked."""
        self.run(f"PRAGMA busy_timeout = {int(seconds * 1000)}")

    def close(self) -> None:
        """Let go of the file."""
        self._connection.close()


@lru_cache(maxsize=16)
def _inserting(table: str, columns: tuple[str, ...], count: int) -> str:
    """The statement that adds so many rows."""
    one = f"({', '.join('?' * len(columns))})"
    return f"INSERT INTO {table} ({listed(columns)}) VALUES {', '.join([one] * count)}"


def in_words(error: Exception, path: str) -> CribError:
    """What SQLite complains of, as one sentence with what would be right."""
    said = str(error)
    if "locked" in said or "busy" in said:
        return CribError("locked", f"the crib {path} is in use by another program", path,
                         "close the other program, or wait for it, and try again")
    if "readonly" in said:
        return CribError("read-only", f"the crib {path} can't be written to", path,
                         "allow writing to the file and its folder, or name another with --crib")
    if any(sign in said for sign in ("not a database", "malformed", "no such table", "no such column", "decode")):
        return damaged(path, said)
    return CribError("database", f"the crib {path} can't be used: {said}", path,
                     "look at the file and its folder, or name another with --crib")


def damaged(path: str, said: str) -> CribError:
    """A file that isn't sound any more, with what gets out of it what can be had."""
    from shlex import quote

    name = quote(path)
    return CribError("damaged", f"the crib {path} is damaged: {said.splitlines()[0][:120] if said else 'unreadable'}",
                     path, f"crib salvage {name} gets out what can be read; crib restore puts back a backup")


def is_fresh(path: str) -> bool:
    """Nothing there, or nothing in it. Raises `CribError` for what can't be a file of ours."""
    try:
        if not os.path.exists(path):
            return True
        if os.path.isdir(path):
            raise CribError("directory", f"{path} is a folder, not a crib", path,
                            f"name a file, such as {os.path.join(path, 'crib.db')}")
        if not os.path.isfile(path):
            raise CribError("not-a-file", f"{path} is not a file", path,
                            "--crib takes the path of a file or a URL")
        with open(path, "rb") as file:
            head = file.read(len(_MAGIC))
    except OSError as error:
        raise no_access(path, error) from error
    if head and head != _MAGIC:
        raise CribError("not-a-database", f"{path} is not a crib: it isn't a database file", path,
                        "name another file with --crib; if it was a crib, crib salvage gets out what can be read")
    return not head


def no_access(path: str, error: OSError) -> CribError:
    """Why the system won't let us at a file."""
    return CribError("no-access", f"{path} can't be used: {(error.strerror or str(error)).lower()}", path,
                     "name another file with --crib")


def number_of(database: SqliteDatabase, pragma: str) -> int:
    """A number that a file bears."""
    return int(database.run(f"PRAGMA {pragma}")[0][0])

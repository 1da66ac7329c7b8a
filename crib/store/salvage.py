"""Getting out of a damaged file what can be read, row by row."""

from __future__ import annotations

import json
import shutil
import sqlite3
from collections.abc import Callable, Iterator
from contextlib import closing, suppress
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from crib.findings.errors import CribError
from crib.light.records import dataclass
from crib.store.columns import TABLES
from crib.store.database import Database, insert
from crib.store.heads import other_heads
from crib.store.statements import listed
from crib.store.where import uri_path

_HARDEST = 100_000_000
"""No table has a greater number than this."""

_JSON = {"cutter": ("typed", "rest"), "setting": ("value",), "change": ("before", "after"), "held_back": ("beside",),
         "question": ("texts", "plan"), "note": ("about",), "part": ()}
_NEEDED = {"before", "after", "beside"}


@dataclass(frozen=True)
class Salvaged:
    """Of each table how many rows came out, and how many there surely were."""

    table: str
    got: int
    of: int


def salvage(path: Path, into: Database) -> list[Salvaged]:
    """Write into an empty crib every row of a file that can be read and is whole; how many of each table.

    Raises `CribError` where not even the names of the tables can be read.
    """
    with TemporaryDirectory() as folder:
        copy = Path(folder) / "damaged.db"
        _padded(path, copy)
        try:
            return _read(copy, into)
        except (sqlite3.Error, UnicodeDecodeError) as error:
            for _ in other_heads(copy, Path(folder)):
                with suppress(sqlite3.Error, UnicodeDecodeError):
                    return _read(copy, into)
            raise CribError("salvage", f"nothing can be read of {path}: {error}", str(path),
                            "a backup, if there is one: look in the folder backups beside it") from error


def _read(copy: Path, into: Database) -> list[Salvaged]:
    """Every row of a file that can be read. Raises `sqlite3.Error` where there is none."""
    with closing(sqlite3.connect(f"file:{uri_path(copy)}?mode=ro&immutable=1", uri=True)) as database:
        there = {row[0]: _columns(database, row[0]) for row in
                 database.execute("SELECT name FROM sqlite_master WHERE type = 'table'") if row[0] in TABLES}
        if not there:
            raise sqlite3.DatabaseError("nothing in it is of a crib")
        with into.transaction():
            found = [_table(database, table, columns, into) for table, columns in there.items()]
            if not any(one.got for one in found):
                raise sqlite3.DatabaseError("no line can be read")
            return found


def _padded(path: Path, copy: Path) -> None:
    """A copy of the file, and where its end is cut off, as long as it says that it is."""
    try:
        shutil.copyfile(path, copy)
    except OSError as error:
        raise CribError("file", f"{path} can't be read: {(error.strerror or str(error)).lower()}", str(path),
                        "the path of a damaged crib") from error
    with copy.open("r+b") as file:
        head = file.read(100)
        if len(head) < 100 or not head.startswith(b"SQLite format 3\0"):
            return
        size = int.from_bytes(head[16:18], "big")
        size = 65536 if size == 1 else size
        length = int.from_bytes(head[28:32], "big") * size
        here = copy.stat().st_size
        if here < length < _HARDEST * 100:
            file.truncate(length)
        elif here > length and head[24:28] == head[92:96]:
            return


def _columns(database: sqlite3.Connection, table: str) -> tuple[str, ...]:
    there = {row[1] for row in database.execute(f'PRAGMA table_info("{table}")')}
    return tuple(column for column in TABLES[table] if column in there)


def _table(database: sqlite3.Connection, table: str, columns: tuple[str, ...], into: Database) -> Salvaged:
    rows: dict[int, tuple[Any, ...]] = {}
    for number, *row in _rows(database, table, columns):
        rows[number] = tuple(row)
    got = 0
    for number in sorted(rows):
        values = dict(zip(columns, rows[number], strict=True))
        if _is_whole(table, values) and _put(into, table, values):
            got += 1
    return Salvaged(table, got, max(len(rows), _least(database, table)))


def _rows(database: sqlite3.Connection, table: str, columns: tuple[str, ...]) -> Iterator[tuple[Any, ...]]:
    """Rows with their numbers: from the first on, from the last back, and what lies between by halves."""
    names = listed(columns)
    if table == "setting":
        yield from _as_far(lambda: database.execute(f'SELECT rowid, {names} FROM "{table}" NOT INDEXED'))
        return
    low, high = 0, 0
    for row in _as_far(lambda: database.execute(f'SELECT rowid, {names} FROM "{table}" NOT INDEXED ORDER BY rowid')):
        low = row[0]
        yield row
    back = f'SELECT rowid, {names} FROM "{table}" NOT INDEXED ORDER BY rowid DESC'
    for row in _as_far(lambda: database.execute(back)):
        high = row[0]
        yield row
    top = high - 1 if high else max(_least(database, table), low)
    if low < top:
        yield from _between(database, table, names, low + 1, top)


def _between(database: sqlite3.Connection, table: str, names: str, low: int, high: int) -> Iterator[tuple[Any, ...]]:
    """The rows of a span that can be read, by halves."""
    spans = [(low, high)]
    while spans:
        low, high = spans.pop()
        try:
            found = database.execute(f'SELECT rowid, {names} FROM "{table}" NOT INDEXED WHERE rowid BETWEEN ? AND ?',
                                     (low, high)).fetchall()
        except (sqlite3.Error, UnicodeDecodeError):
            if low < high:
                middle = (low + high) // 2
                spans += [(middle + 1, high), (low, middle)]
            continue
        yield from found


def _as_far(ask: Callable[[], sqlite3.Cursor]) -> Iterator[tuple[Any, ...]]:
    """Rows until the first that can't be read."""
    try:
        yield from ask()
    except (sqlite3.Error, UnicodeDecodeError):
        return


def _least(database: sqlite3.Connection, table: str) -> int:
    """The greatest number that the table ever gave, as far as that can be read."""
    for sql in ("SELECT seq FROM sqlite_sequence WHERE name = ?", f'SELECT count(*) FROM "{table}" WHERE ? <> \'\''):
        try:
            row = database.execute(sql, (table,)).fetchone()
        except (sqlite3.Error, UnicodeDecodeError):
            continue
        if row and row[0] is not None:
            return min(int(row[0]), _HARDEST)
    return 0


def _is_whole(table: str, values: dict[str, Any]) -> bool:
    """Whether what a row says can be understood."""
    for column in _JSON[table]:
        text = values.get(column)
        if text is None and column in _NEEDED:
            continue
        try:
            json.loads(text or "")
        except (ValueError, TypeError, RecursionError):
            return False
    return True


def _put(into: Database, table: str, values: dict[str, Any]) -> bool:
    try:
        with into.transaction():
            into.run("SAVEPOINT row")
            try:
                insert(into, table, values)
            except CribError:
                into.run("ROLLBACK TO row")
                return False
            finally:
                into.run("RELEASE row")
    except CribError:
        return False
    return True

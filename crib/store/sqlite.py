"""A crib in a SQLite file, through the standard library alone: quick to open, and every way it can fail in words."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Mapping
from contextlib import suppress
from pathlib import Path
from typing import Any

from crib.diagnostics import CribError
from crib.store.columns import APPLICATION_ID, VERSION
from crib.store.database import Row, Transactions
from crib.store.where import Place

LOCK_SECONDS = 2.0
"""How long another program may keep the file to itself before we give up."""

BEGIN = "crib take-in --kind end-mill --diameter 1/2 begins one"
_MAGIC = b"SQLite format 3\0"


class SqliteDatabase(Transactions):
    """One open file. Raises `CribError` for whatever SQLite has to say."""

    begin = "BEGIN IMMEDIATE"

    def __init__(self, path: Path, patience: float = LOCK_SECONDS) -> None:
        self.path = path
        try:
            self._connection = sqlite3.connect(
                f"file:{_escaped(path)}?mode=rw", uri=True, isolation_level=None, timeout=patience
            )
            self._connection.execute("PRAGMA foreign_keys = ON")
        except sqlite3.Error as error:
            raise in_words(error, path) from error

    def run(self, sql: str, values: Mapping[str, Any] | None = None) -> list[Row]:
        """Run one statement; the rows that it gives."""
        try:
            return self._connection.execute(sql, dict(values or {})).fetchall()
        except (sqlite3.Error, OverflowError) as error:
            raise in_words(error, self.path) from error

    def _roll_back(self) -> None:
        if self._connection.in_transaction:
            self._connection.rollback()

    def close(self) -> None:
        """Let go of the file."""
        self._connection.close()


def open_file(place: Place, create: bool, patience: float = LOCK_SECONDS) -> SqliteDatabase:
    """Open the crib in a file, brought up to this program's schema; with `create`, make it where there is none.

    Raises `CribError` where there is none, and for a folder, another program's file, a locked or a newer one.
    """
    path = place.path
    assert path is not None
    if _is_fresh(path):
        if not create:
            raise CribError("no-crib", f"there is no crib at {path} yet", str(path), BEGIN)
        _make(place, path)
    database = SqliteDatabase(path, patience)
    try:
        _check_ours(database, path)
        if _number(database, "user_version") < VERSION:
            _upgrade(database, path)
    except BaseException:
        database.close()
        raise
    return database


def exists(path: Path) -> bool:
    """Whether there is anything at a path that could be a crib; nothing, or an empty file, is not."""
    return not _is_fresh(path)


def in_words(error: Exception, path: Path) -> CribError:
    """What SQLite complains of, as one sentence with what would be right."""
    said = str(error)
    if "locked" in said or "busy" in said:
        return CribError("locked", f"the crib {path} is locked by another program", str(path),
                         "close the other program, or wait for it, and try again")
    if "readonly" in said:
        return CribError("read-only", f"the crib {path} can't be written to", str(path),
                         "allow writing to the file and its folder, or name another with --crib")
    if "not a database" in said or "malformed" in said or "no such table" in said:
        return CribError("damaged", f"the crib {path} is damaged: {said}", str(path),
                         "put back a copy of it, or name another with --crib")
    return CribError("database", f"the crib {path} can't be used: {said}", str(path),
                     "look at the file and its folder, or name another with --crib")


def _escaped(path: Path) -> str:
    """A path as SQLite takes it in a URI; three signs mean something there."""
    return str(path.absolute()).replace("%", "%25").replace("?", "%3f").replace("#", "%23")


def _is_fresh(path: Path) -> bool:
    """Nothing there, or nothing in it. Raises `CribError` for what can't be a file of ours."""
    try:
        if not path.exists():
            return True
        if path.is_dir():
            raise CribError("directory", f"{path} is a folder, not a crib", str(path),
                            f"name a file, such as {path / 'crib.db'}")
        if not path.is_file():
            raise CribError("not-a-file", f"{path} is not a file", str(path),
                            "--crib takes the path of a file or a URL")
        with path.open("rb") as file:
            head = file.read(len(_MAGIC))
    except OSError as error:
        raise _no_access(path, error) from error
    if head and head != _MAGIC:
        raise CribError("not-a-database", f"{path} is not a crib: it isn't a database file", str(path),
                        "name another file with --crib")
    return not head


def _no_access(path: Path, error: OSError) -> CribError:
    return CribError("no-access", f"{path} can't be used: {(error.strerror or str(error)).lower()}", str(path),
                     "name another file with --crib")


def _make(place: Place, path: Path) -> None:
    """Build a new crib beside its place and put it there in one stroke, so that nobody ever sees half of one."""
    from crib.store.migrate import upgrade

    folder = path.parent
    beside = folder / f".{path.name}.{os.getpid()}.new"
    try:
        if place.ours:
            folder.mkdir(parents=True, exist_ok=True)
        if not folder.is_dir():
            raise CribError("no-folder", f"there is no folder {folder} to keep a crib in", str(path),
                            "make the folder first, or name another with --crib")
        if path.exists():
            return upgrade(path)
        beside.touch()
        upgrade(beside)
        _put(beside, path)
    except OSError as error:
        raise _no_access(path, error) from error
    finally:
        with suppress(OSError):
            beside.unlink(missing_ok=True)


def _put(beside: Path, path: Path) -> None:
    """Give a finished file its name, unless another program was quicker: then its crib is the crib."""
    try:
        os.link(beside, path)
    except FileExistsError:
        pass
    except OSError:  # a file system without links, such as a memory card's
        beside.rename(path)


def _check_ours(database: SqliteDatabase, path: Path) -> None:
    if _number(database, "application_id") != APPLICATION_ID:
        raise CribError("foreign", f"{path} is a database of another program, not a crib", str(path),
                        "name another file with --crib")
    version = _number(database, "user_version")
    if version > VERSION:
        raise CribError("newer", f"the crib {path} was written by a newer version of this program "
                                 f"(its schema is {version}, this one knows {VERSION})", str(path),
                        "update the program: pip install --upgrade crib")


def _number(database: SqliteDatabase, pragma: str) -> int:
    return int(database.run(f"PRAGMA {pragma}")[0][0])


def _upgrade(database: SqliteDatabase, path: Path) -> None:
    """Bring an older crib up to date, with a copy of it put by first."""
    from crib.store.migrate import upgrade

    backup(database, path)
    upgrade(path)


def backup(database: SqliteDatabase, path: Path) -> Path:
    """A copy of the whole crib beside it, under a name that isn't taken; where it was put."""
    version = _number(database, "user_version")
    for number in range(1, 1000):
        copy = path.with_name(f"{path.stem}.schema-{version}.{number}{path.suffix}")
        if not copy.exists():
            database.run("VACUUM INTO :copy", {"copy": str(copy)})
            return copy
    raise CribError("backup", f"too many copies of {path} stand beside it", str(path), "clear some of them away")

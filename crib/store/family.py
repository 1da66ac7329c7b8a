"""The files that belong to a SQLite file, and left-overs that don't.

Beside a database stands a journal while something is written; a program that is killed leaves it, and SQLite rolls back
by it when the file is opened next. A journal beside a file that it wasn't written for ruins it: beside a copy that was
put back, beside a new crib under an old name. So whoever puts a file in a place takes the whole family into account.
"""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from pathlib import Path
from typing import IO

from crib.findings import notices
from crib.store.noted import noted_counter
from crib.store.where import uri_path

BESIDE = ("-journal", "-wal", "-shm")
_HOT = bytes.fromhex("d9d505f920a163d7")
"""What a journal that is to be rolled back begins with (SQLite's file format, "The Rollback Journal Format")."""

_LATER_SECONDS = 60.0
"""A file that was written so much later than the journal beside it wasn't written by what the journal is of."""


def left_overs(path: Path) -> list[Path]:
    """The files that stand beside a database's place."""
    return [other for ending in BESIDE if (other := path.with_name(path.name + ending)).exists()]


def set_aside(path: Path) -> list[Path]:
    """Give the files beside a place other names, so that nothing takes them for its own; where they are now."""
    moved = []
    for old in left_overs(path):
        if not old.stat().st_size:
            old.unlink()
            continue
        moved.append(_free_name(old))
        old.rename(moved[-1])
    return moved


def clear_new(path: Path) -> None:
    """Take away what a program that was killed while it began a crib here left behind."""
    for old in path.parent.glob(f".{path.name}.*.new*"):
        number = old.name.removeprefix(f".{path.name}.").split(".")[0]
        if number.isdigit() and not _is_running(int(number)):
            with suppress(OSError):
                old.unlink()


def settle_journal(named: str | Path) -> None:
    """Before a file is opened: a journal beside it that was written for another file is set aside, and that is said.

    It belongs where the file without it isn't sound and with it is; where both are, where it tells of the same state of
    the file and the file wasn't written long after it. The journal of somebody who is writing is theirs, and is left
    alone; one of us looks at a time.
    """
    path = Path(named)
    journal = path.with_name(path.name + "-journal")
    try:
        if not journal.exists() or not _is_hot(journal):
            return
        with journal.open("r+b") as file:
            _lock(file, "LOCK_EX")
            if _is_written(path) or _is_of(journal, path):
                return
            if _is_written(path) or not os.path.samestat(os.fstat(file.fileno()), journal.stat()):
                return
            moved = set_aside(path)
    except OSError:
        return
    for one in moved:
        notices.say(f"{journal.name} beside {path.name} was left by another state of the crib; it is {one.name} now")


def _is_hot(journal: Path) -> bool:
    with journal.open("rb") as file:
        return file.read(len(_HOT)) == _HOT


@contextmanager
def alone_in(folder: Path) -> Iterator[None]:
    """None of us who begins a crib in a folder is at it at the same time as another; where folders can be locked."""
    try:
        import fcntl

        number = os.open(folder, os.O_RDONLY)
    except (ImportError, OSError):
        yield
        return
    try:
        with suppress(OSError):
            fcntl.flock(number, fcntl.LOCK_EX)
        yield
    finally:
        os.close(number)


def _is_written(path: Path) -> bool:
    """Whether somebody is writing to a file at this moment: they hold its reserved byte (SQLite's "File Locking And
    Concurrency", and `RESERVED_BYTE` in its sources)."""
    with path.open("rb") as file:
        try:
            _lock(file, "LOCK_SH", "LOCK_NB", length=1, start=0x40000001)
        except (BlockingIOError, PermissionError):
            return True
    return False


def _lock(file: IO[bytes], *how: str, length: int = 0, start: int = 0) -> None:
    """Lock a piece of a file until it is closed. Where there are no such locks a file in use can't be renamed."""
    try:
        import fcntl
    except ImportError:
        return
    fcntl.lockf(file, sum(getattr(fcntl, one) for one in how), length, start)


def _is_of(journal: Path, path: Path) -> bool:
    """Whether a hot journal was written for the file that it stands beside."""
    from shutil import copyfile
    from tempfile import TemporaryDirectory

    with TemporaryDirectory() as folder:
        bare, rolled = Path(folder) / "bare.db", Path(folder) / "rolled.db"
        copyfile(path, bare)
        copyfile(path, rolled)
        copyfile(journal, rolled.with_name(rolled.name + "-journal"))
        sound, sound_then = not fault_in(bare), not fault_in(rolled)
    if sound != sound_then:
        return sound_then
    late = path.stat().st_mtime - journal.stat().st_mtime > _LATER_SECONDS
    return not late and _is_same_state(journal, path)


def _is_same_state(journal: Path, path: Path) -> bool:
    """Whether the journal tells of the file as it is, or as it was one change before. Offsets: SQLite's file format."""
    import struct

    with path.open("rb") as file:
        head = file.read(100)
    if (known := noted_counter(path)) is not None and struct.unpack(">I", head[24:28])[0] < known:
        return False
    with journal.open("rb") as file:
        if len(start := file.read(28)) < 28:
            return True
        _, _, _, pages, sector, size = struct.unpack(">8sIIIII", start)
        counter, own_pages = struct.unpack(">I", head[24:28])[0], struct.unpack(">I", head[28:32])[0]
        file.seek(sector)
        while len(record := file.read(size + 8)) == size + 8:
            if record[:4] == b"\0\0\0\1":
                before = struct.unpack(">I", record[28:32])[0]
                return counter - before in (0, 1)
    return bool(own_pages == pages)


def fault_in(path: Path, most: int = 1) -> str:
    """What is wrong with a file that nothing else has open, in SQLite's words; empty where it is sound.

    Looks at every page, every row and every index.
    """
    try:
        with closing(sqlite3.connect(f"file:{uri_path(path)}?mode=rw", uri=True)) as connection:
            return fault_of(connection, most)
    except sqlite3.Error as error:
        return str(error)


def fault_of(connection: sqlite3.Connection, most: int = 1) -> str:
    """The same of one that is open."""
    try:
        if _is_too_long(connection):
            return "it was copied while something was being written to it"
        rows = [str(row[0]) for row in connection.execute(f"PRAGMA integrity_check({most})")]
    except (sqlite3.Error, UnicodeDecodeError) as error:
        return str(error)
    lines = [line for row in rows for line in row.splitlines() if not line.startswith("***")]
    return "" if rows == ["ok"] else "; ".join(lines) or "a page doesn't read as it should"


def _is_too_long(connection: sqlite3.Connection) -> bool:
    """Whether the file goes on behind the last page that it says it has, looked at while nobody writes."""
    name = next((row[2] for row in connection.execute("PRAGMA database_list") if row[1] == "main"), "")
    if not name or connection.in_transaction:
        return False
    connection.execute("BEGIN")
    try:
        connection.execute("SELECT 1 FROM sqlite_master LIMIT 1").fetchone()
        pages, size = (int(connection.execute(f"PRAGMA {what}").fetchone()[0]) for what in ("page_count", "page_size"))
        return os.stat(name).st_size > pages * size
    finally:
        connection.execute("COMMIT")


def _free_name(old: Path) -> Path:
    names: Iterator[Path] = (old.with_name(f"{old.name}.left-over-{number}") for number in range(1, 10_000))
    return next(name for name in names if not name.exists())


def _is_running(number: int) -> bool:
    try:
        os.kill(number, 0)
    except ProcessLookupError:
        return False
    except OSError:
        return True
    return True

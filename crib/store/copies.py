"""Copies of a crib: made while it is in use, proved by reading them back, and put back again."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from datetime import datetime
from pathlib import Path

from crib.diagnostics import CribError
from crib.store.columns import APPLICATION_ID, TABLES, VERSION
from crib.store.family import fault_in, left_overs, set_aside, uri_path

KEPT = 12
"""So many of the copies that are made unasked are kept; the oldest go."""

Counts = dict[str, int]
"""How many rows each table has."""


def put_by(path: Path, why: str) -> Path:
    """A copy of a crib in the folder `backups` beside it, made before something that rewrites much; the oldest of
    its sort go. Where it was put. Raises `CribError`."""
    folder = path.parent / "backups"
    try:
        folder.mkdir(exist_ok=True)
        _rotate(folder, path)
    except OSError as error:
        raise _cannot(folder, error) from error
    return copy_to(path, _free(folder / f"{path.stem}.{datetime.now():%Y-%m-%d-%H%M%S}.{why}{path.suffix or '.db'}"))


def copy_to(path: Path, copy: Path) -> Path:
    """A copy of a crib as it was last committed, whatever else uses it, under a name that isn't taken; read back before
    it gets its name. Raises `CribError`."""
    if copy.exists():
        raise CribError("file", f"{copy} is there already", str(copy), "another name")
    with _beside(copy) as new:
        try:
            with closing(sqlite3.connect(f"file:{uri_path(path)}?mode=rw", uri=True, isolation_level=None)) as database:
                database.execute("VACUUM INTO ?", (str(new),))
                counts = _counts(database)
        except sqlite3.Error as error:
            raise CribError("no-room" if "full" in str(error) else "backup",
                            f"{path} can't be copied to {copy}: {error}", str(copy), "another folder, or another disk"
                            ) from error
        if (fault := fault_in(new)) or counts_of(new) != counts:
            raise CribError("backup", f"the copy of {path} doesn't read back as it should: {fault or 'rows lack'}",
                            str(copy), "another disk, and look at this one")
        _named(new, copy)
    return copy


def restore_to(copy: Path, path: Path) -> Path | None:
    """Put a copy of a crib in a place. A crib that is there is put by first; where that is. Raises `CribError` for what
    is no sound crib."""
    check(copy)
    kept = put_by(path, "before-restore") if path.exists() and path.stat().st_size and not fault_in(path) else None
    if kept is None and path.exists():
        kept = _free(path.with_name(f"{path.name}.damaged-1"))
        path.rename(kept)
    with _beside(path) as new:
        with closing(sqlite3.connect(f"file:{uri_path(copy)}?mode=ro&immutable=1", uri=True)) as database:
            database.execute("VACUUM INTO ?", (str(new),))
        set_aside(path)
        os.replace(new, path)
    return kept


def check(copy: Path) -> None:
    """Raises `CribError` for a file that isn't a sound crib that this program can read."""
    try:
        with copy.open("rb") as file:
            head = file.read(16)
    except OSError as error:
        raise CribError("file", f"{copy} can't be read: {(error.strerror or str(error)).lower()}", str(copy),
                        "a file that crib backup or crib export --all has written") from error
    if head != b"SQLite format 3\0":
        raise CribError("not-a-database", f"{copy} is no copy of a crib", str(copy),
                        "a file that crib backup or crib export --all has written")
    try:
        with closing(sqlite3.connect(f"file:{uri_path(copy)}?mode=ro&immutable=1", uri=True)) as database:
            ours = [int(database.execute(f"PRAGMA {name}").fetchone()[0])
                    for name in ("application_id", "user_version")]
            rows = database.execute("PRAGMA integrity_check(1)").fetchall()
    except (sqlite3.Error, UnicodeDecodeError) as error:
        raise _unsound(copy, str(error)) from error
    if ours[0] != APPLICATION_ID:
        raise CribError("foreign", f"{copy} is a database of another program, not a crib", str(copy), "another file")
    if ours[1] > VERSION:
        raise CribError("newer", f"{copy} was written by a newer version of this program", str(copy),
                        "update the program in the way in which it was installed")
    if rows != [("ok",)]:
        raise _unsound(copy, str(rows[0][0]))


def counts_of(path: Path) -> Counts:
    """How many rows each table of a file has."""
    with closing(sqlite3.connect(f"file:{uri_path(path)}?mode=ro&immutable=1", uri=True)) as database:
        return _counts(database)


_TIMES = ("at", "who", "first_at")


def is_the_same(one: Path, other: Path) -> bool:
    """Whether two cribs hold the same cutters, settings, notes, held-back lines and changes, whenever and by whomever;
    what was asked doesn't count."""
    try:
        return _content(one) == _content(other)
    except (sqlite3.Error, UnicodeDecodeError):
        return False


def _content(path: Path) -> dict[str, list[tuple[object, ...]]]:
    found = {}
    with closing(sqlite3.connect(f"file:{uri_path(path)}?mode=rw", uri=True)) as database:
        for table, columns in TABLES.items():
            if table != "question":
                names = ", ".join(f'"{column}"' for column in columns if column not in _TIMES)
                found[table] = database.execute(f'SELECT {names} FROM "{table}" ORDER BY 1').fetchall()
    return found


def _counts(database: sqlite3.Connection) -> Counts:
    there = {row[0] for row in database.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    return {table: int(database.execute(f'SELECT count(*) FROM "{table}"').fetchone()[0])
            for table in TABLES if table in there}


@contextmanager
def _beside(path: Path) -> Iterator[Path]:
    """A name beside a place for what isn't finished; nothing is left under it."""
    new = path.with_name(f".{path.name}.{os.getpid()}.new")
    try:
        yield new
    except OSError as error:
        raise _cannot(path, error) from error
    finally:
        for left in (new, *left_overs(new)):
            with suppress(OSError):
                left.unlink(missing_ok=True)


def _named(new: Path, path: Path) -> None:
    """Give a finished file its name, unless that is taken by now."""
    try:
        os.link(new, path)
    except FileExistsError:
        raise CribError("file", f"{path} is there already", str(path), "another name") from None
    except OSError:  # a file system without links, such as a memory card's
        new.rename(path)


def _rotate(folder: Path, path: Path) -> None:
    ours = sorted(folder.glob(f"{path.stem}.????-??-??-??????.*"))
    for old in ours[:max(0, len(ours) - KEPT + 1)]:
        old.unlink(missing_ok=True)


def _free(name: Path) -> Path:
    stem, number = name.stem, 1
    while name.exists():
        number += 1
        name = name.with_name(f"{stem}-{number}{name.suffix}")
    return name


def _cannot(path: Path, error: OSError) -> CribError:
    return CribError("no-room" if error.errno == 28 else "read-only",
                     f"{path} can't be written: {(error.strerror or str(error)).lower()}", str(path),
                     "another name or folder, or room on the disk")


def _unsound(copy: Path, said: str) -> CribError:
    return CribError("damaged", f"{copy} is damaged: {said.splitlines()[0][:120]}", str(copy),
                     f"crib salvage {copy} gets out what can be read")

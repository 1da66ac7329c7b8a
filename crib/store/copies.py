"""Copies of a crib: made while it is in use, proved by reading them back, and put back again."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from datetime import datetime
from glob import escape
from pathlib import Path

from crib.files import give_name
from crib.findings.errors import CribError
from crib.store.columns import APPLICATION_ID, TABLES, VERSION
from crib.store.family import fault_in, fault_of, left_overs, set_aside, settle_journal
from crib.store.where import uri_path

KEPT = 12
"""So many of the copies that are made unasked before one sort of deed are kept; the oldest go."""

ASKED_FOR = "backup"
"""The sort of copy that somebody asked for: none of them goes by itself."""

Counts = dict[str, int]
"""How many rows each table has."""


def put_by(path: Path, why: str, held: sqlite3.Connection | None = None) -> Path:
    """A copy of a crib in the folder `backups` beside it, made before something that rewrites much; the oldest of
    its sort go, and one that would be the same as the last isn't made again. `held`: a connection that keeps the file
    to itself. Where it was put. Raises `CribError`."""
    folder = path.parent / "backups"
    try:
        folder.mkdir(exist_ok=True)
        last = _put_by_before(folder, path, why)[-1:] if why != ASKED_FOR and held is None else []
        if last and _is_same(path, last[0]):
            return last[0]
        _rotate(folder, path, why)
    except OSError as error:
        raise _cannot(folder, error) from error
    name = f"{path.stem}.{datetime.now():%Y-%m-%d-%H%M%S}.{why}{path.suffix or '.db'}"
    return copy_to(path, _free(folder / name), held)


def copy_to(path: Path, copy: Path, held: sqlite3.Connection | None = None) -> Path:
    """A copy of a crib as it was last committed, whatever else uses it, under a name that isn't taken; read back before
    it gets its name. Raises `CribError`."""
    if copy.exists():
        raise CribError("file", f"{copy} is there already", str(copy), "another name")
    with _beside(copy) as new:
        with _in_words(path, copy):
            if held is not None:
                counts = _copied(held, new)
            else:
                with closing(_opened(path)) as database:
                    counts = _copied(database, new)
        if (fault := fault_in(new)) or counts_of(new) != counts:
            raise CribError("backup", f"the copy of {path} doesn't read back as it should: {fault or 'lines lack'}",
                            str(copy), "another disk, and look at this one")
        _named(new, copy)
    return copy


def restore_to(copy: Path, path: Path, over: bool = True) -> Path | None:
    """Put a copy of a crib in a place. A crib that is there is put by first; where that is. Raises `CribError` for what
    is no sound crib, and where somebody writes to the one that is there; without `over` where any is there."""
    check(copy)
    if path.exists() and not path.is_file():
        raise CribError("not-a-file", f"{path} is not a file", str(path), "the path of a crib, or of a new file")
    with _beside(path) as new:
        with _in_words(copy, path), closing(_opened(copy, "ro&immutable=1")) as database:
            _copied(database, new)
        if fault := fault_in(new):
            raise _unsound(copy, fault)
        if not path.exists() or not path.stat().st_size:
            _put(new, path)
            return None
        if not over:
            raise CribError("file", f"{path} is there already", str(path), "another name, or --over without --to")
        settle_journal(path)
        kept = _put_into(new, path)
        if kept is None:
            kept = _free(path.with_name(f"{path.name}.damaged-1"))
            path.rename(kept)
            _put(new, path)
    return kept


def _put(new: Path, path: Path) -> None:
    """Give what is whole the name of a place where nothing is, or an empty file."""
    set_aside(path)
    if path.exists():
        path.unlink()
    _named(new, path)


def _put_into(new: Path, path: Path) -> Path | None:
    """Fill the sound crib in a place with another's pages, in one transaction: whoever has it open goes on with what is
    in it then, and writes to no file that has no name any more. Where what was there is put by; None where it isn't
    sound."""
    with _in_words(new, path), closing(_opened(path)) as there:
        try:
            there.execute("PRAGMA locking_mode = EXCLUSIVE")
            there.execute("BEGIN EXCLUSIVE")
            there.execute("COMMIT")
        except sqlite3.DatabaseError as error:
            if isinstance(error, sqlite3.OperationalError) and "malformed" not in str(error):
                raise
            return None
        if fault_of(there):
            return None
        kept = put_by(path, "before-restore", there)
        with closing(_opened(new)) as source:
            source.backup(there)
    return kept


def _opened(path: Path, mode: str = "rw") -> sqlite3.Connection:
    return sqlite3.connect(f"file:{uri_path(path)}?mode={mode}", uri=True, isolation_level=None, timeout=2.0)


def _copied(database: sqlite3.Connection, new: Path) -> Counts:
    """Write all that is committed into a new file; how many rows it has."""
    database.execute("VACUUM INTO ?", (str(new),))
    return _counts(database)


@contextmanager
def _in_words(path: Path, copy: Path) -> Iterator[None]:
    """Whatever SQLite has to say of copying one file to another, in a sentence."""
    try:
        yield
    except (sqlite3.Error, UnicodeDecodeError) as error:
        said = str(error)
        if "locked" in said or "busy" in said:
            raise CribError("locked", f"the crib {copy} is in use by another program", str(copy),
                            "close the other program, or wait for it, and try again") from error
        if "readonly" in said:
            raise CribError("read-only", f"{copy} can't be written to", str(copy),
                            "allow writing to it and its folder, or name another with --to") from error
        raise CribError("no-room" if "full" in said else "backup", f"{path} can't be copied to {copy}: {said}",
                        str(copy), "another folder, or another disk") from error


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
        give_name(new, path)
    except FileExistsError:
        raise CribError("file", f"{path} is there already", str(path), "another name") from None


def _rotate(folder: Path, path: Path, why: str) -> None:
    if why == ASKED_FOR:
        return
    ours = _put_by_before(folder, path, why)
    for old in ours[:max(0, len(ours) - KEPT + 1)]:
        old.unlink(missing_ok=True)


def _put_by_before(folder: Path, path: Path, why: str) -> list[Path]:
    """The copies of a sort, oldest first."""
    return sorted(folder.glob(f"{escape(path.stem)}.????-??-??-??????.{why}*"))


def _is_same(path: Path, copy: Path) -> bool:
    """Whether a copy has all that is committed in a crib, and nothing else."""
    try:
        with closing(_opened(path)) as database:
            database.execute("ATTACH ? AS copy", (f"file:{uri_path(copy)}?mode=ro",))
            tables = ("sqlite_master", "sqlite_sequence", *TABLES)
            return _counts(database) == counts_of(copy) and not any(
                database.execute(f"SELECT {_COMPARED.get(table, '*')} FROM main.{table} EXCEPT "
                                 f"SELECT {_COMPARED.get(table, '*')} FROM copy.{table} LIMIT 1").fetchone()
                for table in tables)
    except (sqlite3.Error, CribError):
        return False


_COMPARED = {"sqlite_master": "name, sql"}
"""Where a page lies is another matter in each file."""


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

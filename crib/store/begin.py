"""What a SQLite crib goes through once: being begun, and being brought up to this program's schema."""

from __future__ import annotations

import os
import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from crib.files import give_name
from crib.findings import notices
from crib.findings.errors import CribError
from crib.store.family import alone_in, clear_new, left_overs, set_aside
from crib.store.layout import lay_out
from crib.store.sqlite import SqliteDatabase, damaged, in_words, is_fresh, no_access, number_of


def make(named: str, ours: bool) -> None:
    """Build a new crib beside its place and put it there in one stroke, so that nobody ever sees half of one. Of
    several who begin at once one does; what the others would set aside is already the journal of who writes.

    `ours`: the folder is the program's to make. Raises `CribError`."""
    path = Path(named)
    folder = path.parent
    beside = _beside(path)
    try:
        if ours:
            folder.mkdir(parents=True, exist_ok=True)
        if not folder.is_dir():
            raise CribError("no-folder", f"there is no folder {folder} to keep a crib in", named,
                            "make the folder first, or name another with --crib")
        with alone_in(folder):
            if not is_fresh(named):
                return
            clear_new(path)
            for left in set_aside(path):
                notices.say(f"{left.name} was left beside {path.name} by a crib that is gone")
            if path.exists():
                return lay_out(path)
            beside.touch()
            lay_out(beside)
            _put(beside, path)
    except sqlite3.Error as error:
        raise in_words(error, named) from error
    except OSError as error:
        raise no_access(named, error) from error
    finally:
        _clear(beside)


@contextmanager
def begun(named: str, ours: bool) -> Iterator[SqliteDatabase]:
    """A new crib that gets its name when all is done that is to be done in it: what is stopped halfway leaves none.

    `ours`: the folder is the program's to make. Raises `CribError`, also where another program began one meanwhile."""
    path, beside = Path(named), f"{_beside(Path(named))}-whole"
    _clear(Path(beside))
    make(beside, ours)
    try:
        database = SqliteDatabase(beside)
        try:
            yield database
        finally:
            database.close()
        with alone_in(path.parent):
            if not is_fresh(named):
                raise CribError("changed", "another program began the crib meanwhile; nothing of this was kept", named,
                                "try again")
            for left in set_aside(path):
                notices.say(f"{left.name} was left beside {path.name} by a crib that is gone")
            path.unlink(missing_ok=True)
            give_name(Path(beside), path)
    except OSError as error:
        raise no_access(named, error) from error
    finally:
        _clear(Path(beside))


def _beside(path: Path) -> Path:
    """Where a new crib is built: others take it away when its builder isn't there any more."""
    return path.parent / f".{path.name}.{os.getpid()}.new"


def _clear(beside: Path) -> None:
    for left in (beside, *left_overs(beside), beside.with_name(f".{beside.name}.sound")):
        with suppress(OSError):
            left.unlink(missing_ok=True)


def _put(beside: Path, path: Path) -> None:
    """Give a finished file its name, unless another program was quicker: then its crib is the crib."""
    with suppress(FileExistsError):
        give_name(beside, path)


def upgraded(database: SqliteDatabase, named: str, patience: float) -> SqliteDatabase:
    """An older crib brought up to date, with a copy of it put by first; where nothing can be written, an upgraded copy
    of it that can only be read."""
    from crib.store.copies import put_by
    from crib.store.migrate import upgrade

    path = Path(named)
    if database.fault:
        raise damaged(named, database.fault)
    if os.access(path, os.W_OK) and os.access(path.parent, os.W_OK):
        try:
            put_by(path, f"schema-{number_of(database, 'user_version')}")
        except CribError as error:
            if error.finding.id not in ("read-only", "no-room"):
                raise
        else:
            upgrade(path)
            return database
    copy = _read_only_copy(database, path, patience)
    database.close()
    notices.say(f"{path.name} is of an older version and can't be brought up to date where it is; it can only be read")
    return copy


def _read_only_copy(database: SqliteDatabase, path: Path, patience: float) -> SqliteDatabase:
    import atexit
    from shutil import rmtree
    from tempfile import mkdtemp

    from crib.store.migrate import upgrade

    folder = Path(mkdtemp(prefix="crib-"))
    atexit.register(rmtree, folder, ignore_errors=True)
    copy = folder / path.name
    database.run("VACUUM INTO :copy", {"copy": str(copy)})
    upgrade(copy)
    return SqliteDatabase(str(copy), patience, str(path))

"""A crib in a file: opened, begun where there is none, brought up to this program's schema."""

from __future__ import annotations

import os

from crib.findings.errors import CribError
from crib.store.columns import APPLICATION_ID, VERSION
from crib.store.sqlite import LOCK_SECONDS, SqliteDatabase, is_fresh, number_of
from crib.store.where import Place

_BEGIN = "crib take-in --kind end-mill --diameter 1/2 begins one"
_UPDATE = "update the program in the way in which it was installed"


def open_file(place: Place, create: bool, patience: float | None = None) -> SqliteDatabase:
    """Open the crib in a file, brought up to this program's schema; with `create`, make it where there is none.

    Raises `CribError` where there is none, and for a folder, another program's file, a locked or a newer one.
    """
    path, patience = place.path, LOCK_SECONDS if patience is None else patience
    assert path is not None
    if is_fresh(path):
        if not create:
            raise CribError("no-crib", f"there is no crib at {path} yet", path, _BEGIN)
        from crib.store.begin import make

        make(path, place.ours)
    if os.path.exists(f"{path}-journal"):
        from crib.store.family import settle_journal

        settle_journal(path)
    database = SqliteDatabase(path, patience)
    try:
        _check_ours(database, path)
        database.look()
        if number_of(database, "user_version") < VERSION:
            from crib.store.begin import upgraded

            return upgraded(database, path, patience)
    except BaseException:
        database.close()
        raise
    return database


def _check_ours(database: SqliteDatabase, path: str) -> None:
    if number_of(database, "application_id") != APPLICATION_ID:
        raise CribError("foreign", f"{path} is a database of another program, not a crib", path,
                        "name another file with --crib")
    version = number_of(database, "user_version")
    if version > VERSION:
        raise CribError("newer", f"the crib {path} was written by a newer version of this program", path, _UPDATE)

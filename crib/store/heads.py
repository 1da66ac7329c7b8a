"""The first page of a damaged file put in by another's: it says where each table begins.

Where only that page is lost, every row is still there, behind tables that nobody can find. A crib that this program
made has its tables where another that it made has them; one that was migrated, or restored, where another such has
them. Offsets:
SQLite's file format, "The Database Header".
"""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path

from crib.store.layout import lay_out

PAGE = 4096


def other_heads(copy: Path, folder: Path) -> Iterator[None]:
    """Puts one first page after the other into a file, which is a copy. The rows are looked at by whoever reads them.
    """
    from crib.store.migrate import upgrade

    made, migrated, packed = (folder / f"{name}.db" for name in ("made", "migrated", "packed"))
    lay_out(made)
    upgrade(migrated)
    with closing(sqlite3.connect(migrated)) as database:
        database.execute("VACUUM INTO ?", (str(packed),))
    pages = copy.stat().st_size // PAGE
    for other in (made, migrated, packed):
        with other.open("rb") as file, copy.open("r+b") as damaged:
            damaged.write(_for(bytearray(file.read(PAGE)), pages))
        yield


def _for(head: bytearray, pages: int) -> bytes:
    """A first page for a file of so many pages, none of which is called free."""
    head[28:32] = pages.to_bytes(4, "big")
    head[32:40] = bytes(8)
    head[92:96] = head[24:28]
    return bytes(head)

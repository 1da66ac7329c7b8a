"""What is owned, kept on a disk. `open_crib` is the door, and quick for a SQLite file that is up to date."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from crib.light.hints import TYPE_CHECKING
from crib.light.modules import later
from crib.store.columns import SOURCES
from crib.store.crib import Crib
from crib.store.holdings import Holdings
from crib.store.in_a_file import open_file
from crib.store.notes import Note
from crib.store.sqlite import is_fresh
from crib.store.where import place

if TYPE_CHECKING:
    from crib.store.changes import Change
    from crib.store.find import Found
    from crib.store.held_back import HeldBack
    from crib.store.parts import KeptPart
    from crib.store.questions import PastQuestion
    from crib.store.taken import Arrival

__all__ = [
    "SOURCES", "Arrival", "Change", "Crib", "Found",
    "HeldBack", "Holdings", "KeptPart", "Note", "PastQuestion", "begin_crib", "crib_exists",
    "open_crib",
]


_ELSEWHERE = {"Arrival": "taken", "Change": "changes", "Found": "find", "HeldBack": "held_back", "KeptPart": "parts",
              "PastQuestion": "questions"}
"""Records of which a question makes none, with the files that they are in."""


def __getattr__(name: str) -> object:
    """What is seldom needed, imported when it is asked for."""
    if name not in _ELSEWHERE:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(later(f"{__name__}.{_ELSEWHERE[name]}"), name)


def open_crib(where: str | None, create: bool = False, units: str | None = None,
              patience: float | None = None) -> Crib:
    """Open the crib at a path or URL, else the one that CRIB_DB names, else the user's own.

    With `create` it is made where there is none. `units` are those that cutters are named in, else the shop's.
    `patience`: how long another program may keep a crib locked before we give up [s].
    Raises `CribError` where it can't be opened.
    """
    there = place(where)
    if there.url is None:
        return Crib(open_file(there, create, patience), units)
    from crib.store.remote import open_url

    return Crib(open_url(there.url, create, patience), units)


@contextmanager
def begin_crib(where: str | None, units: str | None = None) -> Iterator[Crib]:
    """The same with a crib that is made where there is none: it is there when all inside is done, and not before."""
    there = place(where)
    if there.path is None or not is_fresh(there.path):
        with open_crib(where, create=True, units=units) as crib:
            yield crib
        return
    from crib.store.begin import begun

    with begun(there.path, there.ours) as database, Crib(database, units) as crib:
        yield crib


def crib_exists(where: str | None) -> bool:
    """Whether `open_crib` would find something to open without making it. A shared crib is taken to be there."""
    there = place(where)
    return there.path is None or not is_fresh(there.path)

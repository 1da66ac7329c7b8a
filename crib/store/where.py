"""Which crib is meant: what was asked for, else the environment's CRIB_DB, else the user's own data folder."""

from __future__ import annotations

import os

from crib.findings.errors import CribError
from crib.light.hints import TYPE_CHECKING
from crib.light.records import dataclass

if TYPE_CHECKING:
    from pathlib import Path

VARIABLE = "CRIB_DB"
_FILE_URL = "sqlite:///"


@dataclass(frozen=True)
class Place:
    """Where a crib is: a SQLite file, or the URL of a shared database. `ours`: the folder is the program's to make."""

    path: str | None = None
    url: str | None = None
    ours: bool = False


def place(asked: str | None) -> Place:
    """The crib that is meant by a path or URL, or by none. Raises `CribError` for a name that can't be one."""
    if asked is not None and not asked.strip():
        raise CribError("crib", "the crib's name is empty", asked, "--crib takes the path of a file or a URL")
    named = asked or os.environ.get(VARIABLE, "").strip()
    if not named:
        return Place(path=str(beside("crib.db")), ours=True)
    if named.startswith(_FILE_URL):
        named = named.removeprefix(_FILE_URL)
    if "://" in named:
        return Place(url=named)
    if named.startswith(":"):
        raise CribError("crib", f"{named!r} is no place to keep a crib in", named, "--crib takes the path of a file")
    if "\0" in named:
        raise CribError("crib", f"{named!r} can't be a file's name", named, "--crib takes the path of a file or a URL")
    return Place(path=os.path.expanduser(named))


def beside(name: str) -> Path:
    """A file of that name in the user's own data folder."""
    from platformdirs import user_data_path

    return user_data_path("crib", appauthor=False) / name


def uri_path(path: str | Path) -> str:
    """A path as SQLite takes it in a URI; three signs mean something there."""
    return os.path.join(os.getcwd(), path).replace("%", "%25").replace("?", "%3f").replace("#", "%23")

"""Copies of the whole crib, and what to do when one is needed."""

from __future__ import annotations

import json
from pathlib import Path
from tempfile import TemporaryDirectory

from crib.files import write
from crib.findings.errors import CribError
from crib.light.records import dataclass
from crib.store import Crib, open_crib
from crib.store.salvage import Salvaged
from crib.store.where import place


@dataclass(frozen=True)
class Copied:
    """Where it all is now, and how many rows each table has. `kept`: the name under which is kept what was there;
    `found`: what was got out of a damaged crib, table by table."""

    target: Path
    counts: dict[str, int]
    kept: Path | None = None
    found: tuple[Salvaged, ...] = ()
    is_file: bool = True


def backup(crib: Crib, to: Path | None = None) -> Copied:
    """Copy a whole crib, whatever else is using it just now; the copy is read back before it counts. A shared crib, and
    where a name ends in .json, is written as one document. Raises `CribError`."""
    from crib.store.copies import ASKED_FOR, copy_to, put_by

    here = crib.path
    if here is None or (to is not None and to.suffix.lower() == ".json"):
        target = to or Path("crib-backup.json")
        write(target, json.dumps(crib.whole(), ensure_ascii=False) + "\n")
    else:
        target = copy_to(here, to) if to is not None else put_by(here, ASKED_FOR)
    return Copied(target, crib.counts())


def restore(where: str | None, file: Path, to: str | None = None, over: bool = False, units: str | None = None
            ) -> Copied:
    """Put back a backup: into a new file beside the crib, to a place, or `over` what is there, which is put by first.
    Raises `CribError`."""
    from crib.store.copies import restore_to

    if to is not None and over:
        raise CribError("usage", "--to and --over don't go together", "", "one of them")
    here = place(to if to is not None else where)
    if here.path is None:
        return _restored_there(file, to or where, units)
    there = Path(here.path)
    target = there if over or to is not None else _new_name(there, "restored")
    if to is not None and target.exists():
        raise CribError("file", f"{target} is there already", str(target), "another name, or --over without --to")
    with TemporaryDirectory() as folder:
        kept = restore_to(_as_file(file, Path(folder)), target, over)
    with open_crib(str(target), units=units) as crib:
        return Copied(target, crib.counts(), kept)


def salvage(file: Path, to: Path | None = None, units: str | None = None) -> Copied:
    """Get out of a damaged crib what can be read, row by row, into a new one. Raises `CribError`."""
    target = to or _new_name(file, "salvaged")
    if target.exists():
        raise CribError("file", f"{target} is there already", str(target), "another name")
    if not file.is_file():
        raise CribError("file", f"there is no file {file}", str(file), "the path of a damaged crib")
    try:
        with open_crib(str(target), create=True, units=units) as crib:
            found = crib.salvage_from(file)
            return Copied(target, crib.counts(), found=tuple(found))
    except CribError:
        target.unlink(missing_ok=True)
        raise


def _new_name(path: Path, word: str) -> Path:
    """A name beside a crib's that isn't taken."""
    names = (path.with_name(f"{path.stem}.{word}{f'-{number}' if number > 1 else ''}{path.suffix or '.db'}")
             for number in range(1, 10_000))
    return next(name for name in names if not name.exists())


def _as_file(file: Path, folder: Path) -> Path:
    """The file itself, or the crib that a whole export of one describes."""
    try:
        with file.open("rb") as opened:
            is_text = opened.read(1).lstrip() in (b"{", b"[", b"\xef")
    except OSError as error:
        raise CribError("file", f"{file} can't be read: {(error.strerror or str(error)).lower()}", str(file),
                        "a file that crib backup or crib export --all has written") from error
    if not is_text:
        return file
    made = folder / "crib.db"
    with open_crib(str(made), create=True) as crib:
        crib.fill(file.read_text(encoding="utf-8-sig"), str(file))
    return made


def _restored_there(file: Path, url: str | None, units: str | None) -> Copied:
    """Into a shared crib, which must be empty."""
    with open_crib(url, create=True, units=units) as crib:
        if crib.counts()["cutter"]:
            raise CribError("file", "that shared crib has cutters in it", str(url), "an empty one, or a file with --to")
        crib.fill(file.read_text(encoding="utf-8-sig"), str(file))
        return Copied(Path("the shared crib"), crib.counts(), is_file=False)

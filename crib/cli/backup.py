"""`crib backup`, `crib restore` and `crib salvage`: copies of the whole crib, and what to do when one is needed."""

from __future__ import annotations

import json
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Annotated, Any

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.files import write
from crib.findings.errors import CribError
from crib.store import open_crib
from crib.store.where import place


def backup(
    ctx: typer.Context,
    to: Annotated[Path | None, typer.Option("--to", help="Where to; else a dated file in the folder backups beside it")
                  ] = None,
) -> Status:
    """Copy the whole crib, whatever else is using it just now; the copy is read back before it counts."""
    from crib.store.copies import ASKED_FOR, copy_to, put_by

    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        here = crib.path
        if here is None:
            target = to or Path("crib-backup.json")
            write(target, json.dumps(crib.whole(), ensure_ascii=False) + "\n")
        elif to is not None and to.suffix.lower() == ".json":
            target = to
            write(target, json.dumps(crib.whole(), ensure_ascii=False) + "\n")
        else:
            target = copy_to(here, to) if to is not None else put_by(here, ASKED_FOR)
        counts = crib.counts()
    return _told(asked, target, counts, f"backed up to {target}")


def restore(
    ctx: typer.Context,
    file: Annotated[Path, typer.Argument(help="What crib backup or crib export --all wrote")],
    to: Annotated[str | None, typer.Option("--to", help="Where to; else a new file beside the crib")] = None,
    over: Annotated[bool, typer.Option("--over", help="In the place of the crib that is there, which is put by first")
                    ] = False,
) -> Status:
    """Put back a backup: into a new file unless --over or --to say otherwise. It is read back before it counts."""
    from crib.store.copies import restore_to

    asked: Asked = ctx.obj
    if to is not None and over:
        raise CribError("usage", "--to and --over don't go together", "", "one of them")
    here = place(to if to is not None else asked.crib)
    if here.path is None:
        return _restored_there(asked, file, to or asked.crib)
    target = here.path if over or to is not None else _new_name(here.path)
    if to is not None and target.exists():
        raise CribError("file", f"{target} is there already", str(target), "another name, or --over without --to")
    with TemporaryDirectory() as folder:
        kept = restore_to(_as_file(file, Path(folder)), target, over)
    with open_crib(str(target), units=asked.units) as crib:
        counts = crib.counts()
    lines = [f"what was there is kept as {kept}"] if kept else []
    if not over:
        lines.append(f"crib --crib {target} find looks at it; crib restore {file} --over puts it in the crib's place")
    return _told(asked, target, counts, f"restored to {target}", lines)


def salvage(
    ctx: typer.Context,
    file: Annotated[Path, typer.Argument(help="The damaged crib; it isn't touched")],
    to: Annotated[Path | None, typer.Option("--to", help="Where to; else a new file beside it")] = None,
) -> Status:
    """Get out of a damaged crib what can be read, row by row, into a new one; and say what couldn't."""
    asked: Asked = ctx.obj
    target = to or _new_name(file, "salvaged")
    if target.exists():
        raise CribError("file", f"{target} is there already", str(target), "another name")
    if not file.is_file():
        raise CribError("file", f"there is no file {file}", str(file), "the path of a damaged crib")
    try:
        with open_crib(str(target), create=True, units=asked.units) as crib:
            found = crib.salvage_from(file)
            counts = crib.counts()
    except CribError:
        target.unlink(missing_ok=True)
        raise
    rows = [(_NAMES.get(one.table, one.table), str(one.got), f"of {one.of}" if one.of > one.got else "all")
            for one in found]
    lines = [*out.table(("", "read", ""), rows), "", f"crib --crib {target} find looks at it"]
    document = {"tables": {one.table: {"read": one.got, "of": one.of} for one in found}}
    return _told(asked, target, counts, f"salvaged to {target}", lines, document)


_NAMES = {"cutter": "cutters", "change": "changes", "held_back": "held-back lines", "question": "questions",
          "note": "notes", "setting": "settings"}


def _told(asked: Asked, target: Path, counts: dict[str, int], says: str, lines: list[str] | None = None,
          more: dict[str, Any] | None = None) -> Status:
    cutters, changes = counts["cutter"], counts["change"]
    many = f"{cutters} cutter{'' if cutters == 1 else 's'}, {changes} change{'' if changes == 1 else 's'}"
    out.answer(asked, {"file": str(target), "cutters": cutters, "changes": changes} | (more or {}),
               [f"{says}: {many}", *(lines or ())])
    return Status.ANSWERED


def _new_name(path: Path, word: str = "restored") -> Path:
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


def _restored_there(asked: Asked, file: Path, url: str | None) -> Status:
    """Into a shared crib, which must be empty."""
    with open_crib(url, create=True, units=asked.units) as crib:
        if crib.counts()["cutter"]:
            raise CribError("file", "that shared crib has cutters in it", str(url), "an empty one, or a file with --to")
        crib.fill(file.read_text(encoding="utf-8-sig"), str(file))
        counts = crib.counts()
    return _told(asked, Path("the shared crib"), counts, "restored to the shared crib")

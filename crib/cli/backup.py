"""`crib backup`, `crib restore` and `crib salvage`: copies of the whole crib, and what to do when one is needed."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated, Any

from crib.app import copies
from crib.app.copies import Copied
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status

_NAMES = {"cutter": "cutters", "change": "changes", "held_back": "held-back lines", "question": "questions",
          "note": "notes", "part": "parts", "setting": "settings"}


def backup(
    ctx: typer.Context,
    to: Annotated[Path | None, typer.Option("--to", help="Where to; else a dated file in the folder backups beside it")
                  ] = None,
) -> Status:
    """Copy the whole crib, whatever else is using it just now; the copy is read back before it counts."""
    asked: Asked = ctx.obj
    with asked.open() as crib:
        copied = copies.backup(crib, to)
    return _told(asked, copied, "backed up")


def restore(
    ctx: typer.Context,
    file: Annotated[Path, typer.Argument(help="What crib backup or crib export --all wrote")],
    to: Annotated[str | None, typer.Option("--to", help="Where to; else a new file beside the crib")] = None,
    over: Annotated[bool, typer.Option("--over", help="In the place of the crib that is there, which is put by first")
                    ] = False,
) -> Status:
    """Put back a backup: into a new file unless --over or --to say otherwise. It is read back before it counts."""
    asked: Asked = ctx.obj
    copied = copies.restore(asked.crib, file, to, over, asked.units)
    lines = [f"what was there is kept as {copied.kept}"] if copied.kept else []
    if not over and copied.is_file:
        lines.append(f"crib --crib {copied.target} find looks at it; crib restore {file} --over puts it in the crib's "
                     "place")
    return _told(asked, copied, "restored", lines)


def salvage(
    ctx: typer.Context,
    file: Annotated[Path, typer.Argument(help="The damaged crib; it isn't touched")],
    to: Annotated[Path | None, typer.Option("--to", help="Where to; else a new file beside it")] = None,
) -> Status:
    """Get out of a damaged crib what can be read, row by row, into a new one; and say what couldn't."""
    asked: Asked = ctx.obj
    copied = copies.salvage(file, to, asked.units)
    rows = [(_NAMES.get(one.table, one.table), str(one.got), f"of {one.of}" if one.of > one.got else "all")
            for one in copied.found]
    lines = [*out.table(("", "read", ""), rows), "", f"crib --crib {copied.target} find looks at it"]
    return _told(asked, copied, "salvaged", lines,
                 {"tables": {one.table: {"read": one.got, "of": one.of} for one in copied.found}})


def _told(asked: Asked, copied: Copied, says: str, lines: list[str] | None = None, more: dict[str, Any] | None = None
          ) -> Status:
    cutters, changes = copied.counts["cutter"], copied.counts["change"]
    many = f"{cutters} cutter{'' if cutters == 1 else 's'}, {changes} change{'' if changes == 1 else 's'}"
    out.answer(asked, {"file": str(copied.target), "cutters": cutters, "changes": changes} | (more or {}),
               [f"{says} to {copied.target}: {many}", *(lines or ())])
    return Status.ANSWERED

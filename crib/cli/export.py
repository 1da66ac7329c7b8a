"""`crib export`: the whole crib as a table or as JSON, to be opened elsewhere or taken in again."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.diagnostics import CribError
from crib.store import open_crib


def export(
    ctx: typer.Context,
    words: Annotated[list[str] | None, typer.Argument(help="Only what fits these words")] = None,
    to: Annotated[Path | None, typer.Option("--to", help="A file: .csv or .json; none: CSV to the screen")] = None,
    over: Annotated[bool, typer.Option("--over", help="Write over the file that is there")] = False,
) -> Status:
    """Write the cutters down for a spreadsheet or another crib; lengths in mm, as the headings say."""
    from crib.intake.export import as_csv

    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        cutters = sorted(crib.find(words or []).cutters, key=lambda cutter: cutter.id)
    document = {"cutters": [cutter.as_json() for cutter in cutters]}
    if to is None:
        out.answer(asked, document, as_csv(cutters))
        return Status.ANSWERED
    if to.suffix.lower() not in (".csv", ".json"):
        raise CribError("file", f"{to.name!r} is named neither .csv nor .json", str(to), "--to cutters.csv")
    text = json.dumps(document, indent=2) if to.suffix.lower() == ".json" else "\ufeff" + "\r\n".join(as_csv(cutters))
    write(to, text + "\n", over)
    out.answer(asked, {"written": str(to), "cutters": len(cutters)}, [f"{len(cutters)} cutters written to {to}"])
    return Status.ANSWERED


def write(path: Path, text: str, over: bool = False) -> None:
    """Write a new file. Raises `CribError` where one is there already or it can't be written."""
    try:
        with path.open("w" if over else "x", encoding="utf-8", newline="") as file:
            file.write(text)
    except FileExistsError:
        raise CribError("file", f"{path} is there already", str(path), "another name, or --over") from None
    except OSError as error:
        raise CribError("file", f"{path} can't be written: {(error.strerror or str(error)).lower()}", str(path),
                        "another name or folder") from error

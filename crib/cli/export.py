"""`crib export`: the whole crib as a table or as JSON, to be opened elsewhere or taken in again."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Annotated

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.findings.message import counted


def export(
    ctx: typer.Context,
    words: Annotated[list[str] | None, typer.Argument(help="Only what fits these words")] = None,
    to: Annotated[Path | None, typer.Option("--to", help="A file: .csv or .json; none: CSV to the screen")] = None,
    over: Annotated[bool, typer.Option("--over", help="Write over the file that is there")] = False,
    every: Annotated[bool, typer.Option("--all", help="Everything on record, as JSON that crib restore reads: history, "
                                        "settings, questions, prices, held-back lines")] = False,
) -> Status:
    """Write the cutters down for a spreadsheet or another crib; lengths in mm, as the headings say."""
    from crib.app import export as writing

    asked: Asked = ctx.obj
    if every:
        return _whole(asked, to, over, words or [])
    with asked.open() as crib:
        cutters = writing.export(crib, words or [], to, over)
    if to is None:
        out.answer(asked, lambda: writing.as_json(cutters), lambda: writing.as_csv(cutters))
    else:
        out.answer(asked, {"written": str(to), "cutters": len(cutters)},
                   [f"{counted(len(cutters), 'cutter')} written to {to}"])
    return Status.ANSWERED


def _whole(asked: Asked, to: Path | None, over: bool, words: list[str]) -> Status:
    """The whole crib as one document."""
    from crib.app.export import export_all

    if words or (to is not None and to.suffix.lower() != ".json"):
        raise CribError("usage", "--all writes everything, as JSON", str(to or " ".join(words)),
                        "crib export --all --to whole.json")
    with asked.open() as crib:
        document = export_all(crib, to, over)
    if to is None:
        print(json.dumps(document, ensure_ascii=False, indent=1) if not asked.json else json.dumps(document))
        return Status.ANSWERED
    tables = document["crib"]["tables"]
    counts = {"cutters": len(tables["cutter"]), "changes": len(tables["change"])}
    out.answer(asked, {"written": str(to), **counts},
               [f"everything is written to {to}: {counted(counts['cutters'], 'cutter')}, "
                f"{counted(counts['changes'], 'change')}"])
    return Status.ANSWERED

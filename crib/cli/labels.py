"""`crib labels`: a sheet of labels to print."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.findings.message import counted


def labels(
    ctx: typer.Context,
    words: Annotated[list[str] | None, typer.Argument(help="Numbers, or words as for find: drawer B2")] = None,
    to: Annotated[Path, typer.Option("--to", help="The sheet: .html to print, or .svg for one page")] = Path(
        "labels.html"),
    over: Annotated[bool, typer.Option("--over", help="Write over the file that is there")] = False,
) -> Status:
    """Write labels with number, size, silhouette to scale and a code that reads "crib show NUMBER"."""
    from crib.app.export import write
    from crib.app.looking import to_label
    from crib.pages.labels import tags
    from crib.render.html.labels import as_html, pages, sheet_of

    asked: Asked = ctx.obj
    said = list(words or [])
    with asked.open() as crib:
        cutters, sheet = to_label(crib, said), sheet_of(crib.shop().sheet_paper, crib.units)
    if not cutters:
        out.answer(asked, {"written": None, "labels": 0}, [f"nothing fits {' '.join(said)}".rstrip()])
        return Status.NO
    printed = tags(cutters)
    sheets = pages(printed, sheet)
    if to.suffix.lower() == ".svg" and len(sheets) == 1:
        write(to, sheets[0] + "\n", over)
    elif to.suffix.lower() in (".html", ".htm"):
        write(to, as_html(printed, sheet), over)
    else:
        raise CribError("file", f"{len(cutters)} labels don't go into {to.name!r}", str(to), "--to labels.html")
    out.answer(asked, {"written": str(to), "labels": len(cutters), "sheets": len(sheets)},
               [f"{counted(len(cutters), 'label')} written to {to}, {counted(len(sheets), 'sheet')} "
                f"of {sheet.paper}"])
    return Status.ANSWERED

"""`crib history`: what was done, newest first."""

from __future__ import annotations

from typing import Annotated

from crib.app import changes
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.pages.history import history as what_was_done


def history(
    ctx: typer.Context,
    number: Annotated[int | None, typer.Argument(metavar="[ID]", help="Only what was done to this cutter")] = None,
    every: Annotated[bool, typer.Option("--all", help=f"All changes, not the last {out.MOST_ROWS}")] = False,
) -> Status:
    """Show every change, newest first: when, who, what, and what it was before. crib undo NUMBER undoes one."""
    asked: Asked = ctx.obj
    with asked.open() as crib:
        whole = number is not None or every or asked.json
        done, units = changes.history(crib, number) if whole else changes.newest(crib, out.MOST_ROWS), crib.units
    shown = [one.as_json() for one in reversed(done.changes)]
    lines = out.shown([what_was_done(shown, done.undone, headed=True)], units) if shown else ["nothing was done yet"]
    if done.more:
        lines.append(f"and {done.more} before them; --all shows them")
    out.answer(asked, {"changes": [one | {"undone_by": done.undone.get(one["id"])} for one in shown]}, lines)
    return Status.ANSWERED if shown else Status.NO

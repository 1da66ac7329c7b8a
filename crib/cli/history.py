"""`crib history`: what was done, newest first."""

from __future__ import annotations

from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.intake.undo import undone_by
from crib.pages.history import history as done
from crib.store import open_crib


def history(
    ctx: typer.Context,
    number: Annotated[int | None, typer.Argument(metavar="[ID]", help="Only what was done to this cutter")] = None,
) -> Status:
    """Show every change, newest first: when, who, what, and what it was before. crib undo NUMBER undoes one."""
    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        changes, units = crib.changes(), crib.units
        undone = undone_by(changes)
        if number is not None:
            changes = [one for one in changes if one.subject == f"cutter {number}"]
            if not changes:
                crib.cutter(number)
    shown = [one.as_json() for one in reversed(changes)]
    lines = out.shown([done(shown, undone, headed=True)], units) if shown else ["nothing was done yet"]
    out.answer(asked, {"changes": [one | {"undone_by": undone.get(one["id"])} for one in shown]}, lines)
    return Status.ANSWERED if shown else Status.NO

"""`crib show`: all that is known of a cutter, and what was done to it."""

from __future__ import annotations

from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.cutters.known import known
from crib.intake.undo import undone_by
from crib.pages.blocks import Heading, Spacer
from crib.pages.card import card
from crib.pages.history import history as done
from crib.store import open_crib


def show(
    ctx: typer.Context, number: Annotated[int, typer.Argument(metavar="ID", help="The cutter's number")]
) -> Status:
    """Show a cutter with its history."""
    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        cutter, history, units = crib.cutter(number), crib.history(number), crib.units
        typed = crib.typed(number)
    page = (*card(cutter, typed), Spacer(), Heading("history"),
            done([one.as_json() for one in history], undone_by(history)))
    document = {"typed": typed, "known": known(cutter), "history": [one.as_json() for one in history]}
    out.answer(asked, cutter.as_json() | document, out.shown(page, units))
    return Status.ANSWERED

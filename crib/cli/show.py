"""`crib show`: all that is known of a cutter, and what was done to it."""

from __future__ import annotations

from crib.app import looking
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.light.hints import Annotated
from crib.pages.blocks import Heading, Spacer
from crib.pages.card import card
from crib.pages.history import history as done


def show(
    ctx: typer.Context, number: Annotated[int, typer.Argument(metavar="ID", help="The cutter's number")]
) -> Status:
    """Show a cutter with its history."""
    asked: Asked = ctx.obj
    with asked.open() as crib:
        found, units = looking.show(crib, number), crib.units
    cutter, history = found.cutter, [one.as_json() for one in found.history]
    page = (*card(cutter, found.typed), Spacer(), Heading("history"), done(history, found.undone))
    out.answer(asked, cutter.as_json() | {"typed": found.typed, "known": found.known, "history": history},
               out.shown(page, units))
    return Status.ANSWERED

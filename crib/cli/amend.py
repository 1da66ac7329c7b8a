"""`crib amend`: change what is known of a cutter."""

from __future__ import annotations

from typing import Annotated

from crib.app import life
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.attribute_options import CUTTER_SLOTS
from crib.cli.later import typer
from crib.cli.slots import with_options
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.pages.card import card, overruled
from crib.render.words import words


@with_options(CUTTER_SLOTS)
def amend(
    ctx: typer.Context,
    number: Annotated[int, typer.Argument(metavar="ID", help="The cutter's number")],
    *,
    texts: dict[str, str],
) -> Status:
    """Change a cutter; its history keeps what it was. The word unknown takes a value away."""
    asked: Asked = ctx.obj
    if not texts:
        raise CribError("usage", "nothing to change is given", "", f"crib amend {number} --neck .250 --measured neck")
    with asked.open() as crib:
        became, units = life.amend(crib, number, texts), crib.units
    after = became.after
    out.answer(asked, after.as_json(), out.shown(card(after, {}), units))
    for says in overruled(became.before, after):
        out.note(words(says, units))
    return Status.ANSWERED

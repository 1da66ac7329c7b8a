"""`crib amend`: change what is known of a cutter."""

from __future__ import annotations

from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.attribute_options import CUTTER_SLOTS
from crib.cli.slots import with_options
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.intake.options import amend_by_options
from crib.pages.card import card, overruled
from crib.render.words import words
from crib.store import open_crib


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
    with open_crib(asked.crib, units=asked.units) as crib, crib.transaction():
        before, units = crib.cutter(number), crib.units
        cutter, typed = amend_by_options(before, texts, units, crib.shop().currency)
        after = crib.amend(cutter, typed)
    out.answer(asked, after.as_json(), out.shown(card(after, {}), units))
    for says in overruled(before, after):
        out.note(words(says, units))
    return Status.ANSWERED

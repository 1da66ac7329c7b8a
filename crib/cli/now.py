"""`crib now`: what became of a cutter, in a few words."""

from __future__ import annotations

from datetime import date
from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.store import open_crib


def now(
    ctx: typer.Context,
    number: Annotated[int, typer.Argument(metavar="ID", help="The cutter's number")],
    words: Annotated[list[str], typer.Argument(metavar="WORDS...", help="lent to NAME, back, lost, scrapped, moved to "
                                               "B3, reground .4875, sharpened, dull, chipped")],
) -> Status:
    """Tell what became of a cutter: lent, back, lost, found, scrapped, moved, reground, measured, sharpened, dull."""
    from crib.intake.life import now as told
    from crib.pages.card import overruled
    from crib.render.words import words as spelt

    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib, crib.transaction():
        before, units = crib.cutter(number), crib.units
        found = told(before, " ".join(words), date.today(), units, crib.shop().currency)
        after = crib.amend(found.cutter, found.typed)
    ask = "; ".join(question for question in after.questions if question not in before.questions)
    out.answer(asked, after.as_json(), [f"{after.id}  {after.label}: {found.says}" + (f"; {ask}" if ask else "")])
    for says in overruled(before, after):
        out.note(spelt(says, units))
    return Status.ANSWERED

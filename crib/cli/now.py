"""`crib now`: what became of a cutter, in a few words."""

from __future__ import annotations

from typing import Annotated

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status


def now(
    ctx: typer.Context,
    number: Annotated[int, typer.Argument(metavar="ID", help="The cutter's number")],
    words: Annotated[list[str], typer.Argument(metavar="WORDS...", help="lent to NAME, back, lost, scrapped, moved to "
                                               "B3, reground .4875, sharpened, dull, chipped")],
) -> Status:
    """Tell what became of a cutter: lent, back, lost, found, scrapped, moved, reground, measured, sharpened, dull."""
    from crib.app import life
    from crib.pages.card import overruled
    from crib.render.words import words as spelt

    asked: Asked = ctx.obj
    with asked.open() as crib:
        became, units = life.now(crib, number, " ".join(words)), crib.units
    after, ask = became.after, f"; {became.asks}" if became.asks else ""
    out.answer(asked, after.as_json(), [f"{after.id}  {after.label}: {became.says}{ask}"])
    for says in overruled(became.before, after):
        out.note(spelt(says, units))
    return Status.ANSWERED

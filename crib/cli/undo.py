"""`crib undo`: puts back what a change changed."""

from __future__ import annotations

from typing import Annotated

from crib.app import changes
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.pages.history import change_in_words, subject_in_words
from crib.render.words import words


def undo(
    ctx: typer.Context,
    numbers: Annotated[str | None, typer.Argument(metavar="[CHANGE]", help="The change's number, as crib history has "
                                                                           "it; 12-40 for all from 12 to 40")] = None,
) -> Status:
    """Undo a change, the last one without a number. It stays written down, and the undoing can be undone in turn."""
    asked: Asked = ctx.obj
    wanted = changes.read_numbers(numbers)
    with asked.open() as crib:
        undone, units = changes.undo(crib, *wanted), crib.units
    lines = [f"undone: change {one.id}, {subject_in_words(one.subject)}: {words(change_in_words(one.as_json()), units)}"
             for one, _ in undone]
    if len(undone) == 1:
        lines.append(f"crib undo {undone[0][1].id} brings it back")
    out.answer(asked, {"undone": [one.as_json() for one, _ in undone], "by": [by.as_json() for _, by in undone]}, lines)
    return Status.ANSWERED

"""`crib undo`: puts back what a change changed."""

from __future__ import annotations

from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.intake import undo as undoing
from crib.sheets.history import change_in_words, subject_in_words
from crib.store import open_crib


def undo(
    ctx: typer.Context,
    number: Annotated[int | None, typer.Argument(metavar="[CHANGE]", help="The change's number, as crib history "
                                                                          "has it")] = None,
) -> Status:
    """Undo a change, the last one without a number. It stays written down, and the undoing can be undone in turn."""
    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        change = undoing.undo(crib, number)
        by, units = crib.changes()[-1], crib.units
    says = f"undone: change {change.id}, {subject_in_words(change.subject)}: {change_in_words(change.as_json(), units)}"
    out.answer(asked, {"undone": change.as_json(), "by": by.as_json()},
               [says, f"crib undo {by.id} brings it back"])
    return Status.ANSWERED

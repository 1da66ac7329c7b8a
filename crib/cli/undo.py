"""`crib undo`: puts back what a change changed."""

from __future__ import annotations

import re
from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.intake import undo as undoing
from crib.pages.history import change_in_words, subject_in_words
from crib.render.words import words
from crib.store import open_crib


def undo(
    ctx: typer.Context,
    numbers: Annotated[str | None, typer.Argument(metavar="[CHANGE]", help="The change's number, as crib history has "
                                                                           "it; 12-40 for all from 12 to 40")] = None,
) -> Status:
    """Undo a change, the last one without a number. It stays written down, and the undoing can be undone in turn."""
    asked: Asked = ctx.obj
    number, last = _read(numbers)
    with open_crib(asked.crib, units=asked.units) as crib:
        if number is not None and last is not None:
            crib.put_by("before-undo")
            undone = undoing.undo_all(crib, number, last)
        else:
            undone = [undoing.undo(crib, number)]
        units = crib.units
        by = {one.undoes: one for one in crib.changes()}
    lines = [f"undone: change {one.id}, {subject_in_words(one.subject)}: {words(change_in_words(one.as_json()), units)}"
             for one in undone]
    if len(undone) == 1:
        lines.append(f"crib undo {by[undone[0].id].id} brings it back")
    out.answer(asked, {"undone": [one.as_json() for one in undone],
                       "by": [by[one.id].as_json() for one in undone]}, lines)
    return Status.ANSWERED


def _read(text: str | None) -> tuple[int | None, int | None]:
    """One number, or the first and the last of several. Raises `CribError`."""
    if text is None:
        return None, None
    found = re.fullmatch(r"(\d{1,18})(?:-(\d{1,18}))?", text, re.ASCII)
    if found is None:
        raise CribError("usage", f"{text!r} is not a change's number", text,
                        "crib undo 12, or crib undo 12-40 for all from 12 to 40; crib history has the numbers")
    return int(found[1]), int(found[2]) if found[2] else None

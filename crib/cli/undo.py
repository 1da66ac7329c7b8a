"""`crib undo`: puts back what a change changed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

from crib.app import changes
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.pages.history import change_in_words, deed, subject_in_words
from crib.render.words import words

if TYPE_CHECKING:
    from crib.app.changes import Change


def undo(
    ctx: typer.Context,
    numbers: Annotated[str | None, typer.Argument(metavar="[CHANGE]", help="The change's number, as crib history has "
                                                                           "it; 12-40 for all from 12 to 40")] = None,
    cutter: Annotated[int | None, typer.Option("--cutter", help="The last change of this cutter")] = None,
    yes: Annotated[bool, typer.Option("--yes", help="Undo without asking")] = False,
) -> Status:
    """Undo a change, the last one without a number. At a terminal it is shown first what would be put back. It stays
    written down, and the undoing can be undone in turn."""
    from crib.app.rehearsal import rehearsed

    asked: Asked = ctx.obj
    if numbers is not None and cutter is not None:
        raise CribError("usage", "a change's number and --cutter don't go together", numbers, "one of them at a time")
    wanted = changes.read_numbers(numbers)
    with asked.open() as crib:
        if cutter is not None:
            wanted = (changes.last_of(crib, cutter), None)
        shown = rehearsed(crib, lambda: changes.undo(crib, *wanted))
        if not yes and out.is_asking() and out.is_watched() and not asked.json and not _is_wanted(shown, crib.units):
            out.note("nothing was undone")
            return Status.NO
        (undone, along), units = changes.undo_as_shown(crib, wanted, shown), crib.units
    lines = [f"undone: change {one.id}, {subject_in_words(one.subject)}: {words(change_in_words(one.as_json()), units)}"
             for one, _ in undone]
    lines += [f"with it: {deed(one.as_json(), {})}: {words(change_in_words(one.as_json()), units)}" for one in along]
    by = sorted(change.id for _, change in undone)
    lines.append(f"crib undo {by[0] if by[0] == by[-1] else f'{by[0]}-{by[-1]}'} brings it back")
    document = {"undone": [one.as_json() for one, _ in undone], "by": [made.as_json() for _, made in undone],
                "with_it": [one.as_json() for one in along]}
    out.answer(asked, document, lines)
    return Status.ANSWERED


def _is_wanted(shown: Sequence[Change], units: str) -> bool:
    from crib.cli.before import is_wanted, rows

    for line in ["this would be put back:", *rows(shown, units)]:
        print(line)
    return is_wanted("Put it back?")

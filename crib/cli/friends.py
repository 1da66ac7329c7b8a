"""`crib friends`: cutters that friends would lend. They are reckoned with, and never counted as owned."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.library import new_app
from crib.cli.status import Status

if TYPE_CHECKING:
    from crib.app.opening import Crib

app = new_app(help="Cutters that friends would lend: reckoned with, never counted as owned.")


@app.callback(invoke_without_command=True)
def listed(ctx: typer.Context) -> Status:
    """What friends would lend."""
    if ctx.invoked_subcommand is not None:
        return Status.ANSWERED
    asked: Asked = ctx.obj
    with asked.open() as crib:
        return _show(asked, crib)


@app.command("add")
def add(
    ctx: typer.Context,
    friend: Annotated[str, typer.Argument(help="Who would lend it", metavar="WHO")],
    words: Annotated[list[str], typer.Argument(help="What it is, in shop words", metavar="WORDS")],
) -> Status:
    """Note a cutter that a friend would lend."""
    from crib.app.notes import note_friend

    asked: Asked = ctx.obj
    with asked.open(create=True) as crib:
        note_friend(crib, friend, " ".join(words))
        return _show(asked, crib)


@app.command("drop")
def drop(ctx: typer.Context, number: Annotated[int, typer.Argument(help="Its number here", metavar="N")]) -> Status:
    """Take one off the list."""
    from crib.app.notes import drop_friend

    asked: Asked = ctx.obj
    with asked.open() as crib:
        drop_friend(crib, number)
        return _show(asked, crib)


def _show(asked: Asked, crib: Crib) -> Status:
    from crib.app.notes import friends
    from crib.intake.shorthand.confirm import described

    named = friends(crib)
    rows = [(str(note.id), note.about["friend"], described(cutter, crib.units), "; ".join(cutter.questions))
            for note, cutter in named]
    lines = out.table(("no", "friend", "cutter", "to ask"), rows) if rows else ["nothing noted yet"]
    out.answer(asked, {"friends": [{"id": note.id, "friend": note.about["friend"], "words": note.words,
                                    "cutter": cutter.as_json()} for note, cutter in named]}, lines)
    return Status.ANSWERED if rows else Status.NO

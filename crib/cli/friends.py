"""`crib friends`: cutters that friends would lend. They are reckoned with, and never counted as owned."""

from __future__ import annotations

from typing import Annotated

import typer

from crib.cli import out
from crib.cli.app import new_app
from crib.cli.asked import Asked
from crib.cli.status import Status

app = new_app(help="Cutters that friends would lend: reckoned with, never counted as owned.")


@app.callback(invoke_without_command=True)
def listed(ctx: typer.Context) -> Status:
    """What friends would lend."""
    return Status.ANSWERED if ctx.invoked_subcommand is not None else _show(ctx.obj)


@app.command("add")
def add(
    ctx: typer.Context,
    friend: Annotated[str, typer.Argument(help="Who would lend it", metavar="WHO")],
    words: Annotated[list[str], typer.Argument(help="What it is, in shop words", metavar="WORDS")],
) -> Status:
    """Note a cutter that a friend would lend."""
    from crib.intake.attributes import read_value
    from crib.intake.priced import read_one
    from crib.store import open_crib
    from crib.store.notes import lent_note

    asked: Asked = ctx.obj
    text = " ".join(words)
    with open_crib(asked.crib, create=True, units=asked.units) as crib:
        name = read_value("note", friend, crib.units)
        crib.write_down(lent_note(text, name, read_one(text, crib.shop())))
    return _show(asked)


@app.command("drop")
def drop(ctx: typer.Context, number: Annotated[int, typer.Argument(help="Its number here", metavar="N")]) -> Status:
    """Take one off the list."""
    from crib.store import open_crib

    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        crib.cross_out(number, "lent")
    return _show(asked)


def _show(asked: Asked) -> Status:
    from crib.intake.shorthand.confirm import described
    from crib.store import open_crib
    from crib.store.notes import cutter_of

    with open_crib(asked.crib, units=asked.units) as crib:
        notes, units = crib.notes("lent"), crib.units
        named = [(note, cutter) for note in notes if (cutter := cutter_of(note, crib.units)) is not None]
    rows = [(str(note.id), note.about["friend"], described(cutter, units), "; ".join(cutter.questions))
            for note, cutter in named]
    document = {"friends": [{"id": note.id, "friend": note.about["friend"], "words": note.words,
                             "cutter": cutter.as_json()} for note, cutter in named]}
    lines = out.table(("no", "friend", "cutter", "to ask"), rows) if rows else ["nothing noted yet"]
    out.answer(asked, document, lines)
    return Status.ANSWERED if rows else Status.NO

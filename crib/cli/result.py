"""`crib result`: what came of it in this shop. How long did it take, what did the last hole measure?"""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated, Any

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.library import new_app
from crib.cli.status import Status

if TYPE_CHECKING:
    from crib.app.opening import Crib

app = new_app(help="Tell what came of it: minutes that a job took, what a hole measured.")


@app.callback(invoke_without_command=True)
def listed(ctx: typer.Context) -> Status:
    """What was told so far, and what it comes to."""
    if ctx.invoked_subcommand is not None:
        return Status.ANSWERED
    asked: Asked = ctx.obj
    with asked.open() as crib:
        return _show(asked, crib)


@app.command("time")
def took(
    ctx: typer.Context,
    minutes: Annotated[str, typer.Argument(help="Minutes from setting up to the finished part: 95, 1:35, 1.5h")],
    question: Annotated[int, typer.Option(help="The question's number; else the one asked last", metavar="N")] = 0,
) -> Status:
    """How long did it take? Real minutes over reckoned ones become this shop's pace."""
    from crib.app.results import took

    asked: Asked = ctx.obj
    with asked.open() as crib:
        took(crib, minutes, question)
        return _show(asked, crib)


@app.command("hole")
def hole(
    ctx: typer.Context,
    measured: Annotated[str, typer.Argument(help="What the hole measured", metavar="SIZE")],
    drill: Annotated[str, typer.Option(help="The drill's size: '#7', 1/4, 6mm", metavar="SIZE")] = "",
    cutter: Annotated[int, typer.Option(help="The drill's number in the crib", metavar="N")] = 0,
) -> Status:
    """What did the last hole measure? What your drills really make replaces what a handbook expects."""
    from crib.app.results import measured as note

    asked: Asked = ctx.obj
    with asked.open() as crib:
        note(crib, measured, drill, cutter)
        return _show(asked, crib)


@app.command("undo")
def undo(
    ctx: typer.Context,
    number: Annotated[int, typer.Argument(help="The result's number; none: the last", metavar="[N]")] = 0,
) -> Status:
    """Take a result back: the last, or the one with a number."""
    from crib.app.results import take_back

    asked: Asked = ctx.obj
    with asked.open() as crib:
        take_back(crib, number)
        return _show(asked, crib)


def _show(asked: Asked, crib: Crib) -> Status:
    from crib.app.results import results
    from crib.pages.results import results as page
    from crib.render.json.result import result_json

    found = results(crib)
    rows = [(str(note.id), note.at[:10], "time" if note.kind == "time" else "hole", _said(note.kind, note.words,
             note.about)) for note in found.notes]
    lines = out.table(("no", "day", "what", "came out"), rows) if rows else ["nothing told so far"]
    document = {"results": [note.as_json() for note in found.notes], **result_json(found.own)}
    out.answer(asked, document, [*lines, *out.shown(page(found.own), crib.units)])
    return Status.ANSWERED if rows else Status.NO


def _said(kind: str, words: str, about: Any) -> str:
    if kind == "hole":
        return words
    return f"{about['real']:.0f} min, reckoned {about['reckoned']:.0f}, question {about['question']}"

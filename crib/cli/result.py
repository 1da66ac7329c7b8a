"""`crib result`: what came of it in this shop. How long did it take, what did the last hole measure?"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

import typer

from crib.cli import out
from crib.cli.app import new_app
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.findings.errors import CribError

if TYPE_CHECKING:
    from crib.store import Crib, PastQuestion

app = new_app(help="Tell what came of it: minutes that a job took, what a hole measured.")


@app.callback(invoke_without_command=True)
def listed(ctx: typer.Context) -> Status:
    """What was told so far, and what it comes to."""
    if ctx.invoked_subcommand is not None:
        return Status.ANSWERED
    return _show(ctx.obj)


@app.command("time")
def took(
    ctx: typer.Context,
    minutes: Annotated[str, typer.Argument(help="Minutes from setting up to the finished part: 95, 1:35, 1.5h")],
    question: Annotated[int, typer.Option(help="The question's number; else the one asked last", metavar="N")] = 0,
) -> Status:
    """How long did it take? Real minutes over reckoned ones become this shop's pace."""
    from crib.intake.results import check_minutes, read_minutes
    from crib.store import open_crib
    from crib.store.notes import time_note

    asked: Asked = ctx.obj
    real = read_minutes(minutes)
    with open_crib(asked.crib, units=asked.units) as crib:
        job = _question(crib, question)
        reckoned = _reckoned(crib, job)
        check_minutes(real, reckoned, minutes)
        crib.write_down(time_note(minutes.strip(), job.id, reckoned, real))
    return _show(asked)


@app.command("hole")
def hole(
    ctx: typer.Context,
    measured: Annotated[str, typer.Argument(help="What the hole measured", metavar="SIZE")],
    drill: Annotated[str, typer.Option(help="The drill's size: '#7', 1/4, 6mm", metavar="SIZE")] = "",
    cutter: Annotated[int, typer.Option(help="The drill's number in the crib", metavar="N")] = 0,
) -> Status:
    """What did the last hole measure? What your drills really make replaces what a handbook expects."""
    from crib.intake.results import read_hole
    from crib.store import open_crib
    from crib.store.notes import hole_note

    asked: Asked = ctx.obj
    if bool(drill) == bool(cutter):
        raise CribError("usage", "say which drill: its size or its number, one of them", measured,
                        "--drill '#7', or --cutter 47")
    with open_crib(asked.crib, units=asked.units) as crib:
        owned = crib.cutter(cutter) if cutter else None
        sizes = read_hole(measured, drill, crib.units, owned)
        words = f"{measured.strip()} with {owned.label if owned else drill.strip()}"
        crib.write_down(hole_note(words, *sizes, owned.id if owned else None))
    return _show(asked)


@app.command("undo")
def undo(ctx: typer.Context, number: Annotated[int, typer.Argument(help="The result's number", metavar="N")]) -> Status:
    """Take a result back."""
    from crib.store import open_crib

    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        crib.cross_out(number, "time", "hole")
    return _show(asked)


def _question(crib: Crib, number: int) -> PastQuestion:
    if number:
        return crib.question(number)
    past = [one for one in crib.questions() if one.minutes]
    if not past:
        raise CribError("no-question", "no question with a plan is remembered", "", "ask it first: crib make ...")
    return past[0]


def _reckoned(crib: Crib, job: PastQuestion) -> float:
    """The minutes of a question's best plan as it is answered today, at the program's own pace."""
    from crib.planning.advise import advise
    from crib.planning.ask import read_request
    from crib.shop import Own

    shop = crib.shop()
    shop = replace(shop, units=job.units, own=Own(holes=shop.own.holes))
    advice = advise(read_request(job.kind, job.texts, shop, job.units), crib.cutters(), shop, most=1).advice
    if not advice.plans:
        raise CribError("no-plan", f"question {job.id} has no plan today: {advice.answer}", str(job.id),
                        "--question N of one that has")
    return advice.plans[0].minutes


def _show(asked: Asked) -> Status:
    from crib.pages.results import results
    from crib.render.result_json import result_json
    from crib.store import open_crib

    with open_crib(asked.crib, units=asked.units) as crib:
        notes, own, units = crib.notes("time", "hole"), crib.shop().own, crib.units
    document: dict[str, Any] = {"results": [note.as_json() for note in notes], **result_json(own)}
    rows = [(str(note.id), note.at[:10], "time" if note.kind == "time" else "hole", _said(note.kind, note.words,
             note.about)) for note in notes]
    lines = out.table(("no", "day", "what", "came out"), rows) if rows else ["nothing told so far"]
    out.answer(asked, document, [*lines, *out.shown(results(own), units)])
    return Status.ANSWERED if notes else Status.NO


def _said(kind: str, words: str, about: Any) -> str:
    if kind == "hole":
        return words
    return f"{about['real']:.0f} min, reckoned {about['reckoned']:.0f}, question {about['question']}"

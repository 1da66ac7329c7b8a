"""`crib held-back`: the lines that couldn't be taken in, and how each is put right."""

from __future__ import annotations

from crib.app import held_back as held
from crib.app.opening import Crib
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.attribute_options import CUTTER_SLOTS
from crib.cli.declared import Command
from crib.cli.later import typer
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.light.hints import Annotated
from crib.render.text import plain

_SHOWN = 160
_VERB = "put-right"


def _held_back(
    ctx: typer.Context,
    words: Annotated[list[str] | None, typer.Argument(
        metavar="[put-right NUMBER [TEXT...]]", help="The line's number, and what it is in better words")] = None,
    let_go: Annotated[bool, typer.Option("--drop", "--let-go", help="Take the line off the list; the history keeps it")
                      ] = False,
    *,
    texts: dict[str, str],
) -> Status:
    """List what was held back, oldest first; or put one line right, by words, by options, or by the word that was
    missing. put-right alone goes through them one by one."""
    asked: Asked = ctx.obj
    said = list(words or [])
    verb = said[:1] == [_VERB]
    said = said[1:] if verb else said
    with asked.open() as crib:
        if not said and not (texts or let_go):
            return _one_by_one(crib) if verb and out.is_asking() and not asked.json else _list(asked, crib)
        line = held.line(crib, said[0] if said else "")
        if let_go:
            held.let_go(crib, line)
            out.answer(asked, {"let_go": line.as_json()}, [f"taken off the list: {line.text}"])
            return Status.ANSWERED
        text = " ".join(said[1:])
        if not text and not texts:
            rows = [("text", line.text), ("why", line.why), ("what would do", line.help)]
            out.answer(asked, line.as_json(), out.table(("", ""), rows))
            return Status.ANSWERED
        came = held.put_right(crib, line, text, texts)
    out.answer(asked, {"taken_in": [cutter.as_json() for cutter in came.taken],
                       "held_back": [one.as_json() for one in came.still]}, [came.says])
    return Status.ANSWERED if came.taken else Status.NO


def _list(asked: Asked, crib: Crib) -> Status:
    every = held.lines(crib)
    rows = [(str(one.id), one.file or "typed", str(one.line), _short(one.text), one.why, one.help) for one in every]
    lines = ["nothing is held back"]
    if every:
        lines = out.table(("no", "from", "line", "text", "why", "what would do"), rows)
        lines += ["", f"put one right: crib held-back {_VERB} {every[0].id} ...the whole line, or the word it lacks"]
    out.answer(asked, {"held_back": [one.as_json() for one in every]}, lines)
    return Status.ANSWERED


def _short(text: str) -> str:
    """A line as the list shows it; by itself it is shown whole."""
    return text if len(text) <= _SHOWN else text[:_SHOWN] + " ..."


def _one_by_one(crib: Crib) -> Status:
    """Each line in turn: better words, an empty line to leave it, Ctrl-D to stop."""
    for line in held.lines(crib):
        print(plain(f"{line.id}  {line.text}\n    {line.why}; {line.help}"))
        try:
            text = input("better (Enter leaves it): ")
        except (EOFError, KeyboardInterrupt):
            print()
            break
        if text.strip():
            try:
                says = held.put_right(crib, line, text, {}).says
            except CribError as error:
                from crib.render.words import told

                says = "; ".join(told(error.finding, crib.units))
            print(plain(f"    {says}"))
    return Status.ANSWERED


held_back = Command("held-back", _held_back, CUTTER_SLOTS)

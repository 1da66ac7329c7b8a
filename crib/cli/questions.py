"""`crib asked`: the questions that the crib remembers; asks one again and says what changed."""

from __future__ import annotations

from typing import Annotated

from crib.app import asked as past
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.pages.asked_again import questions as those_asked
from crib.pages.asked_again import what_changed
from crib.pages.history import history


def questions(
    ctx: typer.Context,
    number: Annotated[int | None, typer.Argument(metavar="[NUMBER]", help="The question to ask again")] = None,
    forget: Annotated[str | None, typer.Option("--forget", help="Forget a question for good, or all of them",
                                               metavar="NUMBER|all")] = None,
) -> Status:
    """List what was asked so far, newest first; with a number ask it again, and say what changed since."""
    asked: Asked = ctx.obj
    if number is not None and forget is not None:
        raise CribError("usage", "asking again and forgetting don't go together", forget, "one of them at a time")
    if forget is not None:
        return _forget(asked, forget)
    return _list(asked) if number is None else _again(asked, number)


def _list(asked: Asked) -> Status:
    with asked.open() as crib:
        every, remembers = past.listed(crib)
    lines = ["nothing was asked yet"]
    if every:
        lines = [*out.shown([those_asked(one.as_json() for one in every)], ""), "",
                 f"ask one again: crib asked {every[0].id}"]
    if not remembers:
        lines.append("questions aren't remembered: crib shop --remember-questions yes turns it on")
    out.answer(asked, {"questions": [one.as_json() for one in every], "remembers": remembers}, lines)
    return Status.ANSWERED if every else Status.NO


def _forget(asked: Asked, which: str) -> Status:
    with asked.open() as crib:
        count = past.forget(crib, which)
    says = {0: "there was nothing to forget", 1: "forgot one question"}.get(count, f"forgot {count} questions")
    out.answer(asked, {"forgotten": count}, [says])
    return Status.ANSWERED


def _again(asked: Asked, number: int) -> Status:
    """Ask it once more in the units that it was asked in, unless others are wanted."""
    from crib.cli.reply import page, remember
    from crib.render.json.answer import advice_json

    with asked.open() as crib:
        found = past.again(crib, number, asked.units)
        reply, units = found.reply, found.reply.enquiry.shop.units
        said = what_changed(found.then.as_json(), reply.past.as_json())
        since = [one.as_json() for one in found.since]
        rows = out.shown([history(since, found.undone)], units)
        out.answer(asked, lambda: {"question": found.then.as_json(), "changed": said[1:], "since": since,
                                   "now": advice_json(reply.advice, units)},
                   lambda: [*said, "", *(["in the crib since then", *rows, ""] if rows else []), *page(reply, 6)])
        remember(crib, reply)
    return Status.ANSWERED if reply.advice.plans else Status.NO

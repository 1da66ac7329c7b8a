"""`crib asked`: the questions that the crib remembers; asks one again and says what changed."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.remember import past_question, remember
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.intake.undo import undone_by
from crib.pages.asked_again import questions as those_asked
from crib.pages.asked_again import what_changed
from crib.pages.history import history
from crib.store import Change, PastQuestion, open_crib


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
    with open_crib(asked.crib, units=asked.units) as crib:
        all_of_them, remembers = crib.questions(), crib.shop().remember_questions
    lines = ["nothing was asked yet"]
    if all_of_them:
        lines = [*out.shown([those_asked(one.as_json() for one in all_of_them)], ""), "",
                 f"ask one again: crib asked {all_of_them[0].id}"]
    if not remembers:
        lines.append("questions aren't remembered: crib shop --remember-questions yes turns it on")
    out.answer(asked, {"questions": [one.as_json() for one in all_of_them], "remembers": remembers}, lines)
    return Status.ANSWERED if all_of_them else Status.NO


def _forget(asked: Asked, which: str) -> Status:
    if which != "all" and not (which.isascii() and which.isdigit()):
        raise CribError("usage", f"--forget {which!r} is neither a question's number nor all", which,
                        "crib asked lists them with their numbers")
    with open_crib(asked.crib, units=asked.units) as crib:
        count = crib.forget(None if which == "all" else int(which))
    says = {0: "there was nothing to forget", 1: "forgot one question"}.get(count, f"forgot {count} questions")
    out.answer(asked, {"forgotten": count}, [says])
    return Status.ANSWERED


def _again(asked: Asked, number: int) -> Status:
    """Ask it once more in the units that it was asked in, unless others are wanted."""
    from crib.cli.make import advice, sheet

    with open_crib(asked.crib, units=asked.units) as crib:
        then, shop, cutters, changes = crib.question(number), crib.shop(), crib.cutters(), crib.changes()
    _check_kind(then)
    units = asked.units or then.units
    found = advice(then.kind, then.texts, cutters, shop, units, typed_in=then.units)
    now = past_question(then.kind, then.texts, then.units, found.advice)
    said = what_changed(then.as_json(), now.as_json())
    since = [one.as_json() for one in _since(changes, then, now)]
    if asked.json:
        from crib.render.json import advice_json

        document = {"question": then.as_json(), "changed": said[1:], "since": since}
        out.answer(asked, document | {"now": advice_json(found.advice, units)}, ())
    else:
        rows = out.shown([history(since, undone_by(changes))], units)
        lines = [*said, "", *(["in the crib since then", *rows, ""] if rows else []), *sheet(found, units, 6)]
        out.answer(asked, None, lines)
    if shop.remember_questions:
        remember(asked, now)
    return Status.ANSWERED if found.advice.plans else Status.NO


def _check_kind(then: PastQuestion) -> None:
    from crib.features import KINDS

    if then.kind not in KINDS:
        raise CribError("feature", f"question {then.id} is about a {then.kind}, which isn't reckoned with here",
                        then.kind, "update the program in the way in which it was installed")


def _since(changes: Sequence[Change], then: PastQuestion, now: PastQuestion) -> list[Change]:
    """What was done since to the shop, to its notes, and to the cutters of either answer."""
    subjects = {"shop", *(f"cutter {number}" for number in (*then.cutters, *now.cutters))}
    return [one for one in changes if one.id > then.change and one.what != "seen"
            and (one.subject in subjects or one.subject.startswith("note "))]

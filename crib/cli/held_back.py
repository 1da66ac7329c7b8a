"""`crib held-back`: the lines that couldn't be taken in, and how each is put right."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.attribute_options import CUTTER_SLOTS
from crib.cli.slots import with_options
from crib.cli.status import Status
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.render.text import plain
from crib.store import Crib, HeldBack, open_crib

_SHOWN = 160
_VERB = "put-right"


@with_options(CUTTER_SLOTS)
def held_back(
    ctx: typer.Context,
    words: Annotated[list[str] | None, typer.Argument(
        metavar="[put-right NUMBER [TEXT...]]", help="The line's number, and what it is in better words")] = None,
    let_go: Annotated[bool, typer.Option("--let-go", help="Take the line off the list; the history keeps it")] = False,
    *,
    texts: dict[str, str],
) -> Status:
    """List what was held back, oldest first; or put one line right, by words, by options, or by the word that was
    missing. put-right alone goes through them one by one."""
    asked: Asked = ctx.obj
    said = list(words or [])
    verb = said[:1] == [_VERB]
    said = said[1:] if verb else said
    with open_crib(asked.crib, units=asked.units) as crib:
        if not said and not (texts or let_go):
            return _one_by_one(crib) if verb and out.is_asking() and not asked.json else _list(asked, crib)
        held = _line(crib, said[0] if said else "")
        if let_go:
            crib.put_right(held.id or 0)
            out.answer(asked, {"let_go": held.as_json()}, [f"taken off the list: {held.text}"])
            return Status.ANSWERED
        return _put_right(asked, crib, held, " ".join(said[1:]), texts)


def _line(crib: Crib, number: str) -> HeldBack:
    held = next((line for line in crib.held_back() if str(line.id) == number), None)
    if held is None:
        raise CribError("no-line", f"no line {number!r} is held back", number,
                        "crib held-back lists them with their numbers")
    return held


def _list(asked: Asked, crib: Crib) -> Status:
    held = crib.held_back()
    rows = [(str(one.id), one.file or "typed", str(one.line), _short(one.text), one.why, one.help)
            for one in held]
    lines = ["nothing is held back"]
    if held:
        lines = out.table(("no", "from", "line", "text", "why", "what would do"), rows)
        lines += ["", f"put one right: crib held-back {_VERB} {held[0].id} ...the whole line, or the word it lacks"]
    out.answer(asked, {"held_back": [one.as_json() for one in held]}, lines)
    return Status.ANSWERED


def _short(text: str) -> str:
    """A line as the list shows it; by itself it is shown whole."""
    return text if len(text) <= _SHOWN else text[:_SHOWN] + " ..."


def _put_right(asked: Asked, crib: Crib, held: HeldBack, text: str, texts: Mapping[str, str]) -> Status:
    from crib.intake.put_right import put_right

    if not text and not texts:
        rows = [("text", held.text), ("why", held.why), ("what would do", held.help)]
        out.answer(asked, held.as_json(), out.table(("", ""), rows))
        return Status.ANSWERED
    shop = crib.shop()
    line, taken = put_right(crib, held, text, texts, asked.units or shop.units, shop.currency)
    document = {"taken_in": [cutter.as_json() for cutter in taken], "held_back": [] if taken else [
        one.as_json() for one in crib.held_back() if one.id == held.id]}
    out.answer(asked, document, [_said(taken, line)])
    return Status.ANSWERED if taken else Status.NO


def _one_by_one(crib: Crib) -> Status:
    """Each line in turn: better words, an empty line to leave it, Ctrl-D to stop."""
    from crib.intake.put_right import put_right

    shop = crib.shop()
    for held in crib.held_back():
        print(plain(f"{held.id}  {held.text}\n    {held.why}; {held.help}"))
        try:
            text = input("better (Enter leaves it): ")
        except (EOFError, KeyboardInterrupt):
            print()
            break
        if text.strip():
            try:
                line, taken = put_right(crib, held, text, {}, crib.units, shop.currency)
            except CribError as error:
                print(plain(f"    {error.diagnostic.what}; {error.diagnostic.help}"))
                continue
            print(plain(f"    {_said(taken, line)}"))
    return Status.ANSWERED


def _said(taken: list[Cutter], says: str) -> str:
    return f"{taken[0].id}  {says}" if taken else f"still {says}"

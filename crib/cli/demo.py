"""`crib demo`: a copy of the sample crib, and its first question answered."""

from __future__ import annotations

import shlex
from pathlib import Path
from typing import Annotated

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.make import answer
from crib.cli.status import Status
from crib.light.records import replace


def demo(
    ctx: typer.Context,
    into: Annotated[Path | None, typer.Option("--into", help="A file for the copy; else in your data folder")] = None,
) -> Status:
    """Copy the sample crib, and answer its T-slot question from it."""
    from crib.app.demo import copy, texts_of
    from crib.sample import questions

    asked: Asked = ctx.obj
    place, kept = copy(into or (Path(asked.crib) if asked.crib else None))
    if kept is not None:
        out.note(f"what you changed in the sample crib is kept as {kept}")
    out.note(f"the sample crib is copied to {place}")
    first, *others = questions()
    if not asked.json:
        out.answer(asked, None, [first.says, ""])
    status = answer(replace(asked, crib=str(place)), first.make[0], texts_of(first.make[1:]))
    if not asked.json:
        out.answer(asked, None, _more(place, [one.make for one in others]))
    return status


def _more(place: Path, questions: list[tuple[str, ...]]) -> list[str]:
    lines = ["", "More to ask of this crib:", f"  export CRIB_DB={shlex.quote(str(place))}", "  crib find"]
    lines += ["  crib make " + shlex.join(words) for words in questions]
    return [*lines, "Then, what all of them together deserve:", "  crib wish-list --budget 60"]

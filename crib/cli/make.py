"""`crib make KIND`: which cutters that are owned can make it, and how. A command for each kind of feature."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from crib.app.kinds import PATIENCE, words_of
from crib.cli import kinds
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.findings.errors import CribError


def _command(name: str) -> Any:
    def make(
        ctx: typer.Context,
        *,
        texts: dict[str, str],
        refused: Annotated[str, typer.Option(help="How many refused cutters to tell of, or all", metavar="N|all")] = "",
        why: Annotated[bool, typer.Option("--why", help="Show all of the cost, and the settings behind it")] = False,
        relax: Annotated[bool, typer.Option("--relax", help="What change of the drawing would do, where nothing does")
                         ] = False,
        patience: Annotated[float, typer.Option(help="Seconds to look for a way before what was found is told",
                                                metavar="SECONDS", min=0.1)] = PATIENCE,
    ) -> Status:
        return answer(ctx.obj, name, texts, refused, why, relax, patience)

    return kinds.command(name, make, f"Which cutters that you own can make {words_of(name)}, and how.",
                         "A tolerance goes behind any size: 5/8+.002-0, 16mm±.02.")


app = kinds.group("Ask which cutters that you own can make something, and how.", _command)


def answer(asked: Asked, name: str, texts: dict[str, str], refused: str = "", why: bool = False,
           relax: bool = False, patience: float = PATIENCE) -> Status:
    """Ask the crib, print the answer, and remember it."""
    from crib.app.asking import ask
    from crib.cli.reply import around, remember, show

    most = _how_many(refused, 12 if asked.json else 6)
    with asked.open() as crib:
        reply = ask(crib, name, texts, most, relax, patience, around(asked))
        show(asked, reply, most, why, patience)
        remember(crib, reply)
    return Status.ANSWERED if reply.advice.plans else Status.NO


def _how_many(text: str, usual: int) -> int | None:
    """How many refusals: None for all, as many as usual where nothing was said."""
    if text == "all":
        return None
    if text and not (text.isascii() and text.isdigit()):
        raise CribError("refused", f"--refused {text!r} is neither a number nor all", text, "--refused all")
    return int(text) if text else usual

"""`crib make KIND`: which cutters that are owned can make it, and how. A command for each kind of feature."""

from __future__ import annotations

from crib.app.kinds import PATIENCE, words_of
from crib.cli import kinds
from crib.cli.asked import Asked
from crib.cli.declared import Command
from crib.cli.later import Path, typer
from crib.cli.on_paper import NONE, Files
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.light.hints import Annotated
from crib.pages.more import More


def _command(name: str) -> Command:
    def make(
        ctx: typer.Context,
        *,
        texts: dict[str, str],
        steps: Annotated[bool, typer.Option("--steps", help="Also how to hold, touch off and dial, what to measure "
                                            "with what, and every remark")] = False,
        why: Annotated[bool, typer.Option("--why", help="Also the cost line by line, the figures and what was assumed")
                       ] = False,
        others: Annotated[bool, typer.Option("--others", help="Also the other plans, and what buying would do")
                          ] = False,
        refused: Annotated[str, typer.Option(help="Also why not with the other cutters, the nearest first: so many of "
                                             "them, or all", metavar="[N|all]")] = "",
        everything: Annotated[bool, typer.Option("--all", help="All of these")] = False,
        relax: Annotated[bool, typer.Option("--relax", help="By how little the drawing would have to change, where "
                                            "nothing makes it")] = False,
        patience: Annotated[float, typer.Option(help="Seconds to look for a way before what was found is told",
                                                metavar="SECONDS", min=0.1)] = PATIENCE,
        sheet: Annotated[Path | None, typer.Option(help="Write the set-up sheet there, to print or for a phone",
                                                   metavar="FILE.html")] = None,
        picture: Annotated[Path | None, typer.Option(help="Write the section there, as a drawing to scale",
                                                     metavar="FILE.svg")] = None,
        over: Annotated[bool, typer.Option("--over", help="Write over the files that are there")] = False,
    ) -> Status:
        told = {More.STEPS: steps, More.WHY: why, More.OTHERS: others, More.REFUSED: bool(refused)}
        more = frozenset(one for one in More if told[one] or everything)
        if everything and not ctx.obj.json:
            refused = refused or "all"
        return answer(ctx.obj, name, texts, refused, more, relax, patience, Files(sheet, picture, over))

    return kinds.command(name, make, f"Which cutters that you own can make {words_of(name)}, and how.",
                         "Limits go with any size: 5/8+.002-0, 16mm±.02, .500/.502, 12H7, 5/8 to .627, 'about .62'.")


app = kinds.group("Ask which cutters that you own can make something, and how.", _command)


def answer(asked: Asked, name: str, texts: dict[str, str], refused: str = "", more: frozenset[More] = frozenset(),
           relax: bool = False, patience: float = PATIENCE, files: Files = NONE) -> Status:
    """Ask the crib, print the answer, write down what is wanted of it, and remember it."""
    from crib.app.asking import ask
    from crib.cli.reply import around, remember, show

    most = _how_many(refused, 12 if asked.json else 6)
    files.check()
    with asked.open() as crib:
        reply = ask(crib, name, texts, most, relax, patience, around(asked))
        show(asked, reply, most, more, patience)
        remember(crib, reply)
        files.write(reply)
    return Status.ANSWERED if reply.advice.plans else Status.NO


def _how_many(text: str, usual: int) -> int | None:
    """How many refusals: None for all, as many as usual where nothing was said."""
    if text == "all":
        return None
    if text and not (text.isascii() and text.isdigit()):
        raise CribError("refused", f"--refused {text!r} is neither a number nor all", text, "--refused all")
    return int(text) if text else usual

"""`crib part NAME tick`, `untick`, `measured`: what of a part is done, and what it measures; `drawing`: what it is."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Annotated

import typer

from crib.cli import out, part_change, part_shown
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.findings.errors import CribError

_WHICH = "Its number in the list of cutters: 4, 1-6, 1,3 or all"
_SIZE = "What was measured, and what it measures: 'throat .5005'"


def put_into(app: typer.Typer) -> None:
    """Give the group of a part its commands."""
    app.command("tick", help="Tick operations off.")(tick)
    app.command("untick", help="Take ticks back.")(untick)
    app.command("measured", help="Note what a size measures.")(measured)
    app.command("drawing", help="What the part is: its features and where they lie.")(drawing)


def tick(
    ctx: typer.Context,
    which: Annotated[list[str], typer.Argument(help=_WHICH, metavar="NUMBER...")],
    sizes: Annotated[list[str] | None, typer.Option("--measured", help=_SIZE, metavar="WORDS")] = None,
) -> Status:
    """Tick operations off."""
    return _note(ctx.obj, part_change.name_of(ctx), which, sizes or ())


def untick(
    ctx: typer.Context,
    which: Annotated[list[str], typer.Argument(help=_WHICH, metavar="NUMBER...")],
) -> Status:
    """Take ticks back."""
    return _note(ctx.obj, part_change.name_of(ctx), which, (), is_done=False)


def measured(
    ctx: typer.Context,
    words: Annotated[list[str], typer.Argument(help=_SIZE, metavar="WORDS...")],
) -> Status:
    """Note what a size measures."""
    return _note(ctx.obj, part_change.name_of(ctx), (), [" ".join(words)])


def drawing(ctx: typer.Context) -> Status:
    """What the part is: its features and where they lie."""
    return part_change.shown(ctx.obj, part_change.name_of(ctx))


def _note(asked: Asked, name: str, which: Sequence[str], measured: Sequence[str], is_done: bool = True) -> Status:
    """Write down what was done and measured, tell what it means, and show what is left."""
    from crib.app.part.made import measure, those_of
    from crib.app.part.made import tick as keep
    from crib.app.part.measured import meaning, read_measured
    from crib.app.part.plan import Known
    from crib.render.words import words

    with asked.open() as crib:
        known = Known()
        reply = part_shown.planned(asked, crib, name, known=known)
        if not reply.planned.operations:
            raise CribError("no-operation", f"nothing of {reply.part.name} has a plan yet", name,
                            f"crib part {reply.part.name} says what it lacks")
        plan, units = reply.planned, reply.shop.units
        those = those_of(plan, " ".join(which)) if which else ()
        sizes = [read_measured(plan, text, units, frozenset(one.feature for one in those)) for text in measured]
        with crib.transaction():
            changed = keep(crib, plan, [one.key for one in those], is_done) if those else ()
            if sizes:
                measure(crib, plan, sizes)
        for one in sizes:
            out.note(words(meaning(reply.part, plan, one), units))
        if those and not changed:
            out.note(f"crib: {'that is ticked off already' if is_done else 'that is not ticked off'}")
        reply = part_shown.planned(asked, crib, name, known=known)
    part_shown.told(asked, reply)
    return Status.ANSWERED

"""`crib out`: what is lent or lost, to whom and since when."""

from __future__ import annotations

from typing import Annotated

from crib.app import looking
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status


def listing(
    ctx: typer.Context,
    who: Annotated[list[str] | None, typer.Argument(help="Only what this person has")] = None,
) -> Status:
    """List what is lent or lost, longest first. None of it is planned with until it is back."""
    asked: Asked = ctx.obj
    name = " ".join(who or [])
    with asked.open() as crib:
        gone = looking.away(crib, name)
    rows = [(one.since, str(cutter.id), cutter.label, str(one.count) if one.count > 1 else "", one.how, one.who,
             cutter.drawer or "") for cutter, one in gone]
    lines = out.table(("since", "no", "cutter", "count", "how", "who has it", "its place"), rows)
    nothing = f"{name} has nothing of it" if name else "nothing is lent or lost"
    out.answer(asked, {"out": [{"cutter_id": cutter.id, "label": cutter.label, "count": one.count, "how": one.how,
                                "who": one.who or None, "since": one.since} for cutter, one in gone]},
               [*lines, "", f"one is back: crib now {gone[0][0].id} back"] if gone else [nothing])
    return Status.ANSWERED if gone else Status.NO

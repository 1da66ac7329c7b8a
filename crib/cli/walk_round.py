"""`crib walk-round`: a list to tick drawer by drawer, and what came of the walk."""

from __future__ import annotations

from typing import Annotated

from crib.app import life, looking
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status


def walk_round(
    ctx: typer.Context,
    place: Annotated[list[str] | None, typer.Argument(help="Only this drawer, tray or cabinet")] = None,
    seen: Annotated[str | None, typer.Option("--seen", help="Numbers that were there: 3,4,9", metavar="IDS")] = None,
    dull: Annotated[str | None, typer.Option("--dull", help="Numbers that are dull", metavar="IDS")] = None,
    missing: Annotated[str | None, typer.Option("--missing", help="Numbers that weren't there", metavar="IDS")] = None,
) -> Status:
    """Print a list to tick, drawer by drawer; then tell what was seen, dull or missing."""
    asked: Asked = ctx.obj
    if seen or dull or missing:
        return _told(asked, seen, dull, missing)
    from crib.pages.drawer_page import tick_list

    with asked.open() as crib:
        places = looking.drawer_by_drawer(crib, " ".join(place or []))
    lines = out.shown([tick_list(name, cutters) for name, cutters in places], "")
    out.answer(asked, {"places": [{"place": name, "cutters": [cutter.as_json() for cutter in cutters]}
                                  for name, cutters in places]}, lines or ["nothing to look for there"])
    return Status.ANSWERED if places else Status.NO


def _told(asked: Asked, seen: str | None, dull: str | None, missing: str | None) -> Status:
    with asked.open() as crib:
        told = life.walked(crib, seen, dull, missing)
    lines = [f"{cutter.id}  {cutter.label}: {became}" for cutter, became in told]
    out.answer(asked, {"told": lines}, lines)
    return Status.ANSWERED

"""`crib drawer`: what should lie in a place, with little silhouettes to scale."""

from __future__ import annotations

from typing import Annotated

from crib.app import looking
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status


def drawer(
    ctx: typer.Context,
    place: Annotated[list[str] | None, typer.Argument(help="B2, C2-3, top tray; none lists the places")] = None,
) -> Status:
    """Show what should be in a drawer, tray or slot; without a place, every place and how much lies there."""
    asked: Asked = ctx.obj
    name = " ".join(place or [])
    if not name.strip():
        return _places(asked)
    from crib.pages.drawer_page import drawer_page

    with asked.open() as crib:
        found, units = looking.place(crib, name), crib.units
    document = {"place": name, "cutters": [cutter.as_json() for cutter in found.cutters]}
    if found.cutters:
        out.answer(asked, document, lambda: out.shown(drawer_page(name, found.cutters), units))
        return Status.ANSWERED
    likely = f"did you mean {' or '.join(found.likely)}?" if found.likely else "crib drawer lists the places"
    out.answer(asked, document, [f"nothing is on record in {name}; {likely}"])
    return Status.NO


def _places(asked: Asked) -> Status:
    with asked.open() as crib:
        counts = looking.places(crib)
    rows = [(place, str(count)) for place, count in sorted(counts.items())]
    lines = out.table(("place", "cutters"), rows) if rows else ["nothing has a place yet: crib amend ID --drawer B2"]
    out.answer(asked, {"places": [{"place": place, "cutters": count} for place, count in counts.items()]}, lines)
    return Status.ANSWERED if rows else Status.NO

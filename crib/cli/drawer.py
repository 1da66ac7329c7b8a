"""`crib drawer`: what should lie in a place, with little silhouettes to scale."""

from __future__ import annotations

from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.store import Crib, open_crib
from crib.store.places import bare, is_in, whole


def drawer(
    ctx: typer.Context,
    place: Annotated[list[str] | None, typer.Argument(help="B2, C2-3, top tray; none lists the places")] = None,
) -> Status:
    """Show what should be in a drawer, tray or slot; without a place, every place and how much lies there."""
    asked: Asked = ctx.obj
    name = " ".join(place or [])
    with open_crib(asked.crib, units=asked.units) as crib:
        if not name.strip():
            return _places(asked, crib)
        cutters = [cutter for cutter in crib.in_places() if is_in(cutter.drawer, name)]
        places, units = sorted({whole(one.drawer or "") for one in crib.in_places()}), crib.units
    if not cutters:
        from crib.intake.near import near

        likely = near(bare(name), places)
        said = f"; did you mean {' or '.join(likely)}?" if likely else "; crib drawer lists the places"
        out.answer(asked, {"place": name, "cutters": []}, [f"nothing is on record in {name}{said}"])
        return Status.NO
    lines: list[str] = []
    if not asked.json:
        from crib.pages.drawer_page import drawer_page

        lines = out.shown(drawer_page(name, cutters), units)
    out.answer(asked, {"place": name, "cutters": [cutter.as_json() for cutter in cutters]}, lines)
    return Status.ANSWERED


def _places(asked: Asked, crib: Crib) -> Status:
    counts: dict[str, int] = {}
    for cutter in crib.in_places():
        place = whole(cutter.drawer or "")
        counts[place] = counts.get(place, 0) + cutter.count
    rows = [(place, str(count)) for place, count in sorted(counts.items())]
    lines = out.table(("place", "cutters"), rows) if rows else ["nothing has a place yet: crib amend ID --drawer B2"]
    out.answer(asked, {"places": [{"place": place, "cutters": count} for place, count in counts.items()]}, lines)
    return Status.ANSWERED if rows else Status.NO

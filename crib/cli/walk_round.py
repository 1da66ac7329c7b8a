"""`crib walk-round`: a list to tick drawer by drawer, and what came of the walk."""

from __future__ import annotations

import re
from datetime import date
from itertools import groupby
from typing import Annotated

import typer

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.cutters.base import Cutter
from crib.findings.errors import CribError
from crib.intake.life import now
from crib.store import Crib, open_crib
from crib.store.places import is_in, whole

_NO_PLACE = "no place on record"


def walk_round(
    ctx: typer.Context,
    place: Annotated[list[str] | None, typer.Argument(help="Only this drawer, tray or cabinet")] = None,
    seen: Annotated[str | None, typer.Option("--seen", help="Numbers that were there: 3,4,9", metavar="IDS")] = None,
    dull: Annotated[str | None, typer.Option("--dull", help="Numbers that are dull", metavar="IDS")] = None,
    missing: Annotated[str | None, typer.Option("--missing", help="Numbers that weren't there", metavar="IDS")] = None,
) -> Status:
    """Print a list to tick, drawer by drawer; then tell what was seen, dull or missing."""
    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        if seen or dull or missing:
            return _told(asked, crib, seen, dull, missing)
        cutters = _in_order(crib, " ".join(place or []))
    from crib.pages.drawer_page import tick_list

    places = [(name, list(group)) for name, group in groupby(cutters, key=_place)]
    lines = out.shown([tick_list(name, group) for name, group in places], "")
    document = {"places": [{"place": name, "cutters": [cutter.as_json() for cutter in group]}
                           for name, group in places]}
    out.answer(asked, document, lines or ["nothing to look for there"])
    return Status.ANSWERED if places else Status.NO


def _place(cutter: Cutter) -> str:
    return whole(cutter.drawer) if cutter.drawer else _NO_PLACE


def _in_order(crib: Crib, place: str) -> list[Cutter]:
    cutters = crib.find(()).cutters
    if place:
        cutters = tuple(cutter for cutter in cutters if is_in(cutter.drawer, place))
    return sorted(cutters, key=lambda cutter: (cutter.drawer is None, _place(cutter), cutter.drawer or "", cutter.id))


def _told(asked: Asked, crib: Crib, seen: str | None, dull: str | None, missing: str | None) -> Status:
    lines = []
    with crib.transaction():
        for number in _numbers(seen):
            crib.saw(number)
            if not (cutter := crib.cutter(number)).count:
                crib.amend(now(cutter, "found", date.today(), crib.units, "").cutter)
            lines.append(f"{number}  {cutter.label}: seen")
        for number in _numbers(dull):
            crib.saw(number)
            lines.append(f"{number}  {crib.amend(crib.cutter(number).but(condition='dull')).label}: dull")
        for number in _numbers(missing):
            cutter = crib.cutter(number)
            if cutter.count:
                crib.amend(now(cutter, f"{cutter.count} lost", date.today(), crib.units, "").cutter)
            lines.append(f"{number}  {cutter.label}: missing")
    out.answer(asked, {"told": lines}, lines)
    return Status.ANSWERED


def _numbers(text: str | None) -> list[int]:
    words = [word for word in re.split(r"[,\s]+", text or "") if word]
    if wrong := next((word for word in words if not word.isascii() or not word.isdigit()), None):
        raise CribError("usage", f"{wrong!r} is not a cutter's number", wrong, "numbers with commas between: 3,4,9")
    if wrong := next((word for word in words if len(word) > 18), None):
        raise CribError("usage", f"there is no cutter {wrong[:12]}...", wrong, "crib find has the numbers")
    return [int(word) for word in words]

"""`crib check-up`: look the crib over, and put right what is found one by one."""

from __future__ import annotations

import textwrap
from collections.abc import Sequence
from itertools import groupby
from typing import TYPE_CHECKING, Annotated

from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.later import typer
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.render.json.findings import fault_json
from crib.render.text import plain
from crib.render.words import told, worded

if TYPE_CHECKING:
    from crib.app.opening import Crib
    from crib.findings.finding import Finding

_OF_A_SORT = 4


def check_up(
    ctx: typer.Context,
    every: Annotated[bool, typer.Option("--all", help="Show every fault, and not only the first of each sort")] = False,
    fix: Annotated[bool, typer.Option("--fix", help="Go through them one by one and put them right in words")] = False,
) -> Status:
    """Look the crib over: sizes that can't be, what was never measured, what has no place, no holder or no drill, what
    is lent too long, what is easily taken for another."""
    from crib.app import check_up as looking
    from crib.cli.progress import ticking

    asked: Asked = ctx.obj
    with asked.open() as crib:
        units = crib.units
        faults = looking.check_up(crib, lambda changes: ticking(changes, "looked over"))
        if fix and out.is_asking() and not asked.json:
            return _one_by_one(crib, faults)
    lines = _page(faults, units, None if every else _OF_A_SORT) or ["nothing is amiss"]
    out.answer(asked, {"findings": worded(list(map(fault_json, faults)), units)}, lines)
    return Status.NO if faults else Status.ANSWERED


def _page(faults: Sequence[Finding], units: str, most: int | None) -> list[str]:
    """The faults by sort, each with what to do."""
    lines: list[str] = []
    width = out.width()
    for _, group in groupby(faults, key=lambda fault: fault.id):
        these = list(group)
        for fault in these[:most]:
            says, help = told(fault, units)
            lines += textwrap.wrap(says, width, subsequent_indent="  ")
            lines += textwrap.wrap(help, width, initial_indent="    ", subsequent_indent="    ")
        if most is not None and len(these) > most:
            lines.append(f"  and {len(these) - most} more of that sort: crib check-up --all")
    if lines:
        lines += ["", f"{len(faults)} to look at; crib check-up --fix goes through them one by one"]
    return lines


def _one_by_one(crib: Crib, faults: Sequence[Finding]) -> Status:
    """Each fault of a cutter in turn: what it is now in a few words, Enter to leave it, Ctrl-D to stop."""
    crib.put_by("before-fix")
    mended = 0
    print("In words: measured .498, reground .4875, in B3, sharp, back, scrapped. Enter leaves it, Ctrl-D ends.")
    try:
        for fault in (fault for fault in faults if fault.cutter_id is not None):
            says, help = told(fault, crib.units)
            print(plain(f"\n{says}\n    {help}"))
            mended += _mended(crib, fault.cutter_id or 0)
    except (EOFError, KeyboardInterrupt):
        print()
    print(f"{mended} put right")
    return Status.ANSWERED


def _mended(crib: Crib, number: int) -> bool:
    """Ask of a cutter until it is told in words that can be read, or left. Raises `EOFError` at the end."""
    from crib.app.life import now

    while True:
        try:
            crib.cutter(number)
        except CribError as error:
            print(plain(f"    {told(error.finding, crib.units)[0]}"))
            return False
        if not (words := input("now: ").strip()):
            return False
        try:
            became = now(crib, number, words)
        except CribError as error:
            print(plain(f"    {'; '.join(told(error.finding, crib.units))}"))
            continue
        print(plain(f"    {became.after.id}  {became.after.label}: {became.says}"))
        return True

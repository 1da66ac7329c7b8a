"""`crib check-up`: look the crib over, and put right what is found one by one."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from itertools import groupby
from typing import Annotated

import typer

from crib.audits.base import Bench, Fault
from crib.cli import out
from crib.cli.asked import Asked
from crib.cli.status import Status
from crib.findings.errors import CribError
from crib.render.text import plain
from crib.store import Crib, open_crib

_OF_A_SORT = 4


def check_up(
    ctx: typer.Context,
    every: Annotated[bool, typer.Option("--all", help="Show every fault, and not only the first of each sort")] = False,
    fix: Annotated[bool, typer.Option("--fix", help="Go through them one by one and put them right in words")] = False,
) -> Status:
    """Look the crib over: sizes that can't be, what was never measured, what has no place, no holder or no drill, what
    is lent too long, what is easily taken for another."""
    from dataclasses import replace

    from crib.audits import look_over
    from crib.audits.base import records_of
    from crib.cli.progress import ticking

    asked: Asked = ctx.obj
    with open_crib(asked.crib, units=asked.units) as crib:
        shop = replace(crib.shop(), units=crib.units)
        changes = ticking(crib.changes(), "looked over")
        bench = Bench(crib.find(()).cutters, records_of(changes), shop, crib.questions(), date.today())
        faults = look_over(bench)
        if fix and out.is_asking() and not asked.json:
            crib.put_by("before-fix")
            return _one_by_one(crib, faults)
    lines = _page(faults, None if every else _OF_A_SORT) or ["nothing is amiss"]
    out.answer(asked, {"findings": [fault.as_json() for fault in faults]}, lines)
    return Status.NO if faults else Status.ANSWERED


def _page(faults: Sequence[Fault], most: int | None) -> list[str]:
    """The faults by sort, each with what to do."""
    import textwrap

    lines: list[str] = []
    width = out.width()
    for _, group in groupby(faults, key=lambda fault: fault.rule):
        these = list(group)
        for fault in these[:most]:
            lines += textwrap.wrap(fault.says, width, subsequent_indent="  ")
            lines += textwrap.wrap(fault.help, width, initial_indent="    ", subsequent_indent="    ")
        if most is not None and len(these) > most:
            lines.append(f"  and {len(these) - most} more of that sort: crib check-up --all")
    if lines:
        lines += ["", f"{len(faults)} to look at; crib check-up --fix goes through them one by one"]
    return lines


def _one_by_one(crib: Crib, faults: Sequence[Fault]) -> Status:
    """Each fault of a cutter in turn: what it is now in a few words, Enter to leave it, Ctrl-D to stop."""
    from crib.intake.life import now

    mended = 0
    print(plain("In words: measured .498, reground .4875, in B3, sharp, back, scrapped. Enter leaves it, Ctrl-D "
                    "ends."))
    for fault in (fault for fault in faults if fault.cutter_id is not None):
        print(plain(f"\n{fault.says}\n    {fault.help}"))
        while True:
            try:
                cutter = crib.cutter(fault.cutter_id or 0)
            except CribError as error:
                print(plain(f"    {error.diagnostic.what}"))
                break
            try:
                words = input("now: ").strip()
            except (EOFError, KeyboardInterrupt):
                print(f"\n{mended} put right")
                return Status.ANSWERED
            if not words:
                break
            try:
                with crib.transaction():
                    told = now(cutter, words, date.today(), crib.units, crib.shop().currency)
                    after = crib.amend(told.cutter, told.typed)
            except CribError as error:
                print(plain(f"    {error.diagnostic.what}; {error.diagnostic.help}"))
                continue
            print(plain(f"    {after.id}  {after.label}: {told.says}"))
            mended += 1
            break
    print(f"{mended} put right")
    return Status.ANSWERED

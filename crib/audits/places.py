"""Where things lie, and whether they are there."""

from __future__ import annotations

import re
from collections import defaultdict
from collections.abc import Iterator
from datetime import date

from crib.audits.base import Bench, fault, name, numbers
from crib.cutters.away import LENT, abroad
from crib.findings.finding import Finding

LONGEST_LENT, LONGEST_UNSEEN = 30, 365
"""Days after which something lent is asked for, and after which something is looked for. Common practice, no source."""

_ONE_SLOT = re.compile(r"(?:[a-z]{0,2}\d{1,3}[-/]\d{1,3}|.*\bslot \w+)", re.IGNORECASE)


def without_a_place(bench: Bench) -> Iterator[Finding]:
    """AU11: everything has a place on record."""
    lost = [cutter for cutter in bench.there if not cutter.drawer]
    if len(lost) > 5:
        yield fault("AU11", None, f"{len(lost)} cutters have no place on record: {numbers(lost)}",
                    f"say where each lies: crib now {lost[0].id} in B2")
        return
    for cutter in lost:
        yield fault("AU11", cutter.id, f"{name(cutter)} has no place on record", f"crib now {cutter.id} in B2")


def two_in_a_slot(bench: Bench) -> Iterator[Finding]:
    """AU12: one slot holds one sort of cutter."""
    slots = defaultdict(list)
    for cutter in bench.there:
        if cutter.drawer and _ONE_SLOT.fullmatch(cutter.drawer.strip()):
            slots[cutter.drawer.strip().lower()].append(cutter)
    for cutters in slots.values():
        if len(cutters) > 1:
            yield fault("AU12", cutters[1].id, f"{numbers(cutters)} are all on record in {cutters[0].drawer}",
                        f"look which lies there, and move the other: crib now {cutters[1].id} in B2")


def lent_long(bench: Bench) -> Iterator[Finding]:
    """AU13: what is lent comes back within a month."""
    for cutter, gone in abroad(bench.cutters):
        days = (bench.today - date.fromisoformat(gone.since)).days
        if gone.how == LENT and days > LONGEST_LENT:
            yield fault("AU13", cutter.id, f"{name(cutter)} has been with {gone.who} for {days} days",
                        f"ask for it, then: crib now {cutter.id} back")


def not_seen(bench: Bench) -> Iterator[Finding]:
    """AU14: everything is seen once a year."""
    unseen = [cutter for cutter in bench.there if (bench.days_unseen(cutter) or 0) > LONGEST_UNSEEN]
    if unseen:
        yield fault("AU14", unseen[0].id if len(unseen) == 1 else None,
                    f"nobody has said anything of {numbers(unseen)} for a year",
                    "crib walk-round prints a list to tick")


AUDITS = (without_a_place, two_in_a_slot, lent_long, not_seen)

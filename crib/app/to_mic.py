"""The few measurements that would turn most of the questions asked so far into answers."""

from __future__ import annotations

from collections.abc import Iterable

from crib.features import KINDS
from crib.findings.errors import CribError
from crib.findings.message import Text, a
from crib.light.records import replace
from crib.planning import to_mic as measuring
from crib.planning.ask import read_request
from crib.planning.measures import Pending, ToMic
from crib.planning.search.watch import Trials
from crib.shop import Shop
from crib.store import Crib, PastQuestion


def to_mic(crib: Crib, most: int = 3, trials: Trials | None = None) -> tuple[ToMic, list[PastQuestion]]:
    """Which cutters to measure, up to so many, and the questions that were asked. `trials`: for who waits. Raises
    `CribError` for no number of cutters."""
    if most < 1:
        raise CribError("most", f"--most {most} is no number of cutters", str(most), "--most 3")
    there, questions = crib.holdings(), crib.questions()
    pending, skipped = _pending(questions, there.shop)
    found = measuring.to_mic(pending, there.cutters, replace(there.shop, units=crib.units), most, trials)
    return replace(found, skipped=(*skipped, *found.skipped)), questions


def _pending(questions: Iterable[PastQuestion], shop: Shop) -> tuple[list[Pending], list[tuple[int, Text]]]:
    """The questions as requests, and those that can't be read any more with why."""
    pending: list[Pending] = []
    skipped: list[tuple[int, Text]] = []
    for one in questions:
        if one.kind not in KINDS:
            skipped.append((one.id, f"{a(one.kind)} can't be asked any more"))
            continue
        try:
            pending.append(Pending(one.id, read_request(one.kind, one.texts, shop, one.units), one.times))
        except CribError as error:
            skipped.append((one.id, error.finding.says))
    return pending, skipped

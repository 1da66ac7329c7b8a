"""Looking a crib over, and putting right what is found."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from datetime import date

from crib.audits import look_over
from crib.audits.base import Bench, records_of
from crib.findings.finding import Finding
from crib.light.records import replace
from crib.store import Change, Crib

__all__ = ["Finding", "check_up"]


def check_up(crib: Crib, tick: Callable[[Sequence[Change]], Iterable[Change]] = iter) -> list[Finding]:
    """What is amiss with the records of a crib and what the shop has beside them, the gravest sort first. `tick` hands
    the history out one by one."""
    records = records_of(tick(crib.changes()))
    shop = replace(crib.shop(), units=crib.units)
    return look_over(Bench(crib.find(()).cutters, records, shop, crib.questions(), date.today()))

"""Looking the crib over: what is amiss with the records, and with what the shop has beside them.

One file for each sort. To add an audit, write a function and name it in the `AUDITS` of its file."""

from __future__ import annotations

from crib.audits import holding, places, sizes, threads, twins, use
from crib.audits.base import Audit, Bench
from crib.findings.finding import Finding

AUDITS: tuple[Audit, ...] = (
    *sizes.AUDITS, *places.AUDITS, *holding.AUDITS, *threads.AUDITS, *use.AUDITS, *twins.AUDITS,
)


def look_over(bench: Bench) -> list[Finding]:
    """Every fault that is found, the gravest sort first: what is wrong on record before what is merely lacking."""
    return [fault for audit in AUDITS for fault in audit(bench)]

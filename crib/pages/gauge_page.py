"""What an unmarked cutter may be."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.gauged import Candidate
from crib.findings.message import Mm
from crib.pages.blocks import Fit, Table, table


def gauge_page(found: Sequence[Candidate]) -> Table:
    """What it may be, how far off a measurement is, and why."""
    return table(("it may be", "off", ""), [
        (one.label, "" if one.off_mm is None else Mm(one.off_mm, sign=True, fine=True), one.why) for one in found
    ], Fit.ALL)

"""What something unmarked may be."""

from __future__ import annotations

from collections.abc import Sequence

from crib.cutters.gauged import Candidate
from crib.findings.message import Fact, Mm
from crib.pages.blocks import Block, Fit, Paragraph, Table, table
from crib.planning.gauge import Named


def gauge_page(found: Named) -> list[Block]:
    """What it may be, how far off a measurement is, and why; where nothing fits, what is nearest."""
    told: list[Block] = [_table("it may be", found.candidates)] if found.candidates else []
    if not found.candidates and not found.nearest:
        told.append(Paragraph("nothing that is made fits: measure again"))
    if found.nearest:
        told.append(Paragraph("nothing that is made fits what was measured, worn as it may be; the nearest, and how "
                              "far off each is:"))
        told.append(_table("nearest", found.nearest))
    return told


def _table(head: str, shown: Sequence[Candidate]) -> Table:
    return table((head, "off", ""), [(one.label, _off(one), one.why) for one in shown], Fit.ALL)


def _off(one: Candidate) -> Fact:
    if one.off_mm is not None:
        return Mm(one.off_mm, sign=True, fine=True)
    return "" if one.off_deg is None else f"{one.off_deg:+g} deg" if one.off_deg else "0 deg"

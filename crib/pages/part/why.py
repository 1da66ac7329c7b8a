"""Why a part is made so: the way of each feature, what the minutes come of, and what was taken for granted."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.findings.message import Fact, Sentence, joined, said
from crib.findings.verdicts import SHORT
from crib.pages.blocks import Block, Fit, Heading, Paragraph, table
from crib.pages.outcome import assumed, outside, proved
from crib.pages.part.words import bound
from crib.planning.dialled.finish import Proved
from crib.planning.parts.planned import PlannedPart


def why(planned: PlannedPart) -> Iterator[Sequence[Block]]:
    """The ways, the minutes, what was assumed, and of what has no plan why not."""
    plans = _plans(planned)
    rows: list[tuple[Fact, ...]] = [(name, SHORT[one.plan.answer], Sentence(one.plan.way)) for name, one in plans]
    if rows:
        yield [Heading("The way of each feature"), table(("feature", "answer", "way"), rows, Fit.WRAP, 2)]
        yield [Paragraph(said("{name}: {found}", name=name, found=proved(one.plan)), "Proved", hang=2)
               for name, one in plans]
        yield [part for _, one in plans for part in outside(one.plan)]
    yield [Heading("Why it takes that long"), *_minutes(planned),
           *assumed([text for _, one in plans for text in one.plan.assumed])]
    for one in planned.unmade:
        yield [Heading(f"Why not {one.feature}"), Paragraph(one.advice.says, indent=2),
               *(Paragraph(said("no. {number}: {says}", number=each.cutter.id, says=each.says), indent=2, hang=4)
                 for each in one.advice.refused[:3])]


def _plans(planned: PlannedPart) -> list[tuple[str, Proved]]:
    return list({one.feature: one.proved for one in planned.operations}.items())


def _minutes(planned: PlannedPart) -> Iterator[Block]:
    """What is cut, what is set up, and the rest; and how near it is to the least."""
    cutting = sum(one.minutes for one in planned.operations)
    setting = sum(one.minutes for one in planned.setups)
    rest = planned.minutes - cutting - setting
    rows: list[tuple[Fact, ...]] = [("cutting and measuring", f"{cutting:.0f}"), ("setting up", f"{setting:.0f}")]
    if abs(rest) >= 0.5:
        rows.append((said("changing cutters and holders, touching off: {all}", all=joined(", ", (
            f"{planned.cutter_changes} cutters", f"{planned.holder_changes} holders"))), f"{rest:.0f}"))
    rows.append((f"together; {planned.money:.2f} {planned.currency}", f"{planned.minutes:.0f}"))
    yield table(("", "min"), rows, Fit.WRAP, 2, frozenset({1}))
    yield Paragraph(said("the least that it can come to is {least:.0f} min: {bound}", least=planned.least_minutes,
                         bound=bound(planned)), indent=2)

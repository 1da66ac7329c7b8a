"""Before and after: what some cutters less and some more change in the parts on file, a row for each part."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from crib.cutters.base import Cutter
from crib.findings.message import Fact, joined, said
from crib.findings.verdicts import SHORT, Verdict
from crib.pages.blocks import Block, Blocks, Fit, Heading, Paragraph, Tone, table
from crib.pages.remarks import label_of, name
from crib.planning.parts.planned import PlannedPart

Pair = tuple[str, PlannedPart, PlannedPart]


def changes_page(without: Sequence[Cutter], more: Sequence[Cutter], pairs: Sequence[Pair]) -> Blocks:
    """What is asked, then a row for each part: as it is, as it would be, and what that changes."""
    asked = [said("without {cutter}", cutter=name(one)) for one in without]
    asked += [said("with {what} besides", what=label_of(one)) for one in more]
    head: list[Block] = [Heading(said("{asked}", asked=joined(", ", asked)))]
    rows = [(part, _minutes(now), _minutes(then), joined("; ", [*differences(now, then)]) or "nothing")
            for part, now, then in pairs]
    if not rows:
        return (*head, Paragraph("no part is on file", tone=Tone.MIND))
    return (*head, table(("part", "now", "then", "what changes"), rows, Fit.ALL))


def _minutes(planned: PlannedPart) -> str:
    lacks = f", {len(planned.unmade)} not made" if planned.unmade else ""
    return f"{planned.minutes:.0f} min{lacks}"


def differences(now: PlannedPart, then: PlannedPart) -> Iterator[Fact]:
    """What is made no longer, what is made at last, what is made by another cutter, set-ups and minutes."""
    lost = _names(then) - _names(now)
    if lost:
        yield f"nothing makes {', '.join(sorted(lost))}"
    if won := _names(now) - _names(then):
        yield f"{', '.join(sorted(won))} can be made"
    before, after = _cutters(now), _cutters(then)
    for feature in (one for one in before if one in after and before[one] != after[one]):
        gone, come = before[feature] - after[feature], after[feature] - before[feature]
        yield f"{feature}: {_numbers(come) or 'nothing more'} instead of {_numbers(gone) or 'nothing'}"
    was, becomes = _answers(now), _answers(then)
    yield from (f"{feature}: {SHORT[becomes[feature]]}, not {SHORT[was[feature]]}" for feature in was
                if feature in becomes and was[feature] != becomes[feature])
    if len(now.setups) != len(then.setups):
        yield f"{len(then.setups)} set-ups instead of {len(now.setups)}"
    more = then.minutes - now.minutes
    if not lost and abs(more) >= 0.5:
        yield f"{abs(more):.0f} min {'more' if more > 0 else 'less'}"


def _names(planned: PlannedPart) -> set[str]:
    return {one.feature for one in planned.unmade}


def _cutters(planned: PlannedPart) -> dict[str, frozenset[int]]:
    """The cutters of each feature."""
    found: dict[str, set[int]] = {}
    for one in planned.operations:
        found.setdefault(one.feature, set()).add(one.cutter.id)
    return {feature: frozenset(those) for feature, those in found.items()}


def _answers(planned: PlannedPart) -> dict[str, Verdict]:
    return {one.feature: one.proved.plan.answer for one in planned.operations}


def _numbers(those: Iterable[int]) -> str:
    return " and ".join(f"no. {number}" for number in sorted(those))

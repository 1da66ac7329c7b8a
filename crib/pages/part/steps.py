"""How a part is made step by step: each set-up with what is touched off, and each operation with its passes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.findings.message import Text, said
from crib.light.records import replace
from crib.pages import passes, process
from crib.pages.blocks import Block, Heading, Paragraph
from crib.pages.of_chips import remarks_of
from crib.pages.part.zero import lies_half_round
from crib.pages.remarks import name, warnings
from crib.planning.parts.planned import PartOperation, PlannedPart
from crib.planning.parts.works import work_of
from crib.planning.told.advice import Plan

_HALF_ROUND = ("what is away from you in these steps lies toward you in this set-up: turn the work end for end for "
               "them, or take them from the sheet, which has them as it lies.")


def plan_of(one: PartOperation) -> Plan:
    """What of its feature's plan an operation is: its own passes, with what is touched off and measured for them."""
    plan, mine = one.proved.plan, {each.no for each in one.passes}
    touches = (replace(step, each=tuple(of for of in step.each if of[0] == one.cutter.id)) for step in plan.touch_off)
    was_each = {at for at, step in enumerate(plan.touch_off) if step.each}
    return replace(plan, passes=one.passes, touch_off=tuple(
        step for at, step in enumerate(touches) if step.each or at not in was_each),
        checks=tuple(check for check in plan.checks if check.after_no in mine))


def steps(planned: PlannedPart) -> Iterator[Sequence[Block]]:
    """Set-up by set-up, operation by operation; what is done is named and no more."""
    for setup in planned.setups:
        head: list[Block] = [Heading(said("Set-up {no}: {words}", no=setup.no, words=setup.words))]
        head += [Paragraph(said("{text}.", text=text), label, hang=2)
                 for label, text in (("Hold", setup.holds), ("Zero", setup.datum)) if text]
        yield head
        for one in planned.operations:
            if one.setup_no == setup.no:
                yield list(_operation(planned, one))


def _operation(planned: PlannedPart, one: PartOperation) -> Iterator[Block]:
    plan = plan_of(one)
    yield Heading(_title(planned, one))
    if one.done:
        return
    setup, placed = (next(each for each in planned.setups if each.no == one.setup_no),
                     next((each for each in planned.part.features if each.name == one.feature), None))
    if placed and lies_half_round(planned.part, setup, placed, one.proved.draft.question.feature):
        yield Paragraph(_HALF_ROUND, "Mind", hang=2)
    yield from (each for each in process.blocks(plan) if each.label != "Hold")
    yield from passes.rows(plan.passes, timed=True, cutters=False)
    yield from passes.notes(plan.passes, bool(plan.checks))
    yield from warnings(each for each in remarks_of(plan.warnings, (), plan)
                        if each.cutter_id in (None, one.cutter.id))


def _title(planned: PlannedPart, one: PartOperation) -> Text:
    """The number of an operation, what it does, and with what."""
    held = said(", in the {holder}", holder=one.holder) if one.holder else ""
    up = "" if one.puts_up else ", which is up"
    return said("{done}{no}. {work}, with {cutter}{held}{up}, {minutes:.1f} min", done="done: " if one.done else "",
                no=one.no, work=work_of(planned, one), cutter=name(one.cutter), held=held, up=up, minutes=one.minutes)

"""How a part is made step by step: each set-up with what is touched off, and each operation with its passes."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.findings.finding import Grade
from crib.findings.message import Clause, Text, joined, said
from crib.light.records import replace
from crib.pages import passes, process
from crib.pages.blocks import Block, Heading, Paragraph
from crib.pages.of_chips import remarks_of
from crib.pages.part.zero import corner_words, lies_half_round, step_to, touch_off_corner
from crib.pages.remarks import name, warnings
from crib.pages.tasks import Step, Task
from crib.planning.parts.planned import PartOperation, PartSetup, PlannedPart
from crib.planning.parts.works import work_of
from crib.planning.told.advice import Plan

_Told = tuple[Grade, Text, str]
"""A remark: how bad it is, what it says, and of which feature."""

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
                 for label, text in (("Hold", setup.holds), *_corner(planned, setup)) if text]
        yield head
        before, told = "", set[_Told]()
        for one in planned.operations:
            if one.setup_no == setup.no:
                yield [*_operation(planned, one, one.feature != before), *_remarks(one, told)]
                before = one.feature


def _corner(planned: PlannedPart, setup: PartSetup) -> Iterator[tuple[str, Text]]:
    """What the set-up counts from, and how that is found; by the part's own faces, wherever they lie."""
    if not _has_corner(planned, setup):
        yield "Zero", setup.datum
        return
    shop = next(one.proved.draft.question.shop for one in planned.operations if one.setup_no == setup.no)
    yield "Zero", said("at the corner of {corner}", corner=corner_words(planned.part, setup))
    yield "Touch off", _in_words(touch_off_corner(planned.part, setup, shop))


def _has_corner(planned: PlannedPart, setup: PartSetup) -> bool:
    return planned.part.stock.diameter is None and not setup.stands


def _in_words(step: Step) -> Text:
    """The tasks of a step in a line, each with what is set before it and what is noted behind."""
    told = ([*(said("{slide} {at}", slide=each.slide, at=each.reading) for each in task.settings), task.text,
             *task.notes] for task in step.tasks if isinstance(task, Task))
    return joined("; ", (joined(", ", map(Clause, each)) for each in told))


def _operation(planned: PlannedPart, one: PartOperation, is_first: bool) -> Iterator[Block]:
    plan = plan_of(one)
    yield Heading(_title(planned, one))
    if one.done:
        return
    setup, placed = (next(each for each in planned.setups if each.no == one.setup_no),
                     next((each for each in planned.part.features if each.name == one.feature), None))
    if placed and lies_half_round(planned.part, setup, placed, one.proved.draft.question.feature):
        yield Paragraph(_HALF_ROUND, "Mind", hang=2)
    come = step_to(planned.part, setup, placed, one.proved.draft.question, plan) if placed and _has_corner(
        planned, setup) else None
    if come is not None:
        own = joined("; ", [text for step in plan.touch_off for number, text in step.each if number == one.cutter.id])
        told = [("Come to it", _in_words(come) if is_first else ""), ("Touch off", own)]
        yield from (Paragraph(said("{text}.", text=text), label, hang=2) for label, text in told if text)
    yield from (each for each in process.blocks(plan) if each.label != "Hold" and not (
        come is not None and each.label == "Touch off"))
    yield from passes.rows(plan.passes, timed=True, cutters=False)
    yield from passes.notes(plan.passes, bool(plan.checks))


def _remarks(one: PartOperation, told: set[_Told]) -> list[Paragraph]:
    """What is said of an operation's cutter and its feature and wasn't yet in this set-up: of a feature with its first
    operation there, a note that is the same of several with the first of these."""
    if one.done:
        return []
    plan = plan_of(one)
    found = {(each.grade, each.says, "" if each.grade == Grade.NOTE else one.feature): each
             for each in remarks_of(plan.warnings, (), plan) if each.cutter_id in (None, one.cutter.id)}
    fresh = [each for place, each in found.items() if place not in told]
    told.update(found)
    return warnings(fresh)


def _title(planned: PlannedPart, one: PartOperation) -> Text:
    """The number of an operation, what it does, and with what."""
    held = said(", in the {holder}", holder=one.holder) if one.holder else ""
    up = "" if one.puts_up else ", which is up"
    return said("{done}{no}. {work}, with {cutter}{held}{up}, {minutes:.1f} min", done="done: " if one.done else "",
                no=one.no, work=work_of(planned, one), cutter=name(one.cutter), held=held, up=up, minutes=one.minutes)

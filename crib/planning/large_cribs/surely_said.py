"""What the rules surely say of every plan of a question in which each room is done by one cutter alone, whichever that
is."""

from __future__ import annotations

from collections.abc import Iterator

from crib.findings.finding import Finding, Grade
from crib.geometry.region import NOTHING
from crib.machining.draft import Draft
from crib.machining.methods import method_of
from crib.machining.methods.cuts import Job
from crib.machining.question import Question
from crib.machining.tool import Tool
from crib.machining.words import Manner
from crib.planning.reckoning.rule_effects import BOTH
from crib.rules.metal import chips
from crib.rules.passes import at_stake, backlash
from crib.rules.surely_sized import never_usual


def surely_said(question: Question, tool: Tool, is_disc: bool) -> tuple[Finding, ...]:
    """What is said whichever cutters there are, told of any `tool`; `is_disc`: it is a buried disc, and only such do
    one of the rooms.

    Each room has a job in it. In one that is done from above between two walls every job has a pass that cuts both, and
    all that `backlash` goes by is that there is one. All that `chips` and `at_stake` go by is that there is a disc,
    beside metal and hours. What cutters are otherwise, or miss, only adds to it.
    """
    both = any(method_of(room).both(room) for room in question.outline.rooms)
    draft = Draft(question, (Job(tool, "", (BOTH,) if both else (), NOTHING, Manner.IDLE),))
    return (*backlash(draft), *(chips(draft) if is_disc else ()), *(at_stake(draft) if is_disc else ()),
            *_careful(question))


def _careful(question: Question) -> Iterator[Finding]:
    """For each size that is held with care only, whatever makes it, or else missed, which counts no less."""
    if question.shop.miss_chance >= question.shop.careful_chance:
        yield from (Finding("G12", Grade.WARN, name) for name in dict.fromkeys(never_usual(question)))

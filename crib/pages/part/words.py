"""What is said of a part's operations wherever they are told."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.findings.message import Head, Text, counted, said
from crib.pages.remarks import label_of
from crib.pages.words import NONE_WAS_GIVEN
from crib.planning.parts.planned import PartOperation, PartSetup, PlannedPart
from crib.planning.parts.works import work_of

__all__ = ["PutUp", "bound", "compared", "minutes_of", "put_ups", "short_name", "work_of"]

PutUp = tuple[PartOperation, ...]


def put_ups(operations: Sequence[PartOperation]) -> Iterator[PutUp]:
    """Operations that follow each other with a cutter that is up; what is done by itself."""
    for _, those in groupby(operations, key=lambda one: (one.setup_no, one.cutter.id, one.done)):
        yield tuple(those)


def short_name(planned: PlannedPart, cutter: Cutter) -> Text:
    """A cutter by its number and the first words of what it is; by all of them where another begins with the same."""
    mine = _first_words(cutter)
    alike = {one.cutter.id for one in planned.operations if _first_words(one.cutter) == mine}
    what = label_of(cutter)
    return said("no. {number}, {what}", number=cutter.id, what=Head(what) if len(alike) < 2 else what)


def _first_words(cutter: Cutter) -> str:
    return (cutter.label or label(cutter, "in")).partition(",")[0]


def minutes_of(planned: PlannedPart, setup: PartSetup) -> float:
    """All that is done in a set-up, and setting it up [min]."""
    return setup.minutes + sum(one.minutes for one in planned.operations if one.setup_no == setup.no)


def metal(planned: PlannedPart) -> str:
    """Its metal; where none was given, what it is reckoned as."""
    if planned.part.material:
        return planned.part.material
    untold = {one.name for one in planned.part.features if not one.texts.get("material")}
    assumed = next((one.proved.draft.question.material.name for one in planned.operations if one.feature in untold), "")
    return assumed and assumed + NONE_WAS_GIVEN


def bound(planned: PlannedPart) -> str:
    """How sure it is that nothing takes less."""
    if planned.proven:
        return "proven the least"
    return f"at most {max(1, round(planned.minutes - planned.least_minutes))} min more than the best there can be"


def compared(planned: PlannedPart) -> Text:
    """What the same comes to by one feature at a time."""
    setups, holders, cutters, minutes = planned.alone
    if not minutes:
        return ""
    told = (f"{counted(setups, 'set-up')} (here {len(planned.setups)}), "
            f"{counted(cutters, 'cutter change')} ({planned.cutter_changes}) "
            f"and {counted(holders, 'holder change')} ({planned.holder_changes})")
    return said("one feature at a time: {told}, {minutes:.0f} min", told=told, minutes=minutes)

"""What an operation of a part does, in a few words."""

from __future__ import annotations

from crib.planning.parts.planned import PartOperation, PlannedPart


def work_of(planned: PlannedPart, one: PartOperation) -> str:
    """What an operation does: the feature, and which step of it where there are several."""
    several = sum(each.feature == one.feature for each in planned.operations) > 1
    return f"{one.feature}: {step_of(one)}" if several else one.feature


def step_of(one: PartOperation) -> str:
    """What is done of a feature: by its roles down an axis, else the rooms that are cleared."""
    is_round = one.proved.draft.is_round
    return " and ".join(dict.fromkeys(each.role if is_round else each.room or each.role for each in one.passes))

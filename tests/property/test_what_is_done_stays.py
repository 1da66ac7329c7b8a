"""Ticking off and planning again never changes what was done: however much of a part is done, and whatever cutter is
lost then, what was done comes first, with its cutters, passes and numbers."""

from __future__ import annotations

import json
from functools import cache

from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from crib.app.part.made import Made, State, numbered, told_of
from crib.app.part.plan import Known, planned_of
from crib.parts.part import Part
from crib.parts.toml import part_from_toml
from crib.planning.parts.planned import PlannedPart
from crib.planning.parts.works import work_of
from crib.shop import from_json
from tests.cli.test_part_made import TEXT
from tests.sheets import SHOP
from tests.test_sample_crib import CUTTERS

FEW = [one for one in CUTTERS if one.id in (10, 8, 27, 54, 47, 15)]
KNOWN = Known()


@cache
def fresh() -> tuple[Part, PlannedPart]:
    part = part_from_toml(TEXT, "rest").whole
    return part, planned_of(part, FEW, from_json(SHOP), State({}), known=KNOWN)


@settings(max_examples=25, phases=[Phase.explicit, Phase.generate], deadline=None)
@given(st.data())
def test_what_is_done_stays(data: st.DataObject) -> None:
    part, plan = fresh()
    done = plan.operations[:data.draw(st.integers(0, len(plan.operations)))]
    lost = data.draw(st.sampled_from([None, *FEW]))
    made = {one.key: Made(one.key, one.no, at, one.feature, work_of(plan, one), one.cutter, one.minutes, "")
            for at, one in enumerate(done)}
    state = State(made, (), json.loads(json.dumps(told_of(plan)))["operations"], plan.minutes)
    cutters = [one for one in FEW if one is not lost]
    again = numbered(planned_of(part, cutters, from_json(SHOP), state, known=KNOWN), state)
    unmade = {one.feature for one in again.unmade}
    kept = [one for one in done if one.feature not in unmade]
    first = again.operations[:len(kept)]
    assert [(one.key, one.no, one.cutter, one.passes, one.done) for one in first] == [
        (one.key, one.no, one.cutter, one.passes, True) for one in kept]
    assert not any(one.done for one in again.operations[len(kept):])
    assert len({one.no for one in again.operations}) == len(again.operations)
    assert all(one.cutter is not lost and one.cutter.id != getattr(lost, "id", None)
               for one in again.operations if not one.done)


GIB = """name = "gib side"
stock = "6 x 3 x 1-1/4"
material = "grey iron"

[[feature]]
name = "gib screws"
kind = "gib-screw-holes"
thread = "1/4-28"
number = "4"
length = "6"
angle = "60"
height = "5/16"
gib = "1/8"
nut = "7/16"
thickness = ".785"
face = "front"
from = "bottom left"
at = "5/32"
"""


def test_what_is_begun_is_ended_as_well_as_it_could_be() -> None:
    """With the holes spotted the rest went by minutes alone: another drill, no land for the nuts, and the drawing was
    given away for seven minutes."""
    part, known = part_from_toml(GIB, "gib side").whole, Known()
    plan = planned_of(part, CUTTERS, from_json(SHOP), State({}), known=known)
    first = plan.operations[0]
    made = {first.key: Made(first.key, 1, 0, first.feature, work_of(plan, first), first.cutter, first.minutes, "")}
    again = planned_of(part, CUTTERS, from_json(SHOP), State(made, (), [], plan.minutes), known=known)
    assert again.operations[0].done and not again.unmade
    assert {one.proved.plan.answer for one in again.operations} == {one.proved.plan.answer for one in plan.operations}

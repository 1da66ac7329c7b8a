"""The set-up sheet is the proved plan: what stands on it, in either unit and on the dials, is proved by itself."""

from __future__ import annotations

from itertools import count

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from crib.findings.errors import CribError
from crib.geometry.operation import Operation, Work
from crib.geometry.prove import prove
from crib.machining.chain import Chain
from crib.machining.ends import zero_along
from crib.planning.advise import Answered, advise
from crib.planning.process.dials import division_mm, lead_mm
from crib.render.html.setup_sheet import sheet_html
from crib.shop import Shop
from crib.units import nm
from tests.printed import sweeps
from tests.property.test_printed_is_proved import questions
from tests.sheets import ALL, OnSheet, answered, passes_of
from tests.strategies import brief

UNITS = {"in": 25.4, "mm": 1.0}


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("dro", [True, False], ids=["readout", "dials"])
@pytest.mark.parametrize("name", ALL)
def test_a_sheet_of_every_kind(name: str, dro: bool, units: str) -> None:
    found = answered(name, units, dro)
    assert found.proved
    holds(found, 0, found.proved[0].draft.question.shop, name)


@settings(max_examples=12, phases=[Phase.explicit, Phase.generate], deadline=None)
@given(st.data())
def test_any_sheet(data: st.DataObject) -> None:
    """Closed, one closed end, open; with and without a readout."""
    request, cutters = data.draw(questions())
    shop = Shop(units=data.draw(st.sampled_from(["in", "mm"])), dro=data.draw(st.booleans()))
    try:
        found = advise(request, cutters, shop)
    except CribError:
        return
    for number in range(len(found.proved)):
        holds(found, number, shop, brief(request, cutters))


def holds(found: Answered, number: int, shop: Shop, brief_: object) -> None:
    """Prove what is read back from the sheet."""
    proved, unit = found.proved[number], UNITS[shop.units]
    page = sheet_html(found, number=number)
    assert page is not None
    told = passes_of(page, unit)
    assert [(one.read.number, one.read.cutter) for one in told] == [
        (one.no, one.cutter_id) for one in proved.plan.passes], brief_
    if not shop.dro and not isinstance(proved.draft, Chain):
        for one in told:
            dials_are_the_readings(one, shop, brief_)
    coarse = any(warning.id == "RO1" for warning in proved.plan.warnings)
    work, ways = as_told(found, number, told, unit)
    assert coarse or any(prove(work, moved(ways, by)).holds for by in (0, half_a_step(shop), -half_a_step(shop))), (
        told, brief_)


def half_a_step(shop: Shop) -> int:
    """Half of what the readout or the dial tells apart: no drawing says to less where a middle is [nm]."""
    return nm(shop.readout_mm / 2)


def moved(ways: list[Operation], by: int) -> list[Operation]:
    """Operations with all their places moved across."""
    return [one._replace(x=one.x + by, path=tuple((x, y + by) for x, y in one.path)) for one in ways] if by else ways


def as_told(found: Answered, number: int, told: list[OnSheet], unit: float) -> tuple[Work, list[Operation]]:
    """The operations that a sheet asks for."""
    proved = found.proved[number]
    trace, draft = proved.trace, proved.draft
    forms = {tool.id: tool.form for tool in draft.tools}
    if isinstance(draft, Chain):
        others = count(1)
        return draft.work, [beside(draft.operation(job, cut, one.read.z, next(others) if cut.on else 0), one, at, told)
                            for at, (one, (job, cut)) in enumerate(zip(told, draft.passes(), strict=True))]
    if trace.plan is None:
        return Work(draft.question.outline), [Operation.along(forms[one.read.cutter], one.read.x, one.read.z,
                                                              one.read.cutter) for one in told]
    is_open = draft.question.feature.request.ends == "one"
    out = min(x for one in trace.operations for x, _ in one.path) if is_open else 0
    return trace.work, sweeps([one.read for one in told], forms, unit, zero_along(draft), out)


def beside(one: Operation, read: OnSheet, at: int, told: list[OnSheet]) -> Operation:
    """What goes round beside an axis stands where the table is said to be set, and where it was before that."""
    if not one.goes_round or not read.read.along:
        return one
    return one._replace(x=read.read.along[0], start=told[at - 1].read.along[0] if one.goes_on else one.start)


def dials_are_the_readings(one: OnSheet, shop: Shop, brief_: object) -> None:
    """Turns of a lead and divisions of a dial come to the reading; the knee goes up as Z goes down, and on cross and
    table a dial counts up (turns = distance / lead)."""
    assert {"cross", "Z"} <= {slide for slide, *_ in one.dials}, brief_
    for slide, reading, turns, divisions in one.dials:
        screw = "knee" if slide == "Z" else "table" if slide.startswith("table") else slide
        reached = turns * lead_mm(screw, shop) + divisions * division_mm(shop)
        said = float(reading) * UNITS[shop.units] * (-1 if slide == "Z" else 1)
        assert abs(nm(reached) - nm(said)) <= nm(division_mm(shop)) // 2, (slide, one, brief_)

"""The printed plan is the proved plan: what the table says, leg by leg and in the user's units, is proved by itself.

The last leg along the back wall of a closed T-slot was proved and not printed: whoever followed the sheet left it
standing."""

from __future__ import annotations

import json
from dataclasses import replace

from hypothesis import Phase, event, given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.base import Request
from crib.findings.errors import CribError
from crib.geometry.operation import Operation, Work
from crib.geometry.prove import prove
from crib.machining.ends import zero_along
from crib.pages.passes import table
from crib.planning.advise import advise
from crib.planning.finish import Proved
from crib.render.json import pass_json
from crib.shop import Shop
from crib.units import nm
from tests.closed_strategies import closed_cribs, closed_slots, closed_t_slots
from tests.printed import WIDE, read_back, sweeps
from tests.shown import shown
from tests.strategies import any_of, brief, cribs, mm, right_for, slots, steps, t_slots

UNITS = {"in": 25.4, "mm": 1.0}


@settings(max_examples=20, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_what_is_printed_is_what_is_proved(data: st.DataObject) -> None:
    """Positions, depths, stops, walls and every leg; where the readout is too coarse for a proof that is said (RO1)."""
    request, cutters = data.draw(questions())
    units = data.draw(st.sampled_from(["in", "mm"]))
    shop = Shop(units=units, dro=data.draw(st.booleans()))
    try:
        every = advise(request, cutters, shop).proved
    except CribError:
        event("sizes that can't be together")
        return
    event(f"{request.kind}, {request.ends}, {'plans' if every else 'none'}")
    for proved in every:
        holds_as_printed(proved, units, brief(request, cutters))


@st.composite
def questions(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...]]:
    """Closed, one closed end, and open."""
    ends = draw(any_of("closed", "closed", "one", "one", "open"))
    if ends == "closed":
        request = draw(st.one_of(closed_slots(), closed_t_slots()))
        return request, draw(closed_cribs(request))
    request = draw(st.one_of(slots(), t_slots(), steps()))
    cutters = (*draw(right_for(request, 9)), *draw(cribs(request, 3, whole=True)))
    return replace(request, ends=ends, length=draw(mm(30, 60))), cutters


def holds_as_printed(proved: Proved, units: str, brief_: object) -> None:
    """Prove what is read back from the table, and hold the JSON to it."""
    plan, draft = proved.plan, proved.draft
    forms = {tool.id: tool.form for tool in draft.tools}
    found = read_back(shown(table(plan.passes, plan.zeros), units, WIDE), UNITS[units])
    assert [one.number for one in found] == list(range(1, len(plan.passes) + 1))
    coarse = any(warning.id == "RO1" for warning in plan.warnings)
    for one, read in zip(plan.passes, found, strict=True):
        told = json.loads(json.dumps(pass_json(one)))
        assert (told["feed"], told["direction"]) == (read.feed, read.cut)
        assert nm(told["dial_z_mm"]) == read.z
    is_open, zero = draft.question.feature.request.ends == "one", zero_along(draft)
    if proved.trace.plan is None:
        ways = [Operation.along(forms[one.cutter], one.x, one.z, one.cutter) for one in found]
        assert prove(Work(draft.question.outline), ways).holds or coarse, brief_
        return
    out = min(x for one in proved.trace.operations for x, _ in one.path) if is_open else 0
    ways = sweeps(found, forms, UNITS[units], zero, out)
    trace = prove(proved.trace.work, ways)
    assert trace.holds or coarse, (trace, brief_)
    for one, read, way in zip(plan.passes, found, ways, strict=True):
        corners = [(nm(along) + zero, nm(y)) for along, y in pass_json(one)["dial_path_mm"]]
        assert list(way.path)[1:] == corners[1:], (read, brief_)
        if not is_open:
            assert way.path[0] == corners[0]
            alongs = [x - zero for x, _ in way.path]
            assert set(read.along) == {min(alongs), max(alongs)}
        goes = [(b[0] - a[0], b[1] - a[1]) for a, b in zip(way.path, way.path[1:], strict=False)]
        if read.cut == "conventional" and is_open:
            wall = 1 if goes[-1][0] > 0 else -1
            assert (read.x > 0) == (wall > 0) or draft.question.feature.kind == "step"

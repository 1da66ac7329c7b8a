"""The printed plan is the proved plan: what the table says, leg by leg and in the user's units, is proved by itself.

The last leg along the back wall of a closed T-slot was proved and not printed: whoever followed the sheet left it
standing."""

from __future__ import annotations

import json
from collections.abc import Sequence
from dataclasses import replace

from hypothesis import Phase, event, given, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.geometry.operation import Operation, Work
from crib.geometry.prove import prove
from crib.machining.ends import zero_along
from crib.pages.passes import table
from crib.planning.advise import advise
from crib.planning.dialled.finish import Proved
from crib.render.json.answer import pass_json
from crib.shop import Shop
from crib.units import nm
from crib.units.length import Size
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


def holds_somewhere(work: Work, ways: Sequence[Operation], shop: Shop) -> bool:
    """Whether what is printed is proved with the picture's 0 where it is said to be, or in the middle between the
    settings of one cutter: no drawing says to half a step of the dials where that is."""
    settings = [[one.x, *(across for _, across in one.path)] for one in ways]
    between: dict[int, list[int]] = {}
    for one, across in zip(ways, settings, strict=True):
        between.setdefault(one.tag, []).extend(across)
    offs = {(min(across) + max(across)) // 2 for across in between.values()}
    half = nm(shop.readout_mm / 2) + 1
    return any(prove(work, [moved(one, by) for one in ways]).holds for by in (0, *sorted(offs)) if abs(by) <= half)


def moved(one: Operation, by: int) -> Operation:
    """The same a little to the side."""
    return one._replace(x=one.x - by, path=tuple((along, across - by) for along, across in one.path))


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
        assert coarse or holds_somewhere(Work(draft.question.outline), ways, draft.question.shop), brief_
        return
    out = min(x for one in proved.trace.operations for x, _ in one.path) if is_open else 0
    ways = sweeps(found, forms, UNITS[units], zero, out)
    assert coarse or holds_somewhere(proved.trace.work, ways, draft.question.shop), brief_
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
            beside = read.x or one.x_mm  # a wall less than half a step off the middle is printed at .000
            assert (beside > 0) == (wall > 0) or draft.question.feature.kind == "step"


def test_a_head_a_hair_wider_than_its_disc() -> None:
    """By dials the walls are a thousandth apart and not .0008 in, from 0 to one side: half a step off the middle."""
    sizes = {key: Size(aim, aim - off, aim + off, "", True) for key, aim, off in (
        ("throat", 4.84, .12), ("depth", 4.88, .04), ("head_width", 8.26, .02), ("head_height", 1.9, .1))}
    request = Request("t-slot", sizes, material="6061", length=37.04, ends="one")
    mill = Cutter(1, "end-mill", condition="sharp", material="hss", diameter_mm=3.88, shank_mm=6.0, flutes=2,
                  length_of_cut_mm=6.92, corner_radius_mm=0.0, centre_cutting=True, measured=("diameter_mm",))
    disc = Cutter(2, "keyseat-cutter", condition="sharp", material="hss", diameter_mm=8.24, face_mm=1.9, neck_mm=4.14,
                  reach_mm=6.92, shank_mm=6.0, flutes=8, measured=("diameter_mm",))
    (proved,) = advise(request, (mill, disc), Shop(units="in", dro=False)).proved
    assert proved.plan.passes[-1].dial_x_mm == -0.0254
    holds_as_printed(proved, "in", "")

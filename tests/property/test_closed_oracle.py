"""Plans between closed ends agree with a brute-force block of cells in three dimensions, plans good and bad.

Allowed between them is two cells (.1 mm): distances run between two edges, and each may fall anywhere in a cell.
"""

from __future__ import annotations

import math
from typing import Any

from hypothesis import Phase, event, example, given, note, settings
from hypothesis import strategies as st

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.geometry.faces import FINE
from crib.geometry.operation import Operation, Work
from crib.geometry.prove import prove
from crib.handbook.materials import find_material
from crib.machining.tool import ready
from crib.planning.advise import advise
from crib.planning.told.advice import Plan
from crib.planning.told.passes import Pass
from crib.shop import Shop
from crib.units import NM, nm
from tests import oracle_closed
from tests.closed_strategies import closed_cribs, closed_slots, closed_t_slots, deep_slots
from tests.oracle import Clear, Raw
from tests.oracle_closed import NEAR, walk
from tests.spelt import spelt
from tests.strategies import around, mm, sizes_of

SHOP = Shop()
CLEAR = Clear(SHOP.neck_clearance_mm, SHOP.end_clearance_mm, SHOP.nose_mm)
LOWERED = 0.254 / 2
"""What must be free round a cutter that is lowered without cutting [mm]; common practice, no source."""


def plans_of(request: Request, cutters: tuple[Cutter, ...]) -> tuple[Plan, ...]:
    try:
        return advise(request, cutters, SHOP).advice.plans
    except CribError:
        return ()


def raw_passes(plan: Plan) -> list[oracle_closed.Pass]:
    """The passes by their numbers; a drill isn't drawn, and leaves at least what the mill after it needs."""
    raws = {cutter.id: Raw.of(kind_of(cutter).fill(cutter).as_json()) for cutter in plan.cutters
            if cutter.kind != "drill"}
    milled = [one for one in plan.passes if one.role != "drill"]
    return [oracle_closed.Pass(raws[one.cutter_id], one.path_mm, one.z_mm) for one in milled]


@settings(max_examples=60, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_plans_of_the_planner(data: st.DataObject) -> None:
    """Nothing left, nothing gouged, nothing rubbed; every pass gets down as it says, and goes on from where it
    stands."""
    request = data.draw(st.one_of(closed_slots(), closed_t_slots()))
    check(request, data.draw(closed_cribs(request)))


@settings(max_examples=10, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_plans_with_a_chain_of_holes(data: st.DataObject) -> None:
    """The same of deep slots, where holes may be drilled in a row."""
    check(*data.draw(deep_slots()))


def bull_nose(corner: float) -> Cutter:
    return Cutter(1, "end-mill", "end mill 1", diameter_mm=4.8, corner_radius_mm=corner, length_of_cut_mm=3.6,
                  shank_mm=6.0, flutes=2, centre_cutting=True, material="hss", condition="sharp",
                  measured=("diameter_mm",))


@settings(max_examples=8, phases=[Phase.explicit, Phase.generate])
@given(corner=mm(0.15, 0.4, 0.05), band=mm(0.0, 0.5, 0.1))
@example(corner=0.4, band=0.3)
@example(corner=0.4, band=0.5)
@example(corner=0.25, band=0.5)
def test_the_ends_show_more_of_a_bull_nose_than_the_walls(corner: float, band: float) -> None:
    """A width with a wide band hides much of the round that a bull nose leaves under the walls, or all of it; a length
    with none shows it whole at the ends. Only what the section shows was told: .07 mm of .4 mm, or nothing, and "as
    drawn"."""
    sizes = {"width": around(6.0, band, band), "depth": around(1.6, 0.0, 0.0), "length": around(12.2, 0.0, 0.0)}
    request, cutters = Request("slot", sizes, material="mild steel", ends="closed"), (bull_nose(corner),)
    assert [one.id for plan in plans_of(request, cutters) for one in plan.deviations] == ["LF1"]
    check(request, cutters)


def test_a_floor_radius_that_the_drawing_allows_is_not_told_at_the_ends() -> None:
    """The same mill leaves nothing where the floor may be as round as it is."""
    sizes = {"width": around(6.0, 0.3, 0.3), "depth": around(1.6, 0.0, 0.0), "length": around(12.2, 0.0, 0.0)}
    request = Request("slot", sizes, material="mild steel", ends="closed", floor_radius=0.4)
    plans = plans_of(request, (bull_nose(0.4),))
    assert plans and not any(plan.deviations for plan in plans)


def check(request: Request, cutters: tuple[Cutter, ...]) -> None:
    plans = plans_of(request, cutters)
    event(f"{request.kind}: {'plan' if plans else 'no plan'}")
    for plan in plans:
        event("a chain of holes" if "chain of holes" in spelt(plan.way) else "no chain")
        passes = [one for one in plan.passes if one.role != "drill"]
        found = walk(request.kind, sizes_of(request), CLEAR, raw_passes(plan))
        note(f"{spelt(plan.way)} {plan.proof!r} {found}")
        waived = max((one.has_mm for one in plan.deviations if one.id in ("LF1", "EN4")), default=0.0)
        assert found.left <= max(NEAR, waived + NEAR), "nothing is left"
        assert plan.proof.left_mm <= waived + FINE / NM, "what the proof finds is told"
        if ends := [one.has_mm or 0.0 for one in plan.deviations if one.id == "EN4"]:
            event("its ends stand short")
            assert abs(max(waived, *ends) - found.left) <= NEAR, "what stands at the ends is told as it is"
        assert found.gouge <= NEAR
        assert min(found.slack) > -NEAR
        for number, (one, free) in enumerate(zip(passes, found.down, strict=True)):
            owned = next(cutter for cutter in plan.cutters if cutter.id == one.cutter_id)
            event(f"{request.kind}: {one.entry}")
            gets_down(one, passes[number - 1] if number else None, kind_of(owned).fill(owned), free, plan)


def gets_down(one: Pass, before: Pass | None, cutter: Cutter, free: float, plan: Plan) -> None:
    radius = (cutter.diameter_mm or 0.0) / 2
    if one.entry == "on":
        assert before is not None and before.path_mm[-1] == one.path_mm[0] and before.z_mm == one.z_mm
    elif one.entry == "free":
        assert free >= radius + LOWERED - NEAR
    elif one.entry == "hole":
        assert any(other.role == "drill" for other in plan.passes) or free >= 0.4 * radius - NEAR
    elif one.entry == "plunge":
        assert cutter.kind == "end-mill" and cutter.centre_cutting
    else:
        (x, _), (end, _) = one.path_mm[:2]
        assert one.entry == "ramp" and cutter.kind == "end-mill" and abs(end - x) > 2 * radius


@st.composite
def spoilt(draw: st.DrawFn, passes: list[Any]) -> list[Any]:
    """A plan with a few passes moved or left out."""
    passes = list(passes)
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(0, len(passes) - 1))
        cutter, path, z = passes[at]
        if draw(st.integers(0, 3)) == 0 and len(passes) > 1:
            passes.pop(at)
            continue
        along, across, up = (draw(mm(-0.6, 0.6, oracle_closed.CELL)) for _ in range(3))
        passes[at] = (cutter, tuple((round(x + along, 6), round(y + across, 6)) for x, y in path), round(z + up, 6))
    return passes


@settings(max_examples=60, phases=[Phase.explicit, Phase.generate])
@given(st.data())
def test_plans_spoilt(data: st.DataObject) -> None:
    """What the proof in layers says of left, gouge and rubbing is what the block finds."""
    request = data.draw(st.one_of(closed_slots(), closed_t_slots()))
    plans = plans_of(request, data.draw(closed_cribs(request)))
    if not plans or any(cutter.corner_radius_mm for cutter in plans[0].cutters):
        event("no plan")
        return
    cutters = {cutter.id: cutter for cutter in plans[0].cutters if cutter.kind != "drill"}
    passes = data.draw(spoilt([(p.cutter_id, p.path_mm, p.z_mm) for p in plans[0].passes if p.role != "drill"]))
    layers = draw_feature(request).layers
    assert layers is not None
    half = request.sizes["length"].mid / 2
    material = find_material(request.material)
    forms = {number: tool.form for number, cutter in cutters.items() if (tool := ready(cutter, SHOP, material))}
    verdict = prove(Work(layers=layers), [
        Operation.above(forms[number], tuple((nm(x - half), nm(y)) for x, y in path), nm(z), 0)
        for number, path, z in passes])
    raws = {number: Raw.of(kind_of(cutter).fill(cutter).as_json()) for number, cutter in cutters.items()}
    found = walk(request.kind, sizes_of(request), CLEAR,
                 [oracle_closed.Pass(raws[number], path, z) for number, path, z in passes])
    note(f"{passes} {verdict} {found}")
    event(f"{request.kind}: left {found.left > NEAR}, gouge {found.gouge > NEAR}, rubs {min(found.slack) < -NEAR}")
    assert math.isinf(found.left) == (verdict.left > 1e15)
    assert math.isinf(found.left) or abs(verdict.left / 1e6 - found.left) <= NEAR
    assert abs(verdict.gouge / 1e6 - found.gouge) <= NEAR
    rubs = {spot.operation for spot in verdict.rubs}
    for number, slack in enumerate(found.slack):
        assert abs(slack) <= NEAR or (slack < 0) == (number in rubs)

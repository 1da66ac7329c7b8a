"""The proof agrees with a brute-force grid that is built from raw numbers, on plans good and bad.

Allowed between them is two cells (.04 mm): distances run between two edges, and each may fall anywhere in a cell.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from hypothesis import event, given, note, settings
from hypothesis import strategies as st

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request, Wall
from crib.findings.errors import CribError
from crib.geometry.free_positions import cut
from crib.geometry.operation import Operation, Work
from crib.geometry.prove import prove
from crib.handbook.materials import find_material
from crib.machining.tool import Tool, ready
from crib.planning.advise import advise
from crib.shop import Shop
from crib.units import nm
from tests.oracle import CELL, NEAR, Clear, Found, Raw, sketch, walk
from tests.spelt import spelt
from tests.strategies import REQUESTS, any_of, around, cribs, mm, right_for, shops, sizes_of

NOWHERE = 1e8
"""More than any distance [mm]: the proof has nothing to measure to."""


def clear_of(shop: Shop) -> Clear:
    return Clear(shop.neck_clearance_mm, shop.end_clearance_mm, shop.nose_mm)


def raw_of(cutter: Cutter) -> Raw:
    return Raw.of(cutter.as_json())


def near(one: float, other: float) -> bool:
    return abs(one - other) <= NEAR + 1e-9 or (min(one, other) > NOWHERE)


def agree_on_gap(gap: float | None, found: Found) -> bool:
    """In or against metal on both sides, or as far from it. Of what is inside metal the proof tells how deep."""
    if gap is None:
        return found.gap > NOWHERE
    return max(gap, 0.0) <= NEAR if found.gap <= 0 else abs(max(gap, 0.0) - found.gap) <= NEAR


@settings(max_examples=150)
@given(st.data())
def test_plans_of_the_planner(data: st.DataObject) -> None:
    """What a plan says of itself is what the grid finds from the numbers of its passes and cutters."""
    request = data.draw(REQUESTS)
    shop = data.draw(shops())
    right = data.draw(right_for(request, 9)) if data.draw(st.integers(0, 3)) else ()
    cutters = (*data.draw(cribs(request, 3, whole=True)), *right)
    try:
        plans = advise(request, cutters, shop).advice.plans
    except CribError:
        event("sizes that can't be together")
        return
    event(f"{request.kind}: {'plan' if plans else 'no plan'}")
    for plan in plans:
        drawn = sketch(request.kind, sizes_of(request), on_side=spelt(plan.setup).startswith("work on its side"))
        raws = {cutter.id: raw_of(known(cutter)) for cutter in plan.cutters}
        found = walk(drawn, clear_of(shop), [(raws[p.cutter_id], p.x_mm, p.z_mm) for p in plan.passes])
        note(f"{spelt(plan.way)}: {plan.proof!r} {found}")
        assert near(plan.proof.left_mm, found.left)
        assert near(plan.proof.gouge_mm, found.gouge)
        assert agree_on_gap(plan.proof.neck_gap_mm, found)
        assert found.slack > -NEAR, "a plan that was proved keeps its clearances"


def known(cutter: Cutter) -> Cutter:
    return kind_of(cutter).fill(cutter)


def tools_of(cutters: Sequence[Cutter], request: Request, shop: Shop) -> list[Tool]:
    found = [ready(cutter, shop, find_material(request.material)) for cutter in cutters]
    return [tool for tool in found if tool]


def test_nothing_cut_leaves_everything() -> None:
    """A cutter that stands on the surface has removed nothing: no removed point is near what is left."""
    depth = around(4.0, 0.0, 0.0)
    outline = draw_feature(Request("slot", {"width": depth, "depth": depth})).outline
    mill = Cutter(1, "end-mill", diameter_mm=4.0, length_of_cut_mm=8.0, shank_mm=6.0)
    (tool,) = tools_of((mill,), Request("slot", {}, "grey iron"), Shop())
    idle = prove(Work(outline), [Operation.along(tool.form, 0, 0)])
    assert not idle.holds and idle.left == prove(Work(outline), []).left >= nm(4.0)


def resolved(cutter: Cutter, z: float) -> float:
    """A height at which the grid can see what a round end does: where it only grazes the surface, its edge runs so flat
    that half a cell up is many cells along."""
    graze = math.ceil(0.3 * (cutter.corner_radius_mm or 0.0) / CELL) * CELL
    return -round(graze, 6) if -graze < z < 0 else z


@given(mm(1, 20), st.floats(0.01, 1.0))
def test_a_round_end_that_grazes(diameter: float, share: float) -> None:
    """What the grid can't see of it: a ball of radius R let down by h opens sqrt(R^2 - (R - h)^2) to each side, and its
    chords, which stay within 2.5 microns of the arc, no less than a ball so much smaller about the same centre
    (geometry)."""
    mill = Cutter(1, "end-mill", diameter_mm=diameter, corner_radius_mm=diameter / 2, length_of_cut_mm=50.0)
    (tool,) = tools_of((mill,), Request("slot", {}, "grey iron"), Shop())
    radius = diameter / 2
    h = round(share * 0.3 * radius, 6)
    widest, least = (math.sqrt(max(0.0, (radius - e) ** 2 - (radius - h) ** 2)) for e in (0.0, 0.0025))
    ((left, right),) = cut(tool.form.sure, 0, -nm(h)).spans_at(-1)
    assert left == -right and least - 0.0001 <= right / 1e6 <= widest + 0.0001


@st.composite
def walked(draw: st.DrawFn, wide: float, deep: float, cutters: int) -> list[tuple[int, float, float]]:
    """Passes at random (which cutter, x, z), on edges between cells."""
    one = st.tuples(st.integers(0, cutters - 1), mm(-wide, wide, CELL), mm(-deep, 0.4, CELL))
    return draw(st.lists(one, min_size=1, max_size=8))


@st.composite
def spoilt(draw: st.DrawFn, passes: list[Any]) -> list[Any]:
    """A plan with a few passes moved, left out or out of turn."""
    passes = list(passes)
    for _ in range(draw(st.integers(1, 3))):
        at = draw(st.integers(0, len(passes) - 1))
        which, x, z = passes[at]
        how = draw(any_of("move", "move", "drop", "late"))
        if how == "move":
            passes[at] = (which, round(x + draw(mm(-0.6, 0.6, CELL)), 6), round(z + draw(mm(-0.6, 0.6, CELL)), 6))
        elif len(passes) > 1:
            taken = passes.pop(at)
            if how == "late":
                passes.append(taken)
    return passes


def test_the_smallest_gap_is_told() -> None:
    """A shank 3.08 above the floor, 3.88 from the wall beside it (geometry)."""
    request = Request("step", {"width": around(8.0, 0.0, 0.0), "depth": around(3.0, 0.0, 0.0)}, "grey iron")
    mill = Cutter(1, "end-mill", diameter_mm=11.2, length_of_cut_mm=3.08, shank_mm=6.0, corner_radius_mm=0.0)
    (tool,) = tools_of((mill,), request, Shop(end_clearance_mm=0.4))
    verdict = prove(Work(draw_feature(request).outline), [Operation.along(tool.form, 0, nm(-0.24))])
    assert verdict.tight is not None and verdict.tight.gap == nm(3.08)


def shank_at(cutter: Cutter, height: float) -> Cutter:
    """The cutter with its shank from a height above the lower face up, or from its teeth up and without a neck."""
    if cutter.kind == "end-mill":
        return toothed(cutter.but(length_of_cut_mm=max(height, 0.8), neck_mm=None, reach_mm=None,
                                  overall_length_mm=None))
    face = cutter.face_mm or 0.0
    neck = cutter.neck_mm if height > face else None
    return cutter.but(reach_mm=max(height, face), neck_mm=neck, overall_length_mm=None)


def toothed(cutter: Cutter) -> Cutter:
    """The cutter with teeth over the whole of its round end: cut off below its middle, what the end leaves beside the
    shank is thinner than the grid's cells, and no such cutter is made (common practice, no source)."""
    if cutter.length_of_cut_mm is None or (cutter.corner_radius_mm or 0.0) <= cutter.length_of_cut_mm:
        return cutter
    return cutter.but(length_of_cut_mm=cutter.corner_radius_mm)


@settings(max_examples=250)
@given(st.data())
def test_plans_good_and_bad(data: st.DataObject) -> None:
    """Left, gouge, the nearest that anything comes, and which passes rub, of passes at random and of plans spoilt."""
    request = data.draw(REQUESTS)
    shop = data.draw(shops())
    if data.draw(st.integers(0, 4)) == 0:
        away = data.draw(mm(10, 14)) * data.draw(st.sampled_from([1, -1]))
        request = replace(request, walls=(Wall(data.draw(mm(2, 12)), away),))
    cutters = tuple(map(toothed, (*data.draw(cribs(request, 2, whole=True)), *data.draw(right_for(request, 9)))))
    try:
        outline = draw_feature(request).outline
    except CribError:
        event("sizes that can't be together")
        return
    tools = tools_of(cutters, request, shop)
    places = {tool.id: place for place, tool in enumerate(tools)}
    plans = advise(request, cutters, shop).advice.plans if data.draw(st.booleans()) else ()
    if plans:
        event("a plan spoilt")
        passes = data.draw(spoilt([(places[p.cutter_id], p.x_mm, p.z_mm) for p in plans[0].passes]))
    else:
        event("passes at random")
        passes = data.draw(walked(8.0, request.sizes["depth"].hi + 0.4, len(tools)))
    passes = [(k, x, resolved(tools[k].cutter, z)) for k, x, z in passes]
    if data.draw(st.integers(0, 2)) == 0:
        event("a shank about as far above the work as it must be")
        which = passes[0][0]
        needed = shop.end_clearance_mm - min(z for k, _, z in passes if k == which)
        changed = shank_at(tools[which].cutter, round(needed + data.draw(mm(-0.4, 0.4, CELL)), 6))
        tools[which] = tools_of([changed], request, shop)[0]
    verdict = prove(Work(outline), [Operation.along(tools[k].form, nm(x), nm(z), k) for k, x, z in passes])
    drawn = sketch(request.kind, sizes_of(request), [(wall.height, wall.distance) for wall in request.walls])
    found = walk(drawn, clear_of(shop), [(raw_of(tools[k].cutter), x, z) for k, x, z in passes])
    note(f"{passes} left {verdict.left} gouge {verdict.gouge} {verdict.tight} {found}")
    event(f"left {found.left > NEAR}, gouge {found.gouge > NEAR}, rubs {found.slack < -NEAR}")
    assert found.idle or near(verdict.left / 1e6, found.left)
    assert near(verdict.gouge / 1e6, found.gouge)
    told = verdict.tight.gap / 1e6 if verdict.tight else None
    assert agree_on_gap(told, found)
    rubs = {spot.operation for spot in verdict.rubs}
    for number, slack in enumerate(found.rubs):
        assert abs(slack) <= NEAR or (slack < 0) == (number in rubs)

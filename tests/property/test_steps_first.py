"""Laws of steps under a flank: nothing owned is missed, bounds are never too high, each pass meets no more metal than
it may, told row by row from raw numbers, and no disc comes to the flank."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from math import radians, tan

import numpy as np
from hypothesis import given, note, settings

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.geometry.region import NOTHING
from crib.machining.methods import clear
from crib.machining.methods.under_a_flank import may_step, may_take, most_steps, steps
from crib.planning.advise import advise
from crib.planning.search.set_ups import usable
from crib.planning.told.advice import Plan
from crib.shop import Shop
from tests.oracle import walk
from tests.property.test_completeness import check_bounds
from tests.property.test_slants import agree_on_gap, clear_of, drawn_or_none, near
from tests.slant_oracle import raw_of, slanted_sketch
from tests.slant_strategies import stepped
from tests.strategies import brief, renumbered, sizes_of
from tests.unpruned import held_to_every_way, questions_of

IN = 25.4
WORSE = (("diameter_mm", 1.6), ("neck_mm", 2.8), ("reach_mm", 0.6))
"""What keeps a disc from going under a flank, and how many times as much of it."""

ROW = 0.01
FLANK = {"mild steel": 0.020 * IN, "grey iron": 0.030 * IN, "6061": 0.040 * IN}
"""The most that a dovetail cutter takes sideways at once. Common practice, no source."""


def has_steps(plan: Plan) -> bool:
    return any(one.role == "rough" and "flank" in one.room for one in plan.passes)


def test_nothing_is_missed_and_steps_are_found() -> None:
    """The best of every disc, of every number of steps, and without; each is found where it is the best."""
    seen: Counter[str] = Counter()

    @settings(max_examples=80)
    @given(stepped())
    def compare(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = asked
        if not drawn_or_none(request):
            return
        note(brief(*asked))
        if found := held_to_every_way(request, cutters, shop):
            seen[f"{request.kind} {has_steps(found[0])}"] += 1

    compare()
    for kind in ("dovetail", "dovetail-slide"):
        assert seen[f"{kind} True"] >= 5 and seen[f"{kind} False"] >= 3, seen


@settings(max_examples=30)
@given(stepped())
def test_bounds_are_never_too_high(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
    if drawn_or_none(asked[0]):
        check_bounds(*asked)


def rows_of(plan: Plan, request: Request, cutters: dict[int, Cutter]) -> Iterator[tuple[Cutter, str, float, float]]:
    """Of each pass in a dovetail the cutter, the role, the most metal that any row of its teeth meets at one side, and
    how near to the flank it comes at all; told from its numbers alone, row by row."""
    deep, run = request.sizes["depth"].mid, 1 / tan(radians(request.angle().deg))
    half, count = request.sizes["width"].mid / 2, round(deep / ROW)
    heights = -deep + (np.arange(count) + 0.5) * ROW
    clear_left, clear_right = np.full(count, np.inf), np.full(count, -np.inf)
    for one in plan.passes:
        cutter = cutters[one.cutter_id]
        size, tall = cutter.diameter_mm or 0.0, cutter.face_mm or 99.0
        lean = 1 / tan(radians(cutter.angle_deg)) if cutter.kind == "dovetail-cutter" and cutter.angle_deg else 0.0
        here = np.flatnonzero((heights - one.z_mm >= 0) & (heights - one.z_mm <= tall))
        up = heights[here] - one.z_mm
        left, right = one.x_mm - size / 2 + up * lean, one.x_mm + size / 2 - up * lean
        wall = half - (heights[here] + deep) * run
        near_flank = float(np.minimum(wall - right, left + wall).min(initial=99.0))
        begun = clear_left[here] <= clear_right[here]
        was_left, was_right = clear_left[here[begun]], clear_right[here[begun]]
        out = np.maximum(np.minimum(right[begun], was_right + size) - was_right, was_left - left[begun])
        met = float(out.max(initial=0.0))
        clear_left[here] = np.minimum(left, clear_left[here])
        clear_right[here] = np.maximum(right, clear_right[here])
        yield cutter, one.role, met, near_flank


@settings(max_examples=60)
@given(stepped().filter(lambda asked: asked[0].kind == "dovetail"))
def test_each_pass_meets_what_it_may(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
    """Row by row a dovetail cutter meets what its pass says and no more at a side than its step, wherever a disc was;
    and no disc comes nearer to the flank than what it leaves (common practice, no source)."""
    request, cutters, shop = asked
    if not drawn_or_none(request):
        return
    note(brief(*asked))
    by_id = {cutter.id: kind_of(cutter).fill(cutter) for cutter in cutters}
    for plan in advise(request, cutters, shop).advice.plans:
        if "but that of" in str(plan.figures[-1].value):
            continue
        both = {one.no for one in plan.passes if one.direction == "both"}
        for number, (cutter, role, met, off) in enumerate(rows_of(plan, request, by_id), start=1):
            if cutter.kind == "dovetail-cutter" and number not in both:
                most = 0.005 * IN if role == "finish" else FLANK[request.material]
                says = plan.passes[number - 1].radial_mm
                assert says <= FLANK[request.material] + 1e-3 and met <= max(most, says) + 2 * ROW
                assert met >= says - 3 * ROW, "none goes through air"
            if role == "rough" and cutter.kind in ("keyseat-cutter", "t-slot-cutter"):
                assert off >= 0.005 * IN - ROW


@settings(max_examples=40)
@given(stepped())
def test_the_grid_agrees(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
    """What a plan with steps leaves, gouges and clears is what brute force finds from raw numbers."""
    request, cutters, shop = asked
    if not drawn_or_none(request):
        return
    note(brief(*asked))
    for plan in advise(request, cutters, shop).advice.plans:
        if not has_steps(plan) or "but that of" in str(plan.figures[-1].value):
            continue
        drawn = slanted_sketch(request.kind, sizes_of(request), request.angle().deg)
        raws = {cutter.id: raw_of(kind_of(cutter).fill(cutter).as_json()) for cutter in plan.cutters}
        found = walk(drawn, clear_of(shop), [(raws[p.cutter_id], p.x_mm, p.z_mm) for p in plan.passes])
        assert near(plan.proof.left_mm, found.left) and near(plan.proof.gouge_mm, found.gouge)
        assert agree_on_gap(plan.proof.neck_gap_mm, found)


def test_who_may_take_no_steps_takes_none() -> None:
    """Whatever mills did before: a disc that is told to take no steps of so many takes none of these, be it too wide,
    its neck too fat or too short."""
    seen: Counter[tuple[bool, bool]] = Counter()

    @settings(max_examples=60)
    @given(stepped())
    def hold(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = asked
        if not drawn_or_none(request):
            return
        discs = [one for one in cutters if one.kind in ("keyseat-cutter", "t-slot-cutter")]
        cutters = renumbered((*cutters, *(one.but(**{key: round(share * (getattr(one, key) or 1.0), 3)})
                                          for one in discs for key, share in WORSE)))
        note(brief(request, cutters, shop))
        for question in questions_of(request, shop, cutters):
            outline, limits, tools = question.outline, question.limits, usable(question, cutters)
            before = [NOTHING, *(job.removed for room in outline.rooms if not room.lean for tool in tools
                                 for job in clear(tool, outline, room, NOTHING, limits))]
            before += [gone | other for gone in before[:6] for other in before[:6]]
            for disc in filter(may_step, tools):
                for room in outline.leaning_over:
                    for count in range(1, 1 + min(limits.most_levels, most_steps(disc, room))):
                        may = may_take(disc, outline, room, limits, count)
                        takes = any(steps(disc, outline, room, gone, limits, count) for gone in set(before))
                        seen[may, takes] += 1
                        assert may or not takes

    hold()
    assert seen[False, False] >= 5 and seen[True, True] >= 5, seen

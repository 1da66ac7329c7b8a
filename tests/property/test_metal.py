"""Completeness where edges are broken, metal is hard, motors are weak and hands are slow: the planner against every
plan there is."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from hypothesis import given, note, settings
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.machining.metal import metal_of
from crib.planning.advise import advise
from crib.planning.search.set_ups import asked_of, usable
from crib.shop import STIFFNESS, Shop
from tests.property.test_completeness import questions
from tests.unpruned import every_way, first_found, shown


@st.composite
def hard_ones(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A question of the usual sort, its cutters in any condition and of any steel, its metal soft or hard."""
    request, cutters, shop = draw(questions(6))
    some = st.sampled_from(["sharp", "sharp", "used", "dull", "chipped", "chipped", "burnt", "unknown"])
    steel = st.sampled_from(["hss", "hss", "cobalt", "carbide", "carbon-steel", "unknown"])
    worn = tuple(cutter.but(condition=draw(some), material=draw(steel)) for cutter in cutters)
    metals = [("304", None), ("mild steel", None), ("4140", "30 HRC"), ("O1", "36 HRC")]
    metal, hardness = draw(st.sampled_from(metals))
    shop = replace(shop, stiffness=draw(st.sampled_from(STIFFNESS)), motor_kw=draw(st.sampled_from([None, 0.05, 2.0])),
                   hand_feed_mm=draw(st.sampled_from([60.0, 203.2])),
                   unknown_steel=draw(st.sampled_from(["unknown", "hss"])),
                   spindle_rpm=draw(st.sampled_from([None, (60, 240, 960, 2400)])))
    return replace(request, material=metal, hardness=hardness), worn, shop


def test_nothing_is_missed_and_no_chipped_cutter_makes_a_size() -> None:
    """Answer, cost and cutters of the best plan are those of the best of all plans; and no face is made by an edge that
    may only rough."""
    seen: Counter[str] = Counter()

    @settings(max_examples=120)
    @given(hard_ones())
    def compare(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = asked
        advice = advise(request, cutters, shop).advice
        material = metal_of(request, shop)
        feature = draw_feature(replace(request, material=material.name))
        each = tuple(jobs.question for jobs in asked_of(feature, material, shop, cutters))
        best = every_way(each, usable(each[0], cutters))
        seen[advice.answer] += 1
        note(f"planner: {advice.answer} {[p.way for p in advice.plans[:1]]}; every way: {best and shown(best)}")
        assert (best is not None) == bool(advice.plans)
        if best:
            plan = first_found(advice.plans, best)
            assert (plan.answer, round(plan.cost, 6), tuple(c.id for c in plan.cutters)) == shown(best)
        for plan in advice.plans:
            by_id = {cutter.id: cutter for cutter in plan.cutters}
            made = {by_id[number].condition for face in plan.proof.faces for number in face.cutter_ids}
            assert not made & {"chipped", "burnt", "bent"}
            assert not (material.work_hardens and "dull" in made)

    compare()
    assert seen["cannot"] and sum(seen[answer] for answer in ("as drawn", "extra passes", "compromise")) > 10, seen

"""What the search counts beforehand is never more than what comes out: of who goes round a pocket's walls after others,
of sizes between two flanks, of discs before them; and of cutters that are alike none hides another."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import Any

from hypothesis import Phase, assume, given, note, settings
from hypothesis import strategies as st
from pytest import MonkeyPatch

from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.finding import Grade
from crib.handbook.materials import find_material
from crib.machining.draft import Draft
from crib.machining.methods import pass_bounds
from crib.machining.words import Manner
from crib.planning.advise import advise
from crib.planning.bounds.least_of_sizes import most_left
from crib.planning.bounds.lower_bounds import PartialPlan
from crib.planning.bounds.who_comes import Comers
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import opened, shut_of, usable
from crib.planning.search.weighed import weigh
from crib.planning.told.advice import Plan
from crib.planning.told.verdict import complete
from crib.rules.surely_sized import between_flanks
from crib.sample import shop_settings
from crib.shop import Shop, from_json
from tests.closed_strategies import roughed_pockets
from tests.property.test_closed_completeness import Every
from tests.property.test_completeness import bounds_hold
from tests.property.test_slants import drawn_or_none
from tests.slant_strategies import slanted_cribs, slides, stepped
from tests.strategies import any_of, around, brief, renumbered
from tests.unpruned import Unpruned, question_of


def jobs_of(request: Request, cutters: tuple[Cutter, ...], shop: Shop) -> Jobs:
    """The question in its usual set-up, with what may rough and drill for others."""
    material = find_material(request.material)
    return opened(shut_of(draw_feature(replace(request, material=material.name)), material, shop, cutters)[0])


def test_who_goes_round_the_walls_after_another_takes_no_less() -> None:
    """Of every plan of a pocket that one cutter ends, alone, after a hole, after a mill, after that and a drill down
    its corners."""
    seen: Counter[Manner] = Counter()

    @settings(max_examples=60, phases=[Phase.explicit, Phase.generate])
    @given(roughed_pockets(), any_of(0.0, 1.5, 6.0), any_of(1.0, 3.0))
    def hold(asked: tuple[Request, tuple[Cutter, ...]], change: float, deeper: float) -> None:
        request, cutters = asked
        depth = request.size("depth").mid * deeper
        request = replace(request, sizes=request.sizes | {"depth": around(depth, 0.1, 0.1)})
        drill = Cutter(19, "drill", "a drill", diameter_mm=round(1.8 * request.size("corner_radius").mid, 6),
                       angle_deg=118.0, material="hss", condition="sharp", length_of_cut_mm=60.0)
        cutters = (*(one.but(length_of_cut_mm=depth + 2) for one in cutters), drill)
        note(brief(request, cutters))
        jobs = jobs_of(request, cutters, Shop(collet_minutes=change, cutter_minutes=0.2, touch_minutes=0.3))
        bounds, every = jobs.bounds(), Every(jobs.question, jobs.tools, False)
        begun = PartialPlan(Draft(jobs.question), bounds.start)
        listed = bounds.next_tools(jobs.question.outline.rooms, begun, False)
        least = {tool.number: bounds.rank(bounds.start, one.to_come) for one in listed for tool in (one, *one.twins)}
        for tool in jobs.tools:
            for choice in every.choices(tool, Draft(jobs.question).removed):
                for draft in every.grown(Draft(jobs.question), choice, set()):
                    whole = weigh(draft, True)
                    if not complete(draft) or whole.stopped or whole.key[2]:
                        continue
                    seen[draft.jobs[0].manner] += 1
                    assert least[tool.id] <= (*whole.key[:4], whole.key[4] + 1e-6), [job.manner for job in draft.jobs]

    hold()
    for manner in (Manner.STEPPED, Manner.ROUGHED, Manner.IN_THE_CORNERS):
        assert seen[manner] >= 5, seen


def test_what_lies_between_two_flanks_is_told_of_every_plan() -> None:
    """A slide's root that whatever makes it misses, or holds with care only, is told so of each whole plan, however few
    passes each flank took; and none leaves more of the chance that it comes out well than was told."""
    seen: Counter[str] = Counter()

    @settings(max_examples=90, phases=[Phase.explicit, Phase.generate])
    @given(st.data())
    def hold(data: st.DataObject) -> None:
        request, shop = data.draw(slides()), Shop(units="mm", dro=data.draw(st.booleans()))
        band = data.draw(any_of(0.005, 0.01, 0.015, 0.02, 0.025, 0.05, 0.1, 0.2))
        request = replace(request, sizes=request.sizes | {"width": around(request.size("width").mid, band, band)})
        cutters = data.draw(slanted_cribs(request, 4))
        assume(drawn_or_none(request))
        note(brief(request, cutters, shop))
        jobs = jobs_of(request, cutters, shop)
        kept = dict(between_flanks(jobs.question))
        seen.update(kept.values())
        for draft in Unpruned(jobs.question, jobs.tools, False).drafts(Draft(jobs.question)):
            whole = weigh(draft, True)
            told = [one for one in whole.warnings if one.id == "G12" and one.grade == Grade.WARN]
            assert len(told) >= list(kept.values()).count("with care")
            assert sum(one.id == "G12" for one in whole.deviations) >= list(kept.values()).count("no")
            assert whole.stopped or 1 - whole.reckoning.scrap <= most_left(jobs.question) + 1e-9

    hold()
    assert min(seen[kept] for kept in ("usual", "with care", "no")) >= 3, seen


@st.composite
def mills_under_a_lip(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A T-slot with mills for its throat, mills on slim shanks for its head, and a disc; where changes may be dear."""
    shop = replace(from_json(shop_settings()), cutter_minutes=draw(any_of(0.5, 10.0, 40.0)),
                   collet_minutes=draw(any_of(0.0, 1.5, 30.0)))
    sizes = {"throat": around(12.7, 0.1, 0.1), "depth": around(19.05, 0.13, 0.13),
             "head_width": around(20.32, 0.25, 0.25), "head_height": around(6.35, 0.13, 0.13)}
    request = Request("t-slot", sizes, material=draw(any_of("brass", "6061", "mild steel")),
                      hours=draw(any_of(0.0, 0.0, 6.0)))
    of_all: dict[str, Any] = {"material": "hss", "condition": "sharp", "measured": ("diameter_mm",),
                              "centre_cutting": True, "corner_radius_mm": 0.0, "flutes": 4}
    mills = [Cutter(1, "end-mill", "a mill", diameter_mm=draw(any_of(12.7, 9.525, 6.35)), shank_mm=9.525,
                    length_of_cut_mm=draw(any_of(25.4, 31.75)), **of_all) for _ in range(draw(st.integers(1, 2)))]
    low = [Cutter(1, "end-mill", "a low mill", diameter_mm=19.05, length_of_cut_mm=draw(any_of(6.35, 6.0, 3.175)),
                  shank_mm=draw(any_of(6.35, 9.525)), **of_all) for _ in range(draw(st.integers(1, 2)))]
    disc = Cutter(1, "keyseat-cutter", "a disc", diameter_mm=19.05, face_mm=6.35, neck_mm=6.35, reach_mm=25.4,
                  shank_mm=9.525, flutes=8, material="hss", condition="sharp", measured=("diameter_mm",))
    return request, renumbered([*mills, *low, *([disc] if draw(st.booleans()) else [])]), shop


def test_of_a_mill_under_a_lip_no_more_is_told_than_comes_out() -> None:
    """The rule CL2 speaks of discs: of a mill it was counted beforehand, so that with dear changes, where hardly
    anything else differs, the least was over what came out."""
    seen: Counter[str] = Counter()

    @settings(max_examples=40, phases=[Phase.explicit, Phase.generate])
    @given(mills_under_a_lip())
    def hold(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = asked
        note(brief(*asked))
        question = question_of(request, shop, cutters)
        tools = usable(question, cutters)
        bounds_hold(question, tools)
        head = question.outline.rooms[-1]
        seen.update(tool.kind.name for tool in tools for one in pass_bounds(tool, question.outline, head,
                                                                            question.limits) if one.slow)

    hold()
    assert seen["end-mill"] >= 10, seen


@st.composite
def with_twins(draw: st.DrawFn) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A flank's cutters, some of them several times, as dear or not."""
    request, cutters, shop = draw(stepped())
    more = [one.but(price=draw(any_of(one.price, one.price, 40.0)), label=f"another {one.id}", drawer="elsewhere")
            for one in draw(st.lists(st.sampled_from(cutters), min_size=1, max_size=5))]
    return request, renumbered(draw(st.permutations([*cutters, *more]))), shop


@settings(max_examples=30, phases=[Phase.explicit, Phase.generate])
@given(with_twins())
def test_alike_cutters_hide_none(asked: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
    """Where only the first of those that are alike and as dear is tried until it was told, the plans are those of a
    search that tries each, in their order."""
    request, cutters, shop = asked
    assume(drawn_or_none(request))
    note(brief(*asked))

    def plans() -> list[Plan]:
        return list(advise(request, cutters, shop, most=6, most_refused=0).advice.plans)

    told = plans()
    with MonkeyPatch.context() as patch:
        patch.setattr(Comers, "once_of_twins", lambda self, found: list(found))
        each = plans()
    assert [(one.answer, one.cost, [c.id for c in one.cutters]) for one in told] == [
        (one.answer, one.cost, [c.id for c in one.cutters]) for one in each]

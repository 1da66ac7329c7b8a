"""Laws of what leans: the proof agrees with a brute-force grid, nothing owned is missed, bounds are never too high, a
dovetail cutter that fits exactly does it, and left is right in a mirror."""

from __future__ import annotations

from math import radians, tan

from hypothesis import assume, event, given, note, settings
from hypothesis import strategies as st

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.features import draw as draw_feature
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.geometry.farthest import farthest
from crib.geometry.operation import Operation, Work
from crib.geometry.prove import prove
from crib.geometry.region import Region
from crib.handbook.materials import find_material
from crib.machining.methods import clear
from crib.machining.methods.base import Limits
from crib.machining.methods.cuts import Cut, Job
from crib.machining.methods.mirrored import mirror_job
from crib.machining.tool import ready
from crib.planning.advise import advise
from crib.planning.search.set_ups import usable
from crib.planning.told.advice import Plan
from crib.setups import SETUPS
from crib.shop import Shop
from crib.units import nm
from crib.units.angles import Angle
from tests.oracle import Clear, Found, walk
from tests.oracle import Limits as Sizes
from tests.property.test_completeness import check_bounds
from tests.slant_oracle import CLOSE, raw_of, slanted_sketch
from tests.slant_strategies import FLANKS, SLANTED, dovetails, slanted_cribs, slides
from tests.spelt import spelt
from tests.strategies import STEP, around, brief, mm, shops, sizes_of
from tests.unpruned import every_way, first_found, kindest, questions_of, shown

NOWHERE = 1e8


def near(one: float, other: float) -> bool:
    return abs(one - other) <= CLOSE or min(one, other) > NOWHERE


def agree_on_gap(gap: float | None, found: Found) -> bool:
    """In or against metal on both sides, or as far from it."""
    if gap is None:
        return found.gap > NOWHERE
    return max(gap, 0.0) <= CLOSE if found.gap <= 0 else abs(max(gap, 0.0) - found.gap) <= CLOSE


def clear_of(shop: Shop) -> Clear:
    return Clear(shop.neck_clearance_mm, shop.end_clearance_mm, shop.nose_mm)


def drawn_or_none(request: Request) -> bool:
    try:
        draw_feature(request)
    except CribError:
        event("sizes that can't be together")
        return False
    return True


def _aimed(request: Request, plan: Plan) -> dict[str, Sizes]:
    """The sizes as a plan aims at them: its depth at the height of teeth where it says so."""
    sizes = sizes_of(request)
    said = next(spelt(figure.value) for figure in plan.figures if figure.what == "aim")
    for key in ("depth", "height"):
        if f"but that of the {key}" in said:
            event("aimed at the height of the teeth")
            low, _, high = sizes[key]
            sizes[key] = (low, -min(one.z_mm for one in plan.passes), high)
            assert low - 1e-6 <= sizes[key][1] <= high
    return sizes


@settings(max_examples=150)
@given(st.data())
def test_plans_of_the_planner(data: st.DataObject) -> None:
    """What a plan says of itself is what the grid finds from the numbers of its passes and cutters, the work lying
    flat; the grid doesn't tilt it."""
    request, shop = data.draw(SLANTED), data.draw(shops())
    cutters = data.draw(slanted_cribs(request, whole=True))
    assume(drawn_or_none(request))
    plans = [plan for plan in advise(request, cutters, shop).advice.plans if plan.setup == SETUPS["upright"].words]
    event(f"{request.kind}: {plans[0].answer if plans else 'no plan'}")
    note(brief(request, cutters, shop))
    for plan in plans:
        drawn = slanted_sketch(request.kind, _aimed(request, plan), request.angle().deg)
        raws = {cutter.id: raw_of(kind_of(cutter).fill(cutter).as_json()) for cutter in plan.cutters}
        found = walk(drawn, clear_of(shop), [(raws[p.cutter_id], p.x_mm, p.z_mm) for p in plan.passes])
        note(f"{spelt(plan.way)}: {plan.proof!r} {found}")
        assert near(plan.proof.left_mm, found.left)
        assert near(plan.proof.gouge_mm, found.gouge)
        assert agree_on_gap(plan.proof.neck_gap_mm, found)
        assert found.slack > -CLOSE, "a plan that was proved keeps its clearances"


@settings(max_examples=200)
@given(st.data())
def test_passes_good_and_bad(data: st.DataObject) -> None:
    """Left, gouge, the nearest that anything comes, and which passes rub, of passes at random and of plans spoilt."""
    request, shop = data.draw(SLANTED), data.draw(shops())
    cutters = data.draw(slanted_cribs(request, 4, whole=True))
    assume(drawn_or_none(request))
    outline = draw_feature(request).outline
    tools = [tool for cutter in cutters if (tool := ready(cutter, shop, find_material(request.material)))]
    places = {tool.id: place for place, tool in enumerate(tools)}
    told = advise(request, cutters, shop).advice.plans if data.draw(st.booleans()) else ()
    plans = [plan for plan in told if plan.setup == SETUPS["upright"].words]
    if plans:
        event("a plan spoilt")
        passes = [(places[p.cutter_id], p.x_mm, p.z_mm) for p in plans[0].passes]
        at = data.draw(st.integers(0, len(passes) - 1))
        which, x, z = passes[at]
        passes[at] = (which, x + data.draw(mm(-0.6, 0.6)), z + data.draw(mm(-0.6, 0.6)))
    else:
        event("passes at random")
        one = st.tuples(st.integers(0, len(tools) - 1), mm(-6, 6), mm(-4, 0.4))
        passes = data.draw(st.lists(one, min_size=1, max_size=6))
    verdict = prove(Work(outline), [Operation.along(tools[k].form, nm(x), nm(z), k) for k, x, z in passes])
    drawn = slanted_sketch(request.kind, sizes_of(request), request.angle().deg)
    raws = [raw_of(tool.cutter.as_json()) for tool in tools]
    found = walk(drawn, clear_of(shop), [(raws[k], x, z) for k, x, z in passes])
    note(brief(request, [tool.cutter for tool in tools], shop))
    note(f"{passes} left {verdict.left} gouge {verdict.gouge} {verdict.tight} {found}")
    assert found.idle or near(verdict.left / 1e6, found.left)
    assert found.idle or near(verdict.gouge / 1e6, found.gouge)
    assert agree_on_gap(verdict.tight.gap / 1e6 if verdict.tight else None, found)
    rubs = {spot.operation for spot in verdict.rubs}
    for number, slack in enumerate(found.rubs):
        assert abs(slack) <= CLOSE or (slack < 0) == (number in rubs)


@settings(max_examples=120)
@given(st.data())
def test_nothing_is_missed(data: st.DataObject) -> None:
    """The best answer is that of planning every set of up to three, in every order, with no pruning at all."""
    request, shop = data.draw(SLANTED), data.draw(shops())
    cutters = data.draw(slanted_cribs(request, 5))
    assume(drawn_or_none(request))
    note(brief(request, cutters, shop))
    advice = advise(request, cutters, shop).advice
    questions = questions_of(request, shop, cutters)
    best = every_way(questions, usable(questions[0], cutters))
    event(f"{request.kind}: {advice.answer}")
    if best is not None:
        plan = first_found(advice.plans, best)
        assert (plan.answer, round(plan.cost, 6), tuple(c.id for c in plan.cutters)) == shown(best)
    else:
        kind = every_way(questions, kindest(questions[0], cutters))
        assert advice.answer == ("measure first" if kind else "cannot")


@settings(max_examples=80)
@given(st.data())
def test_bounds_are_never_too_high(data: st.DataObject) -> None:
    """What the search reckons with as the least is never more than what comes out."""
    request, shop = data.draw(SLANTED), data.draw(shops())
    cutters = data.draw(slanted_cribs(request, 4))
    assume(drawn_or_none(request))
    check_bounds(request, cutters, shop)


@settings(max_examples=150)
@given(st.sampled_from(FLANKS), mm(1.6, 5), mm(4, 9), st.sampled_from([0.0, 0.0, STEP, 1.0, 3.0]), st.booleans())
def test_an_exact_fit(angle: float, depth: float, mouth: float, less: float, own_width: bool) -> None:
    """Sizes without tolerance, teeth exactly as high as the flank, a neck that only just fits its teeth, and a cutter
    exactly as wide as the floor where it can be put in: it does it, nothing left and nothing gouged."""
    run = depth / tan(radians(angle))
    width = round(mouth + 2 * run, 3)
    across = width if own_width else max(round(width - less, 6), round(2 * run + 0.5, 6))
    request = Request("dovetail", {"width": around(width, 0, 0), "depth": around(depth, 0, 0)}, "grey iron",
                      angles={"angle": Angle(angle, f"{angle:g}")})
    mill = Cutter(1, "end-mill", "mill", diameter_mm=2.0, corner_radius_mm=0.0, length_of_cut_mm=depth + 4,
                  shank_mm=6.0, flutes=4, centre_cutting=True, material="hss", condition="sharp")
    cutter = Cutter(2, "dovetail-cutter", "cutter", diameter_mm=across, angle_deg=angle, face_mm=depth,
                    neck_mm=round(across - 2 * run, 6), reach_mm=depth + 2, shank_mm=6.0, flutes=6, material="hss",
                    condition="sharp", measured=("diameter_mm",))
    plan = advise(request, (mill, cutter), Shop(units="mm")).advice.plans[0]
    assert plan.proof.left_mm == 0 and plan.proof.gouge_mm == 0
    ends = [one.x_mm for one in plan.passes if one.room == "flanks"]
    assert abs(max(ends) - (width - across) / 2) < 1e-5 and abs(min(ends) + (width - across) / 2) < 1e-5


@settings(max_examples=100)
@given(st.data())
def test_left_is_right_in_a_mirror(data: st.DataObject) -> None:
    """A tool in the mirror image of a section does the mirror image of what it does in the section."""
    request = data.draw(st.one_of(slides(), dovetails()))
    cutters = data.draw(slanted_cribs(request, 4, whole=True))
    assume(drawn_or_none(request))
    outline, shop = draw_feature(request).outline, Shop(units="mm")
    gone = Region()
    for cutter in cutters:
        tool = ready(cutter, shop, find_material(request.material))
        assert tool is not None
        for room in outline.rooms:
            jobs = clear(tool, outline, room, gone, Limits(4))
            others = clear(tool, outline.mirrored, room.mirrored, gone.mirrored, Limits(4))
            assert [job.manner for job in jobs] == [job.manner for job in others]
            for one, other in zip(jobs, map(mirror_job, others), strict=True):
                assert len(one.cuts) == len(other.cuts)
                for cut, same in zip(in_order(one), in_order(other), strict=True):
                    assert max(abs(cut.x - same.x), abs(cut.z - same.z)) <= 2
                assert farthest(one.removed - other.removed, other.removed) <= 10
                gone = one.removed


def test_a_hair_wider_than_the_flanks_are_apart_it_stands_in_the_middle() -> None:
    """At its upper height it would go over both flanks by 15 microns, which their limits let it: not over one by 29.
    Geometry."""
    request = Request("dovetail", {"width": around(10.36, 0.2, 0.0), "depth": around(3.8, 0.0, 0.0)}, "grey iron",
                      angles={"angle": Angle(50.0, "50", None)}, units="mm")
    outline, metal, shop = draw_feature(request).outline, find_material("grey iron"), Shop(units="mm")
    mill, cutter = (ready(Cutter(number, kind, condition="sharp", material="hss", shank_mm=6.0, corner_radius_mm=0.0,
                                 measured=("diameter_mm",), **sizes), shop, metal) for number, (kind, sizes) in
                    enumerate((("end-mill", {"diameter_mm": 2.4, "length_of_cut_mm": 6.8, "flutes": 4}),
                               ("dovetail-cutter", {"diameter_mm": 7.96, "face_mm": 2.68, "neck_mm": 1.02,
                                                    "reach_mm": 6.8, "angle_deg": 50.0, "flutes": 6})), 1))
    assert mill and cutter
    slot, flanks = outline.rooms
    throat = next(iter(clear(mill, outline, slot, Region(), Limits(4))))
    [*jobs] = clear(cutter, outline, flanks, throat.removed, Limits(4))
    assert [cut.x for cut in jobs[0].cuts if cut.z != -nm(3.8)] == [0]


def in_order(job: Job) -> list[Cut]:
    """The passes of a job from the lowest up, from left to right; halves of odd nanometres fall to either side."""
    return sorted(job.cuts, key=lambda cut: (cut.z, round(cut.x / 10), cut.x))

"""Set-ups: of all that the work could lie, nothing owned is missed; plans on their side are what a grid built from raw
numbers finds; a set-up that isn't the usual one is only taken where it is worth it."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from typing import Any

import numpy as np
from hypothesis import event, given, note, settings
from hypothesis import strategies as st
from numpy.typing import NDArray

from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.findings.errors import CribError
from crib.findings.verdicts import ANSWERS
from crib.machining.draft import Draft
from crib.planning.advise import advise
from crib.planning.search.jobs import Jobs
from crib.planning.search.set_ups import least_key, usable
from crib.planning.search.weighed import weigh
from crib.planning.told.advice import Plan
from crib.shop import Arbor, Shop
from tests.oracle import AWAY, NEAR, Clear, Sketch, sketch, walk
from tests.property.test_completeness import bounds_hold, what_could_does
from tests.property.test_oracle import agree_on_gap, known, near, raw_of
from tests.spelt import spelt
from tests.strategies import STEP, any_of, brief, cribs, mm, renumbered, right_for, shops, size, sizes_of, slots, steps
from tests.unpruned import Unpruned, every_way, first_found, kindest, questions_of, shown

BORE, FLANGE_TALL, STANDS_OUT, SPINDLE = 10.0, 9.525, 38.1, 100.0


@st.composite
def slits(draw: st.DrawFn) -> Request:
    sizes = {"width": draw(size(draw(mm(1, 3)))), "depth": draw(size(draw(mm(2, 8))))}
    if draw(st.booleans()):
        edge = draw(mm(4, 40))
        sizes["edge"] = replace(draw(size(edge)), lo=edge, hi=edge, given=True)
    return Request("slit", sizes, material="6061")


@st.composite
def undercuts(draw: st.DrawFn) -> Request:
    sizes = {"width": draw(size(draw(mm(1.2, 4)))), "depth": draw(size(draw(mm(1, 4))))}
    for key, least, most in (("height", 2, 20), ("floor", 2, 20), ("floor_out", 2, 20)):
        if draw(st.booleans()):
            far = draw(mm(least, most))
            sizes[key] = replace(draw(size(far)), lo=far, hi=far, given=True)
    return Request("undercut", sizes, material="6061")


FROM_THE_SIDE = st.one_of(slits(), slits(), undercuts())


@st.composite
def saws(draw: st.DrawFn, request: Request, number: int) -> Cutter:
    """A cutter on an arbor that may or may not reach."""
    width, depth = request.sizes["width"], request.sizes["depth"]
    least = 16.0 + 2 * depth.nominal
    thick = draw(st.one_of(st.sampled_from([width.lo, width.mid, width.hi, round(width.hi + STEP, 6)]),
                           mm(max(0.6, 0.4 * width.nominal), width.nominal)))
    diameter = draw(st.one_of(mm(least, least + 8), mm(22, 34)))
    return Cutter(
        number, draw(any_of("slitting-saw", "slitting-saw", "side-cutter")), f"saw {number}",
        diameter_mm=diameter, face_mm=thick, bore_mm=draw(any_of(BORE, BORE, BORE, 16.0, None)), flutes=30,
        material="hss", condition=draw(any_of("sharp", "sharp", "used", "dull")), measured=("diameter_mm",),
    )


@st.composite
def groovers(draw: st.DrawFn, request: Request, number: int, plain: bool) -> Cutter:
    """A keyseat cutter that may or may not reach."""
    width, depth = request.sizes["width"], request.sizes["depth"]
    neck = draw(mm(2, 6))
    face = draw(st.one_of(st.sampled_from([width.lo, width.mid, width.hi]), mm(0.8, 3)))
    diameter = round(neck + draw(st.one_of(mm(1, 8), st.just(round(2 * depth.mid + 0.52, 6)))), 6)
    cutter = Cutter(
        number, "keyseat-cutter", f"disc {number}", diameter_mm=diameter, face_mm=face, neck_mm=neck,
        reach_mm=round(face + draw(mm(2, 30)), 6), shank_mm=6.0, flutes=8, material="hss", condition="sharp",
        measured=("diameter_mm",), price=draw(any_of(None, 30.0)),
    )
    return cutter if plain else cutter.but(**draw(any_of({}, {}, {"neck_mm": None}, {"reach_mm": None})))


@st.composite
def slotters(draw: st.DrawFn, request: Request, number: int) -> Cutter:
    """An end mill for a groove with its wall turned up."""
    width, depth = request.sizes["width"], request.sizes["depth"]
    diameter = draw(st.one_of(st.sampled_from([width.lo, width.mid, width.hi]), mm(0.8, 4)))
    return Cutter(
        number, "end-mill", f"mill {number}", diameter_mm=diameter, shank_mm=6.0, flutes=2, corner_radius_mm=0.0,
        length_of_cut_mm=round(depth.mid + draw(mm(0.4, 8)), 6), centre_cutting=True, material="hss",
        condition=draw(any_of("sharp", "used")), measured=("diameter_mm",),
        overall_length_mm=draw(any_of(None, 60.0)),
    )


@st.composite
def asked(draw: st.DrawFn, most: int, plain: bool = False) -> tuple[Request, tuple[Cutter, ...], Shop]:
    """A feature that may be cut lying in more than one way, or from the side, and a crib."""
    request = draw(st.one_of(FROM_THE_SIDE, FROM_THE_SIDE, slots(), steps()))
    some: list[Cutter] = []
    for number in range(draw(st.integers(1, most))):
        if request.kind in ("slit", "undercut"):
            some.append(draw(st.one_of(saws(request, number), groovers(request, number, plain),
                                       *([slotters(request, number)] if request.kind == "undercut" else []))))
        else:
            some += draw(cribs(request, 1, plain)) if draw(st.booleans()) else [draw(saws(request, number))]
    if request.kind in ("slot", "step") and draw(st.booleans()):
        some += draw(right_for(request, 1))
    arbors = draw(any_of((Arbor(BORE, 16.0),), (Arbor(BORE, 16.0, 30.0, 20.0),), None))
    shop = replace(draw(shops()), arbors=arbors, nose_mm=draw(any_of(50.8, 30.0)))
    return request, renumbered(some), shop


def test_nothing_is_missed_in_any_set_up() -> None:
    """Answer, cost, cutters and set-up of the best plan are those of planning every set in every set-up."""
    seen: Counter[str] = Counter()

    @settings(max_examples=150)
    @given(asked(4))
    def compare(question: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
        request, cutters, shop = question
        note(brief(*question))
        try:
            advice = advise(request, cutters, shop).advice
        except CribError:
            event("sizes that can't be together")
            return
        questions = questions_of(request, shop, cutters)
        best = every_way(questions, usable(questions[0], cutters))
        note(f"planner: {advice.answer} {[p.way for p in advice.plans[:1]]}; every way: {best and shown(best)}")
        if best is None:
            kind = every_way(questions, kindest(questions[0], cutters))
            assert advice.answer == ("measure first" if kind else "cannot")
            seen[advice.answer] += 1
            return
        plan = first_found(advice.plans, best)
        assert (plan.answer, round(plan.cost, 6), tuple(c.id for c in plan.cutters)) == shown(best)
        assert spelt(plan.setup).startswith(best.draft.question.setup.words)
        seen[f"{request.kind} {best.draft.question.setup.name}"] += 1

    compare()
    assert sum(count for way, count in seen.items() if way.endswith("upright")) >= 10, seen
    assert sum(count for way, count in seen.items() if way.endswith("on its side")) >= 5, seen


@settings(max_examples=100)
@given(asked(3))
def test_bounds_hold_in_every_set_up(question: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
    """What the search reckons with as the least is never more than what comes out, and what is told of a tool without
    its passes is what they come to, however the work lies; nor is what a set-up comes to at the least."""
    request, cutters, shop = question
    note(brief(*question))
    for one in questions_of(request, shop, cutters):
        tools = usable(one, cutters)
        bounds_hold(one, tools)
        what_could_does(one, tools, False)
        floor = least_key(Jobs(one, tools))
        for wide in (False, True):
            assert all(floor <= weigh(draft, True).key for draft in Unpruned(one, tools, wide).drafts(Draft(one)))


@dataclass(frozen=True)
class OnArbor:
    """A disc on an arbor by its numbers [mm]."""

    diameter: float
    tall: float
    bore: float
    flange: float
    nose: float | None
    reach: float

    @property
    def shank(self) -> float:
        return self.flange

    def radii(self, up: NDArray[np.float64]) -> NDArray[np.float64]:
        """The radius of the teeth at heights above the lower face."""
        return np.full(len(up), self.diameter / 2)

    def stem(self, clear: Clear) -> list[tuple[str, float, float, float, float, float]]:
        """The flanges, the arbor, its nose and the spindle's: name, from and to, radius, clearance beside and above."""
        top = self.tall + FLANGE_TALL
        low = max(top, self.tall + self.reach)
        parts = [("flange", -FLANGE_TALL, 0.0, self.flange / 2, clear.end, clear.end),
                 ("flange", self.tall, top, self.flange / 2, clear.end, clear.end)]
        if low > top:
            parts.append(("arbor", top, low, self.bore / 2, clear.neck, clear.end))
        if self.nose is not None:
            parts.append(("nose", low, low + 38.1, self.nose / 2, clear.neck, clear.end))
            low += 38.1
        return [*parts, ("spindle", low, low + SPINDLE, clear.nose / 2, clear.neck, clear.end)]


def numbers_of(cutter: Cutter, shop: Shop) -> Any:
    if cutter.bore_mm is None:
        return raw_of(known(cutter))
    if shop.arbors is None:
        return OnArbor(cutter.diameter_mm or 0, cutter.face_mm or 0, BORE, 1.75 * BORE, None, STANDS_OUT)
    arbor = shop.arbors[0]
    return OnArbor(cutter.diameter_mm or 0, cutter.face_mm or 0, BORE, arbor.flange_mm, arbor.nose_mm,
                   arbor.reach_mm or STANDS_OUT)


def lying(request: Request, plan: Plan) -> Sketch:
    """The section as the work lies, drawn from its sizes: least and most that go, the metal, from raw numbers."""
    width, depth = ((s.lo, s.mid, s.hi) for s in (request.sizes["width"], request.sizes["depth"]))
    side = spelt(plan.setup).startswith("work on its side")
    if request.kind == "undercut" and side:
        return _turned_up(request)
    if request.kind == "undercut":
        height = request.sizes["height"].hi if "height" in request.sizes else 6.35
        floor = -request.sizes["floor"].lo if "floor" in request.sizes else 0.0
        least, most = ((-depth[i], 0.0, 0.0, width[i]) for i in (0, 2))
        return Sketch((least,), (most,), ((-AWAY, -AWAY, 0.0, width[1] + height), (-AWAY, -AWAY, AWAY, floor)))
    if request.kind != "slit":
        return sketch(request.kind, sizes_of(request), on_side=side)
    leaf = request.sizes["edge"].hi if "edge" in request.sizes else 25.4
    drawn = sketch("slot", sizes_of(request), on_side=side)
    edge = width[2] / 2 + leaf
    return replace(drawn, stock=((-AWAY, -AWAY, 0.0, edge) if side else (-AWAY, -AWAY, edge, 0.0),))


def _turned_up(request: Request) -> Sketch:
    """An undercut as a slot in the wall, which lies up: its floor, where one was said, stands in front of it."""
    sizes = request.sizes
    drawn = sketch("slot", sizes_of(request))
    edge = sizes["width"].mid / 2 + (sizes["height"].hi if "height" in sizes else 6.35)
    drawn = replace(drawn, stock=((-AWAY, -AWAY, edge, 0.0),))
    if "floor" not in sizes and "floor_out" not in sizes:
        return drawn
    beside = sizes["width"].mid / 2 + (sizes["floor"].lo if "floor" in sizes else 0.0)
    return replace(drawn, walls=((-AWAY, 0.0, -beside, sizes["floor_out"].hi if "floor_out" in sizes else AWAY),))


@settings(max_examples=60)
@given(asked(3, plain=True))
def test_plans_as_the_work_lies(question: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
    """What a plan says of itself is what the grid finds in the frame that the plan's words tell of."""
    request, cutters, shop = question
    note(brief(*question))
    try:
        plans = advise(request, cutters, shop).advice.plans
    except CribError:
        return
    for plan in plans:
        event(f"{request.kind}: {spelt(plan.setup).split(',')[0]}")
        numbers = {cutter.id: numbers_of(cutter, shop) for cutter in plan.cutters}
        clear = Clear(shop.neck_clearance_mm, shop.end_clearance_mm, shop.nose_mm)
        found = walk(lying(request, plan), clear, [(numbers[p.cutter_id], p.x_mm, p.z_mm) for p in plan.passes])
        note(f"{spelt(plan.way)}: {spelt(plan.setup)} {plan.proof!r} {found}")
        assert near(plan.proof.left_mm, found.left)
        assert near(plan.proof.gouge_mm, found.gouge)
        assert agree_on_gap(plan.proof.neck_gap_mm, found)
        assert found.slack > -NEAR


@settings(max_examples=100)
@given(asked(4))
def test_a_set_up_is_worth_it(question: tuple[Request, tuple[Cutter, ...], Shop]) -> None:
    """A plan in another set-up than the usual one costs its minutes and says what it risks; plans stand in the order of
    verdict and cost whatever their set-up."""
    request, cutters, shop = question
    note(brief(*question))
    try:
        plans = advise(request, cutters, shop).advice.plans
    except CribError:
        return
    for plan in plans:
        again = spelt(plan.setup).startswith("work on its side") and request.kind != "slit"
        assert again == any(warning.id == "SU1" for warning in plan.warnings)
        setting = next(line for line in plan.cost_lines if line.what == "setting up")
        assert setting.minutes == shop.setup_minutes * (2 if again else 1)
    verdicts = [ANSWERS.index(plan.answer) for plan in plans]
    assert verdicts == sorted(verdicts)

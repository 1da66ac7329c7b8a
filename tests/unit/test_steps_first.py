"""A keyseat cutter takes the bulk under a flank in steps, the dovetail cutter finds their edges."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import ceil, radians, tan

import pytest

from crib.buying.bench import Bench
from crib.buying.needs import FIRST_ID
from crib.cutters.base import Cutter
from crib.planning.advise import advise, best_plan
from crib.planning.ask import read_request
from crib.planning.told.advice import Plan
from crib.shop import Shop
from tests.property.test_asked_again import gist, with_cutters
from tests.slant_samples import IN, dovetail_cutter, end_mill, named
from tests.spelt import spelt

MILL, TAIL = end_mill(1, 0.75), dovetail_cutter(2, 1.375, 60, 0.5625, 0.5)
SHOP = Shop()
SLOT = {"angle": "60", "depth": ".500", "width": "2.500", "length": "10", "material": "mild steel"}
SLIDE = {"angle": "60", "height": ".500", "width": "2.000", "length": "10", "material": "mild steel"}


def disc(number: int = 3, across: float = 1.0, face: float = 0.1875, neck: float = 0.4, **more: float | str) -> Cutter:
    return named(number, "keyseat-cutter", **{"diameter_mm": across, "face_mm": face, "neck_mm": neck, "flutes": 10,
                                              "reach_mm": 0.9, "shank_mm": 0.5, **more})


def plan_of(kind: str, texts: dict[str, str], *cutters: Cutter, shop: Shop = SHOP, **more: str) -> Plan:
    return advise(read_request(kind, texts | more, shop, "in"), cutters, shop).advice.plans[0]


def ids(plan: Plan) -> list[int]:
    return [cutter.id for cutter in plan.cutters]


def steps_of(plan: Plan) -> list[tuple[float, float]]:
    """Where the disc's upper corner is at the back at last, and its lower face [in], step by step."""
    found: dict[float, float] = {}
    for one in plan.passes:
        if one.cutter_id == 3 and "flank" in one.room:
            found[round(-one.z_mm / IN, 4)] = max(found.get(round(-one.z_mm / IN, 4), 0.0), one.x_mm / IN + 0.5)
    return sorted((x, z) for z, x in found.items())


def test_a_keyseat_cutter_goes_before_the_dovetail_cutter() -> None:
    """Worked by hand for a flank of 60 degrees .500 high and 2.500 wide at the floor: .289 run, a rough slot of 1.883,
    so .309 of metal at each corner: (.309 - .005) / .020, sixteen passes and the last a side without steps. A face of
    .1875 leaves .010 and .108 run over it, .118, where steps are high enough: six passes and the last."""
    alone, plan = plan_of("dovetail", SLOT, MILL, TAIL), plan_of("dovetail", SLOT, MILL, TAIL, disc())
    assert plan.answer == alone.answer == "as drawn" and ids(alone) == [1, 2] and ids(plan) == [1, 3, 2]
    assert plan.cost < alone.cost and plan.minutes < alone.minutes
    assert plan.proof.left_mm == plan.proof.gouge_mm == 0
    run = 0.5 / tan(radians(60))
    assert run + 0.020 == pytest.approx(0.309, abs=5e-4)
    tail = [len([one for one in one_plan.passes if one.cutter_id == 2]) for one_plan in (alone, plan)]
    assert tail == [2 * (ceil(0.3037 / 0.020) + 1), 2 * (ceil((0.010 + 0.1875 / tan(radians(60)) - 0.005) / 0.020) + 1)]
    assert "the bulk first" in spelt(plan.way)


def test_each_step_stays_off_the_flank_by_its_upper_corner() -> None:
    """Geometry: at a height h over the floor the flank is h / tan 60 inside its corner; .010 stays (common practice,
    no source), and each step begins below the top of the one under it."""
    plan = plan_of("dovetail", SLOT, MILL, TAIL, disc())
    found = steps_of(plan)
    assert len(found) > 1
    for x, z in found:
        assert x == pytest.approx(1.25 - (0.5 - z + 0.1875) / tan(radians(60)) - 0.010, abs=6e-4)
    depths = sorted((z for _, z in found), reverse=True)
    assert depths[0] == pytest.approx(0.5, abs=1e-4)
    assert all(0 < a - b < 0.1875 for a, b in pairwise(depths))


def test_a_disc_is_fed_as_it_must() -> None:
    """No more at a side than .030 in steel for discs from 1/2 to 1 in across (from memory), conventional, from the open
    end, out before the height is changed."""
    passes = [one for one in plan_of("dovetail", SLOT, MILL, TAIL, disc()).passes if one.cutter_id == 3]
    assert max(one.radial_mm for one in passes) <= 0.030 * IN + 1e-6
    assert {one.feed for one in passes if one.x_mm > 0} == {"right"} and {
        one.feed for one in passes if one.x_mm < 0} == {"left"}
    assert "takes the bulk" in spelt(passes[0].says)
    heights = [one.z_mm for one in passes]
    for before, one in pairwise(passes):
        assert (before.z_mm != one.z_mm) == ("out of the end before the height is changed" in spelt(one.says))
    assert heights == sorted(heights)


@pytest.mark.parametrize(("why", "one"), [
    ("a neck that meets the mouth before the disc is far in", {"neck": 0.95}),
    ("a face as tall as the flank", {"face": 0.5}),
    ("too short to reach the floor", {"reach_mm": 0.3, "shank_mm": 1.5}),
    ("chipped: it would make a piece of the floor", {"condition": "chipped"}),
    ("no collet", {"shank_mm": 0.8125}),
])
def test_a_disc_that_does_not_fit_is_not_offered(why: str, one: dict[str, float]) -> None:
    shop = replace(SHOP, collets_mm=(0.375 * IN, 0.5 * IN, 0.75 * IN))
    alone = plan_of("dovetail", SLOT, MILL, TAIL, shop=shop)
    assert plan_of("dovetail", SLOT, MILL, TAIL, disc(**one), shop=shop).way == alone.way, why


@pytest.mark.parametrize("other", [
    named(3, "slitting-saw", diameter_mm=2.5, face_mm=0.125, bore_mm=0.5, flutes=30),
    named(3, "form-cutter", diameter_mm=1.25, face_mm=0.1875, radius_mm=0.09375, bore_mm=0.5, note="convex"),
])
def test_no_saw_and_no_round_rim_takes_the_bulk(other: Cutter) -> None:
    """A saw isn't made to cut on its side (common practice), and a round rim makes no step."""
    assert ids(plan_of("dovetail-slide", SLIDE, MILL, TAIL, other)) == [1, 2]


@pytest.mark.parametrize("texts", [{"depth": ".125", "length": "4"}, {"length": "1"},
                                   {"depth": ".1875", "material": "6061"}])
def test_where_it_saves_nothing_it_is_not_offered(texts: dict[str, str]) -> None:
    assert ids(plan_of("dovetail", SLOT, MILL, TAIL, disc(face=0.09375), **texts)) == [1, 2]


def test_steps_spare_a_first_cut_with_both_points() -> None:
    """A dovetail cutter wider than the rough slot cuts both its corners full at once, and points break (common
    practice); under steps it goes in free."""
    narrow = SLOT | {"width": "1.480", "depth": ".375", "length": "4"}
    tail = dovetail_cutter(2, 1.125, 60, 0.4, 0.5)
    mill, small = end_mill(1, 0.5), disc(across=0.9375, face=0.125, neck=0.3)
    alone, plan = plan_of("dovetail", narrow, mill, tail), plan_of("dovetail", narrow, mill, tail, small)
    assert "DT1" in {one.id for one in alone.warnings} and "DT1" not in {one.id for one in plan.warnings}
    assert ids(plan) == [1, 3, 2]


def test_what_only_finishes_wears_little() -> None:
    """Settings of the shop: a buried cutter loses 2 % of its price to a piece of work, an easy one .5 % (from memory).
    """
    dear = TAIL.but(price=100.0)
    alone, plan = plan_of("dovetail", SLOT, MILL, dear), plan_of("dovetail", SLOT, MILL, dear, disc())
    assert [one.money for each in (alone, plan) for one in each.cost_lines if one.what == "wear"] == [2.0, 0.5]


def test_a_slide_is_stepped_on_both_sides() -> None:
    alone, plan = plan_of("dovetail-slide", SLIDE, MILL, TAIL), plan_of("dovetail-slide", SLIDE, MILL, TAIL, disc())
    assert ids(plan) == [1, 3, 2] and plan.cost < alone.cost and plan.proof.gouge_mm == plan.proof.left_mm == 0
    for room in ("back flank", "front flank"):
        rough = [one for one in plan.passes if one.room == room and one.cutter_id == 3]
        assert rough and all((one.x_mm > 0) == (room == "back flank") for one in rough)
    assert sum("out of the end" in spelt(one.says) for one in plan.passes if one.cutter_id == 3) == 2 * (
        len({one.z_mm for one in plan.passes if one.cutter_id == 3}) - 1)


def test_with_one_end_closed_no_disc_shortens_the_flanks() -> None:
    """What is asked for as closed at one end stops where its widest cutter does: a disc wider than the others isn't
    used there."""
    plain = plan_of("dovetail", SLOT, MILL, TAIL, ends="one")
    assert plan_of("dovetail", SLOT, MILL, TAIL, disc(across=1.75, neck=0.5), ends="one").way == plain.way
    some = plan_of("dovetail", SLOT, MILL, TAIL, disc(), ends="one")
    assert ids(some) == [1, 3, 2] and {one.stop_mm for one in some.passes if one.cutter_id == 2} == {
        one.stop_mm for one in plain.passes if one.cutter_id == 2}


def test_how_far_flanks_run_full_is_told_of_the_cutter_that_makes_them() -> None:
    """With steps first the disc was named, whose end no flank has."""
    plan = plan_of("dovetail", SLOT, MILL, TAIL, disc(), ends="one")
    (told,) = [one for one in plan.warnings if one.id == "EN5"]
    assert "dovetail" in spelt(told.says) and "keyseat" not in spelt(told.says) and ids(plan) == [1, 3, 2]


def test_a_disc_that_could_be_bought_is_reckoned_as_if_it_was_owned() -> None:
    """What was worked out without it doesn't hide it."""
    request, owned = read_request("dovetail", SLOT, SHOP, "in"), (MILL, TAIL)
    bench, more = Bench(owned, SHOP), disc(FIRST_ID)
    assert gist(bench.best(request)) == gist(best_plan(request, owned, SHOP))
    after = bench.best(request, with_cutters((more,)))
    assert gist(after) == gist(best_plan(request, (*owned, more), SHOP))
    assert after is not None and FIRST_ID in [one.id for one in after.cutters]


def test_of_many_cutters_none_is_missed() -> None:
    """Where there are hundreds, only those are searched that rooms call for; discs that go first are none of these."""
    many = tuple(end_mill(100 + k, 0.2 + 0.0005 * k) for k in range(320))
    plan = plan_of("dovetail", SLOT, MILL, TAIL, disc(), *many)
    assert ids(plan)[1:] == [3, 2]


def test_the_metal_that_is_left_is_told() -> None:
    plan = plan_of("dovetail", SLOT, MILL, TAIL, disc())
    told = {spelt(one.what): one.mm for one in plan.figures}
    assert told["flanks: most metal that the steps leave"] == pytest.approx((0.010 + 0.1875 / tan(radians(60))) * IN,
                                                                            abs=0.02)
    assert not any("metal at each corner" in what for what in told)


def test_room_to_run_out_is_that_of_the_widest_cutter() -> None:
    """Common practice: half the cutter and .100. The first of two buried cutters was told of, and the second, wider,
    would have stood in the vise."""
    plan = plan_of("dovetail", SLOT, MILL, TAIL, disc())
    (note,) = [one for one in plan.warnings if one.id == "EN3"]
    assert ".788" in spelt(note.says) and "teeth" in spelt(note.says)


def test_steps_that_are_cut_away_leave_no_lines() -> None:
    plan = plan_of("dovetail", SLOT, MILL, TAIL, disc(face=0.125))
    assert len(steps_of(plan)) > 2 and "FC2" not in {one.id for one in plan.warnings}


def test_with_many_cutters_of_both_sorts_the_search_does_not_crawl() -> None:
    """Each dovetail cutter was tried after each disc again for every mill that opens the slot: minutes for a hundred
    cutters. Counted, not timed: ways are worked out once for what they start from."""
    from crib.planning.search import steps_first

    more = [dovetail_cutter(10 + k, 1.0 + 0.03 * k, 60, 0.52 + 0.005 * k, 0.4) for k in range(8)]
    mills, discs = [end_mill(30 + k, 0.4 + 0.02 * k) for k in range(12)], [
        disc(50 + k, across=0.8 + 0.02 * k, face=0.1 + 0.005 * k) for k in range(20)]
    counted, known = [], steps_first._stepped
    steps_first._stepped = lambda *given: counted.append(1) or known(*given)  # type: ignore[assignment,func-returns-value]
    try:
        assert len(plan_of("dovetail", SLOT, *more, *mills, *discs).cutters) == 3
    finally:
        steps_first._stepped = known
    assert len(counted) <= 8 * 40, len(counted)

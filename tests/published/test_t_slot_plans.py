"""Plans for T-slots and slots against what is worked out on paper, common practice and the standards' tables.

Inch limits of ASME B5.1M are printed to three places and stand for the sixty-fourth that rounds to them, halves to the
even figure; the one that doesn't (.282, a quarter-inch bolt's throat) stands as printed. The rule and the list of what
every printed value stands for are checked in `test_tslots.py`; here the slots are asked for by those sizes.
"""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

import pytest

from crib.cutters import kind_of
from crib.cutters.base import Clearances, Cutter
from crib.features import draw
from crib.features.request import Request
from crib.geometry.free_positions import Metal, free_positions, reach
from crib.geometry.operation import Operation, Work
from crib.geometry.prove import prove
from crib.geometry.region import FAR
from crib.geometry.silhouette import Silhouette
from crib.handbook.tslots import TSlot, cutters, slots
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Advice, Plan, Refusal
from crib.shop import Shop
from crib.units import Size, nm, read
from tests.spelt import spelt

INCH = 25.4
SHOP = Shop()
BARE = Shop(neck_clearance_mm=0.0)


def inches(*sizes: float) -> list[float]:
    return [round(size * INCH, 6) for size in sizes]


def end_mill(number: int, diameter: float, cut: float, **more: Any) -> Cutter:
    """A square end mill, in inches."""
    return Cutter(number, "end-mill", f"end mill {diameter}", diameter_mm=diameter * INCH, length_of_cut_mm=cut * INCH,
                  shank_mm=diameter * INCH, flutes=2, corner_radius_mm=0.0, centre_cutting=True, material="hss",
                  condition="sharp", measured=("diameter_mm",)).but(**more)


def disc(number: int, kind: str, diameter: float, face: float, neck: float, reach_in: float, **more: Any) -> Cutter:
    """A keyseat or T-slot cutter, in inches."""
    return Cutter(number, kind, f"{kind} {diameter}", diameter_mm=diameter * INCH, face_mm=face * INCH,
                  neck_mm=neck * INCH, reach_mm=reach_in * INCH, shank_mm=0.5 * INCH, flutes=8, material="hss",
                  condition="sharp", measured=("diameter_mm",)).but(**more)


def t_slot(throat: float, depth: float, width: float, height: float, around: float = 0.0, **more: Any) -> Request:
    """A T-slot in grey iron, in inches; `around`: its tolerance on each side."""
    sizes = {"throat": throat, "depth": depth, "head_width": width, "head_height": height}
    return Request("t-slot", {key: Size(one * INCH, (one - around) * INCH, (one + around) * INCH, f"{one}")
                              for key, one in sizes.items()}, "grey iron", **more)


def asked(kind: str, shop: Shop = SHOP, **texts: str) -> Request:
    return read_request(kind, {"material": "grey iron", **texts}, shop, "in")


def refusal(advice: Advice, number: int) -> Refusal:
    return next(one for one in advice.refused if one.cutter.id == number)


def passes(plan: Plan, number: int) -> list[tuple[float, float]]:
    """Where a cutter stands, pass by pass [in]."""
    return [(round(one.x_mm / INCH, 6), round(one.z_mm / INCH, 6)) for one in plan.passes if one.cutter_id == number]


# The worked example: throat .625, depth .520, head .975 x .240, all exact; keyseat cutter .625 x .1875, neck .250.
# Source: geometry.
WORKED = t_slot(0.625, 0.520, 0.975, 0.240)
MILL = end_mill(1, 0.625, 0.75)
KEYSEAT = disc(2, "keyseat-cutter", 0.625, 0.1875, 0.250, 0.6875)


def form_of(cutter: Cutter, clear: Clearances) -> Silhouette:
    kind = kind_of(cutter)
    assert kind.form is not None
    return kind.form(kind.fill(cutter), clear)


@pytest.mark.parametrize("clear", [Clearances(), Clearances(0.0, 0.0)], ids=["with clearance", "touching"])
def test_reach_of_the_worked_example(clear: Clearances) -> None:
    """x -.175 to +.175 with the lower face from -.520 to -.4675, between that and the surface the line x = 0, above it
    everywhere (geometry)."""
    keep = draw(WORKED).outline.keep
    form = form_of(KEYSEAT, clear)
    top, side = nm(-0.4675 * INCH), nm(0.175 * INCH)
    assert top == nm(-0.520 * INCH) + nm(0.240 * INCH) - nm(0.1875 * INCH)
    bands = reach(form, Metal(keep, keep), nm(-0.7 * INCH), nm(0.1 * INCH))
    assert min(band.low for band in bands) == nm(-0.520 * INCH)
    for band in bands:
        if band.high <= top:
            assert band.spans == ((-side, side),)
        elif band.high <= 0 and band.low < 0:
            assert band.spans == ((0, 0),)
        else:
            assert band.spans == ((-FAR, FAR),)
    assert free_positions(form, Metal(keep, keep), top + 1) == ((0, 0),)
    assert free_positions(form, Metal(keep, keep), nm(-0.520 * INCH) - 1) == ()
    assert free_positions(form, Metal(keep, keep), 0) == ((-FAR, FAR),)


def test_plan_of_the_worked_example() -> None:
    """Two levels, side steps of (.975 - .625) / 2; nothing left, no gouge, .0125 between neck and lip (geometry)."""
    advice = advise(WORKED, (MILL, KEYSEAT), SHOP).advice
    plan = advice.plans[0]
    assert advice.answer == "extra passes"
    head = passes(plan, 2)
    assert sorted({z for _, z in head}) == [-0.520, -0.4675]
    assert (min(x for x, _ in head), max(x for x, _ in head)) == (-0.175, 0.175)
    assert (plan.proof.left_mm, plan.proof.gouge_mm) == (0.0, 0.0)
    assert plan.proof.neck_gap_mm == pytest.approx(0.0125 * INCH, abs=1e-6)
    levels = next(figure for figure in plan.figures if figure.what == "head: levels")
    assert levels.value == 2


def test_fat_neck_of_the_worked_example() -> None:
    """Neck .300, touching allowed: it covers x -.1625 to +.1625 and leaves .0125 a side (geometry)."""
    outline = draw(WORKED).outline
    fat = form_of(KEYSEAT.but(neck_mm=0.300 * INCH), Clearances(0.0, 0.0))
    side, floor = nm(0.1625 * INCH), nm(-0.520 * INCH)
    assert free_positions(fat, Metal(outline.keep, outline.keep), floor) == ((-side, side),)
    mill = form_of(MILL, Clearances(0.0, 0.0))
    verdict = prove(Work(outline), [
        Operation.along(mill, 0, floor),
        *(Operation.along(fat, x, z) for z in (floor, nm(-0.4675 * INCH)) for x in (0, side, -side))])
    assert verdict.left == pytest.approx(nm(0.0125 * INCH), abs=50)
    assert verdict.gouge == 0 and not verdict.rubs


@pytest.mark.parametrize(("shop", "neck"), [(SHOP, ".255"), (BARE, ".275")], ids=["with clearance", "touching"])
def test_refusal_of_the_worked_example(shop: Shop, neck: str) -> None:
    """Neck .300: .275 touches, .255 clears by .010 a side: A - (B - D) - 2c (geometry)."""
    said = refusal(advise(WORKED, (MILL, KEYSEAT.but(neck_mm=0.300 * INCH)), shop).advice, 2)
    assert (said.answer, said.id, spelt(said.fix)) == ("cannot", "NK1", f"a neck of {neck} or less would clear")
    assert said.has_mm == pytest.approx(0.300 * INCH) and said.needs_mm == pytest.approx(float(neck) * INCH, abs=2e-6)


# Common practice, no source: .750 throat cut .410 deep with a .750 end mill, keyseat cutter .750 x .1875.
PRACTICE = t_slot(0.750, 0.410, 1.150, 0.215)
OWN = end_mill(1, 0.750, 1.5)
LOOSE = {"throat": ".750", "depth": ".410", "head_width": "1.150", "head_height": ".215"}
"""The same with a shop's usual tolerances, so that no wall wants a finishing pass of its own."""
THIN = disc(2, "keyseat-cutter", 0.750, 0.1875, 0.300, 0.75)


def test_practice_plan() -> None:
    """The same centre, .200 to each side in bites of .050, four a side; a second level brings .1875 to .215. The
    disc has no end teeth: the throat is up to .005 deeper than its lower face (common practice, no source)."""
    plan = advise(asked("t-slot", **LOOSE), (OWN, THIN), SHOP).advice.plans[0]
    assert {x for x, _ in passes(plan, 1)} == {0.0}
    assert -0.415 <= min(z for _, z in passes(plan, 1)) < -0.410 == min(z for _, z in passes(plan, 2))
    head = passes(plan, 2)
    assert sorted({z for _, z in head}) == [-0.410, -0.3825]
    for level in (-0.410, -0.3825):
        at = [x for x, z in head if z == level]
        assert sorted(at) == [-0.200, -0.150, -0.100, -0.050, 0.050, 0.100, 0.150, 0.200]
        for way in (1, -1):
            assert [x for x in at if x * way > 0] == [0.050 * way, 0.100 * way, 0.150 * way, 0.200 * way]
    assert (plan.proof.left_mm, plan.proof.gouge_mm) == (0.0, 0.0)


def test_practice_head_of_the_face() -> None:
    """A head no higher than the face takes one level (common practice, no source)."""
    plan = advise(asked("t-slot", **{**LOOSE, "head_height": ".1875"}), (OWN, THIN), SHOP).advice.plans[0]
    assert {z for _, z in passes(plan, 2)} == {-0.410} and len(passes(plan, 2)) == 8


@pytest.mark.parametrize("clearance", [0.0, 0.005, 0.010])
def test_practice_neck(clearance: float) -> None:
    """A neck of up to .350 less twice the clearance clears, .001 more doesn't (common practice, no source)."""
    shop = Shop(neck_clearance_mm=clearance * INCH)
    most = 0.350 - 2 * clearance
    assert advise(PRACTICE, (OWN, THIN.but(neck_mm=most * INCH)), shop).advice.answer == "extra passes"
    fat = advise(PRACTICE, (OWN, THIN.but(neck_mm=(most + 0.001) * INCH)), shop).advice
    said = refusal(fat, 2)
    assert (fat.answer, said.id) == ("cannot", "NK1")
    assert said.needs_mm == pytest.approx(most * INCH, abs=2e-6)


def test_practice_t_slot_cutter() -> None:
    """A T-slot cutter of the same size whose neck is fatter is refused for its neck (common practice, no source)."""
    fat = disc(3, "t-slot-cutter", 0.750, 0.1875, 0.406, 0.75)
    advice = advise(PRACTICE, (OWN, THIN, fat), SHOP).advice
    assert [cutter.id for cutter in advice.plans[0].cutters] == [1, 2]
    said = refusal(advice, 3)
    assert said.id == "NK1" and "neck" in spelt(said.says)
    assert said.has_mm == pytest.approx(0.406 * INCH) and said.needs_mm == pytest.approx(0.330 * INCH, abs=2e-6)


def test_half_inch_bolt_in_grey_iron() -> None:
    """Throat .5625, head .9375 x .375 under .500 with end mill .4985 and keyseat cutter .875 x .250, neck .375: levels
    -.875 and -.750, side step .03125, six passes for the head (geometry; bites common practice, no source)."""
    request = asked("t-slot", throat=".5625+.010-0", depth=".875", head_width=".9375", head_height=".375")
    mill = end_mill(1, 0.4985, 1.25, shank_mm=0.5 * INCH)
    keyseat = disc(2, "keyseat-cutter", 0.875, 0.250, 0.375, 1.0)
    plan = advise(request, (mill, keyseat), SHOP).advice.plans[0]
    assert plan.answer == "extra passes"
    assert passes(plan, 2) == [(0, -0.875), (0.03125, -0.875), (-0.03125, -0.875),
                               (0, -0.750), (0.03125, -0.750), (-0.03125, -0.750)]
    throat = passes(plan, 1)
    assert (min(x for x, _ in throat), max(x for x, _ in throat)) == (-0.0345, 0.0345), "(.5675 - .4985) / 2"
    assert (plan.proof.left_mm, plan.proof.gouge_mm) == (0.0, 0.0)


# ASME B5.1M-1985 (R2004) slots and ASME B94.19 cutters (those from memory).
INCH_ROWS = [slot for slot in slots() if not slot.bolt.startswith("M")]
METRIC_ROWS = [slot for slot in slots() if slot.bolt.startswith("M")]
MADE = {cutter.bolt: cutter for cutter in cutters()}
WITH_CUTTER = [slot for slot in INCH_ROWS if slot.bolt in MADE]


def by_bolt(slot: TSlot) -> str:
    return slot.bolt


def sixty_fourths(mm: float) -> Fraction:
    return Fraction(round(mm / INCH * 64 * 1000), 1000)


def for_bolt(slot: TSlot, shop: Shop = SHOP) -> Request:
    return read_request("t-slot", {"bolt": slot.bolt, "material": "grey iron"}, shop, shop.units)


def throat_mill(slot: TSlot, deep: float) -> Cutter:
    """An end mill a little smaller than the throat, long enough [mm]."""
    diameter = round(slot.throat_mm * 0.9, 3)
    return end_mill(1, diameter / INCH, (deep + 3) / INCH)


def test_every_inch_row_is_asked_for() -> None:
    """Nine bolts, seven with a cutter of their own; each limit a sixty-fourth but the quarter-inch throat, .282."""
    assert len(INCH_ROWS) == 9 and len(WITH_CUTTER) == 7 and len(METRIC_ROWS) == 13
    odd = [(slot.bolt, mm) for slot in INCH_ROWS
           for mm in (slot.throat_mm, slot.head_width_min_mm, slot.head_width_max_mm, slot.head_height_min_mm,
                      slot.head_height_max_mm, slot.throat_depth_min_mm, slot.throat_depth_max_mm)
           if sixty_fourths(mm).denominator != 1]
    assert odd == [("1/4", pytest.approx(0.282 * INCH))]


@pytest.mark.parametrize("slot", WITH_CUTTER, ids=by_bolt)
def test_inch_row_with_its_own_cutter(slot: TSlot) -> None:
    """As drawn with that cutter and an end mill, throat 0/+.010: the cutter is the head's greatest width, so x = 0
    (ASME B5.1M-1985 (R2004), public table page; cutter ASME B94.19, from memory)."""
    request = for_bolt(slot)
    own = MADE[slot.bolt]
    throat, deep = request.sizes["throat"], request.sizes["depth"].hi
    assert (nm(throat.lo), nm(throat.hi)) == (nm(slot.throat_mm), nm(slot.throat_mm + 0.010 * INCH))
    cutter = Cutter(2, "t-slot-cutter", diameter_mm=own.diameter_mm, face_mm=own.face_mm, neck_mm=own.neck_mm,
                    reach_mm=deep + 2, shank_mm=own.shank_mm, flutes=8, material="hss", condition="sharp",
                    measured=("diameter_mm",))
    advice = advise(request, (throat_mill(slot, deep), cutter), SHOP).advice
    plan = advice.plans[0]
    assert advice.answer == "as drawn" and [one.id for one in plan.cutters] == [1, 2]
    assert passes(plan, 2) == [(0.0, pytest.approx(-request.sizes["depth"].mid / INCH, abs=1e-6))]
    assert (plan.proof.left_mm, plan.proof.gouge_mm) == (0.0, 0.0)
    aimed = max(x for x, _ in passes(plan, 1)) * INCH
    assert aimed == pytest.approx((throat.mid - 0.9 * slot.throat_mm) / 2, abs=1e-3)


@pytest.mark.parametrize("share", [0.95, 0.85])
@pytest.mark.parametrize("slot", INCH_ROWS, ids=by_bolt)
def test_inch_row_with_a_smaller_keyseat_cutter(slot: TSlot, share: float) -> None:
    """Extra passes, the axis at (mid W - D) / 2 to each side (ASME B5.1M-1985 (R2004), public table page; geometry);
    down the middle alone where its own width, in one pass, already lies inside the limits of the standard."""
    request = for_bolt(slot)
    width, height, deep = (request.sizes[key] for key in ("head_width", "head_height", "depth"))
    diameter = round(share * width.mid, 4)
    neck = request.sizes["throat"].mid - (width.mid - diameter) - 2 * SHOP.neck_clearance_mm
    keyseat = Cutter(2, "keyseat-cutter", diameter_mm=diameter, face_mm=round(0.7 * height.mid, 4), neck_mm=neck - 0.01,
                     reach_mm=deep.hi + 2, shank_mm=0.5 * INCH, flutes=8, material="hss", condition="sharp",
                     measured=("diameter_mm",))
    advice = advise(request, (throat_mill(slot, deep.hi), keyseat), SHOP).advice
    plan = advice.plans[0]
    assert advice.answer == "extra passes" and [one.id for one in plan.cutters] == [1, 2]
    at = [one.x_mm for one in plan.passes if one.cutter_id == 2]
    offset = (width.mid - diameter) / 2 if diameter < width.lo else 0.0
    assert (min(at), max(at)) == (pytest.approx(-offset, abs=1e-6), pytest.approx(offset, abs=1e-6))
    heights = {round(one.z_mm, 6) for one in plan.passes if one.cutter_id == 2}
    assert heights == {round(-deep.mid, 6), round(-deep.mid + height.mid - 0.7 * height.mid, 6)} or len(heights) == 2
    assert (plan.proof.left_mm, plan.proof.gouge_mm) == (0.0, 0.0)


@pytest.mark.parametrize("slot", METRIC_ROWS, ids=by_bolt)
def test_metric_row_with_the_widest_cutter(slot: TSlot) -> None:
    """A cutter of the head's greatest width stands at x = 0 and is no reason to refuse (ASME B5.1M-1985 metric
    columns = ISO 299, public table page; neck DIN 851 / ISO 3337, from memory, or a little less than the throat)."""
    shop = Shop(units="mm")
    request = for_bolt(slot, shop)
    own, deep = MADE.get(slot.bolt), request.sizes["depth"].hi
    cutter = Cutter(2, "t-slot-cutter", diameter_mm=slot.head_width_max_mm, face_mm=slot.head_height_min_mm,
                    neck_mm=own.neck_mm if own else slot.throat_mm * 0.9, reach_mm=deep + 2, shank_mm=slot.throat_mm,
                    flutes=8, material="hss", condition="sharp", measured=("diameter_mm",))
    advice = advise(request, (throat_mill(slot, deep), cutter), shop).advice
    assert advice.answer == "as drawn"
    assert {one.x_mm for one in advice.plans[0].passes if one.cutter_id == 2} == {0.0}
    assert advice.plans[0].proof.gouge_mm == advice.plans[0].proof.left_mm == 0.0


# Slots, measuring, what is preferred.


def test_slot_by_a_smaller_end_mill() -> None:
    """Both walls stepped, (mid W - D) / 2 from the measured size and not the stamped one (geometry)."""
    request = asked("slot", width=".500+.004-0", depth=".300")
    mill = end_mill(1, 0.4375, 1.0, reground=True).but(diameter_mm=0.4310 * INCH, nominal_mm=0.4375 * INCH)
    plan = advise(request, (mill,), SHOP).advice.plans[0]
    at = [one.x_mm for one in plan.passes]
    assert (min(at), max(at)) == (pytest.approx(-(0.502 - 0.431) / 2 * INCH, abs=1e-6),
                                  pytest.approx((0.502 - 0.431) / 2 * INCH, abs=1e-6))
    assert "stepped" in plan.way and (plan.proof.left_mm, plan.proof.gouge_mm) == (0.0, 0.0)


@pytest.mark.parametrize("kind", ["end mill", "disc"])
def test_reground_and_never_measured(kind: str) -> None:
    """A size that places a wall and isn't known: measure first, and what (common practice, no source)."""
    if kind == "end mill":
        request = asked("slot", width=".500", depth=".300")
        cutters: tuple[Cutter, ...] = (end_mill(1, 0.4375, 1.0, diameter_mm=None, nominal_mm=0.4375 * INCH,
                                                reground=True, measured=()),)
    else:
        request = asked("t-slot", throat=".625", depth=".520", head_width=".975", head_height=".240")
        cutters = (KEYSEAT.but(id=1, diameter_mm=None, nominal_mm=KEYSEAT.diameter_mm, reground=True, measured=()),
                   end_mill(2, 0.5, 1.0))
    advice = advise(request, cutters, SHOP).advice
    said = refusal(advice, 1)
    assert (advice.answer, advice.plans, said.answer, said.id) == ("measure first", (), "measure first", "G7")
    assert "mic the diameter" in spelt(said.says)


def test_neck_that_is_not_known() -> None:
    """The neck decides: measure it, and .255 is where it turns (geometry)."""
    advice = advise(WORKED, (MILL, KEYSEAT.but(neck_mm=None)), SHOP).advice
    said = refusal(advice, 2)
    assert (advice.answer, said.answer) == ("measure first", "measure first")
    assert "mic the neck" in spelt(said.says) and ".255" in spelt(said.fix)


def test_nothing_that_does_not_decide_is_asked() -> None:
    """Where the fattest neck that there could be, .98 of the teeth, clears, it isn't asked for (geometry; the share
    from memory)."""
    request = t_slot(0.625, 0.520, 0.640, 0.240, 0.004)
    cutter = disc(2, "t-slot-cutter", 0.640, 0.240, 0.1, 0.75, neck_mm=None)
    assert 0.98 * 0.640 > 0.625, "a neck that could meet the lip is asked for"
    assert advise(request, (end_mill(1, 0.56, 0.75), cutter), BARE).advice.answer == "measure first"
    slim = t_slot(0.625, 0.520, 0.634, 0.240, 0.002)
    cutter = cutter.but(diameter_mm=0.634 * INCH)
    assert 0.98 * 0.634 < 0.625
    advice = advise(slim, (end_mill(1, 0.56, 0.75), cutter), BARE).advice
    assert advice.answer == "as drawn" and advice.plans[0].cutters[1].neck_mm is None


@pytest.mark.parametrize("end_first", [True, False])
def test_no_keyseat_cutter_ploughs_the_throat(end_first: bool) -> None:
    """A keyseat cutter that fits the throat doesn't open it from solid while an end mill that can is owned, even
    where it would save a change of cutters (common practice, no source)."""
    request = t_slot(0.625, 0.520, 0.975, 0.240, 0.004)
    mill = end_mill(1 if end_first else 3, 0.500, 0.75)
    advice = advise(request, (mill, KEYSEAT.but(face_mm=0.240 * INCH)), SHOP).advice
    plan = advice.plans[0]
    assert {one.cutter_id for one in plan.passes if one.room == "throat"} == {mill.id}
    assert not any(warning.id == "BU1" for warning in plan.warnings)
    alone = advise(request, (KEYSEAT.but(face_mm=0.240 * INCH),), SHOP).advice
    assert alone.answer != "as drawn"
    assert all(any(w.id == "BU1" and w.grade == "caution" for w in one.warnings) for one in alone.plans)


# Traps: each `cannot`, with both numbers.


def only(cutter: Cutter, request: Request = WORKED, shop: Shop = SHOP) -> Refusal:
    advice = advise(request, (MILL, cutter), shop).advice
    assert (advice.answer, advice.plans) == ("cannot", ())
    return refusal(advice, 2)


def both(said: Refusal, has: float, needs: float, *shown: str) -> None:
    """Both numbers, as data [in] and in words."""
    assert said.answer == "cannot"
    assert (said.has_mm, said.needs_mm) == (pytest.approx(has * INCH, abs=2e-6), pytest.approx(needs * INCH, abs=2e-6))
    assert all(one in spelt(said.says) for one in shown), spelt(said.says)


def test_trap_neck_hits_the_throat_wall() -> None:
    """A - (B - D) - 2c = .625 - .350 - .020 (geometry)."""
    both(only(KEYSEAT.but(neck_mm=0.375 * INCH)), 0.375, 0.255, ".375", ".255", "neck")


def test_trap_face_taller_than_the_head() -> None:
    """A face of 1/4 in a head of .240 (geometry)."""
    said = only(KEYSEAT.but(face_mm=0.250 * INCH))
    both(said, 0.250, 0.240, ".250", ".240", "face")
    assert (said.id, spelt(said.fix)) == ("FC1", "a face of .240 or less would go in")


def test_trap_shank_meets_the_top_of_the_work() -> None:
    """The depth, .520, and .030 over it are needed from the lower face to the shank (geometry; the clearance common
    practice, no source)."""
    said = only(KEYSEAT.but(reach_mm=0.500 * INCH))
    both(said, 0.500, 0.550, ".500", ".550", "shank")
    assert (said.id, spelt(said.fix)) == ("RE2", "reach of .550 or more would do")


def test_trap_no_collet_for_the_shank() -> None:
    """Collets 3/8 and 5/8, a shank of 1/2 (common practice, no source: a collet takes its own size)."""
    said = only(KEYSEAT, shop=Shop(collets_mm=(0.375 * INCH, 0.625 * INCH)))
    both(said, 0.375, 0.500, "1/2", "3/8", "collet")
    assert said.id == "HD1"


def test_trap_disc_wider_than_the_head() -> None:
    """Too wide by a thou (geometry)."""
    both(only(KEYSEAT.but(diameter_mm=0.976 * INCH)), 0.976, 0.975, ".976", ".975")


def test_every_fix_reads_as_a_length() -> None:
    """What a refusal names can be typed as it stands."""
    for cutter in (KEYSEAT.but(neck_mm=0.375 * INCH), KEYSEAT.but(face_mm=0.250 * INCH),
                   KEYSEAT.but(reach_mm=0.500 * INCH)):
        found = re.search(r"of (\S+) or (?:less|more)", spelt(only(cutter).fix))
        assert found and read(found[1], "in").mm > 0

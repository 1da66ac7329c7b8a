"""Dovetails, chamfers and V-grooves: the handbook's numbers, and plans that come out with them."""

from __future__ import annotations

from math import ceil, cos, radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import draw
from crib.features.base import Feature
from crib.geometry.region import Region
from crib.handbook import bands, chamfers, deviations, dovetails
from crib.handbook.materials import find_material
from crib.machining.methods import why_not
from crib.machining.methods.base import Limits
from crib.machining.tool import ready
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Plan, Refusal
from crib.shop import Shop
from tests.slant_samples import CRIB, IN, MILLS, chamfer_cutter, dovetail_cutter, end_mill, pointed
from tests.spelt import spelt

HANDBOOK = "Machinery's Handbook, measuring dovetail slides"


def plans(kind: str, *cutters: Cutter, **texts: str) -> tuple[Plan, ...]:
    return advise(read_request(kind, {"material": "mild steel", **texts}, Shop(), "in"), cutters, Shop()).advice.plans


def refused(kind: str, cutter: Cutter, **texts: str) -> Refusal:
    found = advise(read_request(kind, texts, Shop(), "in"), (*MILLS, cutter), Shop()).advice
    assert not found.plans and found.answer == "cannot"
    return next(one for one in found.refused if one.cutter.id == cutter.id)


def figure(plan: Plan, words: str) -> float:
    found = [one.mm for one in plan.figures if words in spelt(one.what)]
    assert found and found[0] is not None, words
    return found[0] / IN


SMALL = {"angle": "60", "width": "1.5", "depth": ".300"}


def question(texts: dict[str, str]) -> Feature:
    return draw(read_request("dovetail", texts, Shop(), "in"))


@pytest.mark.parametrize(("angle", "k", "source"), [
    (60, 2.73205, HANDBOOK), (55, 2.92098, HANDBOOK), (50, 3.14451, HANDBOOK), (45, 3.41421, HANDBOOK)])
def test_pin_constants(angle: float, k: float, source: str) -> None:
    assert dovetails.pin_constant(angle) == pytest.approx(k, abs=5e-6), source


def test_over_pins_and_flank_run() -> None:
    """Machinery's Handbook, measuring dovetail slides: the method; the numbers recomputed from it."""
    assert dovetails.over_pins(2.000, 0.500, 60) == pytest.approx(3.3660, abs=5e-5)
    assert dovetails.flank_run(0.500, 55) == pytest.approx(0.3501, abs=5e-5)


@given(st.floats(0.5, 20), st.floats(30, 80))
def test_a_pin_by_its_centre(pin: float, angle: float) -> None:
    """Geometry: a pin touches floor and flank where its centre is a radius from both."""
    centre = pin / 2 / tan(radians(angle) / 2)
    assert dovetails.over_pins(10, pin, angle) == pytest.approx(10 + 2 * (centre + pin / 2))
    assert dovetails.between_pins(90, pin, angle) == pytest.approx(90 - 2 * (centre + pin / 2))
    assert dovetails.pin_contact(pin, angle) == pytest.approx(pin / 2 + pin / 2 * cos(radians(angle)))


@given(st.floats(1.5, 80), st.floats(0.5, 20), st.floats(30, 80), st.sampled_from(("in", "mm")))
def test_two_pins_go_in_with_room_to_measure(width: float, height: float, angle: float, units: str) -> None:
    """Geometry: pins lie in both corners at once. The largest that only touch low enough were taken, and a slot in
    which two of them met was told to be measured between pins without a number. What an inside micrometer goes into is
    from memory."""
    step = 25.4 / 16 if units == "in" else 1.0
    alone, pin = dovetails.suitable_pin(height, angle, units), dovetails.suitable_pin(height, angle, units, width)
    if pin is None:
        assert alone is None or dovetails.between_pins(width, step, angle) <= 0
        return
    assert alone is not None and pin <= alone
    assert dovetails.between_pins(width, pin, angle) >= (bands.INSIDE_MM - 1e-6 if pin > step + 1e-6 else 0)
    assert pin == alone or dovetails.between_pins(width, pin + step, angle) < bands.INSIDE_MM + 1e-6


@pytest.mark.parametrize(("found", "given", "source"), [
    (dovetails.flank_error(0.300, 45, 60), 0.1268, "geometry, worked here"),
    (dovetails.square_corner_short(0.250, 60), 0.1250, "geometry, worked here"),
    (deviations.staircase_ridge(0.020, 30), 0.0173, "geometry, worked here"),
    (chamfers.leg_ratio(60), 0.577, "geometry: tan 30 degrees"),
    (chamfers.leg_ratio(82), 0.869, "geometry: tan 41 degrees"),
])
def test_deviations(found: float, given: float, source: str) -> None:
    assert found == pytest.approx(given, abs=10 ** -len(f"{given}".split(".")[1]) / 1.9), source


@pytest.mark.parametrize(("metal", "step"), [("mild steel", 0.020), ("grey iron", 0.030), ("6061", 0.040)])
def test_side_steps(metal: str, step: float) -> None:
    """Common practice, no source."""
    found = plans("dovetail", *CRIB, angle="60", width="1.5", depth=".300", material=metal)[0]
    sides = [one.radial_mm / IN for one in found.passes if one.room == "flanks"]
    assert max(sides) <= step + 1e-6 and max(sides) > 0.8 * step
    assert sides[-1] == pytest.approx(0.005)


def test_a_dovetail_by_the_book() -> None:
    """Offset (mid Wb - Dd) / 2 and metal at the corner (Wb - Wr) / 2: geometry; between pins: Machinery's Handbook."""
    plan = plans("dovetail", *CRIB, angle="60", width="1.5", depth=".300", pin="3/8")[0]
    assert plan.answer == "as drawn" and plan.proof.left_mm == plan.proof.gouge_mm == 0
    assert figure(plan, "flanks: axis offset") == pytest.approx((1.5 - 0.75) / 2, abs=1e-6)
    flanks = [one for one in plan.passes if one.room == "flanks"]
    assert {round(one.z_mm / IN, 6) for one in flanks} == {-0.3}, "one height"
    assert max(one.x_mm for one in flanks) == pytest.approx((1.5 - 0.75) / 2 * IN, abs=1e-5)
    rough = 1.495 - 2 * 0.300 / tan(radians(60)) - 0.040
    assert figure(plan, "metal at each corner") == pytest.approx((1.5 - rough) / 2, abs=1e-4)
    assert figure(plan, "size between pins of 3/8") == pytest.approx(1.5 - 0.375 * 2.73205, abs=1e-5)
    assert figure(plan, "the pin touches") == pytest.approx(0.75 * 0.375, abs=1e-6)
    back = [one for one in flanks if one.x_mm > 0]
    assert len(back) == ceil(((1.5 - rough) / 2 - 0.005) / 0.020) + 1, "steps of .020 and a last one of .005"
    assert flanks[: len(back)] == back, "first the back flank, then the front one"


@pytest.mark.parametrize("given", [
    {"width": "1.5"}, {"opening": f"{1.5 - 0.6 / tan(radians(60)):.6f}"},
    {"between_pins": f"{1.5 - 0.375 * 2.7320508:.6f}", "pin": "3/8"}])
def test_a_width_three_ways(given: dict[str, str]) -> None:
    """Geometry, and Machinery's Handbook for the pins: the same slot, whichever size it was measured by."""
    plan = plans("dovetail", *CRIB, angle="60", depth=".300", **given)[0]
    assert figure(plan, "flanks: axis offset") == pytest.approx(0.375, abs=2e-6)


def test_a_slide_by_the_book() -> None:
    """Axis (Wn + Dd) / 2 from the middle: geometry; over pins: Machinery's Handbook."""
    plan = plans("dovetail-slide", *CRIB, angle="60", width="2.000", height=".400", pin="1/2")[0]
    assert plan.answer == "as drawn" and plan.proof.left_mm == plan.proof.gouge_mm == 0
    assert figure(plan, "back flank: axis from the centre line") == pytest.approx((2 + 1.0) / 2, abs=1e-6)
    assert figure(plan, "size over pins of 1/2") == pytest.approx(3.3660, abs=5e-5)
    assert figure(plan, "width at the top") == pytest.approx(2 + 0.8 / tan(radians(60)), abs=1e-6)
    flanks = [one for one in plan.passes if "flank" in one.room]
    assert {one.direction for one in flanks} == {"conventional"}
    assert [one.room for one in flanks] == sorted(one.room for one in flanks), "the back flank first"


@pytest.mark.parametrize("given", [
    {"width": "2"}, {"top": f"{2 + 0.8 / tan(radians(60)):.6f}"}, {"over_pins": "3.3660254", "pin": "1/2"}])
def test_a_slide_three_ways(given: dict[str, str]) -> None:
    """Geometry, and Machinery's Handbook for the pins."""
    plan = plans("dovetail-slide", *CRIB, angle="60", height=".400", **given)[0]
    assert figure(plan, "back flank: axis from the centre line") == pytest.approx(1.5, abs=2e-6)


def test_a_wrong_angle() -> None:
    """Geometry: h |1 / tan(45) - 1 / tan(60)| = .1268 for .300."""
    found = refused("dovetail", dovetail_cutter(9, 0.75, 45, 0.3125, 0.1), angle="60", width="1.5", depth=".300")
    assert found.id == "AN1" and found.has_mm == pytest.approx(0.1268 * IN, abs=5e-5 * IN)


def test_a_square_corner() -> None:
    """Geometry: D cos(60), .125 for a cutter of .250."""
    quarter = end_mill(9, 0.250)
    found = advise(read_request("dovetail", SMALL, Shop(), "in"), (end_mill(1, 0.5), quarter), Shop()).advice
    case = {one.cutter.id: one for one in found.refused}
    assert not found.plans and "flanks" in spelt(found.says)
    assert 9 not in case or case[9].id == "AN3"
    tool = ready(quarter, Shop(), find_material("mild steel"))
    assert tool is not None
    miss = why_not(tool, question(SMALL).outline, question(SMALL).outline.rooms[1], Region(), Limits(4))
    assert miss.id == "AN3" and miss.has == pytest.approx(0.125 * IN, abs=1e-6)


@pytest.mark.parametrize(("neck", "may"), [(0.133, True), (0.1337, False)])
def test_two_heights_as_far_as_the_neck_allows(neck: float, may: bool) -> None:
    """Geometry: dn <= Dd - 2 h / tan(60) - 2 cn = .500 - .3464 - .020 = .1336."""
    short = dovetail_cutter(9, 0.5, 60, 0.1875, neck)
    if not may:
        found = refused("dovetail", short, angle="60", width="1.5", depth=".300")
        assert found.id == "NK3" and found.needs_mm == pytest.approx(0.1335 * IN, abs=1e-4 * IN)
        return
    plan = plans("dovetail", *MILLS, short, angle="60", width="1.5", depth=".300")[0]
    assert plan.answer == "extra passes" and "two levels" in plan.way
    heights = sorted({one.z_mm / IN for one in plan.passes if one.room == "flanks"})
    dz = 0.300 - 0.1875 + 0.01875
    assert heights == pytest.approx([-0.300, -0.300 + dz], abs=1e-5)
    ends = [max(one.x_mm for one in plan.passes if one.z_mm / IN == pytest.approx(z)) / IN for z in heights]
    assert ends == pytest.approx([0.5, 0.5 - dz / tan(radians(60))], abs=1e-5)
    assert {face.joints for face in plan.proof.faces if "flank" in face.name} == {1}


def test_where_a_chamfer_cutter_stands() -> None:
    """Geometry: axis d0 / 2 + e tan(b) outside the wall, tip at -(a + e), diameter used d0 + 2 (a + e) tan(b)."""
    plan = plans("chamfer", chamfer_cutter(6, 0.5, 90, 0.0625), size=".125")[0]
    last = plan.passes[-1]
    assert plan.answer == "as drawn" and plan.proof.left_mm == plan.proof.gouge_mm == 0
    assert last.x_mm / IN == pytest.approx(0.0625 / 2 + 0.030, abs=1e-6)
    assert last.z_mm / IN == pytest.approx(-0.155, abs=1e-6)
    assert figure(plan, "widest that it cuts with") == pytest.approx(0.3725, abs=1e-6)
    assert len({one.x_mm for one in plan.passes}) == 1, "one place"


@pytest.mark.parametrize(("kind", "angle", "ratio"), [
    ("chamfer-cutter", 60, ".577"), ("countersink", 82, ".869"), ("centre-drill", 60, ".577")])
def test_another_angle_for_a_chamfer(kind: str, angle: float, ratio: str) -> None:
    """Geometry: the legs come out in the ratio tan(A / 2)."""
    found = refused("chamfer", pointed(9, kind, 0.5, angle), size=".125")
    assert found.id == "AN1" and ratio in spelt(found.says) and "1.000" in spelt(found.says)
    assert found.has_mm == pytest.approx(0.125 * IN * float(ratio), abs=0.001 * IN)


def test_a_chamfer_for_the_eye() -> None:
    """Two degrees off, where the drawing bears one: a compromise, and by how much. Geometry: .3 (1 - tan 43)."""
    plan = plans("chamfer", chamfer_cutter(6, 0.875, 86, 0.0), size=".3")[0]
    off = next(one for one in plan.deviations if "angle" in spelt(one.says))
    assert plan.answer == "compromise" and off.has_mm / IN == pytest.approx(0.3 * (1 - tan(radians(43))), abs=1e-5)
    assert plan.proof.gouge_mm == 0


def test_what_a_tip_leaves_in_the_root() -> None:
    """Geometry: a flat of .030 leaves .015 in the root of a 90 degree groove."""
    plan = plans("v-groove", chamfer_cutter(6, 0.5, 90, 0.030), angle="90", width=".4+0-0")[0]
    assert plan.answer == "compromise" and spelt(plan.deviations[0].says) == "metal left in the root"
    assert plan.deviations[0].has_mm / IN == pytest.approx(0.015, abs=2e-5)
    sharp = plans("v-groove", pointed(9, "spot-drill", 0.5, 90), angle="90", width=".4")[0]
    assert sharp.answer == "extra passes" and sharp.passes[-1].z_mm / IN == pytest.approx(-0.2, abs=1e-5)


def test_a_gib_sets_the_front_flank_over() -> None:
    """Geometry: (g + gap) / sin(a) along the floor; the gap common practice, no source."""
    with_it = plans("dovetail", *CRIB, angle="60", width="1.5", depth=".300", gib="3/16")[0]
    without = plans("dovetail", *CRIB, angle="60", width="1.5", depth=".300")[0]

    def ends(plan: Plan) -> tuple[float, float]:
        xs = [one.x_mm / IN for one in plan.passes if one.room == "flanks"]
        return min(xs), max(xs)

    assert ends(with_it)[1] == pytest.approx(ends(without)[1], abs=1e-6)
    assert ends(without)[0] - ends(with_it)[0] == pytest.approx((0.1875 + 0.0075) / 0.8660254, abs=1e-5)
    assert any("gib" in spelt(text) for text in with_it.assumed)

"""What a foreman sends back: a reading that isn't that of the place it names, a size to a thou that nobody judged, a
remark that tells nothing. Common practice, no source, where none is named."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.features import KINDS, draw
from crib.findings.finding import Finding, off_drawing
from crib.geometry.outline import Opening
from crib.pages.outcome import off_by
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Plan
from crib.rules.ways_of_cutting import makes_size
from crib.shop import Shop, from_json
from tests.sheets import SHOP
from tests.slant_samples import end_mill
from tests.spelt import spelt

IN = 25.4
BENCH = from_json(SHOP)


def plan(kind: str, *cutters: Cutter, shop: Shop = BENCH, **texts: str) -> Plan:
    return advise(read_request(kind, texts, shop, "in"), cutters, shop).advice.plans[0]


def said_by(found: Plan, rule: str) -> list[Finding]:
    return [one for one in found.warnings if one.id == rule]


@given(st.integers(200, 900), st.integers(0, 40), st.booleans())
def test_the_middle_of_a_groove_is_as_far_from_the_edge_as_it_is_told(high: int, more: int, dro: bool) -> None:
    """The reading counted from the wall at its highest, the middle from it at its mean: half of the wall's tolerance
    out. Geometry: the finder's axis stands its radius outside the edge, which is as far from the middle as is told."""
    shop = replace(BENCH, dro=dro)
    height, width = f".{high}+.0{more:02}-0", ".1355"
    found = plan("undercut", end_mill(1, 0.125), shop=shop, width=width, depth=".07", height=height)
    assert found.setup and "on its side" in spelt(found.setup)
    middle = (high + more / 2 + 135.5 / 2) / 1000 * IN
    reading = found.touch_off[0].reading_mm
    assert reading == pytest.approx(middle + shop.finder_mm / 2 - (0 if dro else shop.backlash_mm), abs=0.0005 * IN)


@pytest.mark.parametrize("kind", sorted(KINDS))
def test_every_depth_from_above_is_judged(kind: str) -> None:
    """Of a face and of an elongated hole it wasn't, as its name begins with no room: .078 to half a thou came in one
    bite without a word."""
    feature = draw(read_request(kind, dict(KINDS[kind].example), BENCH, "in"))
    rooms = feature.outline.rooms
    if feature.down or not all(room.opens(Opening.TOP) and not room.lean for room in rooms):
        return
    for one in feature.dimensions:
        if one.sort == "depth" and one.faces:
            assert any(makes_size(room.name, one) for room in rooms), one.name


@pytest.mark.parametrize(("kind", "texts"), [
    ("facing", {"width": "1", "depth": ".05+.0005-.0005"}),
    ("elongated-hole", {"width": ".5", "length": "1", "depth": ".05+.0005-.0005"}),
    ("step", {"width": ".5", "depth": ".05+.0005-.0005"}),
])
def test_a_depth_to_a_thou_off_paper_alone_is_told(kind: str, texts: dict[str, str]) -> None:
    """A depth that comes in one bite counts from the paper; where it comes in two it is measured between them."""
    found = plan(kind, end_mill(1, 0.5), material="6061", **texts)
    heights = {one.z_mm for one in found.passes}
    assert bool(said_by(found, "TO1")) == (len(heights) == 1)


@pytest.mark.parametrize(("band", "kept"), [("0.025", True), ("0.024", False)])
def test_a_thou_is_25_thousandths_of_a_millimetre(band: str, kept: bool) -> None:
    """What holds .001 in with care was outside of .025 mm by 0.000, as the answer had it: a figure of the handbook is a
    round one, in either unit."""
    shop = replace(BENCH, dro=True)
    cutter = end_mill(1, 0.375).but(diameter_mm=9.5)
    question = read_request("slot", {"width": f"12mm+{band}-0", "depth": "5mm", "material": "6061"}, shop, "in")
    found = advise(question, (cutter,), shop).advice.plans[0]
    assert (not found.deviations) == kept


def test_teeth_that_touch_what_stands_beside_are_told_so() -> None:
    """`The walls come out up to .0427 off` stood for a mill that ran along a floor .0422 high, half a tenth too near:
    what overlaps beside the work was told by how high it is."""
    found = plan("undercut", end_mill(1, 0.125), shop=replace(BENCH, dro=True), width="0.1458", depth="0.0702",
                 height="0.2554+.005-0", floor_out="0.0422+.0005-.0005")
    [one] = said_by(found, "RO1")
    assert "touch what stands beside" in spelt(one.says)


def test_no_wall_is_nothing_off() -> None:
    """`The walls come out up to .0000 off` told nothing."""
    found = plan("facing", end_mill(1, 0.375).but(corner_radius_mm=0.0625 * IN), width="3.2656+.003-.003",
                 depth="0.0312+.0005-.0005", shop=replace(BENCH, dro=False, stiffness="bench"))
    for one in said_by(found, "RO1"):
        assert ".0000" not in spelt(one.says)


@pytest.mark.parametrize(("kind", "more"), [("flat-bottomed-hole", {}), ("counterbore", {"hole": "9/32"})])
@given(st.integers(0, 30), st.integers(0, 40))
def test_what_is_plunged_to_limits_is_judged_as_a_hole_is(kind: str, more: dict[str, str], under: int, over: int
                                                          ) -> None:
    """`Right cutter for the job` stood for a .499 mill in a flat-bottomed hole of .5000 to .5005, which as a plain hole
    it couldn't hold: a plunged mill cuts a thou over its size, a thou either way as usual and half of that with
    care."""
    low, high = .500 - under / 10000, .500 + over / 10000
    texts = {"diameter": f"{low:.4f} to {high:.4f}", "depth": "1/4", "material": "6061", **more}
    mill = end_mill(1, 0.499)
    if high - low < 0.0002:
        return
    found = advise(read_request(kind, texts, BENCH, "in"), (mill,), BENCH).advice.plans
    if found:
        assert bool(found[0].deviations) == (under < 5 or over < 5)
        usual = under >= 10 and over >= 10
        assert any("as usual" in spelt(one.says) for one in said_by(found[0], "G12")) == (not usual)


def test_no_mill_is_plunged_from_solid_beside_a_drill_for_it() -> None:
    """Where a caution stood on both it was the cheaper: its own said to drill first."""
    drill = Cutter(2, "drill", diameter_mm=31 / 64 * IN, angle_deg=118.0, material="hss", condition="sharp")
    found = plan("flat-bottomed-hole", end_mill(1, 0.499), drill, diameter="1/2+.005-0", depth="3/8", material="6061")
    assert [one.id for one in found.cutters] == [2, 1]


@pytest.mark.parametrize("through", ["yes", ""])
def test_chips_are_out_of_a_blind_hole_before_its_tap(through: str) -> None:
    """Those of the drill lie on its floor, and the tap runs up against them."""
    tap = Cutter(2, "tap", thread="1/4-20", tap_chamfer="plug", flutes=4, material="hss", condition="sharp")
    drill = Cutter(1, "drill", diameter_mm=0.201 * IN, angle_deg=118.0, material="hss", condition="sharp")
    texts = {"thread": "1/4-20", "depth": "1/2", "material": "6061"} | ({"through": through} if through else {})
    last = plan("tapped-hole", drill, tap, **texts).passes[-1]
    assert ("chips out of the hole" in spelt(last.says)) == (not through)


@pytest.mark.parametrize(("kind", "more"), [("flat-bottomed-hole", {}), ("counterbore", {"hole": "9/32"})])
@pytest.mark.parametrize(("band", "told"), [("+.0005-.0005", True), ("+.003-.003", False)])
def test_a_floor_to_a_thou_in_one_stroke_is_told(kind: str, more: dict[str, str], band: str, told: bool) -> None:
    found = plan(kind, end_mill(1, 0.5), diameter=".502+.003-.003", depth=f"1/4{band}", material="6061", **more)
    assert bool(said_by(found, "TO1")) == told


@given(st.integers(6, 40), st.integers(60, 700), st.booleans())
def test_no_pass_lies_wholly_under_what_is_cut_through(across: int, thick: int, few: bool) -> None:
    """A mill of .114 took its last bite under the plate: only the last goes on past the underside, from over it."""
    size, deep = across / 64, thick / 1000
    mill = end_mill(1, size, 2.5).but(diameter_mm=(size - 0.011) * IN)
    texts = {"width": f"{size:.4f}", "length": f"{3 * size:.4f}", "through": "yes", "depth": f"{deep}",
             "material": "304" if few else "6061"}
    found = advise(read_request("elongated-hole", texts, BENCH, "in"), (mill,), BENCH).advice.plans
    for one in found[:1]:
        heights = sorted({cut.z_mm for cut in one.passes if cut.role == "rough"})
        assert all(z > -deep * IN + 1e-6 for z in heights[1:])


@pytest.mark.parametrize(("band", "kept"), [("+.0014-0", False), ("+.005-0", True)])
def test_the_length_of_an_elongated_hole_is_judged_and_measured(band: str, kept: bool) -> None:
    """Its width and its depth were, and its length to a thou never."""
    found = plan("elongated-hole", end_mill(1, 0.25, 0.6), shop=replace(BENCH, dro=False), width=".250+.008-.003",
                 length=f"1{band}", depth=".25", material="6061")
    assert any(spelt(one.what) == "hole length" for one in found.checks)
    assert (not found.deviations) == kept


@pytest.mark.parametrize(("band", "by"), [("+.001-0", "slips"), ("+.01-0", "caliper")])
def test_no_caliper_tells_a_thou_from_the_end(band: str, by: str) -> None:
    """It stood for whatever lies under a lip, or in from the side, however close its limits."""
    disc = Cutter(1, "slitting-saw", diameter_mm=4 * IN, face_mm=IN / 16, bore_mm=IN, material="hss", condition="sharp")
    found = plan("slit", disc, material="brass", width="1/16", depth=f".5{band}")
    assert [one.instrument for one in found.checks if spelt(one.what) == "slit depth"] == [f"{by} from the end"]


@pytest.mark.parametrize("kind", sorted(KINDS))
@pytest.mark.parametrize("ends", ["open", "one", "closed"])
def test_nobody_is_told_to_lift_clear_and_to_go_on_without(kind: str, ends: str) -> None:
    """Beside a pocket's way, which goes back along a strip without lifting, stood: lift clear before coming back."""
    texts = KINDS[kind].example | ({"ends": ends, "length": "2-1/2"} if ends in KINDS[kind].ends[1:] else {})
    mills = [end_mill(number, size) for number, size in enumerate((0.1875, 0.25, 0.375, 0.5, 0.75), 1)]
    for found in advise(read_request(kind, texts, BENCH, "in"), mills, BENCH).advice.plans:
        goes_on = {one.room for one in found.passes if one.entry == "on"}
        for one in said_by(found, "LR1"):
            assert not any(f"the {room}" in spelt(one.says) for room in goes_on if any(
                each.room == room and each.role == "finish" for each in found.passes))


def test_who_is_as_wide_as_the_slot_lifts_clear() -> None:
    """Its walls are those of the full-width cut: nothing takes off them what coming back would leave."""
    for texts in ({}, {"ends": "closed", "length": "2"}):
        found = plan("slot", end_mill(1, 0.375), width=".375+.003-.002", depth="1/4", **texts)
        assert len({one.x_mm for one in found.passes}) == 1 and said_by(found, "LR1")


@pytest.mark.parametrize("kind", sorted(name for name, one in KINDS.items() if "closed" in one.ends))
def test_a_length_between_closed_ends_is_judged_and_measured(kind: str) -> None:
    """A closed slot with .001 between its ends was right as drawn, and nobody measured it."""
    texts = dict(KINDS[kind].example) | {"ends": "closed", "length": "2-1/2+.0005-.0005"}
    feature = draw(read_request(kind, texts, BENCH, "in"))
    assert [one.size.band for one in feature.dimensions if one.sort == "length"][:1] == [pytest.approx(0.0254)]
    mills = [end_mill(number, size) for number, size in enumerate((0.1875, 0.25, 0.375, 0.5, 0.625, 0.75), 1)]
    plans = advise(read_request(kind, texts, BENCH, "in"), mills, BENCH).advice.plans
    assert plans or kind not in ("slot", "pocket")
    for found in plans:
        assert found.answer == "compromise" and any("length" in spelt(one.what) for one in found.checks)


@pytest.mark.parametrize("kind", sorted(name for name, one in KINDS.items() if "one" in one.ends))
@pytest.mark.parametrize(("band", "kept"), [("+.0002-.0002", False), ("+.003-.003", True)])
def test_the_length_to_one_closed_end_is_judged_and_measured(kind: str, band: str, kept: bool) -> None:
    """A tolerance behind it was an error, and nobody measured where the stop had left it. To the middle of its limits:
    where the stop is set is as far from that as the cutter's axis from the end."""
    texts = dict(KINDS[kind].example) | {"ends": "one", "length": f"2-1/2{band}"}
    feature = draw(read_request(kind, texts, BENCH, "in"))
    assert [one.size.mid for one in feature.dimensions if one.sort == "length"] == [pytest.approx(2.5 * IN)]
    mills = [end_mill(number, size) for number, size in enumerate((0.1875, 0.25, 0.375, 0.5, 0.625, 0.75), 1)]
    plans = advise(read_request(kind, texts, BENCH, "in"), mills, BENCH).advice.plans
    assert plans or kind not in ("slot", "step")
    for found in plans:
        assert (found.answer == "compromise") != kept
        [length] = [one for one in found.checks if "length" in spelt(one.what)]
        assert "rod" in length.instrument or "depth micrometer" in length.instrument


def test_an_end_that_runs_out_has_no_length_to_hold() -> None:
    texts = dict(KINDS["keyseat"].example) | {"ends": "one", "length": "2+.0002-.0002", "run_out": "yes"}
    assert not any(one.sort == "length" for one in draw(read_request("keyseat", texts, BENCH, "in")).dimensions)


@given(st.integers(4, 120), st.integers(1, 40), st.booleans())
def test_a_surface_to_limits_is_finished_and_measured_before(deep: int, band: int, fly: bool) -> None:
    """A face of .118 to .119 came in one bite of all there was to take, as nothing in its name says that it is a floor.
    How thick the work still is tells what the last bite takes, for a rod has nothing to stand on."""
    question = read_request("facing", {"width": "2", "depth": f"{deep / 1000}+.{band:03}-0", "material": "6061"}, BENCH,
                            "in")
    for found in advise(question, (end_mill(1, 0.75),), BENCH).advice.plans:
        last = min(one.z_mm for one in found.passes)
        above = [one for one in found.passes if one.z_mm > last]
        wants = band < 4 and deep + band / 2 > 20
        if wants:
            assert max(one.z_mm for one in found.passes if one.z_mm > last) > last and {
                one.role for one in found.passes if one.z_mm == last} == {"floor"}
        checks = [one for one in found.checks if one.low_mm is None]
        assert [one.after_no for one in checks] == ([above[-1].no] if above else [])
        assert all(one.instrument == "micrometer" for one in checks)


@given(st.integers(1, 40))
def test_a_head_to_limits_is_measured_before_its_walls_are_finished(band: int) -> None:
    """Its throat was, and its head only when nothing could be mended."""
    mill, disc = end_mill(1, 0.5, 1.0), Cutter(2, "keyseat-cutter", diameter_mm=0.75 * IN, face_mm=0.1875 * IN,
                                               neck_mm=0.25 * IN, reach_mm=IN, shank_mm=0.5 * IN, flutes=8,
                                               material="hss", condition="sharp", measured=("diameter_mm",))
    plans = advise(read_request("t-slot", {
        "throat": "5/8+.002-0", "depth": ".520", "head_width": f".975+.{band:03}-0", "head_height": ".240+.01-.01"},
        BENCH, "in"), (mill, disc), BENCH).advice.plans
    for found in plans:
        finish = [one for one in found.passes if one.room == "head" and one.role == "finish"]
        checks = [one for one in found.checks if spelt(one.what) == "width of the head"]
        assert len(checks) == (1 if band < 4 and finish else 0)
        for one in checks:
            before = [each for each in found.passes if each.room == "head" and each.no <= one.after_no]
            assert one.after_no == finish[0].no - 1
            assert one.reads_mm == pytest.approx(0.75 * IN + 2 * max(each.x_mm for each in before), abs=0.0011 * IN)


@given(st.integers(2, 8), st.integers(1, 10))
def test_a_flat_is_measured_before_its_last_bite(number: int, band: int) -> None:
    """What is cut too deep on the first flat is off for all."""
    texts = {"across": f"1/2+.{band:03}-0", "number": str(number), "length": "3/8", "stock": ".7"}
    for found in advise(read_request("flats", texts, BENCH, "in"), (end_mill(1, 0.5),), BENCH).advice.plans:
        first = [one for one in found.checks if spelt(one.what).startswith("first flat")]
        if found.passes[-1].role in ("finish", "floor"):
            assert [one.after_no for one in first] == [found.passes[-1].no - 1, found.passes[-1].no]
            last, before = found.passes[-1], found.passes[-2]
            left = max(abs(last.x_mm - before.x_mm), abs(last.z_mm - before.z_mm))
            assert first[0].reads_mm - first[1].reads_mm == pytest.approx(left, abs=1e-6)


@given(st.integers(100, 400), st.integers(0, 9), st.integers(1, 8), st.booleans())
def test_a_depth_that_is_set_at_its_limit_is_told(thous: int, tenths: int, band: int, dro: bool) -> None:
    """`Right cutter for the job` set a floor of .499 to .500 to .499 by a dial of thous: at the end of its limits."""
    low = thous / 1000 + tenths / 10000
    texts = {"width": ".5", "depth": f"{low:.4f} to {low + band / 4000:.5f}", "material": "6061"}
    request = read_request("step", texts, replace(BENCH, dro=dro), "in")
    size = request.size("depth")
    for found in advise(request, (end_mill(1, 0.75, 1.0),), replace(BENCH, dro=dro)).advice.plans:
        deep = -min(one.dial_z_mm for one in found.passes)
        off = abs(deep - size.mid) / size.band
        if abs(off - 0.4) > 1e-6 and off < 0.5:
            assert bool(said_by(found, "RO2")) == (off > 0.4)


@given(st.floats(1e-5, 0.01))
def test_nothing_is_outside_by_nothing(over: float) -> None:
    """`May come out outside its limits by .0000` stood where a dial missed by a micron what it had to hold."""
    told = spelt(off_by(off_drawing("G12", "the width may come out outside its limits", over, beyond=True, of_mm=1)))
    assert not told.endswith((" .0000", " 0.000"))

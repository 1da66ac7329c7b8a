"""What is told with a plan can be done at the machine: what touches first and in which order, which way the slack of a
screw lies, what goes into a slot to measure it. Common practice, no source, where none is named."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.cutters.drill import KIND
from crib.cutters.proposals import Need
from crib.features import KINDS, draw
from crib.findings.errors import CribError
from crib.geometry.outline import Opening
from crib.handbook.deviations import plunged_round_left
from crib.handbook.drill_sizes import drill_sizes
from crib.intake.shorthand import read_line
from crib.intake.shorthand.line import Shop as Spoken
from crib.pages.above import seen_from_above
from crib.pages.answer import asked, page
from crib.pages.setup_sheet import over_a_hole
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Plan
from crib.shop import Shop, from_json
from tests.sheets import ALL, OWNED, SHOP, answered
from tests.shown import shown
from tests.slant_samples import named
from tests.spelt import spelt

IN = 25.4
SLACK = from_json(SHOP).backlash_mm
ROUND_OR_POINTED = ("countersink", "chamfer-cutter", "corner-rounding-cutter", "spot-drill", "dovetail-cutter")


def plan_of(name: str, dro: bool = False) -> Plan:
    return answered(name, "in", dro).advice.plans[0]


@pytest.mark.parametrize("name", ALL)
def test_a_rod_stands_on_a_flat_floor(name: str) -> None:
    """A depth micrometer was to go down beside a chamfer and into a round, and a rod on a rough face that is gone."""
    plan = plan_of(name)
    kinds = {cutter.id: cutter for cutter in plan.cutters}
    for one in plan.checks:
        cutter = kinds[next(p.cutter_id for p in plan.passes if p.no == one.after_no)]
        if "rod" in one.instrument or "depth micrometer" in one.instrument:
            assert cutter.kind not in ROUND_OR_POINTED and not spelt(one.what).startswith("taken off")
            ball = cutter.corner_radius_mm is not None and cutter.diameter_mm == 2 * cutter.corner_radius_mm
            assert not ball or "depth of the" not in spelt(one.what)
        if "radius" in spelt(one.what):
            assert one.instrument == "radius gauge"


def test_what_is_left_under_a_keyseat_is_miked() -> None:
    """Nothing rests square on the crown of a shaft: what is measured is the floor to the far side, for a 1/4 square key
    in a shaft of 1 in .859 and up to .015 less. ANSI B17.1-1967, table of S (tolerance from memory)."""
    check = next(one for one in plan_of("keyseat").checks if "far side" in spelt(one.what))
    assert check.high_mm is not None and check.low_mm is not None and "key" in check.instrument
    assert check.high_mm / IN == pytest.approx(0.859, abs=6e-4)
    assert check.low_mm / IN == pytest.approx(0.859 - 0.015, abs=6e-4)


def test_a_wall_is_measured_before_its_last_cut() -> None:
    """The finishing pass of a step went off unmeasured: what its wall still lacks shows the error before it counts."""
    plan = plan_of("step")
    last = plan.passes[-1]
    check = next(one for one in plan.checks if one.after_no == last.no - 1)
    left = abs(plan.passes[-2].dial_x_mm - last.dial_x_mm)
    assert check.what == "width of the step" and check.reads_mm == pytest.approx(0.75 * IN - left)


@pytest.mark.parametrize("width", [".045", ".075"])
def test_no_rod_goes_into_a_slot_that_is_narrower(width: str) -> None:
    """A depth micrometer's rod is about 3 mm thick, a caliper's 1.6 (from memory)."""
    shop = from_json(SHOP)
    request = read_request("slot", {"width": f"{width}+.010-0", "depth": ".100", "length": "2"}, shop, "in")
    for one in advise(request, OWNED, shop).advice.plans[0].checks:
        if "depth" in spelt(one.what):
            assert one.instrument != "depth micrometer" and (one.instrument != "caliper's rod" or width == ".075")


@pytest.mark.parametrize("name", ALL)
def test_a_face_touched_off_from_behind_counts_the_slack(name: str) -> None:
    """A dial that was turned back reads less than where the slide stands, by the backlash: the width of a step came out
    wrong by as much. A readout counts the slide itself."""
    by_dial, by_readout = plan_of(name), plan_of(name, dro=True)
    for dial, readout in zip(by_dial.touch_off, by_readout.touch_off, strict=True):
        says = spelt(dial.says)
        from_behind = any(words in says for words in ("back edge", "it opens at", "back of the", "back side"))
        if "edge finder" in says and dial.reading_mm:
            assert dial.reading_mm == pytest.approx((readout.reading_mm or 0.0) - (SLACK if from_behind else 0.0))
        if from_behind:
            assert "backlash" in says and "backlash" not in spelt(readout.says)


@pytest.mark.parametrize("name", ALL)
def test_where_passes_go_across_nothing_comes_from_beyond_a_wall(name: str) -> None:
    """To come a turn beyond the front wall of a pocket and up again would have cut the wall away."""
    plan = plan_of(name)
    told = spelt(plan.handwheels)
    if any(len({y for _, y in one.dial_path_mm}) > 1 for one in plan.passes):
        assert "full turn" not in told and "dialled .008 lower" in told
    else:
        assert "dialled .008 lower" not in told and name not in ("closed slot", "pocket")


@pytest.mark.parametrize("name", ALL)
def test_a_point_is_touched_off_on_metal(name: str) -> None:
    """A countersink was to drag on paper over the hole that it goes into, and a drill in the spot before it."""
    plan = plan_of(name)
    told = [(spelt(one.says), one.each) for one in plan.touch_off]
    if not KINDS[plan_kind(name)].set_ups or any(p.direction != "axial" for p in plan.passes):
        return
    dragged = [place for place, (_, each) in enumerate(told) if each]
    over = [place for place, (says, _) in enumerate(told) if says.startswith("bring the spindle over the hole")]
    if over and dragged and "tip" in told[dragged[0]][0]:
        assert dragged[0] < over[0] and "beside the hole" in told[dragged[0]][0]
    for place in dragged[1:]:
        assert "laid over the hole" in told[place][0] and "thickness" in told[place][0]
    assert len(dragged) <= 2 and all(len(told[place][1]) == 1 for place in dragged[:1])


def plan_kind(name: str) -> str:
    return name if name in KINDS else {"bored hole": "hole"}.get(name, "slot")


def test_a_bore_that_is_felt_is_no_bore_that_is_gauged() -> None:
    """A telescoping gauge is felt and then miked, half a thou off either way (common practice): H7 of 30 mm, .021 wide,
    asks for a bore gauge."""
    shop = from_json(SHOP)
    texts = {"diameter": "1.25", "fit": "H7", "depth": "1/2", "finish": "bored", "material": "1018"}
    plan = advise(read_request("hole", texts, shop, "in"), OWNED, shop).advice.plans[0]
    assert {one.instrument for one in plan.checks if "bore" in spelt(one.what) or "diameter" in spelt(one.what)} == {
        "bore gauge set by a micrometer"}


@pytest.mark.parametrize(("number", "length", "nut"), [("40", "2", ""), ("3", ".2", ""), ("4", "1.9", "7/16")])
def test_gib_screws_that_run_into_one_another_are_refused(number: str, length: str, nut: str) -> None:
    """Forty screws of 1/4 in 2 in of gib were planned, hole in hole."""
    texts = {"thread": "1/4-28", "angle": "60", "height": "3/8", "gib": "1/8", "number": number, "length": length}
    with pytest.raises(CribError, match="side by side along a gib"):
        draw(read_request("gib-screw-holes", texts | ({"nut": nut} if nut else {}), from_json(SHOP), "in"))


@pytest.mark.parametrize("ends", ["one", "closed"])
def test_a_keyseat_seen_from_above_is_as_long_as_it_is(ends: str) -> None:
    """The air beside a round bar has no end: the picture's length was 39.370, a metre, and the seat a stroke in it."""
    texts = {"shaft": "7/8", "length": "1.75", "ends": ends, "material": "1018"}
    found = advise(read_request("keyseat", texts, from_json(SHOP), "in"), OWNED, from_json(SHOP))
    scene = seen_from_above(found.proved[0])
    assert scene is not None
    length = next(one for one in scene.dimensions if one.name == "length")
    assert (length.high - length.low) / 1e6 == pytest.approx(1.75 * IN, abs=0.02 * IN)


@given(st.floats(2.0, 12.0), st.floats(0.05, 0.4), st.booleans())
def test_a_shop_is_offered_a_drill_of_its_own_series(low: float, wide: float, metric: bool) -> None:
    """An inch shop was told to buy a 7 mm drill for a hole of 9/32: its own series comes first wherever one of it is
    expected well inside the limits."""
    def expected(mm: float) -> float:
        return mm + 0.05 + 0.005 * mm

    need = Need(None, 10.0, 0.25, 0.75, lambda shank: True, expected, diameter=(low, low + wide), metric=metric)
    offered = [one.cutter.diameter_mm or 0.0 for one in KIND.proposes(need)]
    own = [mm for mm, name in drill_sizes() if name.endswith("mm") == metric
           and abs(expected(mm) - low - wide / 2) <= 0.4 * wide - 1e-9]
    assert (not own) or offered[0] in own
    assert all(low - 1e-6 <= expected(mm) <= low + wide + 1e-6 for mm in offered)


@pytest.mark.parametrize("kind", KINDS)
def test_the_sheet_says_all_that_was_asked(kind: str) -> None:
    """The sheet of a tapped hole didn't say which thread, that of a bolt circle not how many holes."""
    said = spelt(asked(answered(kind, "in", False).advice))
    for option in KINDS[kind].options:
        if value := KINDS[kind].example.get(option.key):
            assert option.key.replace("_", " ") in said and (value == "yes" or value in said)


@pytest.mark.parametrize("name", ALL)
def test_work_stands_out_of_the_vise_where_the_cutter_runs_out_over_it(name: str) -> None:
    """A step .6 deep at the edge of work that stood .5 out of the jaws was a step in the jaw: it says how far the work
    stands out, lower than the cutter goes. A face that is cut all over bears no clamp."""
    plan, question = plan_of(name), answered(name, "in", False).proved[0].draft.question
    room = question.outline.rooms[0]
    told = spelt(plan.hold)
    if plan_kind(name) == "facing":
        assert "nothing clamped over its top" in told and "or clamped" not in told
    beside = {"step", "facing", "chamfer", "corner-round", "inside-fillet", "dovetail-slide", "bevel"}
    if plan_kind(name) in beside and spelt(plan.setup).startswith("work flat") and room.opens(Opening.TOP):
        high = float(told.partition(" of it at the least")[0].rpartition(" ")[2])
        assert high * IN > -min(one.dial_z_mm for one in plan.passes)
    else:
        assert "above the jaws" not in told


def test_the_rounder_of_the_radius_is_to_be_measured_before_what_else_may_do() -> None:
    """A corner-rounding cutter of the very radius, its pilot not miked, was refused last of all as one without a size;
    countersinks that might leave facets were to be measured."""
    shop = from_json(SHOP)
    mine = (named(1, "countersink", diameter_mm=0.625, angle_deg=90.0),
            named(2, "spot-drill", diameter_mm=0.375, angle_deg=90.0),
            named(3, "corner-rounding-cutter", radius_mm=0.1875, shank_mm=0.5))
    texts = {"radius": "3/16", "length": "5", "material": "1018"}
    found = advise(read_request("corner-round", texts, shop, "in"), mine, shop).advice
    first = found.refused[0]
    assert found.answer == "measure first" and first.cutter.id == 3 and "pilot" in spelt(first.says)


@given(st.floats(1.0, 200.0), st.floats(0.01, 1.0), st.integers(2, 60))
def test_plunges_that_dont_meet_leave_what_stands_between_them(bore: float, share: float, plunges: int) -> None:
    """A thin mill in a wide ring ended in an error of the square root; it never leaves more than its own width, nor
    less with fewer plunges (geometry)."""
    cutter = bore * share
    left = plunged_round_left(bore, cutter, plunges)
    assert -1e-9 <= left <= cutter + 1e-9
    assert plunged_round_left(bore, cutter, plunges + 1) <= left + 1e-9


def test_a_tilted_groove_is_measured_before_its_last_pass() -> None:
    """It is touched off by lines of the layout, and its width was first measured when it was done. A right angle that
    is so deep on its flank is that times the square root of two across its mouth (geometry)."""
    plan = plan_of("v-groove")
    assert spelt(plan.setup).startswith("work tilted")
    check = next(one for one in plan.checks if one.after_no == plan.passes[-2].no)
    assert check.reads_mm == pytest.approx(-plan.passes[-2].dial_z_mm * 2**0.5, rel=0.01)


@pytest.mark.parametrize("name", ["tapped-hole", "hole", "spotface"])
def test_what_is_laid_over_a_hole_is_had_ready(name: str) -> None:
    """Who stands at the machine gets out beforehand what a step asks for."""
    plan = plan_of(name)
    assert (list(over_a_hole([plan])) != []) == any("laid over" in spelt(one.says) for one in plan.touch_off)


@pytest.mark.parametrize(("sort", "turns"), [({}, "a quarter back"), ({"tap_point": "spiral point"}, "never back"),
                                             ({"tap_form": "forming"}, "never back")])
def test_a_tap_is_turned_as_its_chips_want(sort: dict[str, str], turns: str) -> None:
    """A plan said of every tap no more than which way round: a cutting one breaks its chips by being turned back, a
    spiral point pushes them on ahead, a forming one makes none. The second is not started, it finds the thread."""
    shop = from_json(SHOP)
    taps = [one.but(**sort) for one in OWNED if one.kind == "tap"] if sort else [
        one for one in OWNED if one.kind == "tap"]
    mine = [*(one for one in OWNED if one.kind != "tap"), *taps]
    request = read_request("tapped-hole", {"thread": "1/4-20", "depth": ".3", "through": "yes",
                                           "material": "6061"} if sort else
                           {"thread": "1/4-20", "depth": ".4", "material": "6061"}, shop, "in")
    found = advise(request, mine, shop).advice.plans
    says = [spelt(one.says) for one in found[0].passes if one.role == "tap"] if found else []
    assert all(turns in one for one in says)
    assert ["start it square" in one for one in says] == [not number for number in range(len(says))]
    assert sort or len(says) == 2


def test_a_keyseat_in_a_bore_is_told_from_its_floor_to_the_wall_across() -> None:
    """Its depth was to be read with a caliper's rod, beside which nothing is flat, its width with a bore gauge. For a
    bore of 3/4 and its square key the floor is .837 from the far wall at the least. ANSI B17.1-1967, table of T."""
    shop = from_json(SHOP)
    request = read_request("bore-keyseat", {"shaft": "3/4", "hub": "1", "material": "1018"}, shop, "in")
    checks = {spelt(one.what): one for one in advise(request, OWNED, shop).advice.plans[0].checks}
    far = checks["floor to the far wall of the bore"]
    assert far.low_mm is not None and far.low_mm / IN == pytest.approx(0.837, abs=6e-4)
    assert "rod" not in far.instrument and checks["keyseat width"].instrument == "gauge pins or slips"


@pytest.mark.parametrize(("limits", "holds"), [(".499/.501", True), (".4996/.5004", False), (".500/.5007", False)])
def test_a_plunged_mill_is_no_reamer(limits: str, holds: bool) -> None:
    """A mill that is plunged was said to keep H7, .0007 of an inch: with care its hole is as wide as its mill and a
    thou, half a thou more or less (common practice); what is narrower waits for a yes."""
    shop = from_json(SHOP)
    mill = named(1, "end-mill", diameter_mm=0.499, flutes=2, shank_mm=0.5, length_of_cut_mm=1.25, centre_cutting=True)
    drill = named(2, "drill", diameter_mm=0.375, angle_deg=118.0, shank_mm=0.375, length_of_cut_mm=3.0)
    texts = {"diameter": limits, "depth": ".5", "material": "1018"}
    answer = advise(read_request("hole", texts, shop, "in"), [mill, drill], shop).advice.answer
    assert (answer == "extra passes") if holds else (answer == "compromise")


@pytest.mark.parametrize(("kind", "texts", "holds"), [
    ("step", {"width": ".5", "depth": ".25+.0003-0", "length": "3"}, False),
    ("step", {"width": ".5+.0003-0", "depth": ".25", "length": "3"}, False),
    ("step", {"width": ".5", "depth": ".25+.002-0", "length": "3"}, True),
    ("slot", {"width": "5/8", "depth": ".25+.0004-0", "length": "3"}, False),
    ("slot", {"width": "5/8", "depth": ".25+.002-0", "length": "3"}, True),
])
def test_no_setting_holds_three_tenths(kind: str, texts: dict[str, str], holds: bool) -> None:
    """A floor from the surface and a wall from the edge were said to come out to any drawing: a setting that is
    measured before its last cut holds a thou (common practice: what dials or a readout place with care)."""
    shop = from_json(SHOP)
    found = advise(read_request(kind, texts | {"material": "1018"}, shop, "in"), OWNED, shop).advice
    assert (found.answer in ("as drawn", "extra passes")) if holds else (found.answer == "compromise")


def test_a_steel_that_nobody_knows_is_asked_after_down_an_axis_too() -> None:
    """Of a mill for a counterbore that may be carbon steel it was said that no single change would do; in high-speed
    steel, asked again, it does. 30 HRC is over what carbon steel cuts: common practice, no source."""
    shop = from_json(SHOP)
    request = read_request("counterbore", {"diameter": ".568", "depth": ".153", "hole": ".220", "material": "1018",
                                           "hardness": "30 HRC"}, shop, "in")
    mill = next(one for one in OWNED if one.id == 67)
    refusal = next(one for one in advise(request, OWNED, shop).advice.refused if one.cutter.id == 67)
    assert mill.material == "unknown" and refusal.id == "MT1"
    assert "high-speed steel would do" in spelt(refusal.fix, "in")
    known = [one.but(material="hss") if one.id == 67 else one for one in OWNED]
    assert 67 not in {one.cutter.id for one in advise(request, known, shop).advice.refused}


TURNS = tuple(Cutter(number, "end-mill", label=f"{number}/8 mill", diameter_mm=number * 3.175, flutes=2)
              for number in range(1, 5))


def test_one_reason_of_many_cutters_is_told_once() -> None:
    """`it turns, and a keyseat in a bore has no round` stood six times under one another."""
    texts = {"bore": "1", "width": "1/4", "depth": "1/8", "hub": "1.5"}
    lines = shown(page(advise(read_request("bore-keyseat", texts, Shop(), "in"), TURNS, Shop()).advice), "in")
    said = " ".join(" ".join(lines).split())
    assert said.count("has no round") <= 2  # once where it leads, as what would do, and once of the others
    assert all(f"no. {one.id}, {one.label}" in said for one in TURNS)


@pytest.mark.parametrize(("line", "held"), [
    ("1/2 end mill 800 flutes", True), ("1/2 end mill 6 flutes", False), ("3 slitting saw 1/16 x 1 200 teeth", False),
    ("1/32 end mill 4 flutes", False)])
def test_no_cutter_has_eight_hundred_flutes(line: str, held: bool) -> None:
    """Teeth stand two thou apart there (geometry): a slip of the pen."""
    read = read_line(line, Spoken("in"))
    assert (not read.taken) == held and ("nobody grinds" in spelt(read.why)) == held


@pytest.mark.parametrize("line", ["3/8 end mill price -3", "3/8 end mill paid -3.50", "3/8 end mill cost -3 each"])
def test_a_price_below_zero_is_no_length(line: str) -> None:
    [taken] = read_line(line, Spoken("in")).taken
    cutter = taken.cutter
    assert cutter.price is None and cutter.length_of_cut_mm is None
    assert any("price" in one for one in map(spelt, cutter.questions))

"""What a foreman would not sign: numbers that disagree between the passes, what is measured and the picture; words that
stand twice or mean another thing. Common practice, no source, where none is named."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.cutters.base import Cutter
from crib.findings.finding import Grade
from crib.findings.message import ByUnits
from crib.light.records import replace
from crib.pages.answer import page
from crib.pages.blocks import Align, Column, Fit, Row, Table
from crib.pages.more import More
from crib.pages.outcome import proved
from crib.pages.passes import rows
from crib.pages.scenes import scene_of
from crib.planning.advise import advise, best_plan
from crib.planning.ask import read_request
from crib.planning.reckoning.chips import pieces_of, stops
from crib.planning.told.advice import Plan
from crib.render.json.answer import advice_json
from crib.render.terminal.picture import of_scene
from crib.render.terminal.tables import laid_out
from crib.render.words import words
from crib.shop import Shop
from tests.sheets import ALL, answered
from tests.shown import shown
from tests.spelt import spelt

SHOP = Shop(spindle_rpm=(80, 135, 210, 325, 660, 1115), collets_mm=(9.525, 12.7, 16.0, 20.0), chuck_mm=12.7)


def made(kind: str, texts: dict[str, str], *cutters: Cutter) -> Plan:
    return advise(read_request(kind, texts, SHOP, "in"), cutters, SHOP).advice.plans[0]


MILL = Cutter(1, "end-mill", label="1/2 mill", diameter_mm=12.7, flutes=2, shank_mm=12.7, length_of_cut_mm=30.0,
              material="hss", condition="sharp")
DISC = Cutter(2, "t-slot-cutter", label="25 x 11 cutter", diameter_mm=25.0, face_mm=11.0, neck_mm=12.0, reach_mm=32.0,
              shank_mm=16.0, material="hss", condition="sharp")


@pytest.mark.parametrize(("kind", "texts", "what", "reads"), [
    ("slot", {"width": "1/2+.005-0", "depth": "1/4"}, "slot width", 12.7),
    ("t-slot", {"bolt": "M12", "depth": "23 mm", "length": "8"}, "head width", 25.0),
    ("t-slot", {"bolt": "M12", "depth": "23 mm", "length": "8"}, "head height", 11.0),
    ("t-slot", {"bolt": "M12", "depth": "23 mm", "length": "8"}, "throat width", 14.09),
])
def test_what_a_cutter_makes_by_its_own_size_reads_as_that(kind: str, texts: dict[str, str], what: str, reads: float
                                                           ) -> None:
    """A head cut in one pass by a cutter 25 x 11 was to read 24.000 and 10.000, the middle of its limits: whoever
    measured 25 looked for a fault. What is stepped to its aim reads as that."""
    plan = made(kind, texts, MILL, DISC)
    [check] = [one for one in plan.checks if one.what == what]
    assert check.reads_mm == pytest.approx(reads, abs=0.006)
    assert check.low_mm is not None and check.high_mm is not None
    assert check.low_mm - 1e-6 <= check.reads_mm <= check.high_mm + 1e-6


def test_what_is_measured_before_the_wall_has_its_name_of_the_drawing() -> None:
    """Of a step 2 wide and 40 deep, cut on its side, the depth was called `width of the step 39.750`."""
    mill = MILL.but(diameter_mm=20.0, shank_mm=20.0, length_of_cut_mm=38.0)
    plan = made("step", {"width": "2 mm", "depth": "40 mm", "length": "4", "material": "acetal"}, mill)
    told = [(one.what, one.reads_mm) for one in plan.checks]
    assert told[0] == ("depth of the step", pytest.approx(39.75, abs=0.01))
    assert [what for what, _ in told[1:]] == ["step width", "step depth"]


def screen(kind: str, texts: dict[str, str], *cutters: Cutter, units: str = "in") -> str:
    advice = advise(read_request(kind, texts, SHOP, units), cutters, SHOP).advice
    return " ".join(" ".join(shown(page(advice), units)).split())


def test_what_lies_outside_its_limits_lies_outside_by_so_much() -> None:
    """`slot width may come out outside its limits .0013, the drawing allows .000`."""
    said = screen("slot", {"width": "1/2+.0007-0", "depth": "1/4"}, MILL)
    assert "may come out outside its limits by .0" in said and "the drawing allows .000" not in said


def test_what_the_proof_leaves_is_told_once() -> None:
    """`metal left in the corners .013` stood beside `Proved: .007 left standing`: the one is measured across the
    corner, the other along the wall, and whoever read both looked for what else stood."""
    texts = {"width": "2", "length": "3", "depth": "1/4", "corner_radius": "3/16", "material": "brass"}
    plan = made("pocket", texts, MILL.but(centre_cutting=True))
    assert plan.deviations and plan.proof.left_mm > 0
    said = spelt(proved(plan))
    assert said.startswith("nothing left standing but what is outside the drawing") and "." not in said.split(",")[0]


def test_a_question_ends_with_its_own_sign() -> None:
    """`is 45 degrees the flank's angle from the face?. It may do.`"""
    asked = DISC.but(kind="dovetail-cutter", angle_deg=45.0,
                     questions=("is 45 degrees the flank's angle from the face?",))
    said = screen("dovetail", {"angle": "45", "opening": "25 mm", "depth": "7 mm", "length": "2"}, MILL, asked)
    assert "from the face? It may do." in said and "?." not in said


@pytest.mark.parametrize(("units", "step"), [("in", 1.27), ("mm", 1.0)])
@given(length=st.floats(60.0, 900.0), deep=st.floats(1.6, 2.4))
def test_a_pass_stops_for_its_chips_at_figures_that_can_be_set(units: str, step: float, length: float, deep: float
                                                               ) -> None:
    """`every 33.333 and at the end stop`: nobody reads that off a table. No piece is longer than the spacing by more
    than a step, and there are as many as before."""
    for spacing in (25.4, 25.4 * deep):
        found = stops(length, spacing, step)
        assert len(found) == pieces_of(length, spacing) - 1
        assert all(abs(at / step - round(at / step)) < 1e-6 for at in found)
        pieces = [b - a for a, b in pairwise((0.0, *found, length))]
        assert max(pieces) <= spacing + step + 1e-6 and max(pieces) - min(pieces) <= 2 * step + 1e-6


@pytest.mark.parametrize(("units", "step"), [("in", 1.27), ("mm", 1.0)])
def test_a_head_stops_at_whole_steps_of_its_shop(units: str, step: float) -> None:
    texts = {"bolt": "M12", "depth": "23 mm", "length": "200 mm"}
    shop = replace(SHOP, units=units)
    plan = advise(read_request("t-slot", texts, shop, units), (MILL, DISC), shop).advice.plans[0]
    at = [stop for one in plan.passes for stop in one.stops_mm]
    assert at and all(abs(stop / step - round(stop / step)) < 1e-6 for stop in at)


def test_a_head_that_one_pass_makes_has_no_middle_one() -> None:
    """`the middle pass of the head cuts both walls at once` was said of the only one."""
    texts = {"bolt": "M12", "depth": "23 mm", "length": "8"}
    said = [spelt(one.says) for one in made("t-slot", texts, MILL, DISC).warnings if one.id == "CL2"]
    assert said and all(one.startswith("the one pass of the head cuts both walls at once") for one in said)
    low = DISC.but(face_mm=5.5)
    said = [spelt(one.says) for one in made("t-slot", texts, MILL, low).warnings if one.id == "CL2"]
    assert said and all(one.startswith("each pass of the head cuts both walls at once") for one in said)
    wide = DISC.but(diameter_mm=21.0, neck_mm=8.0)
    said = [spelt(one.says) for one in made("t-slot", texts, MILL, wide).warnings if one.id == "CL2"]
    assert said and all(one.startswith("the middle pass of the head") for one in said)


def test_that_a_metal_hardens_is_said_once() -> None:
    """Of a hole in stainless it stood as a caution and again among what to take care of; of a slot it is said there."""
    drill = Cutter(3, "drill", label="1/4 drill", diameter_mm=6.35, length_of_cut_mm=60.0, material="hss",
                   condition="sharp")
    assert screen("hole", {"diameter": "1/4+.010-0", "depth": "1/2", "material": "303"}, drill).count("hardens") == 1
    assert screen("slot", {"width": "1/2", "depth": "1/4", "material": "303"}, MILL).count("hardens") == 1


MILLS = tuple(MILL.but(id=place, label=f"{across:g} mill", diameter_mm=across * 25.4, length_of_cut_mm=1.25 * 25.4,
                       shank_mm=12.7) for place, across in enumerate((0.25, 0.375, 0.46, 0.47, 0.48), 1))


@given(st.sampled_from([("slot", {"width": "1/2+.020-0", "depth": "1/4", "length": "5"}),
                        ("step", {"width": "3/4", "depth": "1/4", "length": "5"}),
                        ("facing", {"width": "1-1/2", "depth": ".05", "length": "5"})]),
       st.sets(st.sampled_from(MILLS), min_size=2), st.sampled_from([0.0, 15.0, 60.0]))
def test_plans_whose_cost_differs_by_less_than_a_tenth_are_as_good(ask: tuple[str, dict[str, str]], mills: set[Cutter],
                                                                   rate: float) -> None:
    """Two plans a cent apart were ranked as if one were better. Which is first stays as it was; what is as good is
    named on the screen, among the other plans, and by its place in the JSON."""
    shop = replace(SHOP, hour_rate=rate)
    advice = advise(read_request(*ask, shop, "in"), sorted(mills, key=lambda one: one.id), shop).advice
    first, *others = advice.plans
    good = [place for place, plan in enumerate(others, 1)
            if plan.answer == first.answer and plan.cost - first.cost < 0.1 * first.cost]
    cautioned = [any(one.grade == Grade.CAUTION for one in plan.warnings) for plan in advice.plans]
    assert [one.place for one in advice.as_good] == [at for at in good if cautioned[at] == cautioned[0]]
    assert advice_json(advice, "in")["as_good"] == [one.place for one in advice.as_good]
    for one in advice.as_good:
        assert one.minutes == advice.plans[one.place].minutes
    told = " ".join(" ".join(shown(page(advice, more={More.OTHERS}), width=100)).split())
    assert told.count("as good as the first") == min(len(advice.as_good), 3)
    assert ("within a tenth of its cost" in told) is bool(advice.as_good)


@pytest.mark.parametrize(("width", "depth"), [("4 mm", "3 mm"), (".3", ".2"), ("1/8", "1/4"), ("1/4", "1/16")])
def test_the_wall_over_an_undercut_is_in_the_picture(width: str, depth: str) -> None:
    """A groove that lies level with the floor was drawn without what stands over it, and of a groove in two levels the
    cutter itself was cut off: the picture ended a sixth of the size over the floor."""
    disc = Cutter(4, "keyseat-cutter", label="disc", diameter_mm=25.4, face_mm=3.0, neck_mm=7.0, reach_mm=20.0,
                  shank_mm=12.7, material="hss", condition="sharp")
    texts = {"width": width, "depth": depth, "length": "3", "material": "brass"}
    there = advise(read_request("undercut", texts, SHOP, "in"), (disc,), SHOP)
    drawn = of_scene(scene_of(there.proved[0]), "in", 60, tall=20)
    teeth = [place for place, row in enumerate(drawn) if "█" in row and "teeth" not in row]
    roof = next(place for place, row in enumerate(drawn) if "┌" in row)
    assert teeth and roof <= teeth[0]
    assert any("╱" in row for row in drawn[:roof])


@pytest.mark.parametrize("units", ["in", "mm"])
@pytest.mark.parametrize("name", ALL)
def test_no_figure_of_a_pass_is_cut_off(name: str, units: str) -> None:
    """In a narrow terminal the feed of 203 mm/min stood as 20: an arrow before a word was counted as no letter, so that
    the table was a sign too wide, and its last sign went."""
    plan = answered(name, units, False).advice.plans[0]
    table, *_ = rows(plan.passes, cutters=False, brief=True)
    assert isinstance(table, Table)
    rate = [column.head for column in table.columns].index(ByUnits("in/min", "mm/min"))
    for width in (60, 63, 72):
        lines = laid_out(table, [()] * len(table.rows), units, width)
        told = {word for line in lines for word in line.split()}
        assert max(map(len, lines)) <= width and words(ByUnits("in/min", "mm/min"), units) in told
        assert {words(row.cells[rate], units) for row in table.rows} <= told


def test_what_is_needed_least_goes_before_a_figure_is_cut_off() -> None:
    """Where not even one blank between them lets the columns in."""
    heads = (Column("pass"), Column("cross", Align.POINT), Column("side", Align.RIGHT, yields=True), Column("in/min"))
    table = Table(heads, (Row(("1", "+12.3450", "1.2500", "18.4")),), fit=Fit.DROP, silent=True)
    assert laid_out(table, [()], "in", 24)[-1].split() == ["1", "+12.3450", "18.4"]
    assert laid_out(table, [()], "in", 40)[-1].split() == ["1", "+12.3450", "1.2500", "18.4"]


@given(st.sampled_from(["1/2+.0007-0", "1/2+.0004-0", "1/2+.002-.001", "1/2±.0003"]), st.booleans(),
       st.sets(st.sampled_from([0.498, 0.4995, 0.5, 0.46, 0.4, 0.375]), min_size=2))
def test_what_keeps_nearer_to_the_drawing_is_named(width: str, dro: bool, mills: set[float]) -> None:
    """A slot that may come out .0013 outside its limits was told first, before the mill that keeps to them within
    .0001: which of two that each want a yes is first went by the cost alone. Of those that are told, and are as good
    before cost, the least missed by its share of the tolerance is first, then the cheapest; one that costs clearly less
    is named beside it. Nothing that lies further outside is as good, either. Common practice, no source."""
    shop = replace(SHOP, dro=dro)
    tools = [MILL.but(id=place, label=f"{across:g} mill", diameter_mm=across * 25.4, centre_cutting=True)
             for place, across in enumerate(sorted(mills), 1)]
    request = read_request("slot", {"width": width, "depth": "1/4", "length": "4"}, shop, "in")
    found = advise(request, tools, shop)
    advice = found.advice
    keys = [(*one.weighed.key[:4], float(f"{max((off.share for off in one.weighed.deviations), default=0):.2g}"),
             *one.weighed.key[4:]) for one in found.proved]
    assert keys == sorted(keys)
    assert (best := best_plan(request, tools, shop)) and best.cutters == advice.plans[0].cutters
    assert [one.place for one in advice.quicker] == [
        at for at, plan in enumerate(advice.plans)
        if plan.cost < 0.9 * advice.plans[0].cost and keys[at][4] > keys[0][4]]
    far = [max((one.has_mm - one.needs_mm for one in plan.deviations if one.id == "G12"), default=0.0)  # type: ignore
           for plan in advice.plans]
    assert [one.place for one in advice.nearer] == [at for at, mm in enumerate(far) if mm < far[0] / 2 - 1e-3]
    assert all(far[one.place] < far[0] + 1e-3 for one in advice.as_good)
    told = " ".join(" ".join(shown(page(advice), width=100)).split())
    assert (" outside the drawing" in told.split("Outside the drawing")[-1]) is bool(advice.nearer or advice.quicker)
    assert advice_json(advice, "in")["nearer"] == [one.place for one in advice.nearer]
    assert advice_json(advice, "in").get("quicker", []) == [one.place for one in advice.quicker]

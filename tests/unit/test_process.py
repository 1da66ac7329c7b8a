"""What a plan tells whoever stands at the machine, against a sheet that was reckoned by hand."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise, product
from math import floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.findings.message import said
from crib.handbook.materials import find_material, materials
from crib.pages.pass_tasks import read
from crib.pages.passes import table
from crib.pages.process import checks
from crib.planning.process import dials
from crib.planning.process.fluid import fluid
from crib.planning.reckoning import chips
from crib.planning.told.advice import Plan
from crib.planning.told.passes import Check, Pass
from crib.shop import Shop
from crib.units.words import words
from tests.shown import shown
from tests.spelt import spelt
from tests.unit.test_cost import BENCH, CUTTERS, SLOT, T_SLOT, best

INCH = 25.4


@pytest.mark.parametrize(("reading", "turns", "divisions"), [
    (1.2500, 6, 50.0), (1.2845, 6, 84.5), (1.2155, 6, 15.5), (1.28125, 6, 81.25), (1.21875, 6, 18.75)])
def test_turns_of_a_sheet_reckoned_by_hand(reading: float, turns: int, divisions: float) -> None:
    """A slot whose centre lies 1.250 behind the front face, on a screw of .200 a turn: reading / .200 is so many whole
    turns, and what is left in thou (worked by hand)."""
    dial = dials.dial("cross", reading * INCH, Shop())
    assert (dial.turns, dial.divisions, dial.slack_from) == (turns, divisions, "front")


@given(st.floats(-300, 300), st.sampled_from([None, 2.54, 3.0, 4.0, 6.35]), st.sampled_from(["in", "mm"]),
       st.sampled_from(["table", "cross", "knee"]))
def test_turns_and_divisions_are_the_reading(reading: float, lead: float | None, units: str, slide: str) -> None:
    """Turns times lead and divisions are the reading, the knee's as it goes up; divisions are less than a turn and not
    below nought, for a dial has no marks below it."""
    shop = Shop(units=units, screw_lead_mm=lead, knee_lead_mm=lead)
    dial, turn = dials.dial(slide, reading, shop), dials.lead_mm(slide, shop)
    mark = 0.0254 if units == "in" else 0.01
    back = dial.turns * turn + dial.divisions * mark
    assert back * (-1 if slide == "knee" else 1) == pytest.approx(reading, abs=0.01 * mark)
    assert 0 <= dial.divisions <= turn / mark + 0.01


@given(st.floats(0, 3), st.floats(0.5, 10))
def test_going_back_passes_the_slack(backlash: float, lead: float) -> None:
    """Back by whole turns, beyond the slack and .020 more (common practice)."""
    shop = Shop(backlash_mm=backlash, screw_lead_mm=lead)
    turns = dials.turns_back("cross", shop)
    assert turns >= 1 and turns * lead >= backlash + 0.508 - 1e-9
    assert turns == 1 or (turns - 1) * lead < backlash + 0.508


@given(st.floats(0.1, 2000), st.sampled_from(materials()), st.floats(0, 50), st.floats(0.5, 50))
def test_stops_for_chips(length: float, material: object, deep: float, opening: float) -> None:
    """An inch or two apart at the most, in even pieces, none at the ends (common practice)."""
    apart = chips.spacing_mm(material, deep, opening)  # type: ignore[arg-type]
    stops = chips.stops(length, apart)
    assert INCH <= apart <= 2 * INCH
    edges = [0.0, *stops, length]
    gaps = [b - a for a, b in pairwise(edges)]
    assert max(gaps) <= apart + 1e-4 and max(gaps) - min(gaps) < 1e-4 and (len(stops) > 0) == (length > apart + 1e-6)


def test_fluid_by_metal_and_operation() -> None:
    """Dry in iron and brass, oil on steel, never water on magnesium, never dry in stainless (common practice)."""
    assert fluid(find_material("grey iron")) == fluid(find_material("brass")) == "dry"
    assert "oil" in fluid(find_material("1018")) and "never dry" in fluid(find_material("304"))
    assert "no water" in fluid(find_material("magnesium"))
    assert "sulphur" not in fluid(find_material("C110")).replace("no sulphur", "")
    assert all(fluid(one) for one in materials())


def test_touching_off() -> None:
    """At the kick the axis stands half the finder outside the face, with a cutter on paper its radius and the paper:
    -.100, and for a mill of .480 on .003 paper -.243; its end drags .003 over the top (geometry)."""
    plan = best("slot", SLOT, BENCH, [CUTTERS[9].but(diameter_mm=0.48 * INCH)])
    face, middle, down = plan.touch_off
    assert face.reading_mm == pytest.approx(-0.1 * INCH) and "-.100" in spelt(face.says) and "-.243" in spelt(face.says)
    assert middle.reading_mm == 0 and down.reading_mm == pytest.approx(0.003 * INCH) and "+.003" in spelt(down.says)
    other = best("slot", SLOT, replace(BENCH, edge_finder_mm=10.0, paper_mm=0.05), CUTTERS)
    assert other.touch_off[0].reading_mm == -5 and other.touch_off[-1].reading_mm == pytest.approx(0.05)


def test_touching_off_beside_a_step() -> None:
    """The edge of the work is the step's width from its wall: at the kick the axis is that and half the finder off it,
    .500 + .100 (geometry), and the dial, turned back to come there, reads the slack less."""
    plan = best("step", {"width": "1/2+.002-.002", "depth": ".2", "length": "4", "material": "1018"})
    first = plan.touch_off[0]
    if spelt(plan.setup).startswith("work flat"):
        assert first.reading_mm == pytest.approx(0.6 * INCH - BENCH.backlash_mm) and "back edge" in spelt(first.says)


def plans() -> list[Plan]:
    return [best("slot", SLOT), best("t-slot", T_SLOT), best("slot", {**SLOT, "ends": "closed"}),
            best("slot", {**SLOT, "ends": "one"}), best("step", {"width": "1/2", "depth": ".2", "length": "4"}),
            best("slit", {"width": "1/16", "depth": "1/2", "length": "6", "material": "1018"})]


def test_what_is_fed_with_is_never_locked() -> None:
    """Along the table cross slide and quill are locked, across it only where nothing is fed across; coming down table
    and cross slide; and dials come to the reading of the pass."""
    for plan in plans():
        for one in plan.passes:
            path = one.dial_path_mm
            assert ("table" in one.locks) == (one.direction == "axial")
            assert ("cross" in one.locks) == (len({y for _, y in path}) <= 1)
            assert set(plan.locks) <= set(one.locks)
            cross = next(dial for dial in one.dials if dial.slide == "cross")
            assert cross.reading_mm == (one.dial_x_mm if one.view == "cross" else one.y_mm)
            assert cross.turns == floor(cross.reading_mm / 5.08 + 1e-9)


def test_in_and_out_the_cutter_is_clear() -> None:
    """Before and after a cut through both ends the axis stands more than the cutter's radius off the work, and it goes
    from where its feed says."""
    for plan in plans():
        radius = {cutter.id: (cutter.diameter_mm or 0.0) / 2 for cutter in plan.cutters}
        for one in plan.passes:
            if one.enters_mm is not None and one.leaves_mm is not None and one.stop_mm is None:
                low, high = sorted((one.enters_mm, one.leaves_mm))
                assert low < -radius[one.cutter_id] and (one.feed == "left") == (one.enters_mm > one.leaves_mm)
                assert high - low > 2 * radius[one.cutter_id]


def test_the_width_before_the_last_wall_is_what_stands() -> None:
    """Both walls' settings and the cutter's diameter: +.064 and -.058 with a mill of .499 leave .621 (by hand)."""
    plan = best("slot", {"width": "5/8+.002-0", "depth": ".3", "length": "4", "material": "1018"})
    last = plan.passes[-1]
    check = next(one for one in plan.checks if one.what.startswith("width") and one.after_no == last.no - 1)
    xs = [one.dial_x_mm for one in plan.passes[:-1]
          if (one.cutter_id, one.dial_z_mm) == (last.cutter_id, last.dial_z_mm)]
    across = next(c.diameter_mm for c in plan.cutters if c.id == last.cutter_id) or 0.0
    assert check.reads_mm == pytest.approx(max(xs) - min(xs) + across, abs=1e-5)
    final = next(one for one in plan.checks if one.low_mm is not None and "width" in one.what)
    assert final.low_mm is not None and final.high_mm is not None and final.low_mm <= final.reads_mm <= final.high_mm


def test_limits_are_told_as_the_drawing_has_them() -> None:
    """A slot of .6184 to .6195 was to be measured as ".618 to .620": whoever measures by that passes one that is too
    wide and one that is too tight. Limits in tenths of a thou are told in tenths."""
    plan = best("slot", SLOT)
    for low, band in product(range(1000, 30000, 997), (1, 7, 10, 11, 40)):
        least, most = low * INCH / 10_000, (low + band) * INCH / 10_000
        one = Check(1, said("slot width"), "micrometer", (least + most) / 2, least, most)
        told = words(checks(replace(plan, checks=(one,))), "in").partition("(")[2].partition(")")[0]
        assert [round(float(limit) * 10_000) for limit in told.split(" to ")] == [low, low + band]


def test_the_set_up_sheet_has_the_limits_of_the_screen() -> None:
    """A slot of .4977 to .4989 for a sliding tongue stood on the sheet as ".498 to .499": the screen had been mended,
    and the paper at the mill passed what the drawing refuses. Nor is the aim rounded on to a limit where the band is
    so narrow: .5006 of .5003 to .5010 was to be measured as .501."""
    for low, band in product(range(1000, 30000, 997), (4, 7, 11, 15)):
        least, most = low * INCH / 10_000, (low + band) * INCH / 10_000
        told = read(Check(1, said("slot width"), "micrometer", (least + most) / 2, least, most))
        assert [round(float(limit) * 10_000) for limit in words(told.limits, "in").split(" to ")] == [low, low + band]
        assert low < round(float(words(told.reads, "in")) * 10_000) < low + band


def hand_fed(plan: Plan) -> list[Pass]:
    return [one for one in plan.passes if one.by_hand]


def test_seconds_an_inch_where_a_hand_feeds() -> None:
    """60 over the feed in inches a minute (arithmetic); with a power feed nobody counts seconds."""
    plan = best("slot", SLOT)
    assert hand_fed(plan) == list(plan.passes)
    rows = [row.split() for row in shown(table(plan.passes))]
    at = rows[0].index("s/in")
    seconds = 60 / (plan.passes[0].mm_per_min / INCH)
    assert float(rows[1][at - len(rows[0])]) == pytest.approx(seconds, abs=0.51)
    powered = best("slot", SLOT, replace(BENCH, power_feed_mm=500.0))
    assert not hand_fed(powered) and "s/in" not in shown(table(powered.passes))[0]


@pytest.mark.parametrize("width", [60, 80, 100])
def test_a_narrow_table_keeps_feed_and_side_step(width: int) -> None:
    for plan in plans():
        head = next(row for row in shown(table(plan.passes), width=width) if row.startswith("pass "))
        assert "in/min" in head and "side" in head and "cross" in head
        assert all(len(row) <= width for row in shown(table(plan.passes), width=width))


@pytest.mark.parametrize(("kind", "pins", "tool"), [
    ("dovetail", 0.7221, "pins and inside micrometer"), ("dovetail-slide", 2.0245, "pins and micrometer")])
def test_a_dovetail_is_measured_across_its_pins(kind: str, pins: float, tool: str) -> None:
    """Nobody can measure across a flank: it goes by two pins in its corners. 55 degrees, floor 2, pins 7/16: 2 - .4375
    (1 + cot 27.5) = .7221; 60 degrees, root 1, pins 3/8: 1 + .375 (1 + cot 30) = 2.0245 (by hand)."""
    from tests.sheets import answered

    plan = answered(kind).proved[0].plan
    last = plan.checks[-1]
    assert (last.instrument, last.after_no) == (tool, plan.passes[-1].no)
    assert last.reads_mm / INCH == pytest.approx(pins, abs=5e-5)

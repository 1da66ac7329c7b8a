"""Each formula against a published or worked row, its source beside it."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from crib.findings.errors import CribError
from crib.handbook import bands, bites, deviations, feeds, speeds
from crib.handbook.materials import find_material

IN = 25.4
IRON, MILD, TOOL = (find_material(words) for words in ("grey iron", "mild steel", "O1"))


@pytest.mark.parametrize(("m_min", "mm", "rpm", "source"), [
    (28, 12, 743, "speed from Carvill, Mechanical Engineer's Data Handbook p. 187; revolutions recomputed"),
    (30.48, 25.4, 382, "N = 12 V / (pi D), recomputed"),
    (60, 70, 272.8, "Groover, milling problem: statement seen, answer from memory"),
    (76.2, 76.2, 318.3, "Groover, face-milling problem: statement seen, recomputed"),
])
def test_revolutions(m_min, mm, rpm, source):
    assert speeds.wanted_rpm(m_min, mm) == pytest.approx(rpm, abs=0.5), source


@pytest.mark.parametrize(("rpm", "teeth", "fz", "feed", "source"), [
    (272.8, 5, 0.25, 341, "Groover, milling problem: statement seen, answer from memory"),
    (318.3, 5, 0.1524, 242.57, "Groover, face-milling problem, 9.55 in/min, recomputed"),
    (100, 20, 0.25, 500, "Kalpakjian and Schmid, slab-milling example, from memory"),
])
def test_table_feed(rpm, teeth, fz, feed, source):
    assert speeds.wanted_rpm(1, 1) and feeds.table_feed(rpm, teeth, fz) == pytest.approx(feed, rel=1e-3), source


@pytest.mark.parametrize(("name", "ft_min"), [
    ("mild steel", 90), ("12L14", 110), ("1045", 70), ("4140", 70), ("prehard", 50), ("O1", 50), ("303", 65),
    ("304", 50), ("grey iron", 65), ("ductile iron", 70), ("6061", 300), ("cast aluminium", 250), ("brass", 200),
    ("SAE 660", 100), ("aluminium bronze", 60), ("manganese bronze", 60), ("copper", 100), ("delrin", 300),
    ("nylon", 300), ("titanium", 40)])
def test_surface_speeds(name, ft_min):
    """Common practice; inside the ranges of several public school-shop tables."""
    assert find_material(name).speed_m_min == pytest.approx(ft_min * 0.3048, abs=1e-9)
    assert "common practice" in find_material(name).speed_source


@pytest.mark.parametrize(("name", "lo", "hi", "source"), [
    ("mild steel", 70, 120, "university shop handout of recommended speeds, mill column"),
    ("tool steel", 40, 70, "university shop handout of recommended speeds, mill column"),
    ("304", 30, 60, "university shop handout of recommended speeds, mill column"),
    ("grey iron", 50, 100, "university shop handout of recommended speeds, mill column"),
    ("6061", 250, 500, "university shop handout of recommended speeds, mill column"),
    ("brass", 150, 300, "university shop handout of recommended speeds, mill column, top capped"),
    ("copper", 100, 200, "university shop handout of recommended speeds, mill column"),
    ("titanium", 40, 60, "university shop handout of recommended speeds, mill column"),
    ("bronze", 80, 150, "Carvill, Mechanical Engineer's Data Handbook p. 187 (115 ft/min), range from memory"),
])
def test_surface_speeds_lie_in_published_ranges(name, lo, hi, source):
    assert lo <= find_material(name).speed_ft_min <= hi, source


@pytest.mark.parametrize(("operation", "factor"), [
    ("milling", 1.0), ("buried", 0.7), ("sawing", 0.5), ("forming", 0.5), ("drilling", 0.9), ("boring", 0.9),
    ("reaming", 0.45), ("counterboring", 0.4), ("countersinking", 0.3), ("fly cutting", 0.8), ("tapping", 0.25)])
def test_operation_factors(operation, factor):
    """Common practice, no source."""
    assert speeds.cutting_speed(MILD, operation) == pytest.approx(90 * 0.3048 * factor)


@pytest.mark.parametrize(("cutter", "condition", "factor"), [
    ("carbon-steel", "sharp", 0.5), ("hss", "used", 1.0), ("cobalt", "sharp", 1.15), ("carbide", "sharp", 2.5),
    ("unknown", "unknown", 0.5), ("hss", "dull", 0.8)])
def test_cutter_factors(cutter, condition, factor):
    """Common practice, no source; dull from memory."""
    assert speeds.cutting_speed(MILD, "milling", cutter, condition) == pytest.approx(90 * 0.3048 * factor)


def test_words_that_speeds_and_feeds_do_not_know():
    for call in (lambda: speeds.cutting_speed(MILD, "knitting"),
                 lambda: speeds.cutting_speed(MILD, "milling", "cheese"),
                 lambda: feeds.feed_per_tooth(10, MILD, "drilling"), lambda: bites.slot_bite(10, MILD, "rubber"),
                 lambda: speeds.wanted_rpm(10, 0), lambda: speeds.spindle_step(100, ()), lambda: bands.band("magic")):
        with pytest.raises(CribError) as caught:
            call()
        assert caught.value.finding.fix


@pytest.mark.parametrize(("wanted", "rpm", "severity"), [
    (500, 325, None), (600, 660, None), (599, 325, None), (75, 80, None), (72.8, 80, None), (70, 80, "note"),
    (64, 80, "note"), (63.9, 80, "warn"), (53.4, 80, "warn"), (53.3, 80, "stop"), (8000, 2720, "note")])
def test_spindle_steps(wanted, rpm, severity):
    """From memory: not above 1.10; a note up to 1.25, a warning up to 1.5, a stop beyond."""
    step = speeds.spindle_step(wanted, (2720, 80, 135, 210, 325, 660, 1115, 1750))
    assert (step.rpm, step.grade) == (rpm, severity)
    assert bool(step.says) == (severity is not None)


def test_slower_than_it_could_go():
    assert "slower than it could go" in speeds.spindle_step(8000, (80, 2720)).says


@pytest.mark.parametrize(("diameter", "feed"), [
    (1 / 16, 0.0002), (1 / 8, 0.0005), (3 / 16, 0.0008), (1 / 4, 0.0010), (3 / 8, 0.0015), (1 / 2, 0.0025),
    (5 / 8, 0.0030), (3 / 4, 0.0035), (1, 0.0045), (2, 0.0045), (1 / 32, 0.0001)])
def test_feed_per_tooth(diameter, feed):
    """From memory, in line with common tables; between and outside the sizes in proportion."""
    assert feeds.feed_per_tooth(diameter * IN, MILD) == pytest.approx(feed * IN)


def test_feed_factors():
    """From memory."""
    half = 12.7
    assert feeds.feed_per_tooth(half, IRON) == pytest.approx(0.0030 * IN)
    assert feeds.feed_per_tooth(half, find_material("6061")) == pytest.approx(0.00375 * IN)
    assert feeds.feed_per_tooth(half, IRON, "buried") == pytest.approx(0.0015 * IN)
    assert feeds.feed_per_tooth(IN / 4, TOOL) == pytest.approx(0.0006 * IN)
    assert feeds.feed_per_tooth(IN / 4, TOOL, "buried") == pytest.approx(0.0005 * IN)
    assert feeds.feed_per_tooth(3 * IN, MILD, "sawing") == pytest.approx(0.001 * IN)


def test_drill_feeds():
    """Standard handbook table, common."""
    for size, least, most in ((0.1, 0.001, 0.002), (0.2, 0.002, 0.004), (0.4, 0.004, 0.007), (0.8, 0.007, 0.015)):
        assert feeds.drill_feed(size * IN) == pytest.approx((least * IN, most * IN))


def test_a_slot_in_grey_iron_worked_by_hand():
    """Worked by hand from the defaults: a .4985 end mill, two teeth at 380 rpm; a .875 disc, eight teeth at 150 rpm."""
    fz = feeds.feed_per_tooth(0.4985 * IN, IRON)
    assert feeds.table_feed(380, 2, fz) / IN == pytest.approx(2.3, abs=0.05)
    fz = feeds.feed_per_tooth(0.875 * IN, IRON, "buried")
    assert feeds.table_feed(150, 8, fz) / IN == pytest.approx(2.9, abs=0.05)
    bite = bites.slot_bite(0.4985 * IN, IRON)
    levels = bites.bites_needed(0.868 * IN, bite)
    assert levels == 4
    assert [round(0.868 * k / levels, 3) for k in range(1, 5)] == [0.217, 0.434, 0.651, 0.868]


def test_a_head_in_two_levels_worked_by_hand():
    """Worked by hand: bolt 1/2, head .9375 x .375 under a lip of .500, disc .875 x .250, grey iron: six head passes."""
    overlap = bites.level_overlap(0.250 * IN)
    assert overlap == pytest.approx(0.025 * IN)
    levels = bites.levels_needed(0.375 * IN, 0.250 * IN, overlap)
    heights = bites.level_heights(0.875 * IN, 0.375 * IN, 0.250 * IN, levels)
    assert [z / IN for z in heights] == pytest.approx([-0.875, -0.750])
    assert levels * (1 + 2 * bites.bites_needed(0.03125 * IN, bites.side_step(0.875 * IN, IRON))) == 6


def test_a_disc_as_wide_as_the_throat():
    """Common practice, no source: .750 x .1875 in grey iron, .200 to each side in four bites of .050; .215 high."""
    step = bites.side_step(0.750 * IN, IRON)
    assert step == pytest.approx(0.050 * IN)
    assert bites.bites_needed(0.200 * IN, step) == 4
    assert bites.levels_needed(0.215 * IN, 0.1875 * IN, bites.level_overlap(0.1875 * IN)) == 2


@pytest.mark.parametrize(("diameter", "name", "step"), [
    (0.625, "mild steel", 0.030), (0.625, "grey iron", 0.050), (0.750, "mild steel", 0.030), (0.5, "6061", 0.050),
    (1.0, "grey iron", 0.050), (0.25, "grey iron", 0.025), (2.0, "mild steel", 0.060), (0.750, "grey iron", 0.050)])
def test_side_steps(diameter, name, step):
    """From memory: .030 in steel, .050 in iron and aluminium for discs 1/2 to 1 in, in proportion outside."""
    assert bites.side_step(diameter * IN, find_material(name)) == pytest.approx(step * IN)


@pytest.mark.parametrize(("name", "share"), [
    ("6061", 0.5), ("brass", 0.5), ("grey iron", 0.5), ("mild steel", 0.33), ("12L14", 0.33), ("4140", 0.25),
    ("1045", 0.25), ("O1", 0.2), ("304", 0.2), ("303", 0.2)])
def test_bite_fractions(name, share):
    """From memory."""
    assert bites.slot_bite(10, find_material(name)) == pytest.approx(10 * share)


def test_stiffness_and_overhang():
    """From memory."""
    assert bites.slot_bite(10, IRON, "bench") == pytest.approx(2.5)
    assert bites.slot_bite(10, IRON, "heavy") == pytest.approx(6.25)
    assert bites.slot_bite(10, IRON, "knee", 6.0) == pytest.approx(1.25)


@given(total=st.integers(1, 400), bite=st.integers(1, 50))
def test_bites_are_counted_exactly(total, bite):
    """Geometry: whole thousandths never make one bite too many."""
    assert bites.bites_needed(total * 0.0254, bite * 0.0254) == -(-total // bite)


@given(face=st.floats(1.0, 10.0), more=st.floats(0.0, 30.0))
def test_levels_reach_floor_and_ceiling_with_their_overlap(face, more):
    """Geometry: the first level stands on the floor, the last reaches the ceiling, neighbours overlap as asked."""
    overlap = bites.level_overlap(face)
    levels = bites.levels_needed(face + more, face, overlap)
    heights = bites.level_heights(50.0, face + more, face, levels)
    assert heights[0] == -50.0 and len(heights) == levels
    assert heights[-1] + face == pytest.approx(-50.0 + face + more if levels > 1 else -50.0 + face)
    assert all(above - below <= face - overlap + 1e-6 for below, above in pairwise(heights))


@pytest.mark.parametrize(("value", "printed", "check"), [
    (deviations.corner_left(0.250, 0.1875), 0.0259, "DV1"),
    (deviations.cusp(0.250, 0.050), 0.0013, "DV3"),
    (deviations.cusp(0.1875, 0.060), 0.0024, "DV4"),
    (deviations.tram_hollow(3, 2.5, 0.05), 0.0006, "DV9"),
    (deviations.wall_lean(1.0, 0.1), 0.0017, "DV10"),
    (deviations.floor_tilt(0.5, 0.1), 0.0009, "DV11"),
    (deviations.staircase_ridge(0.020, 30), 0.0173, "DV12"),
    (bites.bend(30 * 4.4482216152605, 1.5 * IN, 0.375 * IN) / IN, 0.0028, "DV14"),
    (bites.bend_ratio(2.0, 1.5), 2.3704, "DV15"),
    (deviations.widest_head(0.5625, 0.344, 0.312, 0.010), 0.5745, "DV18"),
])
def test_deviations(value, printed, check):
    """Geometry, numbers worked by hand; bend by elementary beam theory; run-out common practice."""
    assert round(value, 4) == printed, check


def test_fluted_part_bends_more():
    """Kops and Vo, CIRP Annals 39 (1990): equivalent diameter 0.80 D, seen in the abstract; 2.44 recomputed."""
    solid = 64 * 100 * 50**3 / (3 * 3.141592653589793 * bites.E_HSS * 10**4)
    assert bites.bend(100, 50, 10) / solid == pytest.approx(2.4414, abs=1e-4)


def test_smaller_cutter_in_a_half_inch_t_slot():
    """Geometry: head .938, throat .562, cutter .875, neck .437, clearance .020 in all: a neck to .479."""
    assert deviations.widest_neck(0.875, 0.562, 0.938, 0.010) == pytest.approx(0.4790)


def test_a_narrower_disc_with_its_neck_limit():
    """Geometry: throat .625, head .975, disc .625: a neck of .275 at most, less the clearance asked."""
    assert deviations.widest_neck(0.625, 0.625, 0.975, 0.0) == pytest.approx(0.275)
    assert deviations.widest_neck(0.625, 0.625, 0.975, 0.010) == pytest.approx(0.255)


@pytest.mark.parametrize(("way", "usual", "careful"), [
    ("own size", 4, 1.5), ("stepped by dials", 3, 1.5), ("stepped by readout", 2, 1), ("two levels", 4, 2),
    ("two drills", 2, 1), ("ream", 1, 0.5), ("bore", 1, 0.3), ("place by layout", 15, 5), ("place by dials", 3, 1)])
def test_bands(way, usual, careful):
    """Common practice, no source [.001 in]."""
    found = bands.band(way)
    widths = [(hi - lo) / 0.0254 for lo, hi in (found.usual_mm, found.careful_mm)]
    assert widths == pytest.approx([usual, careful])


def test_drilled_holes():
    """Formula from memory of a handbook's report; a #7 drill's chart value is +.0038 within .001."""
    assert bands.drill_mean(0.201 * IN) / IN == pytest.approx(0.0038, abs=0.001)
    assert bands.drill_least(12.7) < bands.drill_mean(12.7) < bands.drill_most(12.7)


def test_what_a_band_holds():
    assert [bands.holds(bands.band("two levels"), n * 0.0254) for n in (4, 3, 1)] == ["usual", "with care", "no"]


@pytest.mark.parametrize(("ratio", "band_thou", "severity"), [
    (3.0, None, None), (3.1, None, "warn"), (4.1, None, "caution"), (6.1, 5, "caution"), (6.1, 4.9, "stop")])
def test_stickout(ratio, band_thou, severity):
    """From memory."""
    assert bites.stickout_grade(ratio, None if band_thou is None else band_thou * 0.0254) == severity

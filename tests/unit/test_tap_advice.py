"""Tap and drill: the pairs of the bench. Drill oversize .002 + .005 d by a handbook's tests, from memory; limits by
ASME B1.1 as printed."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.findings.errors import CribError
from crib.handbook.threads import read_thread
from crib.shop import Shop
from crib.tapping.advise import advise_tap
from crib.tapping.check_all import check_all
from crib.tapping.shape import Asking, TapAdvice
from tests.spelt import spelt

IN = 25.4


def named(cutter: Cutter) -> Cutter:
    return cutter.but(label=label(cutter, "in"))


def drill(number: int, mm: float, **more: object) -> Cutter:
    return named(Cutter(number, "drill", diameter_mm=mm, condition="sharp", material="hss").but(**more))


def tap(number: int, thread: str, chamfer: str | None = "plug", **more: object) -> Cutter:
    whole = Cutter(number, "tap", thread=thread, tap_chamfer=chamfer, condition="sharp", material="hss")
    return named(whole.but(**more))


def ask(thread: str, *cutters: Cutter, **more: object) -> TapAdvice:
    material = str(more.pop("material", "mild steel"))
    asking = Asking(read_thread(thread), material=material, **more)  # type: ignore[arg-type]
    return advise_tap(asking, cutters, Shop(spindle_rpm=(80, 135, 210, 325, 660)))


NEIGHBOURS = (drill(1, 0.1610 * IN), drill(2, 4.0), drill(3, 5 / 32 * IN), drill(4, 0.1570 * IN))


def test_10_32_without_the_21() -> None:
    """Each owned neighbour with the hole that it makes; #20 fits best but is at the edge, so a trial hole first."""
    found = ask("10-32", *NEIGHBOURS, tap(9, "10-32"))
    assert [v.hole.label for v in found.drills] == ["#20 drill", "4 mm drill", "#22 drill", "5/32 drill"]
    assert [round(v.hole.expected_mm / IN, 4) for v in found.drills] == [0.1638, 0.1603, 0.1598, 0.1590]
    assert [round(v.percent_expected or 0) for v in found.drills] == [65, 73, 74, 76]
    assert all(v.within_class and v.within_class_by_size for v in found.drills)
    assert found.drills[0].edge and not found.drills[1].edge
    assert found.not_owned[0].label == "#21" and "#21" in found.without


def test_4_40_in_stainless() -> None:
    """The easy drill breaks the class: 50 percent would be .0958, 2B stops at .0939."""
    found = ask("4-40", drill(1, 0.0960 * IN), drill(2, 0.0890 * IN), tap(9, "4-40"), material="304")
    assert [(v.hole.label, v.answer) for v in found.drills] == [("#43 drill", "as drawn"), ("#41 drill", "cannot")]
    conflict = next(w for w in found.warnings if "breaks the class" in spelt(w.says))
    assert ".0958" in spelt(conflict.says) and ".0939" in spelt(conflict.says) and found.drills[0].within_class


def test_a_forming_tap_and_a_cutting_taps_drill() -> None:
    roll = tap(9, "10-32", tap_form="forming")
    found = ask("10-32", drill(1, 0.1590 * IN), roll)
    assert found.answer == "cannot" and "jams" in spelt(found.drills[0].says) and found.drills[0].within_class is None
    right = ask("10-32", drill(1, 0.1730 * IN), roll)
    assert right.answer == "as drawn" and right.drills[0].forming
    iron = ask("10-32", drill(1, 0.1730 * IN), roll, material="grey iron")
    assert iron.answer == "cannot" and any(w.id == "MT2" and w.grade == "stop" for w in iron.warnings)


def test_both_sorts_of_tap_for_the_drill_in_hand() -> None:
    found = ask("10-32", tap(8, "10-32"), tap(9, "10-32", tap_form="forming"), drill_mm=0.1590 * IN)
    assert found.answer == "as drawn"
    assert any(w.id == "MT2" and "not with no. 9" in spelt(w.says) for w in found.warnings)


@pytest.mark.parametrize(("thread", "size", "by"), [("9/16-18", 33 / 64, ".0006"), ("5/8-18", 37 / 64, ".0001")])
def test_chart_drills_above_the_most(thread: str, size: float, by: str) -> None:
    found = ask(thread, tap(9, thread), drill_mm=size * IN)
    assert found.answer == "compromise" and found.drills[0].within_class_by_size is False
    called = ask(thread, tap(9, thread), drill_mm=size * IN, class_name="2B")
    assert called.answer == "cannot" and "surely" in spelt(called.says)
    assert any("charts give" in says and by in says and "above the most" in says
               for says in (spelt(w.says) for w in found.warnings))


@pytest.mark.parametrize("thread", ["9/16-24", "5/8-24"])
def test_chart_drills_below_the_least(thread: str) -> None:
    """By size below the least; the hole that it makes is inside."""
    found = ask(thread, drill(1, {"9/16-24": 33, "5/8-24": 37}[thread] / 64 * IN), tap(9, thread))
    assert found.drills[0].within_class_by_size is False and found.drills[0].within_class is True
    assert any("below the least" in spelt(w.says) and "comes out inside" in spelt(w.says) for w in found.warnings)


def test_other_ways_where_no_drill_serves() -> None:
    found = ask("10-32", drill(1, 0.1495 * IN), named(Cutter(2, "reamer", diameter_mm=0.1610 * IN, condition="sharp")),
                tap(9, "10-32"))
    assert found.answer == "extra passes" and [v.hole.way for v in found.other_ways] == ["ream"]
    assert found.other_ways[0].hole.before == "#25 drill"
    milled = ask("1/4-20", named(Cutter(2, "end-mill", diameter_mm=5.15, centre_cutting=True)), tap(9, "1/4-20"))
    assert [v.hole.way for v in milled.other_ways] == ["end mill"]


@pytest.mark.parametrize(("below", "taps", "says"), [
    (10.0, [1], None), (5.5, [1, 3], None), (2.0, [], "breaks through"), (4.8, [], "must stay below"),
])
def test_depth_uses_what_is_owned(below: float, taps: list[int], says: str | None) -> None:
    """1/4-20, 1/2 deep, point .060: the plug alone wants .384 below, the bottoming tap after it .259."""
    own = (tap(1, "1/4-20"), tap(2, "1/4-20", "taper"), tap(3, "1/4-20", "bottoming"),
           drill(7, 0.2010 * IN, angle_deg=118.0))
    found = ask("1/4-20", *own, depth_mm=0.5 * IN, below_mm=below)
    assert found.depth is not None
    if says is None:
        assert [t.id for t in found.depth.taps] == taps and found.answer == "as drawn" and not found.depth.short_mm
    else:
        assert found.answer == "cannot" and says in spelt(found.says) and not found.steps


@pytest.mark.parametrize(("own", "uses", "deep"), [
    (("taper", "bottoming"), ["taper", "bottoming"], 14 + 1.5 * 1.25 + 1.27),
    (("taper",), ["taper"], 14 + 9 * 1.25 + 1.27),
    (("taper", "plug", "bottoming"), ["plug", "bottoming"], 14 + 1.5 * 1.25 + 1.27),
    (("taper", "plug"), ["plug"], 14 + 4 * 1.25 + 1.27)])
def test_unknown_metal_below_means_the_shallower_way(own: tuple[str, ...], uses: list[str], deep: float) -> None:
    """M8 x 14 with taper and bottoming owned went 26.5 deep for the taper alone. Threads of chamfer: taper 9, plug 4,
    bottoming 1.5 (ASME B94.9 names); .050 in for chips (common practice)."""
    taps = [tap(number, "M8", chamfer) for number, chamfer in enumerate(own, start=1)]
    found = ask("M8", *taps, drill(7, 6.8), depth_mm=14.0, material="303")
    assert found.depth and [one.tap_chamfer for one in found.depth.taps] == uses
    assert found.depth.hole_mm == pytest.approx(deep)
    assert any("--below wasn't given" in spelt(one) for one in found.assumed)


def test_no_tap_owned() -> None:
    """It said that these were the right cutters for the job, and its steps left the tapping out."""
    asked = ask("M6", drill(1, 5.0), drill_mm=5.0)
    assert asked.answer == "extra passes" and "no tap" in spelt(asked.says)
    assert any("none is in the crib" in spelt(step) for step in asked.steps)
    assert not any(one.label == "5 mm" for one in asked.not_owned) and not asked.without
    assert ask("M6", drill(1, 5.0)).answer == "cannot"


def test_by_hand_unless_under_power_is_said() -> None:
    """1,508 rpm stood under figures for work that is done by hand."""
    by_hand = ask("10-32", tap(9, "10-32"), NEIGHBOURS[1], material="6061")
    assert by_hand.rpm is None and any("by hand" in spelt(step) for step in by_hand.steps)
    power = ask("10-32", tap(9, "10-32"), NEIGHBOURS[1], material="mild steel", power=True)
    assert power.rpm is not None and power.rpm <= power.wanted_rpm * 1.25
    assert any("under power" in spelt(step) for step in power.steps)


def test_spiral_points_and_flutes_in_their_place() -> None:
    """Spiral flutes are poor in brass and iron; a spiral point drives its chips into a blind hole. Common practice."""
    points = ("spiral flute", "spiral point", "straight")
    flute, point, plain = (tap(number, "M8", tap_point=one) for number, one in enumerate(points, start=1))
    for material in ("grey iron", "360 brass"):
        alone = ask("M8", flute, drill(7, 6.8), material=material)
        assert any(w.id == "MT2" and "spiral" in spelt(w.says) for w in alone.warnings)
        both = ask("M8", flute, plain, drill(7, 6.8), material=material)
        assert both.taps[0].id == 3 and not any("spiral" in spelt(w.says) for w in both.warnings)
    blind = ask("M8", point, drill(7, 6.8), depth_mm=14.0)
    assert any(w.id == "TH4" and "ahead" in spelt(w.says) for w in blind.warnings)
    assert [t.id for t in (ask("M8", point, plain, drill(7, 6.8), depth_mm=14.0).depth or blind.depth).taps] == [3]
    through = ask("M8", point, drill(7, 6.8), depth_mm=14.0, through=True)
    assert not any("ahead" in spelt(w.says) for w in through.warnings)


def test_how_much_thread_would_go() -> None:
    """Of all the metal that there is, less what must stay below, the 118 degree point (tan 59 = 1.6643), room for chips
    and 1.5 threads of a bottoming tap's chamfer. Geometry; room and chamfer common practice."""
    own = (tap(1, "M8"), tap(3, "M8", "bottoming"), drill(7, 6.8, angle_deg=118.0))
    found = advise_tap(Asking(read_thread("M8"), depth_mm=14.0, below_mm=4.0), own, Shop(units="mm"))
    point = 3.4 / 1.6643
    most = 14 + 4 - max(0.030 * IN, 0.1 * 6.8) - point - 1.27 - 1.5 * 1.25
    assert found.answer == "cannot" and f"a shorter thread, {most:.3f} full at the most" in spelt(found.says, "mm")


def test_the_depth_budget() -> None:
    """Full thread + 4 threads of chamfer + .050 for chips + the 118 degree point of a #7."""
    found = ask("1/4-20", tap(1, "1/4-20"), drill(7, 0.2010 * IN), depth_mm=0.5 * IN)
    assert found.depth is not None
    assert round(found.depth.hole_mm / IN, 4) == 0.75 and round(found.depth.tip_mm / IN, 4) == 0.8104


def test_left_hand() -> None:
    right, left = tap(1, "3/8-16"), tap(2, "3/8-16", hand="left")
    found = ask("3/8-16", left, drill(7, 5 / 16 * IN))
    assert found.answer == "cannot" and "left-hand" in spelt(found.says)
    assert [t.id for t in ask("3/8-16", left, right, drill(7, 5 / 16 * IN)).taps] == [1]
    lh = ask("3/8-16 LH", left, right, drill(7, 5 / 16 * IN))
    assert [t.id for t in lh.taps] == [2] and any("against the clock" in spelt(step) for step in lh.steps)


def test_a_drill_as_large_as_the_thread() -> None:
    found = ask("10-32", tap(1, "10-32"), drill_mm=0.250 * IN)
    assert found.answer == "cannot" and "nothing is left to cut" in spelt(found.says)


def test_signs_of_a_tap_that_will_break() -> None:
    found = ask("4-40", drill(1, 0.0890 * IN), tap(2, "4-40", condition="dull"), material="304", depth_mm=8.0)
    assert found.answer == "cannot" and any(w.id == "TB1" and w.grade == "stop" for w in found.warnings)
    assert found.torque_nm is not None and any("torque" in spelt(one) for one in found.assumed)


def test_pipe_threads_by_their_own_rules() -> None:
    found = ask("1/8 NPT", drill(1, 0.339 * IN), drill(2, 21 / 64 * IN), drill(3, 0.397 * IN), tap(9, "1/8 NPT"))
    assert [(v.hole.label, v.answer) for v in found.drills] == [
        ("R drill", "as drawn"), ("21/64 drill", "cannot"), ("X drill", "cannot")]
    assert found.drills[0].percent_thread is None and any(w.id == "SF2" for w in found.warnings)


def test_what_is_for_pressure_is_referred() -> None:
    found = ask("1/8 NPT", drill(1, 0.339 * IN), tap(9, "1/8 NPT"), use="steam fitting")
    assert found.answer == "refer" and not found.drills and not found.steps


def test_a_use_that_is_referred_goes_before_the_question_about_magnesium() -> None:
    """Asked for a brake fitting in magnesium, it told how to make the bench ready for the chips of a part that nobody
    is to make here."""
    found = ask("1/8 NPT", drill(1, 0.339 * IN), tap(9, "1/8 NPT"), use="brake fitting", material="magnesium")
    assert found.answer == "refer" and not found.steps
    with pytest.raises(CribError, match="magnesium burns"):
        ask("1/8 NPT", drill(1, 0.339 * IN), tap(9, "1/8 NPT"), material="magnesium")


def test_every_tap_against_every_drill() -> None:
    taps = (tap(9, "10-32"), tap(10, "M8"), tap(11, "3/16-24"), tap(12, "10-32", tap_form="forming"))
    found = check_all([*NEIGHBOURS, *taps], Shop())
    assert [(one.tap.id, bool(one.drills)) for one in found] == [(9, True), (10, False), (11, False), (12, False)]
    assert found[2].answer == "measure first" and "3/16-24 BSW" in spelt(found[2].says)
    assert found[1].not_owned[0].label == "6.8 mm"


def test_a_drill_of_the_threads_own_size_has_no_percent() -> None:
    """-5 percent of a thread, and "larger by .0000", say nothing."""
    for size, says in ((0.25, "as large as the thread itself, .2500: nothing"), (0.2540, "larger than the thread")):
        [verdict] = ask("1/4-20", tap(13, "1/4-20"), drill_mm=size * IN).drills
        assert verdict.answer == "cannot" and says in spelt(verdict.says) and ".0000" not in spelt(verdict.says)
        assert verdict.percent_thread is None and verdict.percent_expected is None


@pytest.mark.parametrize("through", [False, True])
@pytest.mark.parametrize("chamfers", [("bottoming",), ("plug", "bottoming"), ("taper", "bottoming")])
def test_a_bottoming_tap_alone_starts_badly_in_any_hole(chamfers: tuple[str, ...], through: bool) -> None:
    """It was said of blind holes only, and a plate was tapped from the start with one that doesn't start. Common
    practice, no source."""
    taps = [tap(20 + number, "10-32", chamfer) for number, chamfer in enumerate(chamfers)]
    found = ask("10-32", drill(1, 0.1590 * IN), *taps, depth_mm=0.375 * IN, through=through, below_mm=None)
    assert any("starts badly" in spelt(one.says) for one in found.warnings) is (len(chamfers) == 1)

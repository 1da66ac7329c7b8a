"""What isn't known of cutters that lean: tips, angles that may be counted otherwise, shanks, pilots; and what a page
says of it."""

from __future__ import annotations

from math import radians, tan

import pytest

from crib.cutters import in_doubt, kind_of
from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.findings.errors import CribError
from crib.intake.build import amended
from crib.pages.answer import asked as asked_line
from crib.pages.answer import page
from crib.planning.ask import read_request
from crib.planning.to_mic import Pending, to_mic
from crib.planning.told.advice import Advice, Refusal
from crib.render.words import words
from crib.shop import Shop
from tests.shown import shown
from tests.slant_samples import CRIB, IN, MILLS, chamfer_cutter, dovetail_cutter, end_mill, named, pointed
from tests.spelt import spelt
from tests.unit.test_slants import SLIDE, SLOT, asked

GROOVE = {"angle": "90", "width": ".25", "material": "brass"}
CHAMFER = {"size": ".100", "material": "brass"}


def of(advice: Advice, number: int) -> Refusal:
    return next(one for one in advice.refused if one.cutter.id == number)


@pytest.mark.parametrize("kind", ["chamfer-cutter", "countersink", "spot-drill"])
@pytest.mark.parametrize(("feature", "texts"), [("v-groove", GROOVE), ("chamfer", CHAMFER)])
def test_a_tip_that_is_not_on_record_is_measured_first(kind: str, feature: str, texts: dict[str, str]) -> None:
    """A flat that was never measured was taken for a sharp point: set by its lower face, a cutter with a flat of .060
    cut the groove that much too wide."""
    point = named(9, kind, diameter_mm=0.5, angle_deg=90.0, shank_mm=0.5)
    found = asked(feature, texts, point)
    assert found.answer == "measure first" and not found.plans and "tip" in spelt(of(found, 9).says)
    for tip in (0.0, 0.060):
        known = point.but(tip_mm=tip * IN)
        plan = asked(feature, texts, known).plans
        if feature == "chamfer":
            axis = tip / 2 + 0.030 * tan(radians(45))
            assert plan[0].passes[-1].x_mm / IN == pytest.approx(axis, abs=1e-5)
        elif plan:
            assert plan[0].passes[-1].z_mm / IN == pytest.approx(-(0.125 - tip / 2), abs=1e-5)


def test_to_mic_names_the_tip() -> None:
    """A groove that waits for a tip is turned by measuring it, and told up to which flat."""
    point = named(9, "chamfer-cutter", diameter_mm=0.5, angle_deg=90.0, shank_mm=0.5)
    found = to_mic([Pending(1, read_request("v-groove", GROOVE, Shop(), "in"))], (point,), Shop())
    assert [ask.key for ask in found.measures[0].asks] == ["tip_mm"]


@pytest.mark.parametrize(("kind", "angle", "ask", "other"), [
    ("chamfer-cutter", 90.0, in_doubt.each_side(90.0), 45.0), ("chamfer-cutter", 60.0, in_doubt.included(60.0), 120.0),
    ("countersink", 90.0, in_doubt.each_side(90.0), 45.0)])
def test_an_angle_that_may_be_counted_otherwise_is_not_known(kind: str, angle: float, ask: str, other: float) -> None:
    """`45 degree chamfer mill` may be 45 a side or 45 between its sides: while that is asked, no plan is made with it;
    it is offered for both angles and for no third."""
    point = named(9, kind, diameter_mm=0.5, angle_deg=angle, tip_mm=0.0, shank_mm=0.5).but(questions=(ask,))
    for included in (angle, other):
        found = asked("v-groove", {**GROOVE, "angle": f"{included:g}"}, point)
        assert found.answer == "measure first" and spelt(of(found, 9).says) == ask
    assert asked("v-groove", {**GROOVE, "angle": "100"}, point).answer == "cannot"
    settled = amended(point, {"angle_deg": angle, "shank_mm": 12.7}, "USD")
    assert not settled.questions and asked("v-groove", {**GROOVE, "angle": f"{angle:g}"}, settled).plans
    assert amended(point, {"measured": ("angle_deg",)}, "USD").questions == ()
    assert amended(point, {"shank_mm": 9.525}, "USD").questions == (ask,), "another size doesn't answer it"


def test_a_flank_that_may_be_counted_from_elsewhere_is_not_known() -> None:
    """55 from the face, or 55 from the axis, which is 35 from the face."""
    cutter = dovetail_cutter(9, 0.75, 55, 0.3125, 0.25).but(questions=(in_doubt.from_face(55.0),))
    assert asked("dovetail", {**SLOT, "angle": "55"}, *MILLS, cutter).answer == "measure first"
    assert asked("dovetail", {**SLOT, "angle": "60"}, *MILLS, cutter).answer == "cannot"
    assert in_doubt.with_sizes(cutter, angle_deg=35.0).questions == ()


def test_a_shank_that_is_not_on_record_is_assumed_and_named() -> None:
    """A chamfer cutter without a shank on record was refused, and its twin was offered to buy."""
    point = named(9, "chamfer-cutter", diameter_mm=0.5, angle_deg=90.0, tip_mm=0.0625, flutes=5)
    plan = asked("chamfer", CHAMFER, point).plans[0]
    assert any("shank .500, usual for its kind" in spelt(one) for one in plan.assumed)
    wide = named(9, "countersink", diameter_mm=1.0, angle_deg=90.0, tip_mm=0.0)
    assert kind_of(wide).fill(wide).shank_mm == 12.7


def test_a_centre_drill_is_set_by_its_own_pilot() -> None:
    """Along an edge everything hangs on where its cone begins; the cone is the edge even where the pilot is longer."""
    drill = named(9, "centre-drill", diameter_mm=0.4375, angle_deg=60.0, tip_mm=0.1875)
    texts = {"size": ".050", "angle": "30"}
    first = asked("chamfer", texts, drill)
    assert first.answer == "measure first" and "where the cone begins" in spelt(of(first, 9).says)
    known = drill.but(reach_mm=0.32 * IN)
    plan = asked("chamfer", texts, known).plans[0]
    below = -plan.passes[-1].z_mm / IN - 0.32 - 0.050
    assert plan.passes[-1].x_mm / IN == pytest.approx(0.1875 / 2 + below * tan(radians(30)), abs=1e-4)
    other = asked("chamfer", CHAMFER, known)
    assert not other.plans and "60 degrees between" in spelt(of(other, 9).says)


def test_nothing_is_offered_for_what_others_do_already() -> None:
    """A collet for one more end mill doesn't make a dovetail whose flanks nothing cuts."""
    idle, short = end_mill(5, 0.25).but(shank_mm=12.0), dovetail_cutter(6, 0.75, 60, 0.3125, 0.375)
    shop = Shop(collets_mm=(9.525, 12.7, 19.05))
    texts = {"angle": "60", "width": "1.2", "depth": ".35"}
    from crib.planning.advise import advise

    found = advise(read_request("dovetail", texts, shop, "in"), (*MILLS, idle, short), shop).advice
    rows = shown(page(found))
    would = rows[rows.index("What would do, nearest first"):rows.index("", rows.index("What would do, nearest first"))]
    assert found.answer == "cannot" and any("no. 6" in row for row in would)
    assert not any("no. 5" in row for row in would) and not any("collet" in row for row in would)
    alone = advise(read_request("dovetail", texts, shop, "in"), (idle, short), shop).advice
    assert any("a collet for 12 mm" in spelt(one.fix) and one.helps for one in alone.refused), "nothing else does it"


def test_a_slot_is_measured_between_pins_and_a_slide_over_them() -> None:
    """Every dovetail slot was to be measured over its pins, which lie inside of it; pins were named as if given."""
    slot, slide = asked("dovetail", SLOT, *CRIB).plans[0], asked("dovetail-slide", SLIDE, *CRIB).plans[0]
    for plan, word, other in ((slot, "between", "over"), (slide, "over", "between")):
        said = " ".join(spelt(one.says) for one in plan.passes)
        assert f"measure {word} both pins" in said and f"{other} both pins" not in said
        assert any(spelt(one.what) == f"size {word} pins of 3/8 (any that touches the flank below .285)"
                   for one in plan.figures)
    given = asked("dovetail", SLOT, *CRIB, pin="1/4").plans[0]
    assert any(spelt(one.what) == "size between pins of 1/4" for one in given.figures)


def test_a_narrow_slot_is_measured_between_pins_that_go_in_beside_each_other() -> None:
    """Two of the largest pins that touch its flank low enough met in the middle, and no number was told. Geometry."""
    plan = asked("dovetail", {**SLOT, "width": "1"}, *CRIB).plans[0]
    check = next(one for one in plan.checks if spelt(one.what).startswith("size between pins of 1/4"))
    assert check.reads_mm == pytest.approx((1 - 0.25 * (1 + 3**0.5)) * IN)
    assert check.instrument == "pins and inside micrometer"


def test_a_flank_is_no_deeper_than_the_slot() -> None:
    """Teeth .3125 high in a slot .300 deep cut .300 of it."""
    plan = asked("dovetail", SLOT, *CRIB).plans[0]
    assert {round(one.axial_mm / IN, 6) for one in plan.passes if one.room == "flanks"} == {0.3}


def test_a_groove_has_no_leg() -> None:
    """A V-groove was to be measured by its leg."""
    groove = asked("v-groove", {**GROOVE, "width": ".4"}, pointed(9, "spot-drill", 0.5, 90)).plans[0]
    assert spelt(groove.passes[-1].says) == "measure the width at the surface before the last bite"
    chamfer = asked("chamfer", CHAMFER, chamfer_cutter(9, 0.5, 90, 0.0625)).plans[0]
    assert spelt(chamfer.passes[-1].says) == "measure the leg before the last bite"


def test_a_gib_thicker_than_the_dovetail_takes() -> None:
    """A gib of 2 in a dovetail 1.2 wide was planned in 47 passes. Its mouth is 1.2 - 2 x .28 / tan 60 = .877 (worked
    here), so that .438 is the most."""
    texts = {"angle": "60", "width": "1.2", "depth": ".28"}
    with pytest.raises(CribError) as error:
        asked("dovetail", texts, *CRIB, gib="2")
    assert "gib of 2 is too thick for a dovetail .877 wide" in spelt(error.value.finding.says)
    assert ".438 at the most" in spelt(error.value.finding.fix)
    assert asked("dovetail", texts, *CRIB, gib="7/16").plans


def test_a_pin_too_big_is_told_its_limit() -> None:
    """It was said that .267 doesn't go on a flank .280 high: the .015 that is broken off was not told."""
    with pytest.raises(CribError) as error:
        asked("dovetail", {"angle": "45", "width": "1.2", "depth": ".28"}, *CRIB, pin="5/16")
    what = spelt(error.value.finding.says)
    assert ".267 up" in what and ".265 is left with .015 of its edge broken" in what


def test_a_wall_beside_an_edge_is_told() -> None:
    """What stands beside a chamfer was neither in what was asked nor told as what is nearest."""
    point = chamfer_cutter(9, 0.5, 90, 0.0625)
    found = asked("chamfer", {"size": ".05", "wall": "1@.32"}, point)
    assert "a wall 1.000 high at .320" in words(asked_line(found), "in")
    assert "shank clears what stands beside by .009" in " ".join(shown(page(found), "in", 200))
    free = asked("chamfer", {"size": ".05"}, point)
    assert "what stands beside" not in " ".join(shown(page(free), "in", 200)), "the surface is no wall"


def test_the_words_of_a_question_are_found_again() -> None:
    """Only a question about the very angle on record holds it."""
    cutter = Cutter(1, "chamfer-cutter", angle_deg=90.0, questions=(in_doubt.included(60.0), "what is the 3/16?"))
    assert in_doubt.question(cutter) is None and label(cutter, "in")

"""What the words of an answer say agrees with what its table sets. Common practice, no source, where none is named."""

from __future__ import annotations

import pytest

from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.findings.finding import Grade
from crib.machining.words import Direction
from crib.pages.answer import page
from crib.pages.more import More
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.planning.told.advice import Plan
from crib.shop import Shop
from tests.sheets import ALL, OWNED, answered
from tests.shown import shown
from tests.spelt import spelt


def remarks(plan: Plan) -> str:
    """All that is said beside the passes of a plan, and of its cutters."""
    return " ".join([*(spelt(one.says) for one in plan.warnings), *(spelt(one.says) for one in plan.passes)])


@pytest.mark.parametrize("name", ALL)
def test_no_slow_feed_is_asked_for_beside_a_full_one(name: str) -> None:
    """`slow hand feed` stood beside 5.7 in/min, the same feed as of the passes that cut one wall: whoever signs it asks
    which holds. Half the feed is said where the table halves it, and nowhere else."""
    for plan in answered(name).advice.plans:
        both = [one for one in plan.passes if one.direction == Direction.BOTH]
        others = {one.cutter_id: one.mm_per_min for one in plan.passes if one.direction != Direction.BOTH}
        halved = [one for one in both if one.mm_per_min < 0.75 * others.get(one.cutter_id, 0.0)]
        assert "slow hand feed" not in remarks(plan)
        assert "half the feed, as the table says" in remarks(plan) or not halved


SAW = Cutter(1, "slitting-saw", label="2-1/2 saw", diameter_mm=63.5, face_mm=0.8, bore_mm=22.225, flutes=60,
             material="hss", condition="sharp", measured=("diameter_mm",))


@pytest.mark.parametrize("metal", ["304", "tool steel", "titanium", "4140"])
def test_a_spindle_that_is_too_fast_for_a_cutter_is_told_first(metal: str) -> None:
    """A saw in stainless at 80 rpm for 38 wanted: it was told with all the remarks alone, behind --steps, for four
    cautions on the metal had filled the first screen."""
    shop = Shop(spindle_rpm=(80, 135, 210, 325))
    asked = {"width": ".032+.010-0", "depth": "3/8", "length": "3", "material": metal}
    advice = advise(read_request("slit", asked, shop, "in"), [SAW], shop).advice
    over = [one for one in advice.plans[0].warnings if one.id == "SP1" and one.grade == Grade.WARN]
    told = " ".join(" ".join(shown(page(advice, more=()))).split())
    assert over and all(spelt(one.says) in told for one in over)


@pytest.mark.parametrize("name", [*ALL, "spot drill round"])
def test_what_is_made_to_go_down_is_cautioned_wherever_it_is_run_along(name: str) -> None:
    """A spot drill that lays a flat along a round came before the chamfer cutter, without the caution that it gets
    where it bevels an edge."""
    asked = {"radius": "1/4", "length": "6", "material": "brass"}
    plans = answered(name).advice.plans if name in ALL else advise(
        read_request("corner-round", asked, Shop(), "in"), [POINT], Shop()).advice.plans
    assert plans
    for plan in plans:
        along = {one.cutter_id for one in plan.passes if one.direction in (Direction.CONVENTIONAL, Direction.CLIMB)}
        made_to_go_down = {cutter.id for cutter in plan.cutters if kind_of(cutter).in_chuck}
        cautioned = {one.cutter_id for one in plan.warnings if one.id == "CH2"}
        assert bool(along & made_to_go_down) is bool(cautioned or any(one.id == "CH2" for one in plan.warnings))


POINT = Cutter(1, "spot-drill", label="1/2 spot drill", diameter_mm=12.7, angle_deg=90.0, tip_mm=0.0, shank_mm=12.7,
               material="hss", condition="sharp")


@pytest.mark.parametrize("name", ALL)
def test_something_of_each_is_measured_and_its_burrs_come_off(name: str) -> None:
    """A countersink and a spotface were never measured, whatever limits their rims had; and not a word of the minutes
    that were reckoned for burrs stood in what there is to do but on paper."""
    found = answered(name).advice
    assert found.plans[0].checks
    told = " ".join(" ".join(shown(page(found, more=(More.STEPS,)))).split())
    assert "burrs off; all sizes measured once more" in told


@pytest.mark.parametrize(("kind", "texts", "reads"), [
    ("countersink", {"diameter": ".385+.005-0", "hole": ".190", "angle": "82"}, (".385", ".390")),
    ("spotface", {"diameter": "5/8+.02-0", "hole": "1/4", "depth": "1/16+.01-0"}, (".625", ".645")),
    ("hole-chamfer", {"diameter": "5/16+.01-.01", "hole": "1/4"}, (".3025", ".3225"))])
def test_a_mouth_is_measured_across_its_rim(kind: str, texts: dict[str, str], reads: tuple[str, str]) -> None:
    plan = advise(read_request(kind, texts, Shop(), "in"), OWNED, Shop()).advice.plans[0]
    across = [one for one in plan.checks if "diameter" in spelt(one.what)]
    assert [(one.instrument, one.low_mm, one.high_mm) for one in across] == [
        ("caliper", pytest.approx(float(reads[0]) * 25.4), pytest.approx(float(reads[1]) * 25.4))]


@pytest.mark.parametrize(("kind", "texts"), [
    ("hole", {"diameter": "3/8", "depth": "1", "finish": "reamed"}),
    ("hole", {"diameter": "31/64+.01-0", "depth": "1", "finish": "bored"}),
    ("tapped-hole", {"thread": "1/4-20", "depth": "1/2"}),
    ("slot", {"width": "3/8+.0005-0", "depth": "1/4"})])
def test_whoever_is_to_say_yes_is_told_to_what(kind: str, texts: dict[str, str]) -> None:
    """`will do if you say yes - not all of it comes out to the drawing`, of a hole that wasn't reamed, and nothing said
    what didn't: the remark stood last, or not at all where the metal has four cautions of its own."""
    few = [Cutter(1, "drill", label="a drill", diameter_mm=9.525, condition="sharp", material="hss"),
           Cutter(2, "drill", label="another", diameter_mm=31 / 64 * 25.4, condition="sharp", material="hss"),
           Cutter(3, "drill", label="a third", diameter_mm=5.5, condition="sharp", material="hss"),
           Cutter(4, "tap", label="a tap", thread="1/4-20 UNC", tap_chamfer="plug", material="hss"),
           Cutter(5, "end-mill", label="a mill", diameter_mm=9.525, flutes=2, shank_mm=9.525, centre_cutting=True,
                  length_of_cut_mm=20.0, condition="sharp", material="hss")]
    for metal in ("mild steel", "304", "bronze"):
        advice = advise(read_request(kind, {**texts, "material": metal}, Shop(chuck_mm=13.0), "in"), few,
                        Shop(chuck_mm=13.0)).advice
        if advice.answer != "compromise":
            continue
        rows = shown(page(advice, more=()))
        assert rows[1].startswith("Outside the drawing: "), rows[:4]

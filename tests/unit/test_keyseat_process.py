"""How a shaft is held and touched off: it has no front face to go by. Common practice, no source."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.pages.passes import rows
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.render.terminal import lines as terminal
from crib.shop import Arbor, Shop
from tests.spelt import spelt

MILL = Cutter(1, "end-mill", "mill", diameter_mm=4.7625, length_of_cut_mm=12.7, shank_mm=9.525, flutes=2,
              centre_cutting=True, material="hss", condition="sharp")


@pytest.mark.parametrize("texts", [
    {"shaft": "3/4"}, {"shaft": "3/4", "ends": "one", "length": "2"}, {"shaft": "3/4", "ends": "closed", "length": "2"},
])
def test_a_shaft_lies_in_vee_blocks_and_its_middle_is_found_from_both_sides(texts: dict[str, str]) -> None:
    shop = Shop()
    plan = advise(read_request("keyseat", texts, shop, "in"), [MILL], shop).advice.plans[0]
    told = [spelt(touch.says) for touch in plan.touch_off]
    assert "vee blocks" in spelt(plan.hold)
    assert not any("front face" in words for words in (spelt(plan.hold), *told))
    assert "front side of the bar" in told[0] and "back side" in told[1] and "half" in told[1]


DISC = Cutter(2, "keyseat-cutter", "disc", diameter_mm=19.05, face_mm=4.7625, neck_mm=6.35, reach_mm=38.1,
              shank_mm=12.7, flutes=8, material="hss", condition="sharp")
SAW = Cutter(3, "slitting-saw", "saw", diameter_mm=76.2, face_mm=3.175, bore_mm=25.4, flutes=36, material="hss",
             condition="sharp")


@pytest.mark.parametrize(("kind", "texts", "reading"), [
    ("woodruff", {"key": "606", "shaft": "1"}, "+.503"),
    ("keyseat", {"shaft": "2", "width": "1/4+.004-0", "depth": "1/8"}, "+1.003"),
])
def test_a_disc_is_touched_off_on_the_top_of_the_shaft(kind: str, texts: dict[str, str], reading: str) -> None:
    """A shaft has no edge and no face that lies up: Z 0 is its middle, half of the shaft and the paper, .003, under
    the drag (geometry)."""
    shop = Shop(arbors=(Arbor(25.4, 40.0),), spindle_rpm=(60, 80, 135, 325, 660))
    plan = advise(read_request(kind, texts, shop, "in"), [DISC, SAW], shop).advice.plans[0]
    told = [spelt(touch.says) for touch in plan.touch_off]
    assert "on the top of the shaft" in told[-1] and told[-1].endswith(f"set Z {reading}")
    assert not any("edge:" in words or "lies up" in words for words in told)


def test_a_disc_that_goes_straight_in_has_one_place_along() -> None:
    """The table of such a pass spoke of two stops from the left end, where the table is locked at the seat's middle."""
    plan = advise(read_request("woodruff", {"key": "606", "shaft": "1"}, Shop(), "in"), [DISC], Shop()).advice.plans[0]
    told = " ".join(terminal.lines(rows(plan.passes), "in", 200, False))
    assert "table: .000 at the middle of the seat, locked" in told and "stops" not in told
    assert "on the back of the shaft" in spelt(plan.touch_off[0].says)


def test_a_slot_keeps_its_front_face() -> None:
    shop = Shop()
    request = read_request("slot", {"width": ".1875+.005-0", "depth": ".1"}, shop, "in")
    plan = advise(request, [MILL], shop).advice.plans[0]
    assert "vee blocks" not in spelt(plan.hold) and "front face" in spelt(plan.touch_off[0].says)

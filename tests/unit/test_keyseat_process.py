"""How a shaft is held and touched off: it has no front face to go by. Common practice, no source."""

from __future__ import annotations

import pytest

from crib.cutters.base import Cutter
from crib.planning.advise import advise
from crib.planning.ask import read_request
from crib.shop import Shop
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


def test_a_slot_keeps_its_front_face() -> None:
    shop = Shop()
    request = read_request("slot", {"width": ".1875+.005-0", "depth": ".1"}, shop, "in")
    plan = advise(request, [MILL], shop).advice.plans[0]
    assert "vee blocks" not in spelt(plan.hold) and "front face" in spelt(plan.touch_off[0].says)

"""What is done of a part stays done: ticked off, planned again with other cutters, in any state of the work."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from crib.cutters.base import Cutter
from crib.parts.order import order_of
from crib.parts.toml import part_from_toml
from crib.planning.parts.asked import asked_of
from crib.planning.parts.known import Known
from crib.planning.parts.plan import plan_part
from crib.planning.parts.planned import PartOperation, PlannedPart
from crib.shop import Shop
from tests.unit.test_part_proof import mill

TEXT = """
name = "block"
stock = "4 x 2 x 1"
material = "mild steel"
[[feature]]
name = "ledge"
kind = "step"
width = "3/4"
depth = "1/4"
from = "front left"
at = "3/4"
[[feature]]
name = "slot"
kind = "slot"
width = "1/2"
depth = "1/4"
at = "1-3/8"
[[feature]]
name = "T-slot"
kind = "t-slot"
throat = "1/2"
depth = "1/2"
head-width = "7/8"
head-height = "1/4"
face = "bottom"
at = "1"
[[feature]]
name = "key"
kind = "slot"
width = "1/4"
depth = "1/8"
face = "front"
at = "1/2"
"""

T_CUTTER = Cutter(9, "t-slot-cutter", diameter_mm=0.875 * 25.4, face_mm=0.25 * 25.4, neck_mm=0.4 * 25.4,
                  reach_mm=0.75 * 25.4, shank_mm=0.5 * 25.4, overall_length_mm=3 * 25.4, flutes=6, material="hss",
                  condition="sharp")
CUTTERS = (mill(1, 0.25, 0.625, 2.4375), mill(3, 0.5, 1.0, 3.0, 0.5), mill(4, 0.75, 1.625, 3.5, 0.75),
           mill(5, 0.375, 0.75, 2.5), mill(6, 0.4375, 0.875, 2.75), T_CUTTER)
KNOWN = Known()


def planned(cutters: Sequence[Cutter], done: Sequence[str] = (), were: Sequence[Cutter] = ()) -> PlannedPart:
    """The block planned, with some of it done."""
    part, shop = part_from_toml(TEXT, "part.toml").part, Shop(units="in")
    asked = asked_of(part, shop)
    return plan_part(part, asked.requests, order_of(part, asked.drawn), cutters, shop, done, were=were, known=KNOWN)


def seen(one: PartOperation) -> tuple[object, ...]:
    """What whoever did it saw of an operation."""
    return one.key, one.feature, one.cutter, one.holder, one.passes


WHOLE = planned(CUTTERS)


def test_the_block_can_be_made() -> None:
    """So that what follows says something."""
    assert not WHOLE.unmade and len(WHOLE.operations) >= 5 and WHOLE.proven
    assert abs(sum(one.minutes for one in (*WHOLE.setups, *WHOLE.operations)) - WHOLE.minutes) < 1e-9


@pytest.mark.parametrize("count", range(len(WHOLE.operations) + 1))
@pytest.mark.parametrize("lost", [None, *(one.id for one in CUTTERS)])
def test_what_is_done_stays_as_it_was(count: int, lost: int | None) -> None:
    """Whatever cutter is lost after any operation, those before it come out the same, first and in their order."""
    done = [one.key for one in WHOLE.operations[:count]]
    left = [one for one in CUTTERS if one.id != lost]
    again = planned(left, done, [one for one in CUTTERS if one.id == lost])
    assert [seen(one) for one in again.operations[:count]] == [seen(one) for one in WHOLE.operations[:count]]
    assert [one.done for one in again.operations] == [at < count for at in range(len(again.operations))]
    assert all(one.cutter.id != lost for one in again.operations[count:])


@pytest.mark.parametrize("count", range(len(WHOLE.operations) + 1))
def test_going_on_as_it_was_planned_takes_no_longer(count: int) -> None:
    """With nothing lost the rest is planned as it was, or as well."""
    again = planned(CUTTERS, [one.key for one in WHOLE.operations[:count]])
    assert again.minutes <= WHOLE.minutes + 1e-6 and not again.unmade


def test_a_cutter_more_or_a_feature_less_is_never_worse() -> None:
    """Of whole parts too, with all that is proved of them."""
    fewer = planned([one for one in CUTTERS if one.id not in (5, 6)])
    assert not fewer.unmade and WHOLE.money <= fewer.money + 1e-6


def test_what_is_ticked_in_no_order_is_put_in_one() -> None:
    """A set of keys has none."""
    keys = frozenset(one.key for one in WHOLE.operations[:3])
    again = planned(CUTTERS, keys)  # type: ignore[arg-type]
    assert {one.key for one in again.operations[:3]} == keys


CUP = """
name = "cup"
stock = "2 x 2 x 1"
material = "grey iron"
[[feature]]
name = "oil hole"
kind = "hole"
diameter = ".159"
depth = "3/4"
at = "1, 1"
[[feature]]
name = "oil cup"
kind = "hole"
diameter = "1/4"
depth = "1/4"
at = "1, 1"
"""


def test_a_hole_that_is_there_is_not_spotted_again() -> None:
    """The drill that opens it further is guided by it: no foreman spots a hole's mouth."""
    part, shop = part_from_toml(CUP, "part.toml").part, Shop(units="in")
    asked = asked_of(part, shop)
    drills = [Cutter(number, "drill", diameter_mm=mm, length_of_cut_mm=60.0, overall_length_mm=90.0, shank_mm=mm,
                     material="hss", condition="sharp", flutes=2) for number, mm in ((1, 0.159 * 25.4), (2, 6.35))]
    spot = Cutter(3, "spot-drill", diameter_mm=9.525, angle_deg=90.0, shank_mm=9.525, material="hss",
                  condition="sharp", length_of_cut_mm=10.0, overall_length_mm=60.0, flutes=2)
    for order, spotted in (((("oil hole", "oil cup"),), {"oil hole"}), ((), {"oil hole", "oil cup"})):
        found = plan_part(part, asked.requests, order, [*drills, spot], shop)
        assert not found.unmade
        assert {one.feature for one in found.operations if one.cutter.id == 3} == spotted

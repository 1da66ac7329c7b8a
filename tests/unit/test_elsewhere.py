"""What others do for money: a cutter sent out to be reground, an hour at a neighbour's shop."""

from __future__ import annotations

from dataclasses import replace

import pytest

from crib.buying.bench import Bench
from crib.buying.compare import bill_of, saving
from crib.buying.decide import Terms
from crib.buying.worth import Answer, reckon
from crib.cutters.base import Cutter
from crib.planning.ask import read_request
from crib.shop import Shop
from tests.spelt import spelt

SHOP = Shop(spindle_rpm=(80, 135, 210, 325, 660, 1115, 1750, 2720), collets_mm=(9.525, 12.7, 15.875), hour_rate=15.0)
TEXTS = {"width": "5/8+.005-0", "depth": "3/8", "length": "4", "material": "1018"}
CHIPPED = Cutter(6, "end-mill", diameter_mm=15.875, flutes=4, shank_mm=15.875, length_of_cut_mm=31.75, material="hss",
                 condition="chipped")
SLIM = Cutter(2, "end-mill", diameter_mm=6.35, flutes=2, shank_mm=9.525, length_of_cut_mm=19.05, material="hss",
              condition="sharp", centre_cutting=True)


def _worth(cutters: tuple[Cutter, ...], shop: Shop, **terms: float) -> Answer:
    return reckon(read_request("slot", TEXTS, shop, "in"), Bench(cutters, shop), Terms(**terms, said="uses" in terms))


def test_nothing_is_sent_out_or_hired_where_no_price_was_set() -> None:
    """No price is built in: what a grinder or a neighbour asks is for the owner to say."""
    assert not {worth.offer.way for worth in _worth((CHIPPED, SLIM), SHOP).worths} & {"regrind", "neighbour"}


def test_a_chipped_cutter_sent_out_is_what_makes_it() -> None:
    """The only cutter for it lay chipped in the drawer, and the ways in were buying and borrowing alone."""
    shop = replace(SHOP, regrind_price=9.0)
    found = _worth((CHIPPED,), shop)
    [sent] = [worth for worth in found.worths if worth.offer.way == "regrind"]
    assert found.work is None and "no. 6, reground" in sent.offer.label and sent.spent == pytest.approx(9.0)
    [back] = sent.plan.cutters
    assert (back.diameter_mm or 0) < 15.875 and back.condition == "sharp", "grinding takes the chip off, and some size"
    assert found.decision.advice == "grind" and found.decision.choice.startswith("send out no. 6")


@pytest.mark.parametrize(("deadline", "in_time"), [(7, False), (14, True), (30, True)])
def test_it_is_away_for_its_own_days(deadline: float, in_time: bool) -> None:
    """What is ordered is here tomorrow; the grinder keeps it for a fortnight all the same."""
    shop = replace(SHOP, regrind_price=0.5, regrind_days=14.0)
    found = _worth((CHIPPED,), shop, wait=1.0, deadline=deadline)
    assert found.decision.worth is not None
    assert (found.decision.worth.offer.way == "regrind") is in_time


def test_no_cutter_is_at_the_grinders_and_at_the_bench() -> None:
    """A chipped cutter may rough: not while it is away to be ground."""
    shop = replace(SHOP, regrind_price=1.0)
    for worth in _worth((CHIPPED, SLIM), shop, uses=50.0).worths:
        ids = {cutter.id for cutter in worth.plan.cutters}
        assert not (worth.offer.way == "regrind" and CHIPPED.id in ids)


def test_an_hour_at_a_neighbours_costs_the_hour_and_the_way() -> None:
    """By hand: the saving of the plan with the cutter, its wear aside, less half an hour's way at one's own rate and
    the plan's minutes at the neighbour's."""
    shop = replace(SHOP, neighbour_rate=2.0, hour_rate=60.0, borrow_minutes=5.0)
    found = _worth((SLIM,), shop)
    [there] = [worth for worth in found.worths if worth.offer.way == "neighbour"]
    assert found.work is not None
    bare = replace(bill_of(there.plan), wear=0.0)
    hand = saving(bill_of(found.work), bare, there.stake) - 5 / 60 * 60.0 - there.plan.minutes / 60 * 2.0
    assert there.each == pytest.approx(hand) and there.spent == 0.0
    assert hand > 0 and found.decision.advice == "borrow"
    assert found.decision.choice.startswith("do it at a neighbour's shop, with a ")


def test_a_neighbour_who_asks_too_much_is_left_alone() -> None:
    """At a hundred an hour nothing is saved, and the advice is what it was."""
    dear = _worth((SLIM,), replace(SHOP, neighbour_rate=100.0))
    assert dear.decision.choice == _worth((SLIM,), SHOP).decision.choice
    assert not any(worth.offer.way == "neighbour" and (worth.each or 0) > 0 for worth in dear.worths)


def test_an_offer_of_one_name_is_there_once() -> None:
    """A 5/8 mill on either of its two shanks was two lines with the same words and numbers."""
    labels = [(worth.offer.way, worth.offer.label) for worth in _worth((SLIM,), SHOP).worths]
    assert labels and len(labels) == len(set(labels))


def test_what_to_measure_is_named() -> None:
    """`Mic what you own` named neither the cutter nor its size."""
    reground = Cutter(3, "end-mill", label="1/2 end mill", nominal_mm=12.7, flutes=4, shank_mm=12.7, reground=True,
                      length_of_cut_mm=25.4, material="hss", condition="sharp")
    found = _worth((reground,), SHOP)
    assert found.verdict == "measure first" and "no. 3, 1/2 end mill" in spelt(found.decision.says)
    assert "mic the diameter" in spelt(found.decision.says)

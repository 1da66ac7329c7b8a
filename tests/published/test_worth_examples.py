"""Six cases of buy or work around, reckoned by hand to the cent, and which one disc serves most.

Common practice, worked here: the figures of each case are a machinist's, no source.
"""

from __future__ import annotations

import pytest

from crib.buying.bench import Bench
from crib.buying.compare import Bill, Offer, Stake, Worth, bill_of, break_even, saving
from crib.buying.decide import Terms, decide, surer
from crib.buying.purchases import Use, best_purchases
from crib.cutters.base import Cutter
from crib.features.request import Request
from crib.handbook.deviations import widest_head
from crib.planning.told.advice import CostLine, Plan, Proof
from crib.shop import Shop
from crib.units import Size
from tests.spelt import spelt

INCH = 25.4


def plan(minutes: float, scrap: float = 0.0, wear: float = 0.0, answer: str = "extra passes") -> Plan:
    """A plan of which only what it takes matters."""
    lines = (CostLine("wear", 0.0, wear, ""),)
    return Plan(answer, "", (), (), Proof(0.0, 0.0, None), minutes=minutes, scrap_chance=scrap, cost_lines=lines)


def worth(work: Plan, right: Plan, stake: Stake, price: float, shipping: float = 0.0, waiting: float = 0.0,
          **offer: object) -> Worth:
    each = saving(bill_of(work), bill_of(right), stake)
    return Worth(Offer("buy", "it", price=price, shipping=shipping, **offer), right, each, each, stake, waiting)


def _parts(minutes: float, scrap: float, stake: Stake) -> tuple[float, float]:
    """What minutes are worth by themselves, and what a chance of scrap is."""
    nothing = Bill(0, 0, 0)
    return (round(saving(Bill(minutes, 0, 0), nothing, stake), 2),
            round(saving(Bill(0, scrap, 0), nothing, stake), 2))


def test_a_t_slot_cutter() -> None:
    """48 and 9 to ship; 55 minutes at 20 an hour, 14 hours in the part, chances .06 and .02, wear 2 and 1."""
    stake = Stake(20, 14)
    work, right = plan(55, 0.06, 2), plan(0, 0.02, 1, "as drawn")
    assert _parts(55, 0.04, Stake(20, 14, 0)) == (18.33, 11.20)
    one = worth(work, right, stake, 48, 9)
    assert round(one.each or 0, 2) == 30.53 and round(one.uses_to_break_even or 0, 2) == 1.87
    assert decide(work, [one], Terms(1), "USD").advice == "work around"
    assert decide(work, [one], Terms(2), "USD").advice == "buy"


def test_a_drill() -> None:
    """A #21 at 2.10 and 6 to ship; a 4 mm drill does the work in two minutes more at 15 an hour."""
    work, right = plan(2), plan(0, answer="as drawn")
    one = worth(work, right, Stake(15), 2.10, 6)
    assert round(one.each or 0, 2) == 0.50 and round(one.uses_to_break_even or 0, 1) == 16.2
    assert decide(work, [one], Terms(3), "USD").advice == "work around"


def test_a_dovetail_cutter_or_a_fly_tool() -> None:
    """72 and 8 to ship; the fly tool takes 25 minutes to grind and 70 more to use, at 15 an hour; chances .09 and .03
    with 30 hours and a blank of 40 at stake. By money the fly tool wins, and the part is worth a second thought."""
    stake = Stake(15, 30, 40)
    work, right = plan(25 + 70, 0.09), plan(0, 0.03, answer="as drawn")
    assert _parts(95, 0.06, Stake(15, 30, 40)) == (23.75, 29.40)
    one = worth(work, right, stake, 72, 8)
    assert round(one.each or 0, 2) == 53.15 and round(one.uses_to_break_even or 0, 1) == 1.5
    decision = decide(work, [one], Terms(1), "USD")
    assert decision.advice == "work around" and decision.worth is one
    assert "30 hours in the part" in surer(one, work, 30) and "last cut" in surer(one, work, 30)
    assert surer(one, work, 3) == ""


def test_a_collet() -> None:
    """14 and 5 to ship; stepping with the 3/8 takes 14 minutes more at 12 an hour; three cutters lie idle without it,
    so its uses are those of all three."""
    work, right = plan(14), plan(0)
    one = worth(work, right, Stake(12), 14, 5, idle=3)
    assert round(one.each or 0, 2) == 2.80 and round(one.uses_to_break_even or 0, 1) == 6.8
    assert decide(work, [one], Terms(3), "USD").advice == "work around"
    shared = decide(work, [one], Terms(3 * 3), "USD")
    assert shared.advice == "buy" and "3 cutters lie idle without it" in spelt(shared.says)


def test_a_machine_that_waits() -> None:
    """24, three days to wait at 10 a day; 12 minutes at 25 an hour, .02 of 6 hours: the other now, this one later."""
    stake = Stake(25, 6)
    work, right = plan(12, 0.02), plan(0, 0.0, answer="as drawn")
    assert _parts(12, 0.02, Stake(25, 6, 0)) == (5.00, 3.00)
    one = worth(work, right, stake, 24, waiting=3 * 10)
    assert round(one.each or 0, 2) == 8.00 and round(one.uses_to_break_even or 0, 2) == 6.75
    decision = decide(work, [one], Terms(5, wait=3), "USD")
    assert decision.advice == "work around" and "order it for the next time" in spelt(decision.says)
    assert "order it" not in spelt(decide(work, [one], Terms(3, wait=3), "USD").says)
    late = decide(work, [one], Terms(20, wait=3, deadline=2), "USD")
    assert late.advice == "work around" and "1 day too late" in spelt(late.says)


def test_sharpening() -> None:
    """A 1/4 end mill is sharpened for 6 and new at 9, a 1/2 for 10 and new at 26: from about there it pays."""
    share = Shop().regrind_worth
    assert share * 9 < 6 and share * 26 > 10


HEADS = {"1/4": (0.282, 0.500, 0.562, 0.203, 0.234), "3/8": (0.438, 0.719, 0.781, 0.297, 0.328),
         "1/2": (0.562, 0.906, 0.969, 0.359, 0.391)}
"""Bolt: throat, head width least and most, head height least and most [in], ASME B5.1M."""

DISCS = {"X": (0.500, 0.187, 0.250), "Y": (0.750, 0.250, 0.300)}
"""Disc: diameter, face, neck [in]."""

WIDEST = {("X", "1/4"): 0.512, ("X", "3/8"): 0.668, ("X", "1/2"): 0.792, ("Y", "1/2"): 0.992}
SERVES = {"X": {"1/4"}, "Y": {"3/8", "1/2"}}


@pytest.mark.parametrize(("disc", "bolt"), WIDEST)
def test_the_widest_head_of_a_disc(disc: str, bolt: str) -> None:
    """Diameter + throat - neck - .020, worked by hand."""
    diameter, _, neck = DISCS[disc]
    found = widest_head(diameter * INCH, HEADS[bolt][0] * INCH, neck * INCH, 0.010 * INCH)
    assert found / INCH == pytest.approx(WIDEST[disc, bolt], abs=5e-4)


def size(low: float, high: float) -> Size:
    return Size((low + high) / 2 * INCH, low * INCH, high * INCH, f"{low}-{high}")


def t_slot(bolt: str) -> Request:
    throat, *head = HEADS[bolt]
    deep = 0.25 + (head[2] + head[3]) / 2
    return Request("t-slot", {
        "throat": size(throat, throat + 0.010), "depth": size(deep - 0.005, deep + 0.005),
        "head_width": size(head[0], head[1]), "head_height": size(head[2], head[3])}, material="grey iron")


def disc(name: str, number: int) -> Cutter:
    diameter, face, neck = (mm * INCH for mm in DISCS[name])
    return Cutter(number, "keyseat-cutter", name, diameter_mm=diameter, face_mm=face, neck_mm=neck, reach_mm=1.0 * INCH,
                  shank_mm=0.5 * INCH, flutes=8, material="hss", condition="sharp", measured=("diameter_mm",))


MILLS = tuple(Cutter(place, "end-mill", f"end mill {place}", diameter_mm=mm * INCH, length_of_cut_mm=1.2 * INCH,
                     shank_mm=0.5 * INCH, flutes=2, centre_cutting=True, corner_radius_mm=0.0, material="hss",
                     condition="sharp", measured=("diameter_mm",)) for place, mm in enumerate((0.25, 0.375, 0.5), 1))


def test_which_one_disc_serves_most() -> None:
    """Of three T-slots disc X serves one and disc Y two; the planner agrees with the table, and Y is what to buy."""
    served = {name: {bolt for bolt in HEADS if Bench((*MILLS, disc(name, 9)), Shop()).best(t_slot(bolt)) is not None}
              for name in DISCS}
    assert served == SERVES
    uses = [[Use(frozenset({place}), 0.0, 1.0) for place, name in enumerate(DISCS) if bolt in served[name]]
            for bolt in HEADS]
    assert best_purchases([20.0, 20.0], uses, 30.0).bought == (1,)
    assert best_purchases([20.0, 20.0], uses, 40.0).bought == (0, 1)


def test_what_a_use_saves_is_what_the_bills_differ_by() -> None:
    """By hand: 30 min at 20 an hour, .01 of (20 x 5 + 30), .50 of wear."""
    assert saving(Bill(40, 0.03, 0.75), Bill(10, 0.02, 0.25), Stake(20, 5, 30)) == pytest.approx(10 + 1.30 + 0.50)
    assert break_even(10, 2.5) == 4.0

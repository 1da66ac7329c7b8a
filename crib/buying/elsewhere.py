"""What others do for money: an owned cutter sent out to be reground, an hour at a neighbour's shop or a makerspace."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from crib.buying.compare import Bill, Offer, Way, Worth, bill_of, saving
from crib.buying.needs import FIRST_ID
from crib.cutters import kind_of
from crib.cutters.base import Cutter
from crib.cutters.label import label
from crib.findings.message import a
from crib.findings.verdicts import Verdict
from crib.light.records import replace
from crib.planning.told.advice import AnyPlan
from crib.shop import Shop

_FROM = FIRST_ID + 800_000_000
_WORN = ("dull", "chipped")
_LEAST_MM = 6.0
"""Thinner cutters cost less new than the grinding (common practice)."""

_OFF_MM = {"dull": 0.010 * 25.4, "chipped": 0.030 * 25.4}
"""What a regrinding takes off the diameter: a hair off a dull edge, more to be rid of a chip (from memory)."""


def regrinds(cutters: Sequence[Cutter], shop: Shop) -> Iterator[tuple[Offer, Cutter]]:
    """The dull and chipped cutters that could be sent out, as they would come back; none where no price was set."""
    if shop.regrind_price is None:
        return
    for one in cutters:
        size = one.diameter_mm
        if one.condition not in _WORN or not kind_of(one).is_ground_out or size is None or size < _LEAST_MM:
            continue
        back = one.but(id=_FROM + one.id, diameter_mm=size - _OFF_MM[one.condition], condition="sharp", reground=True,
                       nominal_mm=one.nominal_mm or size, measured=(), price=None)
        named = f"no. {one.id}, reground: {label(back, shop.units)}"
        yield Offer(Way.REGRIND, named, (back.id,), price=shop.regrind_price, source="the price of a regrind as set",
                    days=shop.regrind_days,
                    ask="have it measured: what a regrinding takes off is reckoned from memory"), back.but(label=named)


def without_twice(found: Sequence[Worth]) -> tuple[Worth, ...]:
    """None of the plans in which a cutter is at the grinder's and at the bench."""
    def is_twice(worth: Worth) -> bool:
        ids = {int(cutter.id) for cutter in worth.plan.cutters}
        return any(number >= _FROM and number - _FROM in ids for number in ids)

    return tuple(worth for worth in found if not is_twice(worth))


def neighbour(found: Sequence[Worth], work: AnyPlan | None, shop: Shop) -> Worth | None:
    """The best plan with a cutter that could be bought, made where there is one: an hour costs what it costs, the way
    there and back is one's own time. None where no price of an hour was set, or nothing to be bought does better."""
    bought = [worth for worth in found if worth.offer.way == Way.BUY]
    if shop.neighbour_rate is None or not bought:
        return None
    best = min(bought, key=lambda worth: (worth.plan.answer != Verdict.AS_DRAWN, _bare(worth.plan).minutes))
    hire = best.plan.minutes / 60 * shop.neighbour_rate
    offer = Offer(Way.NEIGHBOUR, f"at a neighbour's shop, with {a(best.offer.label)} of theirs", best.offer.cutters,
                  price=0.0, again=shop.borrow_minutes, hire=hire, source="the price of an hour there as set",
                  ask="ask whether they have one, and reckon with their speeds and their readout")
    each = None
    if work is not None:
        each = saving(bill_of(work), _bare(best.plan), best.stake) - offer.each_time(best.stake)
    return replace(best, offer=offer, each=each, free=each, waiting=0.0)


def _bare(plan: AnyPlan) -> Bill:
    """What a plan takes, the wear of a cutter that isn't one's own aside."""
    return replace(bill_of(plan), wear=0.0)

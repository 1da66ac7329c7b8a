"""Which purchases would save most, by all that was asked of a crib."""

from __future__ import annotations

from crib.app.remembered import bench_of, history_of, today
from crib.buying.wishes import WishList
from crib.buying.wishes import wish_list as reckon
from crib.intake.money import read_money
from crib.light.records import replace
from crib.planning.search.watch import Trials
from crib.shop import Shop
from crib.store import Crib


def wish_list(crib: Crib, budget: str | None = None, trials: Trials | None = None
              ) -> tuple[WishList, float | None, Shop]:
    """Everything that could be bought for what was asked so far, and what to choose within a budget as it is typed; the
    budget as it was read, and the shop. `trials`: for who waits. Raises `CribError` for what is no money."""
    there = crib.holdings()
    shop = replace(there.shop, units=crib.units)
    most = None if budget is None else read_money(budget, shop.currency, "budget")
    found = reckon(bench_of(there, shop), history_of(crib.questions(), shop), most, today(), trials)
    return found, most, shop

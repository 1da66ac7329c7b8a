"""One plan against another: what a use saves, how many uses pay for what it takes, and up to which price it pays.

    s = (T_w - T_r) / 60 V + (P_w - P_r) (V h + blank) + (wear_w - wear_r)
    uses to break even = (price + shipping) / s

w: the work-around with what is owned, r: with what could be got; T minutes, P chance of scrap, V what an hour is worth,
h the hours in the part. Common practice, from memory.
"""

from __future__ import annotations

from math import inf

from crib.findings.message import Text
from crib.findings.verdicts import ANSWERS, Verdict
from crib.light.choices import StrEnum
from crib.light.records import dataclass
from crib.planning.reckoning.cost import WEAR
from crib.planning.told.advice import AnyPlan
from crib.shop import Shop

CENT = 0.005
"""Less money than this is none."""


@dataclass(frozen=True)
class Bill:
    """What one use of a plan takes: minutes, chance of scrap, wear in money."""

    minutes: float
    scrap: float
    wear: float


@dataclass(frozen=True)
class Stake:
    """What an hour is worth, the hours in the part, and what its blank cost."""

    hour: float
    hours: float = 0.0
    blank: float = 0.0

    @property
    def at_risk(self) -> float:
        """What is lost where the part is spoilt."""
        return self.hour * self.hours + self.blank


def stake_of(shop: Shop, hours: float) -> Stake:
    """What is at stake in a shop, with so many hours in the part."""
    return Stake(shop.real_hour, hours, shop.blank_cost)


def bill_of(plan: AnyPlan) -> Bill:
    """What a plan takes."""
    return Bill(plan.minutes, plan.scrap_chance, sum(line.money for line in plan.cost_lines if line.what == WEAR))


def cost(bill: Bill, stake: Stake) -> float:
    """What one use costs.

    >>> round(cost(Bill(120, 0.05, 0.5), Stake(15, 6, 30)), 2)
    36.5
    """
    return bill.minutes / 60 * stake.hour + bill.scrap * stake.at_risk + bill.wear


def saving(work: Bill, right: Bill, stake: Stake) -> float:
    """What one use saves, by the formula above.

    >>> round(saving(Bill(55, 0.06, 2), Bill(0, 0.02, 1), Stake(20, 14)), 2)
    30.53
    """
    return cost(work, stake) - cost(right, stake)


def break_even(once: float, each: float) -> float:
    """How many uses pay for what is spent once; infinite where a use saves nothing.

    >>> round(break_even(57, 30.53), 2), break_even(5, 0.0)
    (1.87, inf)
    """
    return max(0.0, once / each) if each > CENT else inf


class Way(StrEnum):
    """How something comes to the bench: bought, what holds a cutter too; lent; ground up from a blank; sent out to be
    reground; or the work goes to a neighbour's shop."""

    BUY = "buy"
    HOLDER = "holder"
    BORROW = "borrow"
    GRIND = "grind"
    REGRIND = "regrind"
    NEIGHBOUR = "neighbour"


BOUGHT = (Way.BUY, Way.HOLDER)
"""What is paid for and ordered."""


@dataclass(frozen=True)
class Offer:
    """Something that could be got, in a `way`. `price` is None where none
    was seen. `minutes` and `shipping` are spent once, `again` [min] and `hire` [money] at every use. `days`: until it
    is there, where that is its own; None: as long as what is ordered. `most_uses`: as many times it will serve.
    `cutters`: what it adds; `collet_mm`: the collet. `shares`: the setting for its wear."""

    way: Way
    label: str
    cutters: tuple[int, ...] = ()
    collet_mm: float | None = None
    price: float | None = None
    shipping: float = 0.0
    minutes: float = 0.0
    again: float = 0.0
    most_uses: int | None = None
    wear: float = 0.0
    source: str = ""
    ask: Text = ""
    idle: int = 0
    hire: float = 0.0
    days: float | None = None

    @property
    def named(self) -> str:
        """As it is spoken of: `the 5/8 collet`, a friend's by the friend, one's own by its number."""
        return self.label if self.way in (Way.BORROW, Way.REGRIND, Way.NEIGHBOUR) else f"the {self.label}"

    def each_time(self, stake: Stake) -> float:
        """What a use costs beside the plan [money]."""
        return self.again / 60 * stake.hour + self.hire

    def wait(self, ordered: float) -> float:
        """Days until it is there, where what is ordered takes so many."""
        if self.days is not None:
            return self.days
        return ordered if self.way in BOUGHT else 0.0


@dataclass(frozen=True)
class Worth:
    """An offer with the best plan that it makes possible. `each`: what a use saves against the work-around, with the
    wear at the price; `free`: the same if it cost nothing; None where there is no work-around."""

    offer: Offer
    plan: AnyPlan
    each: float | None
    free: float | None
    stake: Stake
    waiting: float = 0.0

    @property
    def once(self) -> float:
        """What is spent once, the price aside."""
        return self.offer.shipping + self.offer.minutes / 60 * self.stake.hour + self.waiting

    @property
    def spent(self) -> float | None:
        """What is spent once, the price with it; None where that isn't known."""
        return None if self.offer.price is None else self.offer.price + self.once

    @property
    def uses_to_break_even(self) -> float | None:
        """How many uses pay for it; None where the price isn't known or nothing is saved against."""
        if self.spent is None or self.each is None:
            return None
        return break_even(self.spent, self.each)

    def net(self, uses: float) -> float | None:
        """What it leaves over so many uses, at its price; None where that isn't known."""
        if self.spent is None or self.each is None:
            return None
        if self.offer.most_uses is not None and uses > self.offer.most_uses + 1e-9:
            uses = float(self.offer.most_uses)
        return uses * self.each - self.spent

    def pays_up_to(self, uses: float, beside: float = 0.0) -> float | None:
        """The price up to which it pays within so many uses, and leaves as much as `beside`, what something else would:
        N s - once = price (1 + N wear)."""
        if self.free is None:
            return None
        return max(0.0, (uses * self.free - self.once - beside) / (1 + uses * self.offer.wear))


def is_better(one: AnyPlan | None, other: AnyPlan | None) -> bool:
    """Whether a plan keeps more of the drawing than another."""
    return _grade(one) < _grade(other)


def _grade(plan: AnyPlan | None) -> int:
    """The drawing kept, something given away, or nothing made."""
    if plan is None:
        return 2
    return 0 if ANSWERS.index(plan.answer) < ANSWERS.index(Verdict.COMPROMISE) else 1
